package measure

import (
	"math"
	"math/rand/v2"
	"testing"

	"evenpull/sim/bench/book"
)

// flyTrials strike exactly as 1/interval² = slope·(torque − threshold), in
// meter100 with gravity 10 (closed form).
func flyTrials(slope, threshold float64, torques ...float64) []book.Trial {
	var trials []book.Trial
	for _, q := range torques {
		if q <= threshold {
			trials = append(trials, ran(1e3*q, false))
		} else {
			trials = append(trials, struck(1e3*q, 1/math.Sqrt(slope*(q-threshold))))
		}
	}
	return trials
}

func TestCadenceRecovered(t *testing.T) {
	const slope, threshold = 2.5, 0.3
	n := NeedOf(meter100(flyTrials(slope, threshold, 0.8, 0.28, 0.4, 0.6)...), 10)
	c := n.Cadence
	wantNear(t, "slope", c.Slope, slope, 1e-12)
	wantNear(t, "threshold", c.Threshold, threshold, 1e-12)
	wantNear(t, "r²", c.R2, 1, 1e-12)
	if c.N != len(n.Trials)-1 {
		t.Errorf("%d of %d trials timed, all but the second were", c.N, len(n.Trials))
	}
	for i, r := range c.Residuals {
		if (i == 1) != math.IsNaN(r) || math.Abs(r) > 1e-12 {
			t.Errorf("residual %d: %v", i, r)
		}
	}
	wantNear(t, "least", n.Bracket.Least, 0.34, 1e-12)
	for torque, how := range map[float64]How{0.4: Interpolated, 0.5: Interpolated, 0.6: Interpolated, 0.75: Interpolated, 0.8: Interpolated, 1.2: Extrapolated, 0.35: Extrapolated} {
		p := n.TorqueFor(1 / math.Sqrt(slope*(torque-threshold)))
		if !near(p.Torque, torque, 1e-9) || p.How != how && torque != 0.4 && torque != 0.8 {
			t.Errorf("%v N·m: %+v", torque, p)
		}
	}
	for _, interval := range []float64{0, -1, nan} {
		if p := n.TorqueFor(interval); p.How != Unknown || !math.IsNaN(p.Torque) {
			t.Errorf("interval %v: %+v", interval, p)
		}
	}
}

// TestStopsBefore: an interval that the line would give under a weight that does
// not strike is not struck at all.
func TestStopsBefore(t *testing.T) {
	trials := append(flyTrials(2.5, 0.3, 0.5, 0.6), ran(400, false))
	n := NeedOf(meter100(trials...), 10)
	slow := 1 / math.Sqrt(2.5*0.05) // at 0.35 N·m
	if p := n.TorqueFor(slow); p.How != StopsBefore || !near(p.Torque, 0.45, 1e-12) {
		t.Errorf("%+v", p)
	}
	// Where no weight is sure to strike there is no least to fall back on.
	unsure := NeedOf(meter100(append(trials, ran(700, false))...), 10)
	if p := unsure.TorqueFor(slow); p.How != Unknown || !math.IsNaN(p.Torque) {
		t.Errorf("%+v", p)
	}
	below := NeedOf(meter100(struck(500, 1), struck(1000, 0.9)), 10)
	if p := below.TorqueFor(10); p.How != Unknown || !math.IsNaN(p.Torque) {
		t.Errorf("a torque below 0: %+v", p)
	}
}

func TestOddCadences(t *testing.T) {
	one := NeedOf(meter100(struck(500, 1.5)), 10)
	if c := one.Cadence; !math.IsNaN(c.Slope) || !math.IsNaN(c.Threshold) || !math.IsNaN(c.R2) {
		t.Errorf("%+v", c)
	}
	if p := one.TorqueFor(1.5); p.How != Interpolated || p.Torque != 0.5 {
		t.Errorf("the trial itself: %+v", p)
	}
	if p := one.TorqueFor(1.4); p.How != Unknown {
		t.Errorf("a line through one point: %+v", p)
	}

	falling := NeedOf(meter100(struck(500, 1.0), struck(600, 1.2), struck(700, 1.4)), 10)
	if c := falling.Cadence; !(c.Slope < 0) || !math.IsNaN(c.Threshold) || len(c.Knots) != 1 || len(c.Pooled) != 1 {
		t.Errorf("%+v", c)
	}
	if p := falling.TorqueFor(0.5); p.How != Unknown {
		t.Errorf("beyond a falling line: %+v", p)
	}

	alike := NeedOf(meter100(struck(500, 1), struck(600, 1), struck(700, 1)), 10)
	if c := alike.Cadence; c.Slope != 0 || !math.IsNaN(c.Threshold) || !math.IsNaN(c.R2) || !near(c.Knots[0].Torque, 0.6, 1e-12) {
		t.Errorf("%+v", c)
	}
}

// TestBeyondTheLine: outside the trials the torque goes on from them without a
// step, though the outermost stand off the line.
func TestBeyondTheLine(t *testing.T) {
	// 1/interval² of 1, 1.1, 3 at 0.5, 0.6, 0.7 N·m.
	n := NeedOf(meter100(struck(500, 1), struck(600, 1/math.Sqrt(1.1)), struck(700, 1/math.Sqrt(3))), 10)
	if p := n.TorqueFor(1 / math.Sqrt(3.01)); p.How != Extrapolated || !near(p.Torque, 0.7+0.01/n.Cadence.Slope, 1e-9) {
		t.Errorf("%+v", p)
	}
	if p := n.TorqueFor(1 / math.Sqrt(0.99)); p.How != Extrapolated || !near(p.Torque, 0.5-0.01/n.Cadence.Slope, 1e-9) {
		t.Errorf("%+v", p)
	}
}

// TestPools: pairs of trials that struck alike are one knot each.
func TestPools(t *testing.T) {
	var trials []book.Trial
	for i := range 14 {
		trials = append(trials, struck(500+float64(10*i), 2-0.1*float64(i/2)))
	}
	n := NeedOf(meter100(trials...), 10)
	if len(n.Cadence.Pooled) != 7 {
		t.Fatal(n.Cadence.Pooled)
	}
}

// TestFasterTakesMore: whatever the trials, a quicker interval never takes less
// torque, and every knot gives itself back.
func TestFasterTakesMore(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 300 {
		var trials []book.Trial
		for range 2 + r.IntN(8) {
			q := 0.3 + r.Float64()
			trials = append(trials, struck(1e3*q, (0.9+0.2*r.Float64())/math.Sqrt(2*(q-0.2))))
		}
		n := NeedOf(meter100(trials...), 10)
		last := 0.0
		for interval := 5.0; interval > 0.2; interval *= 0.97 {
			p := n.TorqueFor(interval)
			if p.Torque < last-1e-12 {
				t.Fatalf("%v s: %+v after %v N·m", interval, p, last)
			}
			if p.How != Unknown {
				last = p.Torque
			}
		}
		for _, k := range n.Cadence.Knots {
			if p := n.TorqueFor(1 / math.Sqrt(k.Square)); !near(p.Torque, k.Torque, 1e-9) {
				t.Fatalf("knot %+v: %+v", k, p)
			}
		}
	}
}

// The origin of a torque is written as its comment has it.
func TestHowWords(t *testing.T) {
	for h, want := range map[How]string{Unknown: "unknown", Interpolated: "interpolated", Extrapolated: "extrapolated", StopsBefore: "stops_before"} {
		if h.String() != want {
			t.Errorf("%d: %q, want %q", h, h, want)
		}
	}
	if How(99).String() == "" {
		t.Error("an origin that is none has no words")
	}
}

// Trials of one torque beside each other pool to their mean, in any order, and keep
// what each trial is.
func TestPooledTrials(t *testing.T) {
	n := NeedOf(meter100(struck(700, 0.8), struck(500, 1), struck(600, 1.25), ran(300, false), struck(800, 0.7)), 10)
	c := n.Cadence
	if len(c.Knots) != 3 || len(c.Pooled) != 1 || len(c.Pooled[0]) != 2 || c.Pooled[0][0] != 1 || c.Pooled[0][1] != 2 {
		t.Fatalf("%+v", c)
	}
	for i, want := range []Knot{{Torque: 0.55, Square: (1 + 0.64) / 2}, {Torque: 0.7, Square: 1 / 0.64}, {Torque: 0.8, Square: 1 / 0.49}} {
		wantNear(t, "torque", c.Knots[i].Torque, want.Torque, 1e-12)
		wantNear(t, "1/interval²", c.Knots[i].Square, want.Square, 1e-12)
	}
	// Three that fall pool by their numbers, not two and two.
	falling := NeedOf(meter100(struck(500, 1), struck(600, 1.25), struck(700, 2)), 10).Cadence
	wantNear(t, "torque of three", falling.Knots[0].Torque, 0.6, 1e-12)
	wantNear(t, "1/interval² of three", falling.Knots[0].Square, (1+0.64+0.25)/3, 1e-12)
}
