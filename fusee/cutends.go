package fusee

import (
	"math"

	"evenpull/fusee/numeric"

	"github.com/golang/geo/r1"
)

// EvenEnds are the radii (m) of the groove bottoms at either end between which an
// even cone for the spring and its set-up is stout, leaves the spring turns to spare
// and keeps clear of the barrel. They are empty when there is no such cone.
func (w *Wound) EvenEnds(spare float64) (small, large r1.Interval) {
	d := &w.drive
	if !(d.Barrel.SetUp > 0) {
		return r1.EmptyInterval(), r1.EmptyInterval()
	}
	k := cutterOf(w, d.Barrel.SetUp)
	most := k.mostEven(spare)
	if d.Cone.Centre > 0 {
		most = math.Min(most, w.evenOf(k.low, d.Cone.Centre-w.rb))
	}
	at := func(c float64) float64 { return k.profile(c, 0) }
	least := math.Max(leastRadius, d.Line.Thickness) + w.half
	// The small end grows with C to one peak, and may be less again with a spring
	// nearly home.
	peak := numeric.Minimum(0, most, 1e-9*most, func(c float64) float64 { return -at(c) })
	if !(at(peak) >= least) {
		return r1.EmptyInterval(), r1.EmptyInterval()
	}
	k.c = peak
	k.lower(0, least)
	if at(most) < least {
		most, _ = numeric.Root(peak, most, 0, func(c float64) float64 { return least - at(c) })
	}
	end := func(c float64) float64 { return w.evenRadius(c, k.low) - w.half }
	return r1.Interval{Lo: least - w.half, Hi: at(peak) - w.half}, r1.Interval{Lo: end(k.c), Hi: end(most)}
}
