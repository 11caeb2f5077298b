package choose

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
)

// lost is a sample without its mainspring.
func lost(t testing.TB, name, also string) *scenario.Scenario {
	t.Helper()
	text, _ := scenarios.Text(name)
	from, to := strings.Index(text, "[train.mainspring]"), strings.Index(text, "[train.barrel]")
	s, err := scenario.Read(strings.NewReader(text[:from]+"[train.mainspring]\npresent = false\n"+also+text[to:]), name)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// A clock whose spring is lost gets the springs, set-ups and sureness that one gets whose
// present spring is of the steel that is usual, and nothing hangs on what stands in for it.
func TestLost(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day", "yield_mpa    = 1620.0", "yield_mpa    = 1600.0")
	want := study(t, s, 0, drawer(t), withDraws())
	for _, also := range []string{"", "width_mm = 20\nthickness_mm = 0.9\nlength_mm = 300\n", "free_coils = 5\n", "natural_form = \"straight\"\n"} {
		got := study(t, lost(t, "eight-day", also), 0, drawer(t), withDraws())
		if !got.Lost || got.SetUp != nil || got.First != rules.AnotherSpring || got.Present.Digest.Verdict.Sureness != (sim.Sureness{}) || got.Steel != 1600e6 {
			t.Errorf("%q: %v, %v first, steel %v", also, got.Lost, got.First, got.Steel)
		}
		for i := range want.Candidates {
			g, w := &got.Candidates[i], &want.Candidates[i]
			// Reading errors of inputs come in another order, so that draws differ.
			if g.Fits() != w.Fits() || g.Fits() && math.Abs(g.Digest.Verdict.Sureness.Suits-w.Digest.Verdict.Sureness.Suits) > 0.2 {
				t.Errorf("%q: %d. is %s, sure to %v, want %s, %v", also, i+1, g.Label, g.Digest.Verdict.Sureness.Suits, w.Label, w.Digest.Verdict.Sureness.Suits)
			}
		}
		plain, as := study(t, lost(t, "eight-day", also), 0, drawer(t), asIs), study(t, s, 0, drawer(t), asIs)
		if fmt.Sprint(order(plain)) != fmt.Sprint(order(as)) {
			t.Errorf("%q: %v, want %v", also, order(plain), order(as))
		}
		for i := range plain.Ideals {
			id, w := &plain.Ideals[i], &as.Ideals[i]
			if !math.IsNaN(id.Thumb) || id.Found() != w.Found() || math.Abs(id.Thickness/w.Thickness-1) > 0.02 {
				t.Errorf("%q: to have made %v mm thick, by thumb %v, want %v", also, id.Thickness, id.Thumb, w.Thickness)
			}
		}
		if joules, label := plain.MostStored(); label == "" || !(joules > 0) {
			t.Errorf("%q: %v J in %q", also, joules, label)
		}
	}
	// Of the steel that the lost one is known to have had.
	if st := study(t, lost(t, "eight-day", "yield_mpa = 1700\n"), 0, drawer(t), asIs); st.Steel != 1700e6 {
		t.Errorf("a steel of %v", st.Steel)
	}
}

// order tells the springs with their set-ups and mean torques, as they stand.
func order(st *Study) (all []string) {
	for i := range st.Candidates {
		c := &st.Candidates[i]
		all = append(all, fmt.Sprintf("%s %.6g %.9g", c.Label, c.Digest.Spring.SetUp, c.Digest.Torque.Mean))
	}
	return all
}

// Every sample can lose its spring; everything but a choice then asks for one, and where no
// spring can go in it is said.
func TestLostEverywhere(t *testing.T) {
	for _, name := range []string{"eight-day", "too-weak", "too-strong", "strike-quick", "strike-pleasant"} {
		s := lost(t, name, "")
		if st := study(t, s, 0, drawer(t), asIs); len(st.Candidates) != 14 || !st.Lost {
			t.Errorf("%s: %d candidates", name, len(st.Candidates))
		}
		if _, err := ToHave(context.Background(), s, 0, asIs); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if _, err := sim.CompileTrain(s, 0); !errors.Is(err, sim.ErrNoSpring) || !strings.Contains(err.Error(), "mainspring.present: found false") || !strings.Contains(err.Error(), `"evenpull choose"`) {
			t.Errorf("%s: %v", name, err)
		}
	}
	s := lost(t, "eight-day", "")
	s.Trains[0].Barrel.ArborDiameterMM = s.Trains[0].Barrel.InsideDiameterMM - 0.2
	if _, err := Run(context.Background(), s, 0, drawer(t), asIs); !errors.Is(err, ErrNoStandIn) {
		t.Error(err)
	}
}
