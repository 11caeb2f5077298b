package text

import (
	"context"
	"fmt"
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
	st, err := spread.Run(context.Background(), s, 0, spread.Options{Runs: 3000, Seed: 1, Of: of})
	if err != nil {
		t.Fatal(err)
	}
	st.Asked++
	text := textOf(t, func(w io.Writer) error { return Spread(w, st, Options{}) })
	wantIn(t, text, "going train, 3000 runs: SUITS in 9", "- it is thin in", "! stopped early", "drawn value plus or minus shape of the variance",
		"result own mean sd 5 % 50 % 95 %", "two standard deviations", "Seed 1.", "let-down key")
	for i := range st.Inputs {
		in := &st.Inputs[i]
		key := words.Input(&in.Quantity, "going")
		want := strings.Fields(strings.Join([]string{key, fmt.Sprintf("%.6g", in.Value), in.Quantity.Unit, words.Figure(in.PlusMinus), in.Shape, words.SpreadShare(in)}, " "))
		if got := lineOf(t, text, key); !slices.Equal(got, want) {
			t.Errorf("%v, want %v", got, want)
		}
	}
	for i, first := range map[int]string{0: "unevenness,", 2: "mean", 3: "running"} {
		d := &st.Results[i]
		want := strings.Fields(d.Of.Words + " " + map[bool]string{true: "%", false: d.Of.Unit}[d.Of.Share])
		for _, v := range []float64{d.Own, d.Mean(), d.SD(), d.Quantile(0.05), d.Quantile(0.5), d.Quantile(0.95)} {
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
