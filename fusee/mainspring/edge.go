package mainspring

import "math"

// packed are the coils that a strip which set is free up to, along them the curvature
// 1/√(p + x), and between which x their edge is.
type packed struct {
	p, first float64 // first: the radius √p
	lo, hi   float64
	falls    bool // whether the couple falls as the edge moves outwards
}

func (c *Curve) onWall() packed  { return packed{c.u2, c.ru, c.xRest, c.xRoll, false} }
func (c *Curve) onArbor() packed { return packed{c.r2, c.r, 0, c.xy, true} }

// Near is where the edge of contact was found last, and three derivatives of its square by
// the winding there: they are smooth even where the edge itself starts off upright. The
// zero Near is none.
type Near struct{ p, t, square, d1, d2, d3 float64 }

// nearby is the edge x at the winding t, with three derivatives of the couple by x:
// dt = x dm.
func nearby(p, t, x, dm, ddm, dddm float64) Near {
	per := 1 / (dm * x)
	d1 := 2 * x * per
	d2 := -d1 * per * per * x * ddm
	d3 := -d1 * per * per * per * (x*dddm - 3*x*x*per*ddm*ddm - ddm)
	return Near{p, t, x * x, d1, d2 / 2, d3 / 6}
}

// from is where to look for the edge at the winding t; false where nothing is known.
func (n *Near) from(t, p float64) (x float64, known bool) {
	if n == nil || n.p != p {
		return 0, false
	}
	d := t - n.t
	square := n.square + d*(n.d1+d*(n.d2+d*n.d3))
	return math.Sqrt(square), square > 0
}

// edgeAt finds the edge x and the couple m at the winding t, counted for coils on the
// arbor from home. Both have closed forms in x, for wall and arbor the same: the couple
// is what lays the element at x there, and dt = x dm. Halley's steps, of third order and
// guarded, from x; the last of them gives the couple without another root.
func (c *Curve) edgeAt(t float64, on packed, x float64, near *Near) (m, edge float64) {
	lo, hi, limit := on.lo, on.hi, 1e-12*c.xEnd
	for range 60 {
		if !(x > lo && x < hi) {
			x = (lo + hi) / 2
		}
		ks2, kp2 := 1/(c.n2+x), 1/(on.p+x)
		qs, qp := math.Sqrt(c.n2+x), math.Sqrt(on.p+x)
		ks, kp := c.rootK*(qs*ks2), qp*kp2
		off := kp - ks
		miss := t - 2*(c.rootK*(qs-c.rootN)-(qp-on.first)) - (off-c.b*x/2)*x
		if (miss > 0) != on.falls {
			lo = x
		} else {
			hi = x
		}
		ks3, kp3 := ks*ks2, kp*kp2
		dm, ddm := (ks3-kp3)/2-c.b, (kp3*kp2-ks3*ks2)*0.75
		dt, ddt := dm*x, ddm*x+dm
		square, turn := dt*dt, miss*ddt
		step := miss * dt / (square + turn/2)
		if left := math.Abs(step); left*left*left <= limit*x*x {
			if near != nil {
				dddm := (ks3*ks2*ks2 - kp3*kp2*kp2) * 1.875
				*near = nearby(on.p, t-miss, x, dm, ddm, dddm)
			}
			return off + c.a - c.b*x + step*(dm+step*ddm/2), x + step
		}
		x += step
	}
	return 1/math.Sqrt(on.p+x) - c.setCurvature(x), x
}
