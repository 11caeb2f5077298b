package plan

import (
	"math"

	"evenpull/sim/bench/measure"
)

// promise is what a plan comes to, of turns by their place in the design.
func (st *Study) promise(turns []int, repeats int) Plan {
	d := &st.design
	a := d.sumsOf(turns)
	at := make([]int, len(turns))
	for i, t := range turns {
		at[i] = d.at[t]
	}
	runs, meter := math.Sqrt(d.runs(a)/float64(repeats)), math.Sqrt(d.byMeter(turns))
	p := Plan{Turns: at, Repeats: repeats, StandardError: math.Hypot(runs, meter), FromMeter: meter, Power: math.NaN()}
	freedom := repeats - 1
	if st.Options.Against != nil {
		freedom *= 2
		p.Power = power(runs, meter, freedom)
	}
	p.HalfWidth = measure.HalfWidth(runs, freedom, meter)
	return p
}
