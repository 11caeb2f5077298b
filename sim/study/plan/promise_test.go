package plan

import (
	"math"
	"math/rand/v2"
	"testing"

	"evenpull/sim/bench/book"
	"evenpull/sim/bench/measure"
	"evenpull/sim/bench/readings"
	"evenpull/sim/internal/trial"

	"gonum.org/v1/gonum/stat"
)

// bench takes readings of a torque that is known.
type bench struct {
	random *rand.Rand
	law    Law
	torque []float64 // N·m at every whole turn
}

// reads are run-downs of one spring at the turns of a plan: y_ij = T(θ_i) + b_j + e_ij, all
// by a meter that is out by a share, to its step.
func (b *bench) reads(p *Plan, meter float64) *book.Torque {
	t := &book.Torque{Train: "going", Spring: "S", MeterRelative: b.law.MeterRelative, MeterResolutionNM: b.law.MeterResolution}
	mean := stat.Mean(b.torque, nil)
	for range p.Repeats {
		list := make([]float64, p.Turns[len(p.Turns)-1]+1)
		for i := range list {
			list[i] = math.NaN()
		}
		whole := b.law.Offset * mean * b.random.NormFloat64()
		for _, i := range p.Turns {
			y := (b.torque[i] + whole + b.law.Scatter*mean*b.random.NormFloat64()) * (1 + meter)
			if step := b.law.MeterResolution; step > 0 {
				y = step * math.Round(y/step)
			}
			list[i] = y
		}
		t.RunningDown = append(t.RunningDown, list)
	}
	return t
}

func (b *bench) meter() float64 { return b.law.MeterRelative * (2*b.random.Float64() - 1) }

// The standard error promised is that of what the fit of record then finds: within 10 % of
// the standard deviation of 2000 fits to readings drawn by the law stated. What the fit
// itself tells of its error agrees with it too, in the mean of its variances.
func TestPromiseHolds(t *testing.T) {
	if testing.Short() {
		t.Skip("thousands of fits")
	}
	const experiments = 2000
	s, _ := trial.Compile(t, "eight-day")
	for name, c := range map[string]struct {
		key     string
		law     Law
		repeats int
	}{
		"thickness":             {thickness, Usual(), 3},
		"flow stress":           {flow, Usual(), 3},
		"efficiency":            {efficiency, Usual(), 3},
		"thickness, good meter": {thickness, Law{Scatter: 0.006, Offset: 0.004}, 2},
		"set-up, good meter":    {"going.barrel.set_up_turns", Law{Scatter: 0.002, Offset: 0.002}, 3},
		"thickness, fine step":  {thickness, Law{Scatter: 0.006, Offset: 0.004, MeterRelative: 0.005, MeterResolution: 0.005}, 4},
	} {
		t.Run(name, func(t *testing.T) {
			o := asked(c.key)
			o.Law, o.Repeats = c.law, c.repeats
			st := planned(t, o)
			b := bench{random: rand.New(rand.NewPCG(7, uint64(len(name)))), law: c.law}
			for _, at := range st.At {
				b.torque = append(b.torque, at.Torque)
			}
			var values, told []float64
			for range experiments {
				q := measure.SupplyOf(b.reads(&st.Plan, b.meter()))
				e, err := readings.Explain(t.Context(), readings.Spring{Supply: &q, MeterRelative: c.law.MeterRelative, MeterResolution: c.law.MeterResolution}, s, []string{c.key})
				if err != nil {
					t.Fatal(err)
				}
				values, told = append(values, e.Inputs[0].Value), append(told, math.Pow(e.Inputs[0].StandardError, 2))
			}
			sd := stat.StdDev(values, nil)
			t.Logf("%v in %d: promised %.5g, found %.5g (%.3f), told %.5g, mean off by %.3f of it", st.Plan.Turns, st.Plan.Repeats, st.Plan.StandardError, sd, st.Plan.StandardError/sd, math.Sqrt(stat.Mean(told, nil)), (stat.Mean(values, nil)-st.Value)/sd)
			closeTo(t, "promised", st.Plan.StandardError, sd, 0.1)
			closeTo(t, "told by the fit", math.Sqrt(stat.Mean(told, nil)), sd, 0.1)
		})
	}
}

// The same with a step of the meter, fine or coarse, of a torque that may stand anywhere
// between two steps: the figure of each experiment is the mean of the fits to its run-downs,
// to first order. Within 5 %: that the errors of one run-down's turns go together a little is
// left out.
func TestPromiseHoldsForSteps(t *testing.T) {
	const experiments = 20_000
	random := rand.New(rand.NewPCG(12, 12))
	for _, c := range []struct {
		step           float64
		turns, repeats int
	}{{0.005, 17, 3}, {0.01, 4, 3}, {0.02, 17, 3}, {0.02, 3, 10}, {0.05, 17, 4}, {0.05, 1, 2}} {
		o := asked(thickness)
		o.Law = Law{Scatter: 0.006, Offset: 0.004, MeterResolution: c.step}
		o.Turns, o.Repeats = c.turns, c.repeats
		st := planned(t, o)
		mean, squares := 0.0, 0.0
		for _, at := range st.At {
			mean += at.Torque / float64(len(st.At))
			if at.Read {
				squares += at.Slope * at.Slope
			}
		}
		var off []float64
		for range experiments {
			stands, sum := c.step*random.Float64(), 0.0
			for range c.repeats {
				whole := o.Law.Offset * mean * random.NormFloat64()
				for _, at := range st.At {
					if at.Read {
						x := at.Torque + stands + whole + o.Law.Scatter*mean*random.NormFloat64()
						sum += at.Slope * (c.step*math.Round(x/c.step) - at.Torque - stands) / squares / float64(c.repeats)
					}
				}
			}
			off = append(off, sum)
		}
		sd := stat.StdDev(off, nil)
		t.Logf("step %v, %v in %d: promised %.5g, found %.5g", c.step, st.Plan.Turns, c.repeats, st.Plan.StandardError, sd)
		closeTo(t, "promised", st.Plan.StandardError, sd, 0.05)
	}
}
