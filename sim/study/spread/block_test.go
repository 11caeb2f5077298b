package spread

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/outcome"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"
)

// At most 32 keys at fault are counted apart: what is beyond is counted with the last,
// so that none is lost.
func TestFailuresAreBounded(t *testing.T) {
	var list []Failure
	for i := range 100 {
		list = count(list, Failure{Key: fmt.Sprint("key ", i%50), Why: "why", Runs: 1 + i%3})
	}
	total := 0
	for i, f := range list {
		total += f.Runs
		if f.Key != fmt.Sprint("key ", i) || f.Why != "why" {
			t.Errorf("%d: %+v", i, f)
		}
	}
	if len(list) != 32 || total != 33*1+33*2+33*3+1 || list[3].Runs != 1+3 {
		t.Errorf("%d keys, %d runs, %+v", len(list), total, list[3])
	}
}

// A fault keeps the words of the first run that had it; the most frequent comes first.
func TestFailures(t *testing.T) {
	var b block
	for _, f := range []scenario.Fault{{Key: "a", Found: "1"}, {Key: "b", Found: "2"}, {Key: "b", Found: "3"}} {
		b.fail(scenario.Faults{f})
	}
	first := vary.Why(scenario.Faults{{Key: "b", Found: "2"}})
	if len(b.failures) != 2 || b.failures[0].Runs != 1 || b.failures[1] != (Failure{"b", first, 2}) {
		t.Errorf("%+v", b.failures)
	}
	st := &Study{Failures: b.failures}
	st.finish()
	if st.Failures[0].Key != "b" || st.Failures[1].Key != "a" {
		t.Errorf("%+v", st.Failures)
	}
}

// The runs of a study are those that a scenario with the drawn values gives, drawn
// anew here from the stream of each block: 256 runs, then the next.
func TestRunsAreThoseDrawn(t *testing.T) {
	s := sample(t, "going.mainspring.width_mm 0.4", "going.mesh.centre.efficiency 0.01 uniform")
	const runs = 300
	of := []string{outcome.MeanTorque, "spring.stored_energy_j"}
	st := study(t, s, Options{Runs: runs, Seed: 5}, of...)
	keys := []string{st.Inputs[0].Quantity.Key, st.Inputs[1].Quantity.Key}
	m, err := vary.New(s, 0, vary.Length, keys...)
	if err != nil {
		t.Fatal(err)
	}
	sums, codes := make([]float64, len(of)), map[string]int{}
	for number := range 2 {
		var seed [32]byte
		seed[0], seed[8] = 5, byte(number)
		random := rand.New(rand.NewChaCha8(seed))
		for range min(256, runs-256*number) {
			var x [2]float64
			for k, in := range st.Inputs {
				if in.Shape == scenario.Uniform {
					x[k] = in.Value - in.PlusMinus + 2*in.PlusMinus*random.Float64()
				} else {
					x[k] = in.Value + in.SD()*random.NormFloat64()
				}
			}
			r, err := m.Run(x[:])
			if err != nil {
				t.Fatal(err)
			}
			codes[r.Verdict.Code.String()]++
			for k := range of {
				sums[k] += st.Results[k].Of.Of(&r.Digest)
			}
		}
	}
	for k := range of {
		if d := &st.Results[k]; math.Abs(d.Mean()/(sums[k]/runs)-1) > 1e-12 || d.N() != runs {
			t.Errorf("%s: mean %v of %d, drawn anew %v", d.Of.Name, d.Mean(), d.N(), sums[k]/runs)
		}
	}
	for c, n := range st.Verdicts {
		if codes[c.String()] != n {
			t.Errorf("%s: %d runs, drawn anew %d", c, n, codes[c.String()])
		}
	}
}

// The mean torque is in proportion to the width of a narrow spring and to the efficiency
// of a mesh without drag, so that by the delta method their shares are as the squares
// of their relative standard deviations: σ = a/2 of a normal tolerance, a/√3 of a
// uniform one (JCGM 100, 4.3.7).
func TestSharesOfProducts(t *testing.T) {
	s := sample(t, "going.mainspring.width_mm 0.2", "going.line.efficiency 0.004 uniform")
	if err := s.Apply([]string{"going.mainspring.bending=strip"}); err != nil {
		t.Fatal(err)
	}
	st := study(t, s, Options{Runs: 1}, outcome.MeanTorque, outcome.Unevenness)
	a := 0.1 / st.Inputs[0].Value
	b := 0.004 / math.Sqrt(3) / st.Inputs[1].Value
	if st.Inputs[0].PlusMinus != 0.2 || st.Inputs[0].Share == st.Inputs[1].Share {
		t.Errorf("%+v", st.Inputs)
	}
	whole := a*a + b*b
	for i, want := range []float64{a * a / whole, b * b / whole} {
		if got := st.Inputs[i].Share; math.Abs(got-want) > 1e-6 {
			t.Errorf("%s has a share of %v, want %v", st.Inputs[i].Quantity.Key, got, want)
		}
	}
	if got := st.DeltaSD / st.Results[0].Own; math.Abs(got/math.Sqrt(whole)-1) > 1e-6 {
		t.Errorf("the relative standard deviation is %v, want %v", got, math.Sqrt(whole))
	}
}

// From one run to the greatest number all are taken; progress is told after each
// block of 256 and at the end; what is refused names the train.
func TestNumbersOfRuns(t *testing.T) {
	s := sample(t, "going.mainspring.width_mm 0.2")
	var told []int
	st, err := Run(context.Background(), s, 0, Options{Runs: 600, Progress: func(done int) { told = append(told, done) }})
	if err != nil || fmt.Sprint(told) != "[256 512 600]" || st.Stopped() || st.Runs != 600 || st.Asked != 600 {
		t.Errorf("%v: told %v, %d runs", err, told, st.Runs)
	}
	if st, err := Run(context.Background(), s, 0, Options{Runs: 1}); err != nil || st.Runs != 1 || st.Results[0].N() != 1 {
		t.Errorf("one run: %v", err)
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := Run(ctx, s, 0, Options{Runs: MaxRuns}); !errors.Is(err, context.Canceled) {
		t.Errorf("%d runs: %v", MaxRuns, err)
	}
	s, _ = trial.Compile(t, "three-trains")
	s.Tolerances = nil
	if _, err := Run(context.Background(), s, 1, Options{Runs: 5}); !errors.Is(err, ErrNoTolerance) || !strings.HasSuffix(err.Error(), " striking") {
		t.Errorf("%v", err)
	}
}
