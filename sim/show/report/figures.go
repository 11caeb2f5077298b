package report

import (
	"fmt"
	"math"

	"evenpull/fusee/mainspring"
	"evenpull/sim"
	"evenpull/sim/show/text"
)

// Figures are those of the whole run in words, a name and a text a row; a row
// without a name goes with the one before it.
func Figures(r *sim.Result) text.Grid {
	var g text.Grid
	f := sim.Figure
	g.Row("  torque at the fusee", fmt.Sprintf("mean %s, least %s, greatest %s N·m; unevenness %s, coefficient of variation %s",
		f(r.Torque.Mean), f(r.Torque.Min), f(r.Torque.Max), text.Percent(r.Torque.Unevenness), text.Percent(r.Torque.CV)))
	if !math.IsNaN(r.Need.Used) {
		g.Row("  least needed", fmt.Sprintf("%s; reserve mean %s, least %s, greatest %s",
			needLine(r), f(r.Reserve(r.Torque.Mean)), f(r.Reserve(r.Torque.Min)), f(r.Reserve(r.Torque.Max))))
	}
	g.Row("  running time", runtime(r))
	if r.Train.Escapes {
		g.Row("  pendulum", swingLine(r))
	}
	if r.Train.Strikes {
		strikeLines(&g, r)
	}
	g.Row("  mainspring", springLine(r))
	g.Row("", stressLine(r))
	g.Row("  line", lineLine(r))
	return g
}

// needLine tells both needs where both are known, the one judged by first.
func needLine(r *sim.Result) string {
	n, f := r.Need, sim.Figure
	switch {
	case math.IsNaN(n.Predicted):
		return f(n.Measured) + " N·m, measured"
	case math.IsNaN(n.Measured) && r.Train.Strikes:
		return f(n.Predicted) + " N·m, predicted, to strike from rest"
	case math.IsNaN(n.Measured):
		return f(n.Predicted) + " N·m, predicted with every load on"
	case n.Used > n.Measured:
		return fmt.Sprintf("%s N·m, what drags and loads take (measured %s, predicted %s)", f(n.Used), f(n.Measured), f(n.Predicted))
	}
	return fmt.Sprintf("%s N·m, measured (predicted %s)", f(n.Measured), f(n.Predicted))
}

func swingLine(r *sim.Result) string {
	s, f := r.Swing, sim.Figure
	switch {
	case !math.IsNaN(s.Rate.Mean):
	case s.Trips:
		return "trips by prediction, see the fault"
	default:
		return "by prediction it does not keep swinging at any turn"
	}
	deg := func(rad float64) string { return fmt.Sprintf("%.2f°", sim.Degrees(rad)) }
	text := fmt.Sprintf("semi-arc %s to %s, mean %s; Q %s; rate against its own beat %s to %s s a day",
		deg(s.Amplitude.Min), deg(s.Amplitude.Max), deg(s.Amplitude.Mean), f(r.Train.Pendulum.Quality), f(s.Rate.Min*secondsPerDay), f(s.Rate.Max*secondsPerDay))
	if r.StruckTurns() < r.Train.Drive.Cone.Turns-r.TurnsLost {
		text += "; all this as long as it goes"
	}
	if s.Trips {
		text += "; where it does not trip, see the fault"
	}
	return text
}

func runtime(r *sim.Result) string {
	n := sim.Turns(r.Train.Drive.Cone.Turns - r.TurnsLost)
	if math.IsNaN(r.Runtime) {
		return n + " fusee turns; hours not known: neither pendulum nor blows are given"
	}
	text := fmt.Sprintf("%s fusee turns of %s h: %s h, %s days", n, sim.Figure(r.HoursPerTurn), sim.Figure(r.Runtime), sim.Figure(r.Runtime/24))
	if goes := r.StruckTurns() * r.HoursPerTurn; goes <= 0 {
		text += ", none of which it goes"
	} else if goes < r.Runtime*(1-1e-9) {
		text += fmt.Sprintf(", of which it goes %s h, %s days, before it stops", sim.Figure(goes), sim.Figure(goes/24))
	}
	return text
}

func springLine(r *sim.Result) string {
	s, f := r.Spring, sim.Figure
	text := fmt.Sprintf("%s turns available, %s used after %s of set-up; fills %.0f %% of the barrel's free area",
		f(s.Available), f(s.Used), sim.Turns(s.SetUp), 100*s.Fill)
	if s.Slack > 0.005 {
		text += fmt.Sprintf("; inner coils stand %s turns off the wall at rest", f(s.Slack))
	}
	return text
}

func stressLine(r *sim.Result) string {
	s, f := r.Spring, sim.Figure
	text := fmt.Sprintf("lies free in %s coils; peak stress %.0f MPa", f(s.FreeCoils), s.PeakStress/1e6)
	if r.Train.Drive.Spring.Form == mainspring.Coils {
		text += " (elastic, the coils taken as evenly spread)"
	}
	if !math.IsNaN(s.Overstrain) && s.Overstrain > 1 {
		as := ""
		if r.Train.Drive.Spring.Plate {
			as = " as a plate"
		}
		text += fmt.Sprintf(" (its yield%s: bent to %s times the yield strain)", as, f(s.Overstrain))
	}
	return text + fmt.Sprintf("; stores %s J; end float %.1f mm; Searle w²κ/h %s (small: strip, large: plate)", f(s.Stored), s.EndFloat*1e3, f(s.Searle))
}

func lineLine(r *sim.Result) string {
	l, f := r.Line, sim.Figure
	text := fmt.Sprintf("%.0f mm on the fusee; %s barrel turns lie over %.1f mm and need %.1f; tension to %s N, %s while winding",
		l.OnFusee*1e3, f(l.BarrelTurns), l.Spread*1e3, l.Room*1e3, f(l.MaxTension), f(l.MaxWindingTension))
	if l.FleetKnown {
		text += fmt.Sprintf("; fleet angle to %.1f°", l.MaxFleet.Degrees())
	}
	return text
}
