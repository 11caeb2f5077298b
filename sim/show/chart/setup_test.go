package chart

import (
	"context"
	"io"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/study/setup"
)

func TestSetUp(t *testing.T) {
	draw := func(name string) func(w io.Writer, format string) error {
		s, _ := trial.Compile(t, name)
		st, err := setup.Run(context.Background(), s, 0)
		if err != nil {
			t.Fatal(err)
		}
		return func(w io.Writer, format string) error { return SetUp(w, format, st) }
	}
	trial.Golden(t, "setup", draw("eight-day"))
	// A set-up with which the fusee cannot be wound is not on the axis.
	if svg := string(trial.Picture(t, "svg", draw("too-strong"))); strings.Contains(svg, "now, ") || !strings.Contains(svg, "best, ") {
		t.Error("a wrong picture")
	}
}
