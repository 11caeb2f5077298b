package setup

import (
	"io"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
)

func TestGoldenPicture(t *testing.T) {
	draw := func(st *Study) func(w io.Writer, format string) error {
		return func(w io.Writer, format string) error { return Plot(w, format, st) }
	}
	trial.Golden(t, "setup", draw(search(t, "eight-day", 0)))
	// A set-up with which the fusee cannot be wound is not on the axis.
	if svg := string(trial.Picture(t, "svg", draw(search(t, "too-strong", 0)))); strings.Contains(svg, "now, ") || !strings.Contains(svg, "best, 0.68 turns") {
		t.Error("a wrong picture")
	}
}
