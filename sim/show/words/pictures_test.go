package words_test

import (
	"context"
	"math"
	"strings"
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/outcome"
	"evenpull/sim/show/words"
	"evenpull/sim/study/setup"
	"evenpull/sim/study/sweep"
)

// The sentence above a run has the verdict, how sure it is where that is known, and what
// makes it.
func TestFoundRun(t *testing.T) {
	for name, want := range map[string]string{
		"eight-day":  "going train: SUITS: mean 1.28 and least 1.26 times the need",
		"too-weak":   "going train: STOPS: mean 1.08 and least 0.705 times the need; running down it stops at turn 14.06 of 16 (day 8)",
		"too-strong": "going train: OVERDRIVEN: mean 2.27 and least 1.98 times the need; the spring binds, and 2.43 fusee turns are lost",
	} {
		_, trains := trial.Compile(t, name)
		d := trial.Run(t, trains)[0].Digest
		if got := words.FoundRun(&d); got != want {
			t.Errorf("%s: %s", name, got)
		}
	}
	_, trains := trial.Compile(t, "eight-day")
	d := trial.Run(t, trains)[0].Digest
	d.Verdict.Sureness = sim.Sureness{Draws: 400, Same: 0.84}
	if got := words.FoundRun(&d); !strings.HasPrefix(got, "going train: SUITS, sure to 84 in 100: mean") {
		t.Error(got)
	}
	if d.Need.Used = math.NaN(); !strings.HasSuffix(words.FoundRun(&d), ": mean 0.423, least 0.416 N·m") {
		t.Error(words.FoundRun(&d))
	}
}

// The sentence above a sweep tells where the train suits.
func TestFoundSweep(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	of, err := outcome.Named(outcome.MeanTorque)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		from, to float64
		want     string
	}{
		{0.285, 0.475, "it suits from 0.365 mm to 0.414 mm"}, {0.38, 0.45, "it suits below 0.414 mm"}, {0.34, 0.4, "it suits above 0.365 mm"},
		{0.38, 0.4, "it suits wherever in the range it can be built"}, {0.2, 0.3, "it suits nowhere here"},
	} {
		axis := sweep.Axis{Key: "going.mainspring.thickness_mm", From: c.from, To: c.to, Steps: 15}
		st, err := sweep.Run(context.Background(), s, 0, sweep.Options{Over: axis, Of: of})
		if err != nil {
			t.Fatal(err)
		}
		if got := words.FoundSweep(st); got != "going train: SUITS at 0.38 mm; "+c.want {
			t.Errorf("%v to %v: %s", c.from, c.to, got)
		}
	}
	st, err := sweep.Run(context.Background(), s, 0, sweep.Options{Over: sweep.Axis{Key: "going.mainspring.thickness_mm", From: 0.37, To: 0.39, Steps: 2}, Against: &sweep.Axis{Key: "going.mainspring.width_mm", From: 31, To: 32, Steps: 2}, Of: of})
	if got := words.FoundSweep(st); err != nil || got != "going train: mean torque at the fusee; it suits as it is, and over 75 % of the area" {
		t.Errorf("%s, %v", got, err)
	}
}

// Neither a headline nor a picture has a use for keys.
func TestFoundWithoutKeys(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st, err := setup.Run(context.Background(), s, 0)
	if err != nil {
		t.Fatal(err)
	}
	if head, found := words.SetUpHead(st), words.FoundSetUp(st); strings.ContainsAny(found, "()_") || head != found {
		t.Errorf("%s\n%s", head, found)
	}
}
