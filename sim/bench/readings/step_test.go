package readings

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"evenpull/sim/bench/book"
	"evenpull/sim/bench/measure"
	"evenpull/sim/internal/trial"

	"gonum.org/v1/gonum/stat"
)

// The error told is how far the fit strays where readings stray by more than half the step of
// the meter, so that its errors average over repeats; where they stray by less it is no less
// and at most a quarter more, since a few run-downs do not tell well how far they stray; so it
// is with a step that is so coarse that all turns read alike. The readings stray by some
// 0.003 N·m, and the cone is even to 0.008 N·m. Clocks of many thicknesses are drawn, so that
// the torque stands anywhere between two steps.
func TestErrorsOfTheStep(t *testing.T) {
	if testing.Short() {
		t.Skip("thousands of fits")
	}
	s, _ := trial.Compile(t, "eight-day")
	n := trials(t, 600)
	for _, repeats := range []int{2, 4} {
		for step, most := range map[float64]float64{0: 1.04, 0.005: 1.04, 0.01: 1.15, 0.02: 1.3, 0.05: 1.2} {
			random := rand.New(rand.NewPCG(uint64(repeats), math.Float64bits(step)))
			b := bench{random, 0.006, 0.004, 0}
			var off, told []float64
			for range n {
				thickness := 0.37 + 0.02*random.Float64()
				r := trial.RunOf(t, with(t, s, "going.mainspring.thickness_mm="+strconv.FormatFloat(thickness, 'g', -1, 64)), 0)
				all := &book.Book{Torques: []book.Torque{b.torque(read(r, "going", 1, false, same).RunningDown[0], "S", repeats, 1)}}
				all.Torques[0].MeterResolutionNM = step
				for _, list := range all.Torques[0].RunningDown {
					for i := range list {
						if step > 0 {
							list[i] = step * math.Round(list[i]/step)
						}
					}
				}
				e, err := Explain(t.Context(), Spring{&measure.Of(all, 9.8).Supplies[0], 0, step}, s, []string{"going.mainspring.thickness_mm"})
				if err != nil {
					t.Fatal(err)
				}
				off, told = append(off, e.Inputs[0].Value-thickness), append(told, e.Inputs[0].StandardError*e.Inputs[0].StandardError)
			}
			strays, says := math.Sqrt(stat.MomentAbout(2, off, 0, nil)), math.Sqrt(stat.Mean(told, nil))
			what := fmt.Sprintf("step %v N·m, %d repeats", step, repeats)
			t.Logf("%s: strays by %.3g mm, told %.3g mm (%.3f)", what, strays, says, says/strays)
			if says < 0.94*strays || says > most*strays {
				t.Errorf("%s: strays by %v, told %v", what, strays, says)
			}
		}
	}
}
