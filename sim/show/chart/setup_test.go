package chart

import (
	"context"
	"io"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/outcome"
	"evenpull/sim/study/setup"
)

func TestSetUp(t *testing.T) {
	draw := func(name string, marks ...string) func(w io.Writer, format string) error {
		s, _ := trial.Compile(t, name)
		st, err := setup.Run(context.Background(), s, 0)
		if err != nil {
			t.Fatal(err)
		}
		p := overSetUp(st, "unevenness, %", outcome.Unevenness)
		if len(p.layers) != 1+len(marks) || p.height != lowPlot {
			t.Fatalf("%s: %+v", name, p)
		}
		for i, want := range marks {
			if l := p.layers[1+i]; !strings.HasPrefix(l.label, want+", ") {
				t.Errorf("%s: mark %d is %s, want %s", name, i, l.label, want)
			}
		}
		return usual(SetUp, st)
	}
	trial.Golden(t, "setup", draw("eight-day", "now", "best"))
	// A set-up with which the fusee cannot be wound stands where the spring binds.
	if svg := string(trial.Picture(t, "svg", draw("too-strong", "now", "best"))); !strings.Contains(svg, "now, ") || !strings.Contains(svg, "best, ") || !strings.Contains(svg, "the spring binds") || strings.Contains(svg, "advice.") {
		t.Error("a wrong picture")
	}
	// What is advised is marked as the best, and the most even beside it.
	s, _ := trial.Compile(t, "eight-day")
	st, err := setup.Run(context.Background(), s, 0)
	if err != nil {
		t.Fatal(err)
	}
	st.Advised = &st.Curve[len(st.Curve)-1]
	p := overSetUp(st, "unevenness, %", outcome.Unevenness)
	for i, want := range []string{"now, ", "most even, ", "advised, "} {
		if l := p.layers[1+i]; !strings.HasPrefix(l.label, want) || (l.points[0].X == st.Advised.Spring.SetUp) != (i == 2) {
			t.Errorf("mark %d is %s at %v", i, l.label, l.points)
		}
	}
}
