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
	"evenpull/sim/study/rank"
)

func TestRank(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	of, err := outcome.Several(outcome.MeanTorque, outcome.Unevenness, "blow_interval_s.mean")
	if err != nil {
		t.Fatal(err)
	}
	st, err := rank.Run(context.Background(), s, 0, rank.Options{Of: of, Shares: true})
	if err != nil {
		t.Fatal(err)
	}
	text := textOf(t, func(w io.Writer) error { return Rank(w, st, Options{Full: true, Width: 96}) })
	wantIn(t, text, "the mean torque at the fusee is 0.423 N·m; what moves it most input value moved by less makes more makes by 1 % alone in all", "± 0.01 mm", "! inputs act together: of how far the unevenness",
		"the unevenness of the torque is 2.01 %; what moves it most", "interval from blow to blow is – s; what moves it most", "others, which --format csv lists", "Whole numbers", "eye protection")
	// In the order of the shares in all these stand with their errors, and it says so.
	st.Total = true
	if total := textOf(t, func(w io.Writer) error { return Rank(w, st, Options{Full: true, Width: 96}) }); strings.Contains(total, "what moves it most") {
		t.Error(total)
	} else {
		in := st.Rankings[1].Inputs[0]
		wantIn(t, total, "the unevenness of the torque is 2.01 %; what makes most of how far it may be off", words.ShareAndError(in.Share.Total), "in the order of what each makes in all")
	}
	st.Total = false
	// The rows are the first sixteen of the ranking, in its order; those that follow
	// stand below, and all that has an effect stands somewhere.
	lines := strings.Split(text, "\n")
	r := &st.Rankings[0]
	for i := range 16 {
		in := &r.Inputs[i]
		want := append(strings.Fields(words.Input(in.Quantity.Words, "going")), fmt.Sprintf("%.6g", in.Value))
		want = append(want, strings.Fields(strings.Join([]string{in.Quantity.Unit, words.RankMoved(in), words.Changed(&r.Of.Quantity, in.Minus), words.Changed(&r.Of.Quantity, in.Plus), words.RankElasticity(in), words.OfVariance(in.Share.First), words.OfVariance(in.Share.Total)}, " "))...)
		if got := strings.Fields(lines[2+i]); !slices.Equal(got, want) {
			t.Errorf("row %d: %v, want %v", i, got, want)
		}
	}
	moving, below := 0, strings.Join(strings.Fields(text[strings.Index(text, "  less: "):strings.Index(text, "  no effect: ")]), " ")
	for i := range r.Inputs {
		in := &r.Inputs[i]
		if !r.Moves(in) {
			continue
		}
		if moving++; moving > 16 && !strings.Contains(below, words.Input(in.Quantity.Words, "going")) {
			t.Errorf("no %s in %s", in.Quantity.Key, below)
		}
	}
	if strings.HasSuffix(below, ",") || strings.Count(below, ",") != moving-17 {
		t.Errorf("%d have an effect; %s", moving, below)
	}
	wantIn(t, text, fmt.Sprintf("no effect: %d others", len(r.Inputs)-moving))
}
