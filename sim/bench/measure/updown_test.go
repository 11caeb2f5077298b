package measure

import (
	"math"
	"math/rand/v2"
	"testing"

	"evenpull/sim/bench/book"
)

// sequence is up-and-down trials from a weight (g) in steps, with these outcomes.
func sequence(first, step float64, runs ...bool) (trials []book.Trial) {
	for _, r := range runs {
		trials = append(trials, ran(first, r))
		if first += step; r {
			first -= 2 * step
		}
	}
	return trials
}

const yes, no = true, false

// TestUpDown: worked by hand with the formulae of Dixon and Mood (from memory): five
// trials ran, at 2, 1, 0, 1 and 0 steps above 420 g, so that N = 5, A = 4, B = 6; the
// mean is 420 + 20 (4/5 − ½) g, and s = 1.620·20 ((5·6 − 4²)/5² + 0.029) g.
func TestUpDown(t *testing.T) {
	outcomes := []bool{no, no, no, yes, yes, yes, no, no, yes, yes}
	n := NeedOf(meter100(sequence(400, 20, outcomes...)...), 10)
	u := n.UpDown
	if u == nil || u.N != 5 || u.Coarse || n.Cadence != nil {
		t.Fatalf("%+v", u)
	}
	sd := 1.620 * 0.020 * ((5*6-4*4)/25.0 + 0.029)
	standard := precision(0.020/sd) * sd / math.Sqrt(5)
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"mean", u.Mean, 0.426}, {"sd", u.SD, sd}, {"step", u.Step, 0.020}, {"standard error", u.Standard, standard},
		{"need", n.Bracket.Least, 0.426}, {"its uncertainty", n.Bracket.Uncertainty, standard},
		{"lower end", n.Bracket.Between.Lo, 0.426 - 2.776445105*standard}, {"upper end", n.Bracket.Between.Hi, 0.426 + 2.776445105*standard}, // t of 4 degrees of freedom, tables
	} {
		wantNear(t, c.what, c.got, c.want, 1e-9)
	}
	if len(n.Bracket.Contrary) != 0 {
		t.Errorf("%+v", n.Bracket)
	}
	// One stop more, and the runs are fewer still; one run more, and the stops are: 400,
	// 420, 440, 400 and 420 g, 0, 1, 2, 0 and 1 steps above the lowest.
	for _, last := range []bool{no, yes} {
		u := NeedOf(meter100(sequence(400, 20, append(outcomes, last)...)...), 10).UpDown
		want := 0.426
		wantNear(t, "mean", u.Mean, want, 1e-12)
		wantNear(t, "sd", u.SD, sd, 1e-9)
	}
	// Alternating, the mean is half-way and nothing tells the spread: at most 0.53 of a
	// step, where Dixon and Mood's formula ends.
	u = NeedOf(meter100(sequence(400, 20, no, yes, no, yes, no, yes)...), 10).UpDown
	if u == nil || !u.Coarse || u.N != 3 {
		t.Fatalf("%+v", u)
	}
	wantNear(t, "mean", u.Mean, 0.41, 1e-12)
	wantNear(t, "sd", u.SD, 1.620*0.020*0.329, 1e-12)
	// An interval that would begin below nothing begins there.
	if b := NeedOf(meter100(sequence(40, 42, no, yes, no, yes, no, yes)...), 10).Bracket; b.Between.Lo != 0 {
		t.Errorf("%+v", b)
	}
}

// TestNotUpDown: trials that only look alike are judged by their bracket as ever.
func TestNotUpDown(t *testing.T) {
	for name, trials := range map[string][]book.Trial{
		"from light to heavy": {ran(400, no), ran(420, no), ran(440, no), ran(460, yes), ran(480, yes), ran(500, yes)},
		"two that ran":        sequence(400, 20, no, no, yes, no, yes, no),
		"two that stopped":    sequence(400, 20, yes, yes, no, yes, no, yes),
		"unequal steps":       {ran(400, no), ran(420, yes), ran(400, no), ran(425, yes), ran(400, no), ran(420, yes)},
		"up after a run":      {ran(400, no), ran(420, yes), ran(440, yes), ran(420, yes), ran(400, no), ran(420, no)},
		"down after a stop":   {ran(420, no), ran(400, yes), ran(420, no), ran(400, yes), ran(420, no), ran(400, yes)},
		"always the same":     {ran(400, no), ran(400, yes), ran(400, no), ran(400, yes), ran(400, no), ran(400, yes)},
		"one":                 {ran(400, no)},
	} {
		if n := NeedOf(meter100(trials...), 10); n.UpDown != nil {
			t.Errorf("%s: %+v", name, n.UpDown)
		}
	}
	struckly := append(sequence(400, 20, no, yes, no, yes, no, yes), struck(900, 1))
	if n := NeedOf(meter100(struckly...), 10); n.UpDown != nil || n.Cadence == nil {
		t.Errorf("%+v", n)
	}
	// Steps may differ by a hundredth, as weights do.
	rough := []book.Trial{ran(400, no), ran(420, yes), ran(400.1, no), ran(420, yes), ran(399.9, no), ran(420, yes)}
	if n := NeedOf(meter100(rough...), 10); n.UpDown == nil {
		t.Error("steps that differ by a hundredth are no sequence")
	}
}

// TestUpDownHoldsTheTruth: over invented sequences of a train whose least torque is
// normal from trial to trial, the mean has no bias, its scatter is the standard error,
// and the interval holds the truth (precision against simulation).
func TestUpDownHoldsTheTruth(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 48))
	for _, c := range []struct {
		step  float64 // in units of the standard deviation
		cover float64
	}{{0.5, 0.86}, {0.75, 0.88}, {1, 0.90}, {1.5, 0.93}, {2, 0.95}} {
		const records, length = 1500, 40
		held, sum, squares := 0, 0.0, 0.0
		for range records {
			at, mean := 100.0, 100+c.step*(2*r.Float64()-1)
			var trials []Trial
			for range length {
				runs := at >= mean+r.NormFloat64()
				trials = append(trials, Trial{Torque: at, Runs: runs})
				if at += c.step; runs {
					at -= 2 * c.step
				}
			}
			u := upDownOf(trials)
			if b := u.bracket(); b.Between.Contains(mean) {
				held++
			}
			sum, squares = sum+u.Mean-mean, squares+(u.Mean-mean)*(u.Mean-mean)
		}
		sd, want := math.Sqrt(squares/records), precision(c.step)/math.Sqrt(length/2)
		if math.Abs(sum/records) > 3.5*sd/math.Sqrt(records) || math.Abs(sd/want-1) > 0.08 || float64(held)/records < c.cover {
			t.Errorf("steps of %v: out by %.4f in the mean, scatter %.4f for %.4f, %d of %d held", c.step, sum/records, sd, want, held, records)
		}
	}
}

// TestPrecision: with steps that vanish all trials stand at the mean, where a trial has
// the information φ(0)²/¼ = 2/π, so that G = √(π/4) (closed form); it grows with the
// step (Dixon and Mood's figure, from memory: near 1 at a step of one standard
// deviation).
func TestPrecision(t *testing.T) {
	wantNear(t, "vanishing steps", precision(1e-3), math.Sqrt(math.Pi/4), 1e-3)
	wantNear(t, "a step of one standard deviation", precision(1), 1, 0.01)
	for step := 0.1; step < 2; step += 0.1 {
		if !(precision(step+0.1) > precision(step)) {
			t.Errorf("%v at %v", precision(step+0.1), step+0.1)
		}
	}
}
