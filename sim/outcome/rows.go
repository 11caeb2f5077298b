package outcome

import (
	"math"

	"evenpull/sim"
)

// rows are the figures that stand in the rows of a run, over the run.
func rows() []Outcome {
	var all []Outcome
	over := func(name, words, unit string, of func(*sim.Result) sim.Spread) {
		all = append(all,
			Outcome{Name: name + ".mean", Words: "mean " + words, Unit: unit, Of: func(r *sim.Result) float64 { return of(r).Mean }},
			Outcome{Name: name + ".min", Words: "least " + words, Unit: unit, Of: func(r *sim.Result) float64 { return of(r).Min }},
			Outcome{Name: name + ".max", Words: "greatest " + words, Unit: unit, Of: func(r *sim.Result) float64 { return of(r).Max }})
	}
	over("amplitude_deg", "semi-arc of the pendulum", "°", func(r *sim.Result) sim.Spread { return scaled(r.Swing.Amplitude, sim.Degrees(1)) })
	over("rate_s_per_day", "rate against the pendulum's own beat", "s/day", func(r *sim.Result) sim.Spread { return scaled(r.Swing.Rate, perDay) })
	over("blow_interval_s", "interval from blow to blow", "s", func(r *sim.Result) sim.Spread { return r.Cadence.Interval })
	over("fly_rev_per_s", "speed of the fly", "turns/s", func(r *sim.Result) sim.Spread { return r.Cadence.Fly })
	over("strike_twelve_s", "length of a strike of twelve", "s", func(r *sim.Result) sim.Spread { return r.Cadence.Twelve })
	over("spring_torque_nm", "torque of the spring", "N·m", ofRows(func(row *sim.Row) float64 { return row.SpringTorque }))
	over("line_tension_n", "tension of the line", "N", ofRows(func(row *sim.Row) float64 { return row.LineTension }))
	over("winding_torque_nm", "torque that winding takes", "N·m", ofRows(func(row *sim.Row) float64 { return row.WindingTorque }))
	over("escape_torque_nm", "torque at the escape wheel", "N·m", func(r *sim.Result) sim.Spread {
		if !r.Train.Escapes {
			return sim.Spread{Mean: math.NaN(), Min: math.NaN(), Max: math.NaN()}
		}
		return ofRows(func(row *sim.Row) float64 { return row.LastTorque })(r)
	})
	return all
}

func scaled(s sim.Spread, unit float64) sim.Spread {
	return sim.Spread{Mean: s.Mean * unit, Min: s.Min * unit, Max: s.Max * unit}
}

// ofRows gathers a quantity from the rows, its mean by trapezia.
func ofRows(of func(*sim.Row) float64) func(*sim.Result) sim.Spread {
	return func(r *sim.Result) sim.Spread {
		first := of(&r.Rows[0])
		s := sim.Spread{Min: first, Max: first}
		area, last := 0.0, first
		for i := 1; i < len(r.Rows); i++ {
			v := of(&r.Rows[i])
			area += (v + last) / 2 * (r.Rows[i].FuseeTurn - r.Rows[i-1].FuseeTurn)
			s.Min, s.Max, last = min(s.Min, v), max(s.Max, v), v
		}
		s.Mean = area / (r.Rows[len(r.Rows)-1].FuseeTurn - r.Rows[0].FuseeTurn)
		return s
	}
}
