package fusee

import (
	"fmt"
	"math"

	"evenpull/fusee/numeric"
)

// windEven finds the constant C of the even profile ρ = C Rb/M(φ). Along it
// dφ/dθ = −C/M, so ∫M dφ = C n between run down and wound: no differential
// equation needs solving, only the energy curve. φs must be above rest. Where the
// fusee's pivots lose a share 1 − S of it, ρ = C Rb/(M S) and ∫S M dφ = C n.
func (w *Wound) windEven() error {
	d := &w.drive
	if d.Barrel.SetUp <= 0 {
		return ErrSlack
	}
	end := d.Cone.End + w.half
	low := w.given(d.Barrel.SetUp)
	w.passage = w.newPassage(d.Barrel.SetUp)
	if d.Cone.Shape == EvenByLarge {
		w.even = w.evenOf(low, end)
	} else if !w.evenFromSmall(end) {
		return ErrEven
	}
	home := w.curve.Energy(w.curve.Turns())
	if w.passage != nil {
		w.passage.set(w, w.even)
	}
	if short := 2*math.Pi*w.even*d.Cone.Turns - w.passage.work(w, w.work, home); short > 1e-12*home {
		w.start = short / (2 * math.Pi * w.even)
	}
	var small float64
	w.full, _, small = w.evenAt(w.start)
	if small <= w.half {
		return ErrThin
	}
	if large := w.evenRadius(w.even, low); d.Cone.Centre > 0 && large+w.rb >= d.Cone.Centre {
		return fmt.Errorf("%w: its large end reaches %.4g m, the barrel %.4g m, and their arbors stand %.4g m apart", ErrCentre, large, w.rb, d.Cone.Centre)
	}
	return nil
}

// evenAt is the spring, its turns and couple, and ρ at θ along the even profile.
func (w *Wound) evenAt(theta float64) (turns, couple, rho float64) {
	turns, couple = w.passage.woundBy(w, w.work, 2*math.Pi*w.even*(w.drive.Cone.Turns-theta))
	return turns, couple, w.evenRadius(w.even, couple*w.coils(turns))
}

// given is the couple past the coils, but for their swing (N·m).
func (w *Wound) given(turns float64) float64 { return w.curve.Couple(turns) * w.coils(turns) }

// evenRadius is ρ along the even profile of a C where the spring gives a couple past its
// coils.
func (w *Wound) evenRadius(c, couple float64) float64 {
	rho := c * w.rb / couple
	if w.fusee.a > 0 {
		rho = w.fusee.asks(w.drive.Line.Efficiency*rho) / w.drive.Line.Efficiency
	}
	return rho
}

// evenOf is the inverse: C of the even profile that has ρ where the spring gives a
// couple past its coils.
func (w *Wound) evenOf(couple, rho float64) float64 {
	if w.fusee.a > 0 {
		rho = w.fusee.passes(w.drive.Line.Efficiency*rho) / w.drive.Line.Efficiency
	}
	return rho * couple / w.rb
}

// evenFromSmall finds the winding φ0 at which the radius at the small end is
// the one given: ∫φs..φ0 M dφ = n ρ0 M(φ0)/Rb. The left side starts below the
// right one, passes it, and may be below it again near home where M rises
// steeply; the first crossing is the one, since it takes the fewest turns.
func (w *Wound) evenFromSmall(end float64) bool {
	n := w.drive.Cone.Turns
	excess := func(turns float64) float64 {
		c := w.evenOf(w.given(turns), end)
		if w.passage != nil {
			w.passage.set(w, c)
		}
		return w.passage.work(w, w.work, w.curve.Energy(turns))/(2*math.Pi) - n*c
	}
	lo, hi, ok := firstAbove(excess, w.drive.Barrel.SetUp, w.curve.Turns())
	if !ok {
		return false
	}
	_, full := numeric.Root(lo, hi, 0, excess)
	w.even = w.evenOf(w.given(full), end)
	return true
}

// firstAbove brackets the first crossing from below 0 of a function that has
// one peak between lo and hi.
func firstAbove(f func(float64) float64, lo, hi float64) (below, above float64, ok bool) {
	const steps = 64
	best, at := math.Inf(-1), lo
	width := (hi - lo) / steps
	for i := 1; i <= steps; i++ {
		x := lo + width*float64(i)
		y := f(x)
		if y >= 0 {
			return x - width, x, true
		}
		if y > best {
			best, at = y, x
		}
	}
	// The peak may be between two steps.
	a, b := max(at-width, lo), min(at+width, hi)
	peak := numeric.Minimum(a, b, 1e-10*width, func(x float64) float64 { return -f(x) })
	return max(at-width, lo), peak, f(peak) >= 0
}

// CutCone is the cone of a drive as a cutter would leave it: a cone given by its
// profile stays as it is; an even one becomes the profile that it came to for
// this spring, so that another spring can be tried on it. The torque of the
// drive itself then departs by less than 1e-6 of itself from level; where the
// spring binds before the fusee is wound, and the profile starts off steeply, by
// up to 1 % there and 2e-5 from a tenth of a turn on.
func (w *Wound) CutCone() Cone {
	c := w.drive.Cone
	if c.Shape == Cut {
		return c
	}
	const pieces = 1024
	knots := make([]knot, pieces+1)
	for i := range knots {
		// A spring that binds leaves the first turns unused: the cone goes on
		// there as thick as where the run starts.
		theta := c.Turns * float64(i) / pieces
		r, dr := w.radius(math.Max(theta, w.start))
		if theta < w.start || math.IsInf(dr, 1) {
			dr = 0
		}
		knots[i] = knot{r: r - w.half, dr: dr}
	}
	// A knot just past where the spring comes home stands steeper than its piece:
	// more than three times the piece's own slope would make the piece overshoot.
	for i := range pieces {
		knots[i].dr = math.Min(knots[i].dr, 3*(knots[i+1].r-knots[i].r)*pieces/c.Turns)
	}
	c.Shape, c.Profile = Cut, newProfile(c.Turns/pieces, knots)
	return c
}
