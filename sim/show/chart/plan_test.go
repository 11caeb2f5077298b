package chart

import (
	"io"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/study/plan"
)

// planned are plans for inputs that each turn tells of alike, otherwise, and to both sides,
// and for two springs.
func planned(t testing.TB) map[string]plan.Options {
	t.Helper()
	weak, _ := trial.Compile(t, "too-weak")
	o := plan.Options{Error: nan, Power: nan, Law: plan.Usual()}
	of := func(key string) plan.Options {
		o := o
		o.Key = key
		return o
	}
	against := o
	against.Against = &plan.Other{Scenario: weak}
	return map[string]plan.Options{
		"thickness": of("going.mainspring.thickness_mm"), "flow": of("going.mainspring.yield_mpa"), "set-up": of("going.barrel.set_up_turns"), "against": against,
	}
}

func TestPlan(t *testing.T) {
	draw := func(name string) (*plan.Study, func(io.Writer, string) error) {
		s, _ := trial.Compile(t, "eight-day")
		st, err := plan.Run(t.Context(), s, 0, planned(t)[name])
		if err != nil {
			t.Fatal(err)
		}
		return st, usual(Plan, st)
	}
	_, picture := draw("thickness")
	trial.Golden(t, "plan", picture)
	st, picture := draw("against")
	svg := string(trial.Picture(t, "svg", picture))
	has(t, svg, "told apart, of 100", "3 run-downs", "10 run-downs", "the plan: ", "read by the plan", "more than the other")
	if strings.Contains(svg, "NaN") {
		t.Error("what is not known is drawn")
	}
	p := aloneOver(st)
	read := 0
	for i, pt := range p.layers[0].points {
		if pt.X != float64(st.At[i].FuseeTurn) || pt.Y != st.At[i].Slope {
			t.Errorf("turn %d at %v", i, pt)
		}
		if st.At[i].Read {
			if p.layers[1].points[read] != pt {
				t.Errorf("turn %d is read, and marked at %v", i, p.layers[1].points[read])
			}
			read++
		}
	}
	if read != len(st.Plan.Turns) || read != len(p.layers[1].points) {
		t.Errorf("%d turns are marked, %d read", len(p.layers[1].points), len(st.Plan.Turns))
	}
}
