package outcome

import (
	"math"

	"evenpull/escapement"
	"evenpull/sim"
)

// Factors that make the unit of a name of SI.
const (
	one    = 1
	mm     = 1e3
	mpa    = 1e-6
	deg    = 180 / math.Pi
	perDay = escapement.SecondsPerDay
)

// figure is one line of the table; of gives SI.
func figure(name, words, symbol, unit string, factor float64, of func(*sim.Digest) float64) Figure {
	return Figure{Quantity{Name: name, Words: words, Symbol: symbol, Unit: unit, Factor: factor, Digits: 3},
		func(d *sim.Digest) float64 { return factor * of(d) }}
}

// share is a line of what people read in percent.
func share(name, words, symbol string, of func(*sim.Digest) float64) Figure {
	f := figure(name, words, symbol, "", one, of)
	f.Share = true
	return f
}

// over are the three lines of a quantity of the rows over the run.
func over(name, words, symbol, unit string, factor float64, of func(*sim.Digest) sim.Spread) []Figure {
	return []Figure{
		figure(name+".mean", "mean "+words, symbol, unit, factor, func(d *sim.Digest) float64 { return of(d).Mean }),
		figure(name+".min", "least "+words, symbol, unit, factor, func(d *sim.Digest) float64 { return of(d).Min }),
		figure(name+".max", "greatest "+words, symbol, unit, factor, func(d *sim.Digest) float64 { return of(d).Max }),
	}
}

// All lists every figure there is, in the order of the JSON.
func All() []Figure {
	list := []Figure{
		figure("spring.turns_ideal", "turns of the spring, its coils ideally packed", "", "turns", one, func(d *sim.Digest) float64 { return d.Spring.Ideal }),
		figure("spring.turns_available", "turns of the spring available", "N", "turns", one, func(d *sim.Digest) float64 { return d.Spring.Available }),
		figure("spring.turns_by_handbook", "turns of the spring by the packing of handbooks", "", "turns", one, func(d *sim.Digest) float64 { return d.Spring.Handbook() }),
		figure("spring.turns_used", "turns of the spring used", "", "turns", one, func(d *sim.Digest) float64 { return d.Spring.Used }),
		figure("spring.turns_left", "turns of the spring left of those available", "", "turns", one, (*sim.Digest).Left),
		figure("spring.turns_to_spare", "turns to spare of those ideally packed or counted", "", "turns", one, (*sim.Digest).Spare),
		figure("spring.set_up_turns", "set-up", "φs", "turns", one, func(d *sim.Digest) float64 { return d.Spring.SetUp }),
		figure("spring.free_coils", "coils of the spring lying free", "n", "coils", one, func(d *sim.Digest) float64 { return d.Spring.FreeCoils }),
		figure("spring.packing", "what a coil takes up over its thickness", "k", "", one, func(d *sim.Digest) float64 { return d.Spring.Packing }),
		share("spring.fill", "share of the barrel that the spring fills", "", func(d *sim.Digest) float64 { return d.Spring.Fill }),
		figure("spring.peak_stress_mpa", "peak stress", "σ", "MPa", mpa, func(d *sim.Digest) float64 { return d.Spring.PeakStress }),
		figure("spring.stored_energy_j", "energy stored", "U", "J", one, func(d *sim.Digest) float64 { return d.Spring.Stored }),
		figure("spring.searle", "Searle parameter", "w²κ/h", "", one, func(d *sim.Digest) float64 { return d.Spring.Searle }),
		figure("spring.end_float_mm", "end float of the spring", "", "mm", mm, func(d *sim.Digest) float64 { return d.Spring.EndFloat }),
		figure("spring.slack_turns", "turns that the coils stand off the wall at rest", "", "turns", one, func(d *sim.Digest) float64 { return d.Spring.Slack }),
		figure("spring.overstrain", "strain at the arbor over the yield strain", "κa/κy", "", one, func(d *sim.Digest) float64 { return d.Spring.Overstrain }),
		figure("line.on_fusee_mm", "line on the fusee", "", "mm", mm, func(d *sim.Digest) float64 { return d.Line.OnFusee }),
		figure("line.barrel_turns", "turns of the barrel", "", "turns", one, func(d *sim.Digest) float64 { return d.Line.BarrelTurns }),
		figure("line.max_tension_n", "greatest tension of the line", "Fl", "N", one, func(d *sim.Digest) float64 { return d.Line.MaxTension }),
		figure("line.max_fleet_angle_deg", "greatest fleet angle", "β", "°", deg, fleet),
		figure("line.max_winding_tension_n", "greatest tension of the line while winding", "", "N", one, func(d *sim.Digest) float64 { return d.Line.MaxWindingTension }),
		figure("line.barrel_room_mm", "room that the line needs on the barrel", "", "mm", mm, func(d *sim.Digest) float64 { return d.Line.Room }),
		figure("line.spread_mm", "length of barrel that the line lies over", "", "mm", mm, func(d *sim.Digest) float64 { return d.Line.Spread }),
		figure("line.lay_mm", "lay of the line", "", "mm", mm, func(d *sim.Digest) float64 { return d.Line.Lay }),
		figure("turns_lost", "fusee turns lost", "", "turns", one, func(d *sim.Digest) float64 { return d.TurnsLost }),
		figure(MeanTorque, "mean torque at the fusee", "Tf", "N·m", one, func(d *sim.Digest) float64 { return d.Torque.Mean }),
		figure(LeastTorque, "least torque at the fusee", "Tf", "N·m", one, func(d *sim.Digest) float64 { return d.Torque.Min }),
		figure(MostTorque, "greatest torque at the fusee", "Tf", "N·m", one, func(d *sim.Digest) float64 { return d.Torque.Max }),
		share(Unevenness, "unevenness of the torque", "", func(d *sim.Digest) float64 { return d.Torque.Unevenness }),
		share("fusee_torque_nm.cv", "coefficient of variation of the torque", "", func(d *sim.Digest) float64 { return d.Torque.CV }),
		figure("least_torque_nm.predicted", "least torque predicted", "", "N·m", one, func(d *sim.Digest) float64 { return d.Need.Predicted }),
		figure("least_torque_nm.measured", "least torque measured", "", "N·m", one, func(d *sim.Digest) float64 { return d.Need.Measured }),
		figure("least_torque_nm.used", "least torque needed", "", "N·m", one, func(d *sim.Digest) float64 { return d.Need.Used }),
		figure("least_torque_nm.loads_off", "least torque with every load off", "", "N·m", one, func(d *sim.Digest) float64 { return d.Need.LoadsOff }),
		figure(MeanReserve, "mean reserve", "", "", one, func(d *sim.Digest) float64 { return d.Reserve(d.Torque.Mean) }),
		figure(LeastReserve, "least reserve", "", "", one, func(d *sim.Digest) float64 { return d.Reserve(d.Torque.Min) }),
		figure("reserve.max", "greatest reserve", "", "", one, func(d *sim.Digest) float64 { return d.Reserve(d.Torque.Max) }),
	}
	list = append(list, over("amplitude_deg", "semi-arc of the pendulum", "A", "°", deg, func(d *sim.Digest) sim.Spread { return d.Swing.Amplitude })...)
	list = append(list, over("rate_s_per_day", "rate against the pendulum's own beat", "", "s/day", perDay, func(d *sim.Digest) sim.Spread { return d.Swing.Rate })...)
	list = append(list, over("blow_interval_s", "interval from blow to blow", "", "s", one, func(d *sim.Digest) sim.Spread { return d.Cadence.Interval })...)
	list = append(list, over("fly_rev_per_s", "speed of the fly", "", "turns/s", one, func(d *sim.Digest) sim.Spread { return d.Cadence.Fly })...)
	list = append(list, over("strike_twelve_s", "length of a strike of twelve, first blow to last", "", "s", one, func(d *sim.Digest) sim.Spread { return d.Cadence.Twelve })...)
	list = append(list, over("spring_torque_nm", "torque of the spring", "M", "N·m", one, func(d *sim.Digest) sim.Spread { return d.Over.SpringTorque })...)
	list = append(list, over("line_tension_n", "tension of the line", "Fl", "N", one, func(d *sim.Digest) sim.Spread { return d.Over.LineTension })...)
	list = append(list, over("winding_torque_nm", "torque that winding takes", "", "N·m", one, func(d *sim.Digest) sim.Spread { return d.Over.WindingTorque })...)
	list = append(list, over("escape_torque_nm", "torque at the escape wheel", "Te", "N·m", one, escape)...)
	return append(list,
		figure("rate_swing_s_per_day", "swing of the rate over the run", "", "s/day", perDay, func(d *sim.Digest) float64 { return d.Swing.Rate.Max - d.Swing.Rate.Min }),
		figure("wander_s", "error of the clock regulated to its mean rate", "", "s", one, func(d *sim.Digest) float64 { return d.Swing.Wander }),
		figure("fly.drag_coefficient", "drag coefficient of the fly", "Cd", "", one, func(d *sim.Digest) float64 { return d.Drag }),
		figure("let_off_amplitude_deg", "semi-arc in the worst minutes", "", "°", deg, func(d *sim.Digest) float64 { return d.Swing.LetOff }),
		figure("hours_per_fusee_turn", "hours of a fusee turn", "", "h", one, func(d *sim.Digest) float64 { return d.HoursPerTurn }),
		figure("runtime_h", "running time", "", "h", one, func(d *sim.Digest) float64 { return d.Runtime }),
		figure("goes_h", "hours that it goes before it stops or has run down", "", "h", one, (*sim.Digest).HoursGoing),
	)
}

func fleet(d *sim.Digest) float64 {
	if !d.Line.FleetKnown {
		return math.NaN()
	}
	return d.Line.MaxFleet.Radians()
}

func escape(d *sim.Digest) sim.Spread {
	if !d.Escapes {
		return sim.Spread{Mean: math.NaN(), Min: math.NaN(), Max: math.NaN()}
	}
	return d.Over.LastTorque
}
