package chart

import (
	"context"
	"math"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/study/rank"
	"evenpull/sim/study/shares"
	"evenpull/sim/vary"
)

func TestGoldenRank(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st, err := rank.Run(context.Background(), s, 0, rank.Options{Of: []outcome.Figure{resultNamed(t, outcome.MeanTorque), resultNamed(t, outcome.LeastReserve)}})
	if err != nil {
		t.Fatal(err)
	}
	trial.Golden(t, "rank", usual(Rank, st))
}

// In the order of the shares in all the bars are shares, alone and in all, of the inputs that
// have as much as counts, with the figure and its standard error beside them.
func TestRankInAllBars(t *testing.T) {
	input := func(words string, first, total float64) rank.Input {
		return rank.Input{Quantity: scenario.Quantity{Key: words, Words: words}, Plus: 1, Share: shares.Input{First: shares.Estimate{Value: first, Error: 0.001}, Total: shares.Estimate{Value: total, Error: 0.0031}}}
	}
	st := &rank.Study{Total: true, Rankings: []rank.Ranking{{Of: resultNamed(t, outcome.Unevenness), Value: 0.02, Inputs: []rank.Input{input("b", 0.4, 0.7), input("a", -0.01, 0.2), input("c", 0, rules.LeastShare/2), {Share: shares.Unknown()}}}}}
	st.Own.Name = "going"
	got := rankedInAll(st, &st.Rankings[0])
	want := []effect{{"b 70.0 ± 0.4 %", 40, 70}, {"a 20.0 ± 0.4 %", 0, 20}}
	if len(got.rows) != len(want) || got.x != "share of how far it may be off, %" || got.finding != "going train: the unevenness of the torque is 2.00 %; what makes most of how far it may be off is the b, 70.0 ± 0.4 % in all" || got.layers[len(got.layers)-1].label != "in figures: in all, ± standard error" {
		t.Fatalf("%+v", got)
	}
	for i, w := range want {
		alone, all := got.layers[2+2*i], got.layers[3+2*i]
		if got.rows[i].Label != w.name || alone.points[1].X != w.minus || all.points[1].X != w.plus {
			t.Errorf("bar %d is %q, %+v, %+v, want %+v", i, got.rows[i].Label, alone, all, w)
		}
	}
}

// The bars stand in the order of the ranking, in percent where the result is, and
// what does nothing has none.
func TestRankBars(t *testing.T) {
	input := func(key string, e, minus, plus float64) rank.Input {
		return rank.Input{Quantity: scenario.Quantity{Key: key, Words: strings.TrimPrefix(key, "going."), Unit: "mm"}, Error: scenario.ReadingError{Percent: 2}, Elasticity: vary.Slope{Value: e}, Minus: minus, Plus: plus}
	}
	r := rank.Ranking{Of: resultNamed(t, outcome.Unevenness), Value: 0.02, Inputs: []rank.Input{
		input("going.b", 3, -0.3, 0.1), input("going.a", 9, 0.05, math.NaN()), input("x.c", 2, math.NaN(), math.NaN()), input("x.d", 0, 1e-13, 0), input("x.e", 5, 0, 0),
	}}
	r.Inputs[1].Error = scenario.ReadingError{PlusMinus: 0.2}
	st := &rank.Study{Change: 0.02}
	st.Own.Name = "going"
	got := ranked(st, &r)
	want := []effect{{"b ±\u00a02\u00a0%", -30, 10}, {"a ±\u00a00.2\u00a0mm", 5, math.NaN()}}
	if len(got.rows) != len(want) || got.x != "change of the unevenness of the torque, %" || got.finding != "going train: the unevenness of the torque is 2.00 %; what moves it most is the b" {
		t.Fatalf("%+v", got)
	}
	for i, w := range want { // behind the two entries of the legend, two halves a bar
		less, more := got.layers[2+2*i], got.layers[3+2*i]
		if got.rows[i].Label != w.name || less.points[1].X != w.minus || (more.notes != nil) != math.IsNaN(w.plus) || more.notes == nil && more.points[1].X != w.plus {
			t.Errorf("bar %d is %q, %+v, %+v, want %+v", i, got.rows[i].Label, less, more, w)
		}
	}
}
