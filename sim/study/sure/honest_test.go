package sure

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"
)

// misread is a clock as somebody would describe it whose readings are off by their usual
// errors, and the clock itself: every input that was given is off, what is assumed is
// what the clock itself departs in. Nil where the description contradicts itself.
func misread(t *testing.T, number uint64) (said, clock *scenario.Scenario) {
	t.Helper()
	clock = trial.Invent(t, number)
	clock.Tolerances = nil
	said = clock.Clone()
	inputs, err := vary.Inputs(clock, 0)
	if err != nil {
		t.Fatal(err)
	}
	random := rand.New(rand.NewPCG(number, 7))
	for _, in := range inputs {
		for _, p := range in.Parts {
			place := random.NormFloat64()
			if p.Error.Even() {
				place = 2*random.Float64() - 1
			}
			of := said
			if in.Assumed {
				of = clock
			}
			v, err := of.Value(p.Quantity.Key)
			if err != nil {
				t.Fatal(err)
			}
			*v = min(max(p.Error.At(p.Value, place), p.Quantity.Lo), p.Quantity.Hi)
		}
	}
	if said.CheckTrain(0) != nil || clock.CheckTrain(0) != nil {
		return nil, nil
	}
	return said, clock
}

// A verdict called sure to so many in 100 is right as often: equal to that of the clock
// itself, over invented clocks that were described with reading errors. EVENPULL_TRIALS
// has another number of them.
func TestHonest(t *testing.T) {
	if testing.Short() {
		t.Skip("takes some seconds")
	}
	trials := 150
	if n, err := strconv.Atoi(os.Getenv("EVENPULL_TRIALS")); err == nil {
		trials = n
	}
	var called, right [11]float64
	var count [11]int
	asked, held := 0.0, 0.0 // called sure to 80–95 in 100, and right
	for number := range uint64(trials) {
		said, clock := misread(t, number)
		if said == nil {
			continue
		}
		is, err := sim.RunClock(clock, sim.Options{TorqueOnly: true})
		if err != nil {
			continue
		}
		told, err := sim.RunClock(said, sim.Options{TorqueOnly: true})
		if err != nil {
			continue
		}
		r := of(t, said, 0, Options{Draws: 400, Seed: int64(number), Brief: true})
		bin := int(r.Same * 10)
		count[bin]++
		called[bin] += r.Same
		ok := is.Trains[0].Verdict.Code == told.Trains[0].Verdict.Code
		if ok {
			right[bin]++
		}
		if r.Same >= 0.80 && r.Same <= 0.95 {
			if asked++; ok {
				held++
			}
		}
	}
	sum, all, n := 0.0, 0.0, 0
	for bin, k := range count {
		if k > 0 {
			t.Logf("called sure to %.0f in 100: right in %.0f, %d clocks", 100*called[bin]/float64(k), 100*right[bin]/float64(k), k)
		}
		sum, all, n = sum+called[bin], all+right[bin], n+k
	}
	share := held / asked
	t.Logf("called sure to 80 to 95 in 100: right in %.1f, %.0f clocks", 100*share, asked)
	// With few clocks the share itself is known to two of its standard errors only.
	if beside := 2 * math.Sqrt(0.86*0.14/asked); share < 0.75-beside || share > 0.97+beside {
		t.Errorf("%.0f clocks called sure to 80 to 95 in 100 are right in %.3f", asked, share)
	}
	if said := fmt.Sprintf("%d clocks called sure to %.3f, right in %.3f", n, sum/float64(n), all/float64(n)); n < trials/2 || sum/float64(n)-all/float64(n) > 0.1 || all/float64(n)-sum/float64(n) > 0.1 {
		t.Error(said)
	}
}
