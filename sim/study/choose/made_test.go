package choose

import (
	"context"
	"math"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim/internal/trial"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
)

func toHave(t testing.TB, s *scenario.Scenario) *Study {
	t.Helper()
	st, err := ToHave(context.Background(), s, 0, asIs)
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// sized is the drive of the sample with every length times a scale, and a need that
// goes with its cube, as a torque does at the same stress.
func sized(t testing.TB, scale float64) *scenario.Scenario {
	t.Helper()
	text, _ := scenarios.Text("eight-day")
	s, _ := trial.Compile(t, "eight-day", text[strings.Index(text, "# The wheels"):], "[train.demand]\nleast_torque_nm = 0.33\n")
	in := &s.Trains[0]
	for _, v := range []*float64{
		&in.Mainspring.WidthMM, &in.Mainspring.ThicknessMM, &in.Mainspring.LengthMM, &in.Barrel.InsideDiameterMM, &in.Barrel.InsideHeightMM, &in.Barrel.ArborDiameterMM,
		&in.Barrel.OutsideDiameterMM, &in.Barrel.OutsideLengthMM, &in.Line.ThicknessMM, &in.Fusee.PitchMM, &in.Fusee.CentreDistanceMM,
	} {
		*v *= scale
	}
	for i := range in.Fusee.DiametersMM {
		in.Fusee.DiametersMM[i] *= scale
	}
	in.Line.BreakingN *= scale * scale
	in.Demand.LeastTorqueNM *= scale * scale * scale
	return s
}

// A clock of a sixth of the size wants a spring of a sixth: thickness, length and width
// go with the scale, turns and shares stay. Strips below a tenth of a millimetre are
// sold in thousandths.
func TestSmallClock(t *testing.T) {
	const scale = 1.0 / 6
	choices := func(scale float64) *Study {
		s := sized(t, scale)
		st, err := ToHave(context.Background(), s, 0, Options{Reserve: nan, EndShake: 3 * scale})
		if err != nil {
			t.Fatal(err)
		}
		return st
	}
	large, small := choices(1), choices(scale)
	a, b := &large.Ideals[0], &small.Ideals[0]
	closeTo(t, "width", b.Width, scale*a.Width, 1e-6)
	closeTo(t, "thickness", b.Thickness, scale*a.Thickness, 1e-5)
	closeTo(t, "length", b.Length, scale*a.Length, 1e-5)
	closeTo(t, "fill", b.Fill, a.Fill, 1e-12)
	closeTo(t, "set-up", b.Digest.Spring.SetUp, a.Digest.Spring.SetUp, 1e-12)
	closeTo(t, "unevenness", b.Digest.Torque.Unevenness, a.Digest.Torque.Unevenness, 1e-4)
	closeTo(t, "reserve", b.Digest.Torque.Mean/small.Target.Need, a.Digest.Torque.Mean/large.Target.Need, 1e-6)
	if a.Ordered.Decimals != 2 || b.Ordered.Decimals != 3 || b.Ordered.Thickness >= 0.1 || math.Abs(b.Ordered.Thickness-b.Thickness) > 0.5e-3 {
		t.Errorf("%+v\n%+v", a.Ordered, b.Ordered)
	}
}

// Springs to have made are as wide as the barrel takes, then 9, 8 and 7 tenths of that,
// to a tenth of a millimetre; in so low a barrel that they come below half a millimetre
// there are none.
func TestWidthsToHave(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st := toHave(t, s)
	for i, want := range []float64{32.2, 29, 25.8, 22.5} { // of 33.2 mm less the end shake of 1
		id := &st.Ideals[i]
		closeTo(t, "width", id.Width, want, 1e-12)
		closeTo(t, "spacers", id.Spacers+1e-9, 32.2-want+1e-9, 1e-6)
	}
	for height, want := range map[float64]int{1.499: 0, 1.5: 2, 1.56: 2, 1.57: 3, 1.64: 3, 1.65: 4} {
		s.Trains[0].Barrel.InsideHeightMM, s.Trains[0].Mainspring.WidthMM = height, height
		st, err := ToHave(context.Background(), s, 0, asIs)
		if err != nil {
			t.Fatal(err)
		}
		if len(st.Ideals) != want {
			t.Errorf("%v mm high: %d widths", height, len(st.Ideals))
		}
	}
}

// The ideal spring fills the barrel as the present one does. Where that leaves the set-up
// no room and half a barrel, which makes the most turns, does better, it is half.
func TestFillOfTheIdeal(t *testing.T) {
	halves, kept := 0, 0
	for number := range uint64(40) {
		s := trial.Invent(t, number)
		st, err := ToHave(context.Background(), s, 0, asIs)
		if err != nil {
			continue // there is nothing to choose by
		}
		for i := range st.Ideals {
			id := &st.Ideals[i]
			if !id.Found() {
				continue
			}
			d := &id.Digest
			closeTo(t, "fill", d.Spring.Fill, id.Fill, 1e-9)
			closeTo(t, "mean", d.Torque.Mean, st.Target.Mean, 1e-6)
			if d.TurnsLost > 0 {
				t.Errorf("clock %d: an ideal spring binds", number)
			}
			present := st.Present.Digest.Spring.Fill
			switch id.Fill {
			case present:
				kept++
			case half:
				halves++
				// As the present one fills it, no set-up leaves both the turns to spare and a click.
				f := newFitter(&st.shop)
				other := st.filling(f, id.Width, present)
				is, was, a := d.Standing(), other.Digest.Standing(), &d.Advice
				if other.Found() && (a.Spares(was.Spare-1/f.train.Clicks) || !a.Spares(is.Spare) && was.Beats(&is)) {
					t.Errorf("clock %d: half full %+v, as the present one %+v", number, is, was)
				}
			default:
				t.Errorf("clock %d: fills %v", number, id.Fill)
			}
		}
	}
	if halves < 5 || kept < 5 {
		t.Errorf("%d are half full, %d as the present spring", halves, kept)
	}
}

// The thickness that gives a mean torque is found from any guess; where none gives it,
// that is told.
func TestThicknessFromAnyGuess(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st := toHave(t, s)
	for _, fill := range []float64{0.35, 0.5, 0.65} {
		m := made{fitter: newFitter(&st.shop), width: 30, fill: fill}
		for _, want := range []float64{0.25, 0.38, 0.45} {
			mean := m.mean(want, 1)
			for _, guess := range []float64{1e-3, 0.02, want, 0.5, 3, 10, 200} {
				h, ok := m.thickness(mean, guess, 1)
				if !ok {
					t.Errorf("none of %v mm from %v", want, guess)
				}
				closeTo(t, "thickness", h, want, 1e-9)
			}
		}
		for _, mean := range []float64{1e-9, 50} {
			if h, ok := m.thickness(mean, 0.4, 1); ok || mean < 1 && h != 0 {
				t.Errorf("%v N·m by %v mm", mean, h)
			}
		}
		if v := m.mean(0.38, 30); !math.IsNaN(v) {
			t.Errorf("%v N·m, wound home by the set-up alone", v)
		}
	}
}

// A strip made in even coils tells nothing of its steel: another is taken to be of what
// the format assumes.
func TestSteelOfEvenCoils(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day", "yield_mpa    = 1620.0", "natural_form = \"even\"\nfree_coils = 5")
	closeTo(t, "steel (Pa)", toHave(t, s).Steel, 1e6*scenario.AssumedYieldMPa, 1e-12)
}

// The run at fine steps is that of the fitted spring.
func TestFine(t *testing.T) {
	st := sampleStudy(t)
	for i := range st.Candidates {
		c := &st.Candidates[i]
		if !c.Fits() {
			continue
		}
		r, err := st.Fine(c)
		if err != nil || len(r.Rows) < 100 {
			t.Fatalf("%s: %v", c.Label, err)
		}
		closeTo(t, c.Label+": mean", r.Torque.Mean, c.Digest.Torque.Mean, 1e-12)
		closeTo(t, c.Label+": set-up", r.Spring.SetUp, c.Digest.Spring.SetUp, 1e-12)
		if r.Verdict != c.Digest.Verdict {
			t.Errorf("%s: %v, %v", c.Label, r.Verdict, c.Digest.Verdict)
		}
	}
}

// The present spring gives in the picture what it gives in a run.
func TestFineNow(t *testing.T) {
	st := sampleStudy(t)
	now := &st.Present.Digest
	r, err := st.FineNow(now.Spring.SetUp)
	if err != nil || len(r.Rows) < 100 {
		t.Fatal(err)
	}
	closeTo(t, "mean", r.Torque.Mean, now.Torque.Mean, 1e-12)
	closeTo(t, "least", r.Torque.Min, now.Torque.Min, 1e-12)
	closeTo(t, "need", r.Need.Used, now.Need.Used, 1e-12)
}

// The strongest spring is named; the present one is where none holds more.
func TestMostStored(t *testing.T) {
	st := &Study{Candidates: []Candidate{{}, {}, {}}}
	st.Present.Digest.Spring.Stored = 20
	for i, joules := range []float64{19, 30, 25} {
		st.Candidates[i].Label, st.Candidates[i].Digest.Spring.Stored = string(rune('A'+i)), joules
	}
	if joules, label := st.MostStored(); joules != 30 || label != "B" {
		t.Errorf("%v J of %q", joules, label)
	}
	st.Present.Digest.Spring.Stored = 30
	if joules, label := st.MostStored(); joules != 30 || label != "" {
		t.Errorf("%v J of %q", joules, label)
	}
}

// The best stands behind nothing, and neither do its equals, in the order of the list.
func TestNothingBehindTheBest(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st := study(t, s, 0, listOf([3]float64{32, 0.38, 1650}, [3]float64{32, 0.38, 1650}, [3]float64{32, 0.33, 1650}), asIs)
	for i, want := range []rules.Rule{rules.NoRule, rules.NoRule, rules.BetterVerdict} {
		if c := &st.Candidates[i]; c.Behind != want || c.Rank != i+1 || c.Label != string(rune('a'+i)) {
			t.Errorf("%s: rank %d, behind by %d", c.Label, c.Rank, c.Behind)
		}
	}
}

// How near a spring that cannot be fitted comes is told as a share of what it would have
// to be; a reserve below 1 may be aimed at.
func TestMissAndLowReserve(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st := study(t, s, 0, listOf([3]float64{32, 0.70, 1000}, [3]float64{36, 0.38, 1650}), Options{Reserve: 0.5, EndShake: nan})
	closeTo(t, "target", st.Target.Mean, 0.165, 1e-12)
	for i := range st.Candidates {
		r := &st.Candidates[i].Refused
		switch r.Why {
		case TooFewTurns:
			closeTo(t, "too few", (1+r.Miss)*r.Figure, st.Takes, 1e-12)
		case TooWide:
			closeTo(t, "too wide", r.Miss*33.2, 3.8, 1e-9) // 36 mm and 1 of end shake in 33.2
		default:
			t.Errorf("%+v", r)
		}
	}
}
