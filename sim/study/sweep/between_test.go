package sweep

import (
	"math"
	"testing"

	"evenpull/sim"
	"evenpull/sim/rules"

	"github.com/golang/geo/r1"
)

// judged is a point with a least and a mean torque where the need is 1: it stops below
// 1, is thin below 1.15, suits up to 1.6 and is strong up to 2.
func judged(least, mean float64) *Point {
	p := &Point{Digest: new(sim.Digest)}
	p.Standard = rules.NewStandard(1, rules.DefaultBands(), r1.EmptyInterval(), r1.EmptyInterval())
	p.Torque.Min, p.Torque.Mean = least, mean
	return p
}

// Between two changes the verdict is that of either, between a limit and an end that
// of a point there, and where no point can be built there is none.
func TestBetween(t *testing.T) {
	built := func(x float64, c rules.Code) Point {
		p := Point{Value: x, Digest: new(sim.Digest)}
		p.Verdict.Code = c
		return p
	}
	st := Study{
		Changes: []Change{{At: 2.5, Below: rules.Thin, Above: rules.Suits}, {At: 3.5, Below: rules.Suits, Above: rules.Strong}},
		Points:  []Point{{Value: 1, Fault: "too long"}, built(2, rules.Thin), built(3, rules.Suits), built(4, rules.Strong), {Value: 5, Fault: "too thick"}},
	}
	for _, c := range []struct {
		from, to float64
		want     rules.Code
		built    bool
	}{
		{1, 1.5, rules.Unjudged, false}, {1.5, 2.5, rules.Thin, true}, {2.5, 3.5, rules.Suits, true}, {3.5, 4.5, rules.Strong, true}, {4.5, 5, rules.Unjudged, false},
		{2, 2, rules.Thin, true}, {3, 3.2, rules.Suits, true}, {3.8, 4, rules.Strong, true},
	} {
		if got, ok := st.between(c.from, c.to); got != c.want || ok != c.built {
			t.Errorf("from %v to %v: %v, %v", c.from, c.to, got, ok)
		}
	}
}

// Of margins that change linearly the first to pass 0 is found, whichever it is; none
// where none does. The shares of the way are worked by hand.
func TestFirstPassing(t *testing.T) {
	without := judged(1, 1)
	without.Standard.Need = 0
	for name, c := range map[string]struct {
		a, b *Point
		want float64
	}{
		"thin to suits":       {judged(1.05, 1.2), judged(1.45, 1.5), 0.25},
		"suits to thin":       {judged(1.25, 1.3), judged(1.05, 1.2), 0.5},
		"suits to strong":     {judged(1.3, 1.5), judged(1.5, 1.9), 0.25},
		"strong first":        {judged(1.05, 1.5), judged(1.25, 1.9), 0.25},  // thin ends at 0.5
		"thin first":          {judged(1.10, 1.2), judged(1.50, 2.0), 0.125}, // strong begins at 0.5
		"stops, thin, suits":  {judged(0.9, 1.2), judged(1.3, 1.5), 0.25},
		"to overdriven":       {judged(1.5, 1.8), judged(1.6, 2.2), 0.5},
		"none":                {judged(1.3, 1.4), judged(1.35, 1.45), math.NaN()},
		"nothing is known of": {&Point{Digest: new(sim.Digest)}, &Point{Digest: new(sim.Digest)}, math.NaN()},
		"a limit of nothing":  {judged(0.9, 1.2), without, math.NaN()}, // the margin over a need of 0 has no bound
	} {
		if got := firstPassing(c.a, c.b); !(math.Abs(got-c.want) <= 1e-12) && !(math.IsNaN(got) && math.IsNaN(c.want)) {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}

// A change is found between two points no further apart than asked, and the first of
// several is. Every fourth step halves the bracket, so that it takes at most four
// runs a halving, however badly the margins are bent: here they jump, where false
// position gains next to nothing.
func TestChangeIsFoundInBoundedSteps(t *testing.T) {
	bent := map[string]func(x, border float64) float64{
		"straight": func(x, border float64) float64 { return 1 + (x - border) },
		"far above": func(x, border float64) float64 {
			return 1 + math.Copysign(1, x-border)*math.Exp(20*math.Copysign(1, x-border))
		},
		"far below":  func(x, border float64) float64 { return 1 - 1e-12 + 0.99*math.Min(0, math.Copysign(1, x-border)) },
		"cube":       func(x, border float64) float64 { return 1 + math.Pow(x-border, 3) },
		"cube root":  func(x, border float64) float64 { return 1 + math.Cbrt(x-border) },
		"both alike": func(x, border float64) float64 { return 1 + math.Copysign(0.5, x-border) },
	}
	const fine = 1e-6
	for name, torque := range bent {
		for _, border := range []float64{0.001, 0.1, 1 / math.Pi, 0.5, 0.77, 0.9999} {
			runs := 0
			f := finder{fine: fine, point: func(x float64) Point {
				runs++
				p := judged(torque(x, border), 1.2)
				p.Value, p.Verdict.Code = x, rules.Thin
				if x < border {
					p.Verdict.Code = rules.Stops
				}
				return *p
			}}
			lo, hi := f.change(f.point(0), f.point(1))
			most := 4 * (math.Ceil(math.Log2(1/fine)) + 1)
			if !(lo.Value < border && border <= hi.Value && hi.Value-lo.Value <= fine) || float64(runs) > most {
				t.Errorf("%s at %v: found from %v to %v in %d runs, at most %v", name, border, lo.Value, hi.Value, runs, most)
			}
		}
	}
}

// The edge of what can be built is found as closely, either way.
func TestEdge(t *testing.T) {
	f := finder{fine: 1e-6, point: func(x float64) Point {
		if x < 0.3 {
			return Point{Value: x, Fault: "too short"}
		}
		return Point{Value: x}
	}}
	in, out := f.edge(f.point(1), f.point(0))
	if !in.Built() || out.Built() || !(out.Value < 0.3 && in.Value >= 0.3 && in.Value-out.Value <= f.fine) {
		t.Errorf("%v can be built, %v cannot", in.Value, out.Value)
	}
}
