package choose

import (
	"context"
	"math"

	"evenpull/fusee/mainspring"
	"evenpull/sim"
	"evenpull/sim/scenario"
	"evenpull/sim/study/sure"
)

// MostDrawn is the greatest number of candidates for which draws are made: the best
// without them.
const MostDrawn = 24

// sure tells how sure the verdicts are: of the present spring, and of the best candidates,
// which are put in order anew by it.
func (st *Study) sure(ctx context.Context, s *scenario.Scenario, number int, o *sure.Options) (err error) {
	if o == nil {
		return nil
	}
	if st.Lost {
		// There is no present one.
	} else if st.SetUp != nil {
		if err = st.SetUp.Sure(ctx, s, number, *o); err != nil {
			return err
		}
		st.Present.Digest.Verdict.Sureness = st.SetUp.Now.Verdict.Sureness
	} else if st.Present.Digest.Verdict.Sureness, err = sure.Of(ctx, s, number, *o); err != nil {
		return err
	}
	shares := make([]float64, 0, MostDrawn)
	for i := range st.Candidates[:min(MostDrawn, len(st.Candidates))] {
		c := &st.Candidates[i]
		if !c.Fits() {
			break // these are last
		}
		if err := st.judge(ctx, s, number, c, *o); err != nil {
			return err
		}
		shares = append(shares, c.Digest.Verdict.Sureness.Suits)
	}
	for i, class := range st.shop.advice.Classes(shares) {
		st.Candidates[i].class = class
	}
	for i := len(shares); i < len(st.Candidates); i++ {
		st.Candidates[i].class = math.MaxInt32
	}
	st.rank()
	return nil
}

// judge tells how sure the verdict on a candidate is, cut shorter where that makes it surer.
func (st *Study) judge(ctx context.Context, s *scenario.Scenario, number int, c *Candidate, o sure.Options) error {
	if err := st.drawFitted(ctx, s, number, c, o); err != nil {
		return err
	}
	return st.shorten(ctx, s, number, c, o)
}

// drawFitted tells how sure the verdict on a candidate is, fitted as it would be.
func (st *Study) drawFitted(ctx context.Context, s *scenario.Scenario, number int, c *Candidate, o sure.Options) error {
	switch {
	case o.Steel == sure.Known:
	case scenario.Given(c.YieldMPa):
		o.Steel = sure.Stated
	default:
		o.Steel = sure.Unstated
	}
	strip := st.shop.stripOf(&c.Spring)
	strip.Length = c.Length() * mm
	return draw(ctx, s, number, &strip, &c.Digest, o)
}

// drawMade tells how sure the verdicts are on the springs to have made, on so many of those
// that can be ordered.
func (st *Study) drawMade(ctx context.Context, s *scenario.Scenario, number int, o *sure.Options, most int) error {
	if o == nil {
		return nil
	}
	unstated := *o
	unstated.Steel = sure.Unstated
	for i := range st.Ideals {
		id := &st.Ideals[i]
		if !id.Ordered.Known() || most == 0 {
			continue
		}
		most--
		strip := st.shop.madeOf(id.Width, id.Ordered.Thickness, id.Ordered.Length)
		if err := draw(ctx, s, number, &strip, &id.Ordered.Digest, unstated); err != nil {
			return err
		}
	}
	return nil
}

// draw tells how sure the verdict on a strip is that comes to a digest.
func draw(ctx context.Context, s *scenario.Scenario, number int, strip *mainspring.Strip, d *sim.Digest, o sure.Options) (err error) {
	o.Anew = true
	d.Verdict.Sureness, err = sure.Variant(ctx, s, number, o, func(t *scenario.Train) {
		m := &t.Mainspring
		m.WidthMM, m.ThicknessMM, m.LengthMM, m.ModulusGPa = strip.Width/mm, strip.Thickness/mm, strip.Length/mm, strip.Modulus/gpa
		m.LengthBy = scenario.LengthGiven
		m.NaturalForm, m.FreeCoils, m.YieldMPa = scenario.AsStraight, math.NaN(), math.NaN()
		if strip.Form == mainspring.Set {
			m.NaturalForm, m.YieldMPa = scenario.BySet, strip.Yield/mpa
		}
		if scenario.Given(m.SolidTurns) {
			m.SolidTurns, m.Packing = math.NaN(), strip.Packing
		}
		t.Barrel.SetUpTurns = d.Spring.SetUp
	})
	return err
}

// shorten cuts a candidate to the length at which its torque lies best between the limits
// of what suits, where the rule for it has it so.
func (st *Study) shorten(ctx context.Context, s *scenario.Scenario, number int, c *Candidate, o sure.Options) error {
	whole := &c.Digest
	share := whole.Verdict.Sureness.Suits
	if !c.MayBeCut || share+st.shop.advice.ShortenGain > 1 {
		return nil
	}
	cut := *c
	if f := newFitter(&st.shop); !f.centre(&cut) {
		return nil
	}
	if err := st.drawFitted(ctx, s, number, &cut, o); err != nil {
		return err
	}
	is, would := whole.Standing(), cut.Digest.Standing()
	if st.shop.advice.Shorten(&is, &would, share, cut.Digest.Verdict.Sureness.Suits) {
		*c = cut
		c.Uncut = share
	}
	return nil
}
