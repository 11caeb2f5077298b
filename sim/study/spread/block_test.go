package spread

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

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
	var parts []vary.Part
	for _, in := range st.Inputs {
		parts = append(parts, in.Parts...)
	}
	keys := make([]string, len(parts))
	for i, p := range parts {
		keys[i] = p.Quantity.Key
	}
	m, err := vary.Reading(s, 0, vary.Length, keys...)
	if err != nil {
		t.Fatal(err)
	}
	sums, codes := make([]float64, len(of)), map[string]int{}
	for number := range 2 {
		var seed [32]byte
		seed[0], seed[8] = 5, byte(number)
		random := rand.New(rand.NewChaCha8(seed))
		for range min(256, runs-256*number) {
			x := make([]float64, len(parts))
			for k, p := range parts {
				if e := p.Error; e.Uniform {
					x[k] = p.Value - e.PlusMinus + 2*e.PlusMinus*random.Float64()
				} else {
					x[k] = p.Value + e.PlusMinus/2*random.NormFloat64()
				}
			}
			r, err := m.Run(x)
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
}
