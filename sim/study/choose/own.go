package choose

import (
	"math"
	"slices"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/stock"
)

// What is done with the present spring, where a candidate has its label.
const (
	DoNothing = "do nothing"
	NewSetUp  = "another set-up"
)

// All are the candidates and, at their places among them by the same rules, what can be
// done with the present spring: nothing and, where it is advised, another set-up. These have
// no rank and cannot be ordered; there are none of a spring that is broken or lost.
func (st *Study) All() []Candidate {
	all := slices.Clone(st.Candidates)
	if st.Lost || len(all) == 0 {
		return all
	}
	own := []Candidate{st.own(DoNothing, &st.Present.Digest)}
	if st.SetUp != nil && st.SetUp.Advised != nil {
		own = append(own, st.own(NewSetUp, st.SetUp.Advised))
	}
	best := st.Best()
	for i := range own {
		c := &own[i]
		c.class = st.classOf(c.Digest.Verdict.Sureness.Suits)
		place := slices.IndexFunc(all, func(other Candidate) bool {
			if !other.Fits() {
				return true
			}
			order, _ := st.decide(c, &other)
			return order <= 0
		})
		if place < 0 {
			place = len(all)
		}
		if best.Fits() {
			if order, by := st.decide(c, best); order > 0 {
				c.Behind = by
			}
		}
		all = slices.Insert(all, place, *c)
	}
	return all
}

// own is the present spring as a candidate.
func (st *Study) own(way string, d *sim.Digest) Candidate {
	p := &st.Present
	sp := stock.Spring{Label: way, WidthMM: p.Width, ThicknessMM: p.Thickness, LengthMM: p.Length, YieldMPa: math.NaN(), ModulusGPa: math.NaN()}
	return Candidate{Spring: sp, Own: true, Spacers: math.NaN(), CutTo: math.NaN(), Uncut: math.NaN(), Tolerance: noTolerance, Behind: rules.NoRule, Digest: *d}
}

// classOf is the class of a share of draws that suits among those of the candidates: that
// of the first class whose greatest share it equals or passes within the rule.
func (st *Study) classOf(share float64) int {
	greatest := map[int]float64{}
	last := -1
	for i := range st.Candidates {
		if c := &st.Candidates[i]; c.Fits() && c.Digest.Verdict.Sureness.Draws > 0 {
			greatest[c.class] = max(greatest[c.class], c.Digest.Verdict.Sureness.Suits)
			last = max(last, c.class)
		}
	}
	for class := 0; class <= last; class++ {
		if most := greatest[class]; share > most+st.shop.advice.EqualWithin {
			return class - 1
		} else if share >= most-st.shop.advice.EqualWithin {
			return class
		}
	}
	return last + 1
}
