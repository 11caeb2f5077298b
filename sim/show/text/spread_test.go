package text

import (
	"context"
	"io"
	"slices"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/outcome"
	"evenpull/sim/show/words"
	"evenpull/sim/study/spread"
)

func TestSpread(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	of, err := outcome.Several(outcome.Unevenness, "blow_interval_s.mean", outcome.MeanTorque, "runtime_h")
	if err != nil {
		t.Fatal(err)
	}
	st, err := spread.Run(context.Background(), s, 0, spread.Options{Runs: 3000, Seed: 1, Of: of, Shares: true})
	if err != nil {
		t.Fatal(err)
	}
	st.Asked++
	text := textOf(t, func(w io.Writer) error { return Spread(w, st, Options{Full: true}) })
	wantIn(t, text, "going train, 3000 runs: SUITS in 8", "- it is thin in", "! stopped early", "input value may be off by its alone in all", "! inputs act together: ",
		"result as it is mean strays half lie 95 % lie", "below between and", "two standard deviations", "With --seed 1 all", "let-down key")
	// The inputs stand in their order; those with nearly nothing of the variance below.
	lines := strings.Split(text[strings.Index(text, "  input"):], "\n")[1:]
	less := false
	for i := range st.Inputs {
		in := &st.Inputs[i]
		name := words.Input(in.Words, "going")
		if less = less || in.Share.Total.Value < 0.005; less {
			if below := text[strings.Index(text, "  less: "):]; !strings.Contains(strings.Join(strings.Fields(below), " "), name) {
				t.Errorf("no %s in %s", name, below)
			}
			continue
		}
		want := strings.Fields(strings.Join([]string{name, words.Drawn(in), in.Unit, words.Off(in.Parts[0].Error, in.Unit), words.DrawnBy(in), words.OfVariance(in.Share.First), words.OfVariance(in.Share.Total)}, " "))
		if got := strings.Fields(lines[i]); !slices.Equal(got, want) {
			t.Errorf("%v, want %v", got, want)
		}
	}
	if !less {
		t.Error("every input has some of the variance")
	}
	for i, first := range map[int]string{0: "unevenness", 2: "mean", 3: "running"} {
		d := &st.Results[i]
		want := strings.Fields(d.Of.Words + " " + map[bool]string{true: "%", false: d.Of.Unit}[d.Of.Share])
		for _, v := range []float64{d.Own, d.Mean(), d.SD(), d.Quantile(0.5), d.Quantile(0.025), d.Quantile(0.975)} {
			want = append(want, strings.Fields(words.Value(&d.Of.Quantity, v))...)
		}
		if got := lineOf(t, text, first); !slices.Equal(got, want) {
			t.Errorf("%v, want %v", got, want)
		}
	}
	if strings.Contains(text, "blow to blow") {
		t.Error("a result is listed that no run has")
	}
}
