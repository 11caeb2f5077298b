package choose

import (
	"context"
	"fmt"
	"math"
	"slices"
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/stock"
	"evenpull/sim/study/sure"
)

// drawn are few draws, which make coarse shares and tell any two apart.
var drawn = sure.Options{Draws: 60, Seed: 3, Brief: true}

func withDraws() Options { return Options{Reserve: nan, EndShake: nan, Sure: &drawn} }

// written is a scenario with a candidate written into it as a person would who fits it:
// its sizes, its own steel or else that of the study, the packing of the present spring.
func written(t *testing.T, s *scenario.Scenario, st *Study, c *Candidate) *scenario.Scenario {
	t.Helper()
	w := s.Clone()
	m := &w.Trains[0].Mainspring
	packing := st.Present.Digest.Spring.Packing
	m.WidthMM, m.ThicknessMM, m.LengthMM, m.FreeCoils, m.NaturalForm = c.WidthMM, c.ThicknessMM, c.Length(), nan, scenario.BySet
	switch {
	case scenario.Given(c.YieldMPa):
		m.YieldMPa = c.YieldMPa
	case math.IsNaN(st.Steel):
		m.YieldMPa, m.NaturalForm = nan, scenario.AsStraight
	default:
		m.YieldMPa = st.Steel / 1e6
	}
	if scenario.Given(c.ModulusGPa) {
		m.ModulusGPa = c.ModulusGPa
	}
	if scenario.Given(m.SolidTurns) {
		m.SolidTurns, m.Packing = nan, packing
	}
	w.Trains[0].Barrel.SetUpTurns = c.Digest.Spring.SetUp
	return w
}

// How sure the verdict on a candidate is is that of the scenario with it written in, set
// up anew, its steel stated by the dealer or by nobody, and so of a spring to have made;
// the present spring is as sure as it is without a choice.
func TestSureAsWrittenIn(t *testing.T) {
	const steel = "yield_mpa    = 1620.0"
	made := 0
	for _, of := range []string{steel, "free_coils = 6.9\nsolid_turns = 8.7", `natural_form = "straight"`, "natural_form = \"even\"\nfree_coils = 6.9"} {
		s, _ := trial.Compile(t, "eight-day", steel, of)
		list := listOf([3]float64{32, 0.38, 1650}, [3]float64{30, 0.37, 2400}, [3]float64{31, 0.39, 1600}, [3]float64{32, 0.36, 1700}, [3]float64{40, 0.36, 1700})
		list.Springs[2].YieldMPa, list.Springs[2].ModulusGPa = 1500, 195
		st := study(t, s, 0, list, withDraws())
		for i := range st.Candidates {
			c := &st.Candidates[i]
			got := c.Digest.Verdict.Sureness
			if !c.Fits() {
				if got != (sim.Sureness{}) {
					t.Errorf("%s: %s is refused, and %+v", of, c.Label, got)
				}
				continue
			}
			o := drawn
			if o.Anew, o.Steel = true, sure.Unstated; scenario.Given(c.YieldMPa) {
				o.Steel = sure.Stated
			}
			want, err := sure.Of(context.Background(), written(t, s, st, c), 0, o)
			if err != nil || got != want || got.Draws != drawn.Draws {
				t.Errorf("%s: %s is sure to %+v, written in to %+v, %v", of, c.Label, got, want, err)
			}
		}
		for i := range st.Ideals {
			id := &st.Ideals[i]
			if !id.Ordered.Known() {
				continue
			}
			made++
			c := Candidate{Spring: stock.Spring{WidthMM: id.Width, ThicknessMM: id.Ordered.Thickness, LengthMM: id.Ordered.Length, YieldMPa: nan, ModulusGPa: nan}, CutTo: nan, Digest: id.Ordered.Digest}
			o := drawn
			o.Anew, o.Steel = true, sure.Unstated
			want, err := sure.Of(context.Background(), written(t, s, st, &c), 0, o)
			if got := id.Ordered.Digest.Verdict.Sureness; err != nil || got != want {
				t.Errorf("%s: %v mm wide, to have made, is sure to %+v, written in to %+v, %v", of, id.Width, got, want, err)
			}
		}
		own, err := sure.Of(context.Background(), s, 0, drawn)
		if now := st.Present.Digest.Verdict.Sureness; err != nil || now != own || st.SetUp.Now.Verdict.Sureness != own {
			t.Errorf("%s: the present spring is sure to %+v, alone to %+v, %v", of, now, own, err)
		}
	}
	if made < 5 {
		t.Errorf("only %d springs to have made", made)
	}
}

// A present spring that binds is as sure as it is without a choice, too.
func TestSureWhereThePresentSpringBinds(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day", "length_mm    = 1650.0", "length_mm    = 700.0")
	st := study(t, s, 0, listOf([3]float64{32, 0.38, 1650}), withDraws())
	own, err := sure.Of(context.Background(), s, 0, drawn)
	if now := st.Present.Digest.Verdict.Sureness; err != nil || st.SetUp != nil || now != own || now.Draws != drawn.Draws {
		t.Errorf("sure to %+v, alone to %+v, %v", now, own, err)
	}
}

// equals are the classes of shares, spelt out anew: what is within three points of 100 of
// the greatest is equal to it, and so on with the rest.
func equals(shares map[string]float64) map[string]float64 {
	classes := map[string]float64{}
	for class := 0.0; len(classes) < len(shares); class++ {
		greatest := -1.0
		for label, share := range shares {
			if _, has := classes[label]; !has {
				greatest = max(greatest, share)
			}
		}
		for label, share := range shares {
			if _, has := classes[label]; !has && share >= greatest-0.03-1e-9 {
				classes[label] = class
			}
		}
	}
	return classes
}

// With draws the springs stand in the order of the same rules, with the share that suits
// among them; what was not drawn, as it came after the first 24 without draws, is the
// least sure.
func TestOrderWithDraws(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	for _, n := range []int{12, 70} {
		plain, st := study(t, s, 0, synthetic(n), asIs), study(t, s, 0, synthetic(n), withDraws())
		shares := map[string]float64{}
		for i := range plain.Candidates[:min(24, n)] {
			if c := &plain.Candidates[i]; c.Fits() {
				shares[c.Label] = nan
			}
		}
		fit, by := 0, map[rules.Rule]int{}
		for i := range st.Candidates {
			c := &st.Candidates[i]
			is := c.Digest.Verdict.Sureness
			if _, draws := shares[c.Label]; draws != (is.Draws == drawn.Draws) || draws != (is != sim.Sureness{}) {
				t.Errorf("%d springs: %s is sure to %+v", n, c.Label, is)
			} else if draws {
				shares[c.Label] = is.Suits
			}
			if c.Fits() {
				fit++
				by[c.Behind]++
			}
			if c.Rank != i+1 {
				t.Errorf("%d springs: %s stands at %d with rank %d", n, c.Label, i+1, c.Rank)
			}
		}
		classes := equals(shares)
		best, surest := &st.Candidates[0], st.Surest()
		for label, share := range shares {
			c := &st.Candidates[slices.IndexFunc(st.Candidates, func(c Candidate) bool { return c.Label == label })]
			equal := classes[label] == classes[best.Label] && c.Digest.Verdict.Code == best.Digest.Verdict.Code
			if equal && share > surest.Digest.Verdict.Sureness.Suits || c == surest && !equal {
				t.Errorf("%d springs: the surest that stands with the best is %s, not %s", n, label, surest.Label)
			}
		}
		key := func(c *Candidate) [7]float64 {
			if !c.Fits() {
				return [7]float64{1, c.Refused.Miss}
			}
			is := c.Digest.Standing()
			faults := is.Faults
			is.Faults = 0
			class, draws := classes[c.Label]
			if !draws {
				class = math.Inf(1)
			}
			return [7]float64{0, not(is.Code == rules.Suits), not(faults == 0), not(is.Spare >= 1-1e-6), class, worth(&is, false), math.Abs(is.Clicks - 15)}
		}
		for i := 1; i < len(st.Candidates); i++ {
			a, b := &st.Candidates[i-1], &st.Candidates[i]
			x, y := key(a), key(b)
			for k := range x {
				if math.Abs(x[k]-y[k]) > 1e-9 {
					if x[k] > y[k] {
						t.Errorf("%d springs: %s %v stands before %s %v", n, a.Label, x, b.Label, y)
					}
					break
				}
			}
		}
		if len(shares) != min(24, fit) || n > 24 && fit <= 24 || by[rules.SurestToSuit] == 0 {
			t.Errorf("%d springs: %d drawn, %d fit, behind by %v", n, len(shares), fit, by)
		}
	}
}

func not(b bool) float64 {
	if b {
		return 0
	}
	return 1
}

// Draws that cannot be made end the choice.
func TestSureFails(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	ctx, stop := context.WithCancel(context.Background())
	o := withDraws()
	o.Progress = func(int) { stop() }
	if st, err := Run(ctx, s, 0, listOf([3]float64{32, 0.38, 1650}), o); st != nil || fmt.Sprint(err) != fmt.Sprint(context.Canceled) {
		t.Errorf("%v, %v", st, err)
	}
}
