package cut

import (
	"cmp"
	"context"
	"math"
	"slices"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/study/sure"
)

const (
	torques  = 9   // at which draws are made, to learn how sure each is
	apart    = 1.0 // fusee turns between the cones that are shown
	mostRuns = 400 // of cones that would be within the limits
	// mostBehind are less sure than was learnt at their torque, before the search ends
	mostBehind = 30
)

// best are the cones that keep within the limits and have no fault, as run has them.
//
// How sure a verdict is goes by the torque nearly alone, since every cone is even: draws are
// made at some torques, and of the cones at those that are sure, within the rule of what is
// equal, the ones are taken that a spring off its thickness leaves least uneven. Draws for
// each of these decide.
func (q *searcher) best(ctx context.Context, o *sure.Options) ([]Found, error) {
	order := q.ordered()
	if len(order) == 0 {
		return nil, nil
	}
	if o != nil {
		brief := *o
		brief.Brief = true
		o = &brief
	}
	share, err := q.shares(ctx, order, o)
	if err != nil {
		return nil, err
	}
	q.surest(order, share)
	least := 0.0
	for _, s := range share {
		least = math.Max(least, s.share-q.train.Advice.EqualWithin)
	}
	var all, behind []Found
	var turns []float64
	taken := func(n float64) bool {
		return slices.ContainsFunc(turns, func(other float64) bool { return math.Abs(other-n) < apart })
	}
	for _, c := range order[:min(len(order), mostRuns)] {
		if taken(c.turns) || len(behind) == mostBehind {
			continue
		}
		f, err := q.found(ctx, &c, o)
		if err != nil {
			return nil, err
		}
		if f == nil {
			continue
		}
		if f.Faults != 0 {
			if q.blocked == nil {
				q.blocked = f
			}
			continue
		}
		if o != nil && f.Verdict.Sureness.Suits < least {
			behind = append(behind, *f)
			continue
		}
		turns = append(turns, c.turns)
		if all = append(all, *f); len(all) == MostCones {
			break
		}
	}
	if len(all) == 0 {
		all = behind[:min(len(behind), MostCones)]
	}
	rank(all)
	return all, nil
}

// ordered are the cones that were kept, the least uneven first, of equal ones the shortest.
func (q *searcher) ordered() []candidate {
	all := make([]candidate, 0, len(q.levels))
	for _, c := range q.levels {
		all = append(all, c)
	}
	slices.SortFunc(all, func(a, b candidate) int {
		return cmp.Or(cmp.Compare(a.uneven, b.uneven), cmp.Compare(a.turns, b.turns), cmp.Compare(a.from, b.from), cmp.Compare(a.to, b.to))
	})
	return all
}

// sureAt is the share of draws that suit at a torque.
type sureAt struct{ torque, share float64 }

// shares makes draws at some torques between the least and the greatest with the best
// verdict that any cone gets. Without draws all of these are as sure.
func (q *searcher) shares(ctx context.Context, order []candidate, o *sure.Options) ([]sureAt, error) {
	byTorque := slices.Clone(order)
	slices.SortStableFunc(byTorque, func(a, b candidate) int { return cmp.Compare(q.torque(&a), q.torque(&b)) })
	best := rules.Unjudged
	var of []candidate
	last := math.Inf(-1)
	for _, c := range byTorque {
		if q.torque(&c) < last*math.Exp(bin) {
			continue
		}
		last = q.torque(&c)
		f, err := q.built(&c)
		if err != nil {
			return nil, err
		}
		if f == nil {
			continue
		}
		switch code := f.Verdict.Code; {
		case code.Place() < best.Place():
			best, of = code, []candidate{c}
		case code == best:
			of = append(of, c)
		}
	}
	var all []sureAt
	for i := range min(torques, len(of)) {
		c := of[i*(len(of)-1)/max(min(torques, len(of))-1, 1)]
		f, err := q.found(ctx, &c, o)
		if err != nil {
			return nil, err
		}
		if f == nil {
			continue
		}
		share := f.Verdict.Sureness.Suits
		if o == nil {
			share = 1
		}
		all = append(all, sureAt{q.torque(&c), share})
	}
	return all, nil
}

// surest puts the cones first whose torque is as sure as the surest, within the rule, then
// the surer before the others; where none is sure at all, those nearest to what suits.
func (q *searcher) surest(order []candidate, share []sureAt) {
	most := 0.0
	for _, s := range share {
		most = math.Max(most, s.share)
	}
	behind := func(c *candidate) float64 {
		if most == 0 && q.standard.Basis != rules.ByNothing {
			return -q.standard.Inside(q.torque(c), q.torque(c))
		}
		short := most - between(share, q.torque(c))
		if short <= q.train.Advice.EqualWithin {
			return 0
		}
		return short
	}
	slices.SortStableFunc(order, func(a, b candidate) int { return cmp.Compare(behind(&a), behind(&b)) })
}

// between interpolates; beyond the ends it is 0.
func between(all []sureAt, torque float64) float64 {
	for i, s := range all {
		switch {
		case torque == s.torque:
			return s.share
		case torque < s.torque && i == 0:
			return 0
		case torque < s.torque:
			before := all[i-1]
			return before.share + (s.share-before.share)*(torque-before.torque)/(s.torque-before.torque)
		}
	}
	return 0
}

// found is a cone as run has it, with draws where they are asked for; nil where it misses a
// bound.
func (q *searcher) found(ctx context.Context, c *candidate, o *sure.Options) (*Found, error) {
	f, err := q.built(c)
	if err = cmp.Or(err, ctx.Err()); err != nil || f == nil || !q.keeps(f) {
		return nil, err
	}
	if f.Thinner, f.Thicker, err = offThickness(f.Scenario, q.number); err != nil {
		return nil, err
	}
	if o != nil {
		anew := *o
		anew.Anew = true
		f.Verdict.Sureness, err = sure.Of(ctx, f.Scenario, q.number, anew)
	}
	return f, err
}

// keeps tells whether a cone keeps within every bound.
func (q *searcher) keeps(f *Found) bool {
	for i := range q.bounds {
		if b := &q.bounds[i]; b.beyond(b.Limit.Of(f)) > kept {
			return false
		}
	}
	return true
}

// built runs a cone, first with the pitch that the height leaves, and where that has a fault
// with the least; nil where it cannot be built.
func (q *searcher) built(c *candidate) (*Found, error) {
	var best *Found
	for _, pitch := range [2]float64{q.pitchOf(c), q.pitch[1]} {
		f, err := q.runWith(c, pitch)
		if err != nil {
			return nil, err
		}
		if f != nil && (best == nil || f.Faults.Count() < best.Faults.Count()) {
			best = f
		}
		if best != nil && best.Faults == 0 {
			break
		}
	}
	return best, nil
}

func (q *searcher) runWith(c *candidate, pitch float64) (*Found, error) {
	q.put(&cone{c.turns, pitch, float64(c.from) * q.place, q.bottom(c, c.from)})
	t, err := sim.CompileTrain(q.s, q.number)
	if err != nil {
		return nil, err
	}
	w, err := t.Drive.Wind()
	if err != nil {
		return nil, nil // no such cone
	}
	var r sim.Result
	if err := t.RunInto(&r, sim.Options{}); err != nil {
		return nil, nil
	}
	f := &Found{Digest: r.Digest, Scenario: q.s.Clone(), Pitch: pitch, Land: q.groove.Depth, Height: pitch*c.turns + q.ends, Large: 2 * t.Drive.Cone.End}
	f.Small = 2 * (w.At(w.Start()).Radius - q.half)
	return f, nil
}
