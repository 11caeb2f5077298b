package choose

import (
	"context"
	"math"

	"evenpull/fusee/mainspring"
	"evenpull/fusee/numeric"
	"evenpull/sim/scenario"
	"evenpull/sim/study/sure"
)

// Change is a flow stress at which the first two candidates change places, if it were known.
type Change struct {
	Yield        float64   // MPa
	Below, Above Candidate // the one that comes first on either side, as it is fitted in its middle
	Coils        float64   // that Counted, as it is fitted now, shows lying free at this stress, once wound home
	Counted      string    // label of the one whose coils tell the stress: the first, where its own is not stated
}

const (
	// looked is the number of flow stresses at which the two are compared first.
	looked = 9
	// fine (MPa) is how well a change is found: no dealer knows better.
	fine = 2
	// fewDraws are enough to compare two springs: the same draws are made of both.
	fewDraws = 500
)

// pair are the first two candidates with their steel known.
type pair struct {
	st      *Study
	ctx     context.Context
	s       *scenario.Scenario
	number  int
	o       sure.Options
	springs [2]Candidate
	err     error
}

// turning finds where the first two candidates change places as the flow stress that
// nobody states goes over its usual range: of both, where neither is stated, as of springs
// of one dealer.
func (st *Study) turning(ctx context.Context, s *scenario.Scenario, number int, o *sure.Options) error {
	if o == nil || len(st.Candidates) < 2 || math.IsNaN(st.Steel) || !st.Candidates[0].Fits() || !st.Candidates[1].Fits() {
		return nil
	}
	p := pair{st: st, ctx: ctx, s: s, number: number, o: *o, springs: [2]Candidate{st.Candidates[0], st.Candidates[1]}}
	p.o.Brief, p.o.Draws = true, min(o.Draws, fewDraws)
	if o.Draws == 0 {
		p.o.Draws = fewDraws
	}
	if scenario.Given(p.springs[0].YieldMPa) && scenario.Given(p.springs[1].YieldMPa) {
		return nil
	}
	st.Changes = p.changes()
	return p.err
}

// changes goes over the usual range of the flow stress and closes in on every change.
func (p *pair) changes() (all []Change) {
	lo, hi := scenario.FlowStressError(false).Around(p.st.Steel / mpa)
	var ends []float64 // of the sides
	before, at := p.first(lo), lo
	first := before // on the lowest side
	for i := 1; i < looked; i++ {
		to := lo + (hi-lo)*float64(i)/(looked-1)
		if now := p.first(to); now != before {
			was := before
			in, out := numeric.Bisect(at, to, fine, func(yield float64) bool { return p.first(yield) == was })
			ends, before = append(ends, (in+out)/2), now
		}
		at = to
	}
	ends = append(append([]float64{lo}, ends...), hi)
	for i, yield := range ends[1 : len(ends)-1] {
		below := (first + i) % 2
		c := Change{Yield: yield, Below: p.at((ends[i] + yield) / 2)[below], Above: p.at((yield + ends[i+2]) / 2)[1-below]}
		p.count(&c)
		all = append(all, c)
	}
	if p.err != nil {
		return nil
	}
	return all
}

// count tells the coils by which the stress of a change is known when the parcel comes: of
// the first as it is fitted, or of the second where the steel of the first is stated.
func (p *pair) count(c *Change) {
	it := &p.springs[0]
	if scenario.Given(it.YieldMPa) {
		it = &p.springs[1]
	}
	sp := it.Spring
	sp.YieldMPa, sp.LengthMM = c.Yield, it.Length()
	c.Counted, c.Coils = it.Label, math.NaN()
	if curve, err := mainspring.New(p.st.shop.stripOf(&sp), p.st.shop.train.Drive.Housing); err == nil {
		c.Coils = curve.FreeTurns()
	}
}

// at are the two with a flow stress (MPa) where nobody states it, each fitted for it.
func (p *pair) at(yield float64) (both [2]Candidate) {
	f := newFitter(&p.st.shop)
	for i := range both {
		c, o := &p.springs[i], p.o
		if scenario.Given(c.YieldMPa) {
			both[i] = *c
			continue
		}
		sp := c.Spring
		sp.YieldMPa = yield
		both[i], o.Steel = f.fit(sp), sure.Known
		if both[i].Fits() && p.err == nil {
			p.err = p.st.judge(p.ctx, p.s, p.number, &both[i], o)
		}
	}
	return both
}

// first is the number of the one that comes first with a flow stress.
func (p *pair) first(yield float64) int {
	both := p.at(yield)
	switch {
	case !both[1].Fits():
		return 0
	case !both[0].Fits():
		return 1
	}
	shares := []float64{both[0].Digest.Verdict.Sureness.Suits, both[1].Digest.Verdict.Sureness.Suits}
	for i, class := range p.st.shop.advice.Classes(shares) {
		both[i].class = class
	}
	if order, _ := p.st.decide(&both[1], &both[0]); order < 0 {
		return 1
	}
	return 0
}
