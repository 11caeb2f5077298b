package coils

import "math"

// bend is the bending energy of one node and its derivatives: to the radius r (1), its first
// and second derivative to the angle, p and q, and the length s, in this order.
type bend struct {
	e  float64
	d  [4]float64    // first derivatives
	dd [4][4]float64 // second derivatives
}

// of works out ½ ω g (κ − κ0)², with g = √(r² + p²) the length to an angle, ω the angle that the
// node stands for and κ = (r² + 2p² − r q)/g³.
func (b *bend) of(r, p, q, omega float64, n natural) {
	u := r*r + p*p
	g := math.Sqrt(u)
	g3 := 1 / (u * g)
	g5 := g3 / u
	num := r*r + 2*p*p - r*q
	nr, np, nq := 2*r-q, 4*p, -r

	// of 1/g³
	cr, cp := -3*r*g5, -3*p*g5
	g7 := 15 * g5 / u
	crr, crp, cpp := r*r*g7-3*g5, r*p*g7, p*p*g7-3*g5

	k := num*g3 - n.curvature
	dk := [4]float64{nr*g3 + num*cr, np*g3 + num*cp, nq * g3, -n.slope}
	dg := [4]float64{r / g, p / g, 0, 0}
	var ddk, ddg [4][4]float64
	ddk[0][0] = 2*g3 + 2*nr*cr + num*crr
	ddk[0][1] = nr*cp + np*cr + num*crp
	ddk[1][1] = 4*g3 + 2*np*cp + num*cpp
	ddk[0][2] = -g3 + nq*cr
	ddk[1][2] = nq * cp
	ddk[3][3] = -n.second
	ddg[0][0], ddg[0][1], ddg[1][1] = p*p*g3, -r*p*g3, r*r*g3

	b.e = omega / 2 * g * k * k
	for i := range 4 {
		b.d[i] = omega * (dg[i]*k*k/2 + g*k*dk[i])
		for j := i; j < 4; j++ {
			v := omega * (ddg[i][j]*k*k/2 + k*(dg[i]*dk[j]+dg[j]*dk[i]) + g*(dk[i]*dk[j]+k*ddk[i][j]))
			b.dd[i][j], b.dd[j][i] = v, v
		}
	}
}
