package setup

import (
	"math"
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/rules"
)

func TestClicks(t *testing.T) {
	for _, c := range []struct {
		most, clicks float64
		want         int
	}{{-0.1, 12, 0}, {0, 12, 1}, {0.08, 12, 1}, {1.0 / 12, 12, 2}, {1.25, 12, 16}, {1.25, 8, 11}, {1000, 12, 721}} {
		if got := Clicks(c.most, c.clicks); got != c.want {
			t.Errorf("up to %v turns of %v clicks: %d, want %d", c.most, c.clicks, got, c.want)
		}
	}
}

// The curve of a train is what a run gives at each click.
func TestCurve(t *testing.T) {
	_, trains := trial.Compile(t, "eight-day")
	tr := trains[0]
	var r sim.Result
	list, err := Curve(&tr, 20, sim.Options{}, &r, nil)
	if err != nil || len(list) != 20 {
		t.Fatalf("%v, %d", err, len(list))
	}
	for i := range list {
		own := trains[0]
		own.Drive.Barrel.SetUp = float64(i) / 12
		want, err := own.Run(sim.Options{})
		if err != nil || list[i].Torque != want.Torque || list[i].Faults != want.Faults || list[i].Spring.SetUp != float64(i)/12 {
			t.Errorf("%d clicks: %+v, by a run %+v (%v)", i, list[i].Torque, want.Torque, err)
		}
	}
	if _, err := Curve(&tr, 400, sim.Options{}, &r, nil); err == nil {
		t.Error("more set-up than the spring has turns goes through")
	}
}

// place is a set-up with so many clicks.
func place(clicks int, code rules.Code, faults sim.Faults, uneven, left float64) sim.Digest {
	d := sim.Digest{Faults: faults}
	d.Verdict.Code, d.Torque.Unevenness = code, uneven
	d.Clicks, d.Advice = 12, rules.DefaultAdvice()
	d.Spring.SetUp, d.Spring.Ideal = float64(clicks)/12, left+float64(clicks)/12
	return d
}

// The turns to spare come first, then verdict, faults, unevenness; the present set-up
// stays until the rules advise another.
func TestFitted(t *testing.T) {
	for name, c := range map[string]struct {
		list                    []sim.Digest
		present, prefer, fitted int
	}{
		"none":              {nil, 0, -1, -1},
		"the least uneven":  {[]sim.Digest{place(0, rules.Suits, 0, 0.2, 2), place(1, rules.Suits, 0, 0.1, 2), place(2, rules.Suits, 0, 0.11, 2)}, 0, 1, 1},
		"gains too little":  {[]sim.Digest{place(0, rules.Suits, 0, 0.2, 2), place(1, rules.Suits, 0, 0.1, 2), place(2, rules.Suits, 0, 0.11, 2)}, 2, 1, 2},
		"a better verdict":  {[]sim.Digest{place(0, rules.Thin, 0, 0.1, 2), place(1, rules.Suits, 0, 0.3, 2)}, 0, 1, 1},
		"a fault less":      {[]sim.Digest{place(0, rules.Suits, 1<<sim.NoSetUp, 0.1, 2), place(1, rules.Suits, 0, 0.3, 2)}, 0, 1, 1},
		"too few to spare":  {[]sim.Digest{place(0, rules.Thin, 0, 0.1, 1.1), place(1, rules.Suits, 0, 0.1, 0.9)}, 1, 0, 0},
		"none spares":       {[]sim.Digest{place(0, rules.Thin, 0, 0.1, 0.6), place(1, rules.Suits, 0, 0.1, 0.5)}, 0, 1, 1},
		"present elsewhere": {[]sim.Digest{place(0, rules.Suits, 0, 0.1, 2), place(1, rules.Suits, 0, 0.1, 2)}, 7, 0, 0},
		"below none":        {[]sim.Digest{place(0, rules.Suits, 0, 0.1, 2)}, -1, 0, 0},
		"none is present":   {[]sim.Digest{place(0, rules.Suits, 0, 0.1, 2), place(1, rules.Suits, 0, 0.09, 2)}, 0, 1, 0},
	} {
		if got := Preferred(c.list); got != c.prefer {
			t.Errorf("%s: %d is preferred, want %d", name, got, c.prefer)
		}
		if got := Fitted(c.list, c.present); got != c.fitted {
			t.Errorf("%s: %d is fitted, want %d", name, got, c.fitted)
		}
	}
}

// A train set up as fitted is left as it is, from whatever set-up one comes.
func TestFittedIsLeft(t *testing.T) {
	s, trains := trial.Compile(t, "too-weak")
	tr := trains[0]
	var r sim.Result
	list, err := Curve(&tr, 30, sim.Options{}, &r, nil)
	if err != nil {
		t.Fatal(err)
	}
	for present := range 30 {
		in := s.Clone()
		in.Trains[0].Barrel.SetUpTurns = list[Fitted(list, present)].Spring.SetUp
		st, err := Run(t.Context(), in, 0)
		if err != nil || st.Advised != nil || math.Abs(st.Now.Spring.SetUp*12-math.Round(st.Now.Spring.SetUp*12)) > 1e-9 {
			t.Errorf("from %d clicks: %v, %+v", present, err, st.Finding)
		}
	}
}
