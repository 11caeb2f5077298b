package coils

import (
	"math"
)

// Rough is what may be left of an equation at most where the couple is known well: see
// strip.Shape.
const Rough = 1e-5

// Off is how much more the closed form has than the strip without friction at a winding, by
// its number, as a share of what the strip gives.
func (r *Result) Off(i int) float64 { return r.Closed[i]/r.Loop.Windings[i].Free.Couple - 1 }

// OfRun is what the strip gives at a winding running down over what a run reckons with; NaN
// where that is none.
func (r *Result) OfRun(i int) float64 {
	if r.Used[i] > 0 {
		return r.Loop.Windings[i].Down.Couple / r.Used[i]
	}
	return math.NaN()
}

// Passes is the share of the closed form that a run reckons with at a winding; NaN where that
// gives none.
func (r *Result) Passes(i int) float64 { return r.Used[i] / r.Closed[i] }

// Lost is how much less the strip gives at a winding running down than being wound, as a share.
func (r *Result) Lost(i int) float64 {
	w := &r.Loop.Windings[i]
	return 1 - w.Down.Couple/w.Up.Couple
}

// Residual is the most that is left of any equation at a winding, whichever way.
func (r *Result) Residual(i int) float64 {
	w := &r.Loop.Windings[i]
	return max(w.Free.Left, w.Up.Left, w.Down.Left)
}

// Overlap is how deep (m) coils overlap at a winding, whichever way; 0 where none do.
func (r *Result) Overlap(i int) float64 {
	w := &r.Loop.Windings[i]
	return max(w.Free.Overlap, w.Up.Overlap, w.Down.Overlap)
}

// EfficiencyAt is the efficiency of the coils at a winding.
func (r *Result) EfficiencyAt(i int) float64 { return r.Loop.Windings[i].Efficiency() }

// Most is the number of the winding at which a figure is greatest; the first of several.
func (r *Result) Most(of func(i int) float64) (most int) {
	for i := range r.Loop.Windings {
		if of(i) > of(most) {
			most = i
		}
	}
	return most
}

// Middle is the number of the winding nearest to half-way from rest to solid.
func (r *Result) Middle() int {
	half := (r.Loop.Rest + r.Loop.Solid) / 2
	return r.Most(func(i int) float64 { return -math.Abs(r.Options.Turns[i] - half) })
}
