package spread

import (
	"io"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/outcome"
)

func TestPictures(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st := study(t, s, Options{Runs: 10_000, Seed: 1}, mainResults...)
	trial.Golden(t, "spread", func(w io.Writer, format string) error { return Plot(w, format, st) })

	draw := func(st *Study) string {
		return string(trial.Picture(t, "svg", func(w io.Writer, format string) error { return Plot(w, format, st) }))
	}
	// What is asked for is drawn; a result of one value only, and one that no run has.
	few := draw(study(t, s, Options{Runs: 50, Seed: 1}, outcome.Unevenness, "runtime_h", "blow_interval_s.mean"))
	if !strings.Contains(few, "unevenness") || !strings.Contains(few, "running time, h") || strings.Contains(few, "blow to blow") || strings.Contains(few, "NaN") {
		t.Error("a wrong picture")
	}
	if none := draw(study(t, s, Options{Runs: 50, Seed: 1}, "blow_interval_s.mean")); !strings.Contains(none, "no run has any of the results") {
		t.Error("no word about a picture of nothing")
	}
}
