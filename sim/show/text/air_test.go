package text_test

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"evenpull/escapement"
	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/internal/trial/bench"
	"evenpull/sim/show/text"
	"evenpull/sim/stock"
	"evenpull/sim/study/beat"
	"evenpull/sim/study/choose"
	"evenpull/sim/study/rank"
	"evenpull/sim/study/setup"
)

// The parts of a page stand apart: each begins after one empty line, and nothing else
// does.
func TestPartsStandApart(t *testing.T) {
	s, trains := trial.Compile(t, "eight-day")
	b, err := beat.Follow(t.Context(), &trains[0], beat.Options{Start: escapement.SemiDegrees(3), Periods: 200})
	if err != nil {
		t.Fatal(err)
	}
	list := &stock.Stock{EndShakeMM: stock.EndShakeMM, Springs: []stock.Spring{{Label: "one", WidthMM: 32, ThicknessMM: 0.38, LengthMM: 1650, YieldMPa: math.NaN(), ModulusGPa: math.NaN(), MayBeCut: true}}}
	c, err := choose.Run(t.Context(), s, 0, list, choose.Options{Reserve: math.NaN(), EndShake: math.NaN()})
	if err != nil {
		t.Fatal(err)
	}
	r, err := rank.Run(t.Context(), s, 0, rank.Options{})
	if err != nil {
		t.Fatal(err)
	}
	u, err := setup.Run(t.Context(), s, 0)
	if err != nil {
		t.Fatal(err)
	}
	run, err := sim.RunClock(s, sim.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for name, page := range map[string]struct {
		write func(*bytes.Buffer) error
		parts string // first words
	}{
		"run":    {func(b *bytes.Buffer) error { return text.Run(b, run, text.Options{}) }, "Eight-day going torque fusee Assumed: Caution:"},
		"full":   {func(b *bytes.Buffer) error { return text.Run(b, run, text.Options{Full: true}) }, "Eight-day going torque arbor fusee Assumed, Caution:"},
		"beat":   {func(w *bytes.Buffer) error { return text.Beat(w, &b, text.Options{}) }, "going beat torque"},
		"coils":  {func(w *bytes.Buffer) error { return text.Coils(w, bench.Coils(4), text.Options{}) }, "going turns Of Caution:"},
		"choose": {func(w *bytes.Buffer) error { return text.Choose(w, c, text.Options{}) }, "going one spring to Caution:"},
		"rank":   {func(w *bytes.Buffer) error { return text.Rank(w, r, text.Options{}) }, "going going going Each Caution:"},
		"set-up": {func(w *bytes.Buffer) error { return text.SetUp(w, u, text.Options{}) }, "going set-up Caution:"},
	} {
		var firsts []string
		for _, part := range strings.Split(written(t, page.write), "\n\n") {
			if words := strings.Fields(part); len(words) > 0 {
				firsts = append(firsts, words[0])
			} else {
				firsts = append(firsts, "nothing")
			}
		}
		if got := strings.Join(firsts, " "); got != page.parts {
			t.Errorf("%s: %s", name, got)
		}
	}
}
