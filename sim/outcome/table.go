package outcome

import (
	"math"

	"evenpull/escapement"
	"evenpull/sim"
)

const perDay = escapement.SecondsPerDay

func torques() []Outcome {
	of := func(f func(*sim.Summary) float64) func(*sim.Result) float64 {
		return func(r *sim.Result) float64 { return f(&r.Torque) }
	}
	least := func(f func(*sim.Need) float64) func(*sim.Result) float64 {
		return func(r *sim.Result) float64 { return f(&r.Need) }
	}
	return []Outcome{
		{Name: "turns_lost", Words: "fusee turns lost", Unit: "turns", Of: func(r *sim.Result) float64 { return r.TurnsLost }},
		{Name: MeanTorque, Words: "mean torque at the fusee", Unit: "N·m", Of: of(func(s *sim.Summary) float64 { return s.Mean })},
		{Name: LeastTorque, Words: "least torque at the fusee", Unit: "N·m", Of: of(func(s *sim.Summary) float64 { return s.Min })},
		{Name: MostTorque, Words: "greatest torque at the fusee", Unit: "N·m", Of: of(func(s *sim.Summary) float64 { return s.Max })},
		{Name: Unevenness, Words: "unevenness, (greatest − least)/mean", Share: true, Of: of(func(s *sim.Summary) float64 { return s.Unevenness })},
		{Name: "fusee_torque_nm.cv", Words: "coefficient of variation of the torque", Share: true, Of: of(func(s *sim.Summary) float64 { return s.CV })},
		{Name: "least_torque_nm.predicted", Words: "least torque predicted", Unit: "N·m", Of: least(func(n *sim.Need) float64 { return n.Predicted })},
		{Name: "least_torque_nm.measured", Words: "least torque measured", Unit: "N·m", Of: least(func(n *sim.Need) float64 { return n.Measured })},
		{Name: "least_torque_nm.used", Words: "least torque needed", Unit: "N·m", Of: least(func(n *sim.Need) float64 { return n.Used })},
		{Name: "least_torque_nm.loads_off", Words: "least torque with every load off", Unit: "N·m", Of: least(func(n *sim.Need) float64 { return n.LoadsOff })},
		{Name: MeanReserve, Words: "mean reserve", Of: func(r *sim.Result) float64 { return r.Reserve(r.Torque.Mean) }},
		{Name: LeastReserve, Words: "least reserve", Of: func(r *sim.Result) float64 { return r.Reserve(r.Torque.Min) }},
		{Name: "reserve.max", Words: "greatest reserve", Of: func(r *sim.Result) float64 { return r.Reserve(r.Torque.Max) }},
	}
}

func springs() []Outcome {
	of := func(f func(*sim.Spring) float64) func(*sim.Result) float64 {
		return func(r *sim.Result) float64 { return f(&r.Spring) }
	}
	return []Outcome{
		{Name: "spring.turns_available", Words: "turns of the spring available", Unit: "turns", Of: of(func(s *sim.Spring) float64 { return s.Available })},
		{Name: "spring.turns_used", Words: "turns of the spring used", Unit: "turns", Of: of(func(s *sim.Spring) float64 { return s.Used })},
		{Name: "spring.set_up_turns", Words: "set-up", Unit: "turns", Of: of(func(s *sim.Spring) float64 { return s.SetUp })},
		{Name: "spring.slack_turns", Words: "turns that the coils stand off the wall at rest", Unit: "turns", Of: of(func(s *sim.Spring) float64 { return s.Slack })},
		{Name: "spring.free_coils", Words: "coils of the spring lying free", Unit: "coils", Of: of(func(s *sim.Spring) float64 { return s.FreeCoils })},
		{Name: "spring.fill", Words: "share of the barrel that the spring fills", Share: true, Of: of(func(s *sim.Spring) float64 { return s.Fill })},
		{Name: "spring.peak_stress_mpa", Words: "peak stress", Unit: "MPa", Of: of(func(s *sim.Spring) float64 { return s.PeakStress / 1e6 })},
		{Name: "spring.mean_stress_mpa", Words: "elastic stress in the mean over the strip", Unit: "MPa", Of: of(func(s *sim.Spring) float64 { return s.MeanStress / 1e6 })},
		{Name: "spring.overstrain", Words: "strain at the arbor over the yield strain", Of: of(func(s *sim.Spring) float64 { return s.Overstrain })},
		{Name: "spring.stored_energy_j", Words: "energy stored", Unit: "J", Of: of(func(s *sim.Spring) float64 { return s.Stored })},
		{Name: "spring.searle", Words: "Searle parameter", Of: of(func(s *sim.Spring) float64 { return s.Searle })},
		{Name: "spring.end_float_mm", Words: "end float of the spring", Unit: "mm", Of: of(func(s *sim.Spring) float64 { return s.EndFloat * 1e3 })},
	}
}

func lines() []Outcome {
	of := func(f func(*sim.Line) float64) func(*sim.Result) float64 {
		return func(r *sim.Result) float64 { return f(&r.Line) }
	}
	return []Outcome{
		{Name: "line.on_fusee_mm", Words: "line on the fusee", Unit: "mm", Of: of(func(l *sim.Line) float64 { return l.OnFusee * 1e3 })},
		{Name: "line.barrel_turns", Words: "turns of the barrel", Unit: "turns", Of: of(func(l *sim.Line) float64 { return l.BarrelTurns })},
		{Name: "line.max_tension_n", Words: "greatest tension of the line", Unit: "N", Of: of(func(l *sim.Line) float64 { return l.MaxTension })},
		{Name: "line.max_winding_tension_n", Words: "greatest tension of the line while winding", Unit: "N", Of: of(func(l *sim.Line) float64 { return l.MaxWindingTension })},
		{Name: "line.max_fleet_angle_deg", Words: "greatest fleet angle", Unit: "°", Of: fleet},
		{Name: "line.barrel_room_mm", Words: "room that the line needs on the barrel", Unit: "mm", Of: of(func(l *sim.Line) float64 { return l.Room * 1e3 })},
		{Name: "line.spread_mm", Words: "length of barrel that the line lies over", Unit: "mm", Of: of(func(l *sim.Line) float64 { return l.Spread * 1e3 })},
		{Name: "line.lay_mm", Words: "lay of the line", Unit: "mm", Of: of(func(l *sim.Line) float64 { return l.Lay * 1e3 })},
	}
}

func fleet(r *sim.Result) float64 {
	if !r.Line.FleetKnown {
		return math.NaN()
	}
	return r.Line.MaxFleet.Degrees()
}

func times() []Outcome {
	return []Outcome{
		{Name: "hours_per_fusee_turn", Words: "hours of a fusee turn", Unit: "h", Of: func(r *sim.Result) float64 { return r.HoursPerTurn }},
		{Name: "runtime_h", Words: "running time", Unit: "h", Of: func(r *sim.Result) float64 { return r.Runtime }},
		{Name: "rate_swing_s_per_day", Words: "swing of the rate over the run", Unit: "s/day", Of: func(r *sim.Result) float64 { return (r.Swing.Rate.Max - r.Swing.Rate.Min) * perDay }},
		{Name: "wander_s", Words: "error of the clock regulated to its mean rate", Unit: "s", Of: func(r *sim.Result) float64 { return r.Swing.Wander }},
		{Name: "let_off_amplitude_deg", Words: "semi-arc in the worst minutes", Unit: "°", Of: func(r *sim.Result) float64 { return sim.Degrees(r.Swing.LetOff) }},
	}
}
