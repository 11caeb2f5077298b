package words_test

import (
	"math"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/show/words"
	"evenpull/sim/study/plan"
)

// Turns in a row are told by the first and the last, two by themselves.
func TestPlanAt(t *testing.T) {
	for want, turns := range map[string][]int{
		"0": {0}, "0 and 1": {0, 1}, "0 to 2": {0, 1, 2}, "0, 5 and 16": {0, 5, 16}, "0 to 2, 5, 6 and 9 to 12": {0, 1, 2, 5, 6, 9, 10, 11, 12}, "": nil,
	} {
		if got := words.PlanAt(turns); got != want {
			t.Errorf("%v: %q, want %q", turns, got, want)
		}
	}
}

// Each thing is said where it holds, and only there.
func TestPlanSays(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	weak, _ := trial.Compile(t, "too-weak")
	of := func(change func(*plan.Options)) *plan.Study {
		o := plan.Options{Key: "going.mainspring.thickness_mm", Error: math.NaN(), Power: math.NaN(), Law: plan.Usual()}
		change(&o)
		st, err := plan.Run(t.Context(), s, 0, o)
		if err != nil {
			t.Fatal(err)
		}
		return st
	}
	against := func(o *plan.Options) { o.Key, o.Against = "", &plan.Other{Scenario: weak} }
	for name, c := range map[string]struct {
		st       *plan.Study
		has, not []string
	}{
		"plain": {of(func(*plan.Options) {}),
			[]string{"going train: read turns 0 and 1 in 3 run-downs: the thickness of the mainspring is then known to 0.25", " mm), one standard error", "every turn, read as often: 0.24", "the meter's own error makes", "every other input as the scenario has it", "so few run-downs", "(common practice, no source)", "off by 1 % at most; its step is left out"},
			[]string{"takes", "enough to know", "one run-down", "so many", "one turn"}},
		"at once": {of(func(o *plan.Options) { o.Error = 0.005 }), []string{"read turn 0 in 3 run-downs: the thickness of the mainspring is then known to 0.268 %", "1 run-down would do for that error, yet three at least are planned: fewer do not show how run-downs differ"}, []string{"one run-down does not tell"}},
		"in one":  {of(func(o *plan.Options) { o.Error, o.Repeats = 0.005, 1 }), []string{"in 1 run-down:", "one run-down does not tell"}, []string{"would do"}},
		"reached": {of(func(o *plan.Options) { o.Error = 0.0025 }), []string{"going train: read"}, []string{"takes"}},
		"too few": {of(func(o *plan.Options) { o.Error, o.Repeats = 0.0025, 2 }), []string{"to know the thickness of the mainspring to 0.25 % takes 3 run-downs; read turns"}, nil},
		"never":   {of(func(o *plan.Options) { o.Error = 0.001 }), []string{"no number of run-downs is enough to know the thickness of the mainspring to 0.1 %; read"}, nil},
		"once":    {of(func(o *plan.Options) { o.Repeats, o.Turns = 1, 1 }), []string{"read turn 1 in 1 run-down:", "one run-down does not tell", "readings at one turn do not tell"}, []string{"the range that it"}},
		"often":   {of(func(o *plan.Options) { o.Repeats = 11 }), []string{"so many run-downs wear", "the range that it"}, []string{"so few"}},
		"all":     {of(func(o *plan.Options) { o.Turns = 17 }), []string{"read turns 0 to 16"}, []string{"every turn, read"}},
		"by law": {of(func(o *plan.Options) { o.Law = plan.Law{Scatter: 0.006, Offset: 0.001, MeterResolution: 0.01} }),
			[]string{"scatter by 0.6 % of the torque within a run-down, run-downs differ as wholes by 0.1 %; ", "off by 0 % at most, and reads in steps of 0.0100 N·m"}, []string{"common practice"}},
		"two springs": {of(against), []string{"read both springs at", "in 3 run-downs of each: > 99 of 100 such experiments tell them apart", weak.Title, "Student's t at 5 %", "its bound drops out"}, []string{"record --fit", "one turn"}},
		"once each":   {of(func(o *plan.Options) { against(o); o.Repeats = 1 }), []string{"that does not tell them apart"}, nil},
	} {
		said := words.PlanHead(c.st) + "\n" + strings.Join(words.PlanSays(c.st), "\n") + "\n" + strings.Join(words.PlanWarns(c.st), "\n")
		for _, want := range c.has {
			if !strings.Contains(said, want) {
				t.Errorf("%s: no %q in\n%s", name, want, said)
			}
		}
		for _, not := range c.not {
			if strings.Contains(said, not) {
				t.Errorf("%s: %q in\n%s", name, not, said)
			}
		}
		if c := words.PlanCautions(c.st)[0]; !strings.Contains(c, "let-down key") || !strings.Contains(c, "never let it go") {
			t.Errorf("%s: %s", name, c)
		}
	}
}
