package cut

import (
	"io"
	"testing"

	"evenpull/sim/internal/trial"
)

func TestPlot(t *testing.T) {
	plots := func(st *Study) func(io.Writer, string) error {
		return func(w io.Writer, format string) error { return Plot(w, format, st) }
	}
	trial.Golden(t, "plot", plots(study(t, "strike-quick", 0, Options{})))
	for _, format := range []string{"svg", "png", "pdf"} {
		for _, number := range []int{0, 1, 2} {
			if len(trial.Picture(t, format, plots(study(t, "three-trains", number, Options{})))) < 1000 {
				t.Errorf("%s of train %d is empty", format, number)
			}
		}
	}
}
