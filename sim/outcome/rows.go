package outcome

import (
	"math"

	"evenpull/sim"
)

// column is one line of the table; of gives SI.
func column(name, words, symbol, unit string, factor float64, of func(*sim.Digest, *sim.Row) float64) Column {
	return Column{Quantity{Name: name, Words: words, Symbol: symbol, Unit: unit, Factor: factor, Digits: 3},
		func(d *sim.Digest, row *sim.Row) float64 { return factor * of(d, row) }}
}

// Columns lists every figure of a row, in the order of the JSON.
func Columns() []Column {
	plain := func(of func(*sim.Row) float64) func(*sim.Digest, *sim.Row) float64 {
		return func(_ *sim.Digest, row *sim.Row) float64 { return of(row) }
	}
	return []Column{
		column("fusee_turn", "fusee turn paid out", "θ", "turns", one, plain(func(r *sim.Row) float64 { return r.FuseeTurn })),
		column("hours", "hours since the start of the run", "", "h", one, plain(func(r *sim.Row) float64 { return r.Hours })),
		column("spring_turns", "turns of the spring from rest", "φ", "turns", one, plain(func(r *sim.Row) float64 { return r.SpringTurns })),
		column("spring_torque_nm", "torque of the spring", "M", "N·m", one, plain(func(r *sim.Row) float64 { return r.SpringTorque })),
		column("line_tension_n", "tension of the line", "Fl", "N", one, plain(func(r *sim.Row) float64 { return r.LineTension })),
		column("fusee_torque_nm", "torque at the fusee", "Tf", "N·m", one, plain(func(r *sim.Row) float64 { return r.FuseeTorque })),
		column("escape_torque_nm", "torque at the escape wheel", "Te", "N·m", one, going(func(r *sim.Row) float64 { return r.LastTorque })),
		column("amplitude_deg", "semi-arc of the pendulum", "A", "°", deg, going(func(r *sim.Row) float64 { return r.Amplitude })),
		column("rate_s_per_day", "rate against the pendulum's own beat", "", "s/day", perDay, going(func(r *sim.Row) float64 { return r.Rate })),
		column("fly_rev_per_s", "speed of the fly", "", "turns/s", one, plain(func(r *sim.Row) float64 { return r.FlySpeed })),
		column("blow_interval_s", "interval from blow to blow", "", "s", one, plain(func(r *sim.Row) float64 { return r.BlowInterval })),
		column("strike_twelve_s", "length of a strike of twelve, first blow to last", "", "s", one, plain(func(r *sim.Row) float64 { return r.Twelve })),
		column("winding_torque_nm", "torque that winding takes", "", "N·m", one, plain(func(r *sim.Row) float64 { return r.WindingTorque })),
		column("fleet_angle_deg", "fleet angle", "β", "°", deg, plain(func(r *sim.Row) float64 { return math.Atan(r.Fleet) })),
		column("reserve", "reserve", "", "", one, func(d *sim.Digest, r *sim.Row) float64 { return d.Reserve(r.FuseeTorque) }),
	}
}

// going is a figure of a train with an escapement.
func going(of func(*sim.Row) float64) func(*sim.Digest, *sim.Row) float64 {
	return func(d *sim.Digest, row *sim.Row) float64 {
		if !d.Escapes {
			return math.NaN()
		}
		return of(row)
	}
}
