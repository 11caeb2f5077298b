package fusee

import "math"

// Points a fusee turn at which a cutter compares the cone with the profile: for a
// search over set-ups, and for the profile to be cut.
const (
	coarse = 2
	fine   = 12
)

// cutter looks for the greatest C whose even profile lies inside a cone.
type cutter struct {
	w         *Wound
	low, work float64   // couple (N·m) and energy (J) of the spring run down
	step      float64   // turns between the places looked at
	now       []float64 // m, radius of the line's middle on the cone there
	rho       []float64 // m, likewise on the profile
	c         float64   // C: every C that fits is at most this
	touch     float64
}

func newCutter(w *Wound, setUp, spare float64, perTurn int) *cutter {
	k := &cutter{w: w, low: w.Curve.Couple(setUp), work: w.Curve.Energy(setUp), touch: math.NaN()}
	k.look(perTurn)
	k.c = w.mostEven(setUp, spare) * (1 - 1e-12)
	if c := k.now[len(k.now)-1] * k.low / w.rb; c < k.c { // the large end fits
		k.c, k.touch = c, w.drive.Cone.Turns
	}
	return k
}

// look sets the places, so many a turn. A finer set has those of a coarser one.
func (k *cutter) look(perTurn int) {
	n := k.w.drive.Cone.Turns
	gaps := int(math.Ceil(n)) * perTurn
	k.step = n / float64(gaps)
	k.now, k.rho = make([]float64, gaps+1), make([]float64, gaps+1)
	for i := range k.now {
		k.now[i] = k.cone(float64(i) * k.step)
	}
}

// cone is the radius of the line's middle on the cone as it is.
func (k *cutter) cone(theta float64) float64 {
	r, _, _ := k.w.drive.Cone.Profile.At(theta)
	return r + k.w.half
}

// profile is the radius of the line's middle at θ on the even profile of a C.
func (k *cutter) profile(c, theta float64) float64 {
	_, m := k.w.Curve.WoundBy(k.work + 2*math.Pi*c*(k.w.drive.Cone.Turns-theta))
	return c * k.w.rb / m
}

// fit lowers C until the profile lies inside the cone at every place, and leaves
// its radii there. Each place
// takes C down to the next value that fits there, past none that fits everywhere:
// what is left is the greatest. Another pass is needed only where a smaller C makes
// a profile thicker, as it does beside a spring nearly home, whose couple is steep.
func (k *cutter) fit() {
	for lowered := true; lowered; {
		lowered = false
		for i := len(k.now) - 1; i >= 0; i-- {
			theta := float64(i) * k.step
			k.rho[i] = k.profile(k.c, theta)
			if k.rho[i] > k.now[i]*(1+1e-9) {
				k.lower(theta, k.now[i])
				k.rho[i], k.touch, lowered = k.now[i], theta, true
			}
		}
	}
}

// lower takes C down to the greatest below it whose profile at θ has no more than
// the given radius. From 0 the radius grows with C to one peak: from a C on which
// it is too large there is one crossing below, bracketed by false position after
// Illinois.
func (k *cutter) lower(theta, radius float64) {
	lo, hi := 0.0, k.c
	flo, fhi := -radius, k.profile(hi, theta)-radius
	side := 0
	for range 60 {
		c := hi - fhi*(hi-lo)/(fhi-flo)
		f := k.profile(c, theta) - radius
		if math.Abs(f) <= 1e-12*radius || hi-lo <= 1e-15*hi {
			lo = c
			break
		}
		if f > 0 {
			hi, fhi = c, f
			if side > 0 {
				flo /= 2
			}
			side = 1
		} else {
			lo, flo = c, f
			if side < 0 {
				fhi /= 2
			}
			side = -1
		}
	}
	k.c = lo
}

// touchUp looks between the places for where the profile comes nearest to the
// cone, and fits it there too.
func (k *cutter) touchUp() {
	if math.IsNaN(k.touch) {
		return
	}
	n := k.w.drive.Cone.Turns
	over := func(theta float64) float64 { return k.profile(k.c, theta) / k.cone(theta) }
	theta := highest(over, math.Max(k.touch-k.step, 0), math.Min(k.touch+k.step, n), 1e-7)
	if over(theta) > 1 {
		k.lower(theta, k.cone(theta))
		k.touch = theta
	}
}

// kept is the volume (m³) of the largest even profile for a set-up inside the cone,
// looked at coarsely; one too thin to be cut keeps less the thinner it is.
func (w *Wound) kept(setUp, spare float64) float64 {
	k := newCutter(w, setUp, spare, coarse)
	k.fit()
	least := math.Max(leastRadius, w.drive.Line.Thickness)
	sum, thinnest := 0.0, math.Inf(1)
	for i, rho := range k.rho {
		r := rho - w.half
		thinnest = math.Min(thinnest, r)
		weight := 1.0
		if i == 0 || i == len(k.rho)-1 {
			weight = 0.5
		}
		sum += weight * r * r
	}
	if thinnest < least {
		return thinnest - least
	}
	return math.Pi * w.drive.Cone.Pitch * sum * k.step
}
