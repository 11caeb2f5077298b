package cut

import (
	"cmp"
	"context"
	"errors"
	"math"
	"slices"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/study/sure"
	"evenpull/sim/vary"
)

// ErrNoCone tells that no cone keeps within the limits of one that is wanted.
var ErrNoCone = errors.New("no cone keeps within the limits")

// MostCones is the greatest number of cones that a search gives.
const MostCones = 5

// Wanted is the search for a cone that is not there yet.
type Wanted struct {
	Bounds  []Bound // of the scenario, and of the rules
	Reserve float64 // mean, wanted at the least; NaN where the scenario does not say
	Cones   []Found // that keep within all of them, the best first, a fusee turn and more apart
	Misses  []Miss  // where there are none: what each bound alone would have to give, the least first
	Blocked *Found  // where only faults are in the way: the cone that would be the best
	Tried   int     // cones that were looked at
}

// None tells that a cone was searched and none found.
func (st *Study) None() bool { return st.Wanted != nil && len(st.Wanted.Cones) == 0 }

// Told is the cone that is told of first; nil for none.
func (w *Wanted) Told() *Found {
	switch {
	case len(w.Cones) > 0:
		return &w.Cones[0]
	case len(w.Misses) > 0:
		return &w.Misses[0].Cone
	}
	return w.Blocked
}

// Found is a cone, as run has it.
type Found struct {
	sim.Digest
	Scenario         *scenario.Scenario // with the cone in place of the one that is wanted
	Pitch            float64            // m
	Small, Large     float64            // m, diameters over the groove bottom at the ends
	Land             float64            // m, height of the lands over it
	Height           float64            // m, of the blank with its end margins
	Thinner, Thicker Off                // the spring off its thickness by what a gauge leaves

	class int // of the share of its draws that suits
}

// OffUnevenness is the greater unevenness with the spring off its thickness; +Inf where
// that cannot be built.
func (f *Found) OffUnevenness() float64 {
	if f.Thinner.Fault != nil || f.Thicker.Fault != nil {
		return math.Inf(1)
	}
	return math.Max(f.Thinner.Torque.Unevenness, f.Thicker.Torque.Unevenness)
}

// unsuited is how far it lies inside what suits, below 0; 0 of one that suits.
func (f *Found) unsuited() float64 {
	if f.Verdict.Code == rules.Suits || f.Verdict.Code == rules.Unjudged {
		return 0
	}
	return f.Standard.Inside(f.Torque.Min, f.Torque.Mean)
}

// NeedAtMost is the greatest need (N·m) that the cone suits: what it gives at the least,
// over the reserve below which a drive is thin or, where it is more, that which is wanted.
func (f *Found) NeedAtMost(wanted float64) float64 {
	most := f.Torque.Min / f.Standard.Bands.Thin
	if wanted > 0 {
		most = math.Min(most, f.Torque.Mean/wanted)
	}
	return most
}

// Bound is a limit with its figure: SI but for hours.
type Bound struct {
	Limit Limit
	Value float64 // as Limit tells
}

// Limit is what a wanted cone has to keep within.
type Limit uint8

const (
	RuntimeAtLeast  Limit = iota // hours
	HeightAtMost                 // m, of the blank
	DiameterAtMost               // m, over the lands
	DiameterAtLeast              // m, of the groove bottom
	ReserveAtLeast               // mean, a pure number
	SpareAtLeast                 // turns of the spring
	limitCount
)

// AtMost tells whether the limit is one from above.
func (l Limit) AtMost() bool { return l == HeightAtMost || l == DiameterAtMost }

// figures are what a cone comes to in each limit.
type figures [limitCount]float64

// Of is the figure of a cone that a limit is about.
func (l Limit) Of(f *Found) float64 {
	return [...]float64{f.Runtime, f.Height, f.Large + 2*f.Land, f.Small, f.Reserve(f.Torque.Mean), f.Spare()}[l]
}

// beyond is by how much a figure misses the bound, as a share of it; 0 or less where it
// keeps within. What is not known keeps within no bound.
func (b *Bound) beyond(v float64) float64 {
	miss := 1 - v/b.Value
	if b.Limit.AtMost() {
		miss = -miss
	}
	if math.IsNaN(miss) {
		return math.Inf(1)
	}
	return miss
}

// kept is how far over a bound rounding may bring a figure, as a share.
const kept = 1e-9

// Miss is what a bound would have to be for a cone to keep within all others.
type Miss struct {
	Bound
	Would float64 // the figure that would do, as run has it, rounded so that it does
	With  []Limit // that would have to give too
	Cone  Found   // that does with it
}

// searched searches the cone of a train that has none and works out the best.
func (k *worker) searched(ctx context.Context) (*Study, error) {
	w, err := search(ctx, k.s, k.number, k.st.Draws)
	if err != nil {
		return nil, err
	}
	if len(w.Cones) == 0 {
		k.st.Now, k.st.After = sim.Unknown(), Way{Digest: sim.Unknown(), Fault: ErrNoCone}
		k.st.Wanted, k.st.Now.Name, k.st.Nothing = w, k.s.Trains[k.number].Name, true
		return k.st, nil
	}
	o := k.st.Options
	o.FromBlank, o.Large, o.Small = true, math.NaN(), math.NaN()
	st, err := Run(ctx, w.Cones[0].Scenario, k.number, o)
	if err == nil {
		st.Wanted, st.After.Verdict = w, w.Cones[0].Verdict
		for i := range st.Rows { // there is none yet
			st.Rows[i].Now, st.Rows[i].Remove, st.Rows[i].TorqueBefore = math.NaN(), math.NaN(), math.NaN()
		}
	}
	return st, err
}

// search looks for cones within the limits of a scenario.
func search(ctx context.Context, s *scenario.Scenario, number int, o *sure.Options) (*Wanted, error) {
	q, err := newSearcher(s, number)
	if err != nil {
		return nil, err
	}
	if err := q.grid(ctx); err != nil {
		return nil, err
	}
	w := &Wanted{Bounds: q.bounds, Reserve: q.in.Fusee.ReserveWanted, Tried: q.tried}
	if w.Cones, err = q.best(ctx, o); err != nil || len(w.Cones) > 0 {
		return w, err
	}
	if w.Blocked = q.blocked; w.Blocked == nil {
		w.Misses, err = q.misses(ctx)
	}
	return w, err
}

// sureOfBest tells how sure the verdict on the best cone is, and what decides.
func (st *Study) sureOfBest(ctx context.Context, number int, o sure.Options) (err error) {
	if len(st.Wanted.Cones) == 0 {
		return nil
	}
	best := &st.Wanted.Cones[0]
	o.Anew = true
	best.Verdict.Sureness, err = sure.Of(ctx, best.Scenario, number, o)
	st.After.Verdict.Sureness = best.Verdict.Sureness
	return err
}

// rank orders cones by the share of draws that suit, then by the unevenness that a spring
// off its thickness leaves.
func rank(all []Found) {
	if len(all) == 0 {
		return
	}
	shares := make([]float64, len(all))
	for i := range all {
		shares[i] = all[i].Verdict.Sureness.Suits
	}
	for i, class := range all[0].Advice.Classes(shares) {
		all[i].class = class
	}
	slices.SortStableFunc(all, func(a, b Found) int {
		return cmp.Or(cmp.Compare(a.class, b.class), cmp.Compare(a.Verdict.Code.Place(), b.Verdict.Code.Place()), cmp.Compare(b.unsuited(), a.unsuited()), cmp.Compare(a.OffUnevenness(), b.OffUnevenness()))
	})
}

// offThickness runs a train with its own cone and the spring off its thickness.
func offThickness(s *scenario.Scenario, number int) (thinner, thicker Off, err error) {
	m, err := vary.New(s, number, vary.Length, s.Trains[number].Name+".mainspring.thickness_mm")
	if err != nil {
		return Off{}, Off{}, err
	}
	return off(m, -offBy), off(m, offBy), nil
}
