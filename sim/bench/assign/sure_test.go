package assign

import (
	"context"
	"errors"
	"math"
	"runtime"
	"slices"
	"testing"

	"evenpull/sim"
	"evenpull/sim/rules"

	"github.com/golang/geo/r1"
	"gonum.org/v1/gonum/stat/distuv"
)

const draws = 20_000

// one is one spring in one train that needs 1 N·m.
func one(t *testing.T, n Need, least, mean, share float64) *Pair {
	t.Helper()
	p := Pair{Digest: sim.Unknown(), share: share}
	p.Torque.Min, p.Torque.Mean = least, mean
	p.JudgeBy(n.Standard)
	st := &Study{Springs: []string{"A"}, Needs: []Need{n}, Pairs: []Pair{p}}
	st.choose()
	if err := st.Draw(t.Context(), draws, 1); err != nil || st.Sure != 1 {
		t.Fatalf("the only choice is sure to %v, %v", st.Sure, err)
	}
	return &st.Pairs[0]
}

// The shares of the verdicts are those of the normal distribution of the torque and of the
// rectangular one of the need between the weights (closed forms; bands of common
// practice, no source).
func TestShares(t *testing.T) {
	nan := math.NaN()
	needs := func(lo, hi float64, weighed bool) Need {
		return Need{Standard: rules.NewStandard(1, rules.DefaultBands(), r1.EmptyInterval(), r1.EmptyInterval()), Between: r1.Interval{Lo: lo, Hi: hi}, Weighed: weighed}
	}
	band := Need{Standard: rules.NewStandard(nan, rules.DefaultBands(), r1.Interval{Lo: 0.3, Hi: 1}, r1.EmptyInterval()), Between: r1.IntervalFromPoint(nan), Weighed: true}
	below := func(x, share float64) float64 { return distuv.UnitNormal.CDF((x - 1) / (share / 1.96)) }
	for name, c := range map[string]struct {
		n                 Need
		least, mean       float64
		share             float64
		code, next        rules.Code
		same, other, suit float64
	}{
		"far from every border":      {needs(0.99, 1.01, true), 1.3, 1.4, 0.02, rules.Suits, rules.Unjudged, 1, 0, 1},
		"thin at the lower torque":   {needs(1, 1, true), 1.16, 1.3, 0.02, rules.Suits, rules.Thin, 1 - below(1.15/1.16, 0.02), below(1.15/1.16, 0.02), 1 - below(1.15/1.16, 0.02)},
		"strong at the upper torque": {needs(1, 1, true), 1.5, 1.58, 0.02, rules.Suits, rules.Strong, below(1.6/1.58, 0.02), 1 - below(1.6/1.58, 0.02), below(1.6/1.58, 0.02)},
		"thin at the upper need":     {needs(0.97, 1.03, true), 1.16, 1.3, 1e-6, rules.Suits, rules.Thin, (1.16/1.15 - 0.97) / 0.06, (1.03 - 1.16/1.15) / 0.06, (1.16/1.15 - 0.97) / 0.06},
		"thin for sure":              {needs(0.97, 1.03, true), 1.07, 1.3, 0.001, rules.Thin, rules.Unjudged, 1, 0, 0},
		"nothing stopped":            {needs(0, 1, true), 1.16, 1.4, 1e-6, rules.Suits, rules.Unjudged, 1, 0, 1},
		"read once":                  {needs(1, 1, true), 1.16, 1.3, nan, rules.Suits, rules.Thin, 1 - below(1.15/1.16, 0.01), below(1.15/1.16, 0.01), 1 - below(1.15/1.16, 0.01)},
		"within a wide band":         {band, 0.6, 0.75, 0.45, rules.Suits, rules.Strong, below(1/0.75, 0.45) - below(0.5, 0.45), below(1.25/0.75, 0.45) - below(1/0.75, 0.45), below(1/0.75, 0.45) - below(0.5, 0.45)},
	} {
		p := one(t, c.n, c.least, c.mean, c.share)
		s := &p.Verdict.Sureness
		if p.Verdict.Code != c.code || s.Else != c.next || s.Draws != draws {
			t.Errorf("%s: %v, else %v of %d", name, p.Verdict.Code, s.Else, s.Draws)
		}
		for _, d := range [][2]float64{{s.Same, c.same}, {s.ElseIn, c.other}, {s.Suits, c.suit}} {
			if math.Abs(d[0]-d[1]) > 4*math.Sqrt(d[1]*(1-d[1])/draws)+1e-9 {
				t.Errorf("%s: %v, want %v", name, d[0], d[1])
			}
		}
	}
}

// Of two springs that differ by d in the mean, each read to a standard deviation σ, the
// one that is nearer to the middle is it with the probability Φ(d/(σ√2)).
func TestSureOfTheChoice(t *testing.T) {
	n := Need{Standard: rules.NewStandard(1, rules.DefaultBands(), r1.EmptyInterval(), r1.EmptyInterval()), Between: r1.IntervalFromPoint(1), Weighed: true}
	st := &Study{Springs: []string{"A", "B"}, Needs: []Need{n}}
	for _, mean := range []float64{1.50, 1.51} {
		p := Pair{Digest: sim.Unknown(), share: 0.0196}
		p.Torque.Min, p.Torque.Mean = 1.3, mean
		p.JudgeBy(n.Standard)
		p.Off = n.off(mean)
		st.Pairs = append(st.Pairs, p)
	}
	st.choose()
	if err := st.Draw(t.Context(), draws, 2); err != nil || st.Best[0] != 0 {
		t.Fatalf("%v, %v", st.Best, err)
	}
	want := distuv.UnitNormal.CDF(0.01 / (0.015 * math.Sqrt2))
	if math.Abs(st.Sure-want) > 0.015 { // the deviations are shares of 1.50 and of 1.51
		t.Errorf("sure to %v, want %v", st.Sure, want)
	}
	ended, stop := context.WithCancel(t.Context())
	stop()
	if err := st.Draw(ended, 10, 1); !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
}

// The same seed gives the same shares on any number of cores; a spring that was read in
// another train is less well known there.
func TestSameSeed(t *testing.T) {
	b, s := sample(t)
	st, again := study(t, b, s), study(t, b, s)
	for i, st := range []*Study{st, again} {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(i + 1))
		if err := st.Draw(t.Context(), 500, 1); err != nil {
			t.Fatal(err)
		}
	}
	for i := range st.Pairs {
		if p := &st.Pairs[i]; p.Verdict.Sureness != again.Pairs[i].Verdict.Sureness {
			t.Errorf("%s in %s: %+v, then %+v", p.Label, p.Train, p.Verdict.Sureness, again.Pairs[i].Verdict.Sureness)
		}
	}
	if st.Sure != again.Sure || st.Settles != again.Settles {
		t.Errorf("sure to %v and %v, settled by %+v and %+v", st.Sure, again.Sure, st.Settles, again.Settles)
	}
}

// What would settle a choice makes it surer, and is a reading of what is in question.
func TestSettles(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	b, s := sample(t)
	for i := range b.Torques { // one run-down, with a meter that is off by up to a tenth
		b.Torques[i].RunningDown, b.Torques[i].WindingUp, b.Torques[i].MeterRelative = b.Torques[i].RunningDown[:1], nil, 0.1
	}
	st := study(t, b, s)
	if err := st.Draw(t.Context(), 500, 1); err != nil {
		t.Fatal(err)
	}
	r := st.Settled()
	if r == nil || !(r.Sure > st.Sure) || st.Sure >= sim.SureEnough {
		t.Fatalf("sure to %v, %+v", st.Sure, r)
	}
	if (r.What == Weights) != (r.Spring == "") || !slices.ContainsFunc(st.Needs, func(n Need) bool { return n.Train == r.Train }) {
		t.Errorf("%+v", r)
	}
}
