package rank

import (
	"io"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/outcome"
)

func TestGoldenPicture(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st := study(t, s, 0, 0.01, outcome.MeanTorque, outcome.LeastReserve)
	trial.Golden(t, "rank", func(w io.Writer, format string) error { return Plot(w, format, st) })
}
