package fusee

import "math"

// windEven finds the constant C of the even profile ρ = C Rb/M(φ). Along it
// dφ/dθ = −C/M, so ∫M dφ = C n between run down and wound: no differential
// equation needs solving, only the energy curve. φs must be above rest.
func (w *Wound) windEven() error {
	d := &w.drive
	if d.Barrel.SetUp <= 0 {
		return ErrSlack
	}
	end := d.Cone.End + w.half
	low := w.Curve.Couple(d.Barrel.SetUp)
	if d.Cone.Shape == EvenByLarge {
		w.even = end * low / w.rb
	} else if !w.evenFromSmall(end) {
		return ErrEven
	}
	n := d.Cone.Turns
	home := w.Curve.Energy(w.Curve.Turns())
	if short := w.evenWork(0) - home; short > 1e-12*home {
		w.start = short / (2 * math.Pi * w.even)
	}
	if w.start >= n {
		return ErrEven
	}
	var m float64
	w.full, m = w.Curve.WoundBy(w.evenWork(w.start))
	if w.even*w.rb/m <= w.half {
		return ErrThin
	}
	return nil
}

// evenWork is the energy of the spring at θ along an even profile.
func (w *Wound) evenWork(theta float64) float64 {
	return w.work + 2*math.Pi*w.even*(w.drive.Cone.Turns-theta)
}

// evenFromSmall finds the winding φ0 at which the radius at the small end is
// the one given: ∫φs..φ0 M dφ = n ρ0 M(φ0)/Rb, by bisection: the right side
// starts above the left one, and a spring that reaches it at all does so
// before it is home.
func (w *Wound) evenFromSmall(end float64) bool {
	n := w.drive.Cone.Turns
	excess := func(turns float64) float64 {
		return (w.Curve.Energy(turns)-w.work)/(2*math.Pi) - n*end*w.Curve.Couple(turns)/w.rb
	}
	lo, hi := w.drive.Barrel.SetUp, w.Curve.Turns()
	if excess(hi) < 0 {
		return false
	}
	for range 100 {
		mid := (lo + hi) / 2
		if excess(mid) < 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	w.even = end * w.Curve.Couple(hi) / w.rb
	return true
}
