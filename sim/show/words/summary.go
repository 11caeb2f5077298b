package words

import (
	"fmt"
	"math"

	"evenpull/escapement"
	"evenpull/fusee/mainspring"
	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/train"
)

const perDay = escapement.SecondsPerDay

// Line is a name and what is said of it; without a name it goes with the line
// before it.
type Line [2]string

// Summary is a run in words: the torque, the need, the time, pendulum or blows,
// the mainspring and the line.
func Summary(r *sim.Result) []Line {
	f := Figure
	list := []Line{{"torque at the fusee", fmt.Sprintf("mean %s, least %s, greatest %s N·m; unevenness %s, coefficient of variation %s",
		f(r.Torque.Mean), f(r.Torque.Min), f(r.Torque.Max), Percent(r.Torque.Unevenness), Percent(r.Torque.CV))}}
	if !math.IsNaN(r.Need.Used) {
		list = append(list, Line{"least needed", fmt.Sprintf("%s; reserve mean %s, least %s, greatest %s",
			needLine(r), f(r.Reserve(r.Torque.Mean)), f(r.Reserve(r.Torque.Min)), f(r.Reserve(r.Torque.Max)))})
	}
	list = append(list, Line{"running time", runtime(r)})
	if r.Escapes {
		list = append(list, Line{"pendulum", swingLine(r)})
	}
	if r.Strikes {
		list = append(list, strikeLines(r)...)
	}
	return append(list, Line{"mainspring", springLine(r)}, Line{"", stressLine(r)}, Line{"line", lineLine(r)})
}

// needLine tells both needs where both are known, the one judged by first.
func needLine(r *sim.Result) string {
	n, f := r.Need, Figure
	switch {
	case math.IsNaN(n.Predicted):
		return f(n.Measured) + " N·m, measured"
	case math.IsNaN(n.Measured) && r.Strikes:
		return f(n.Predicted) + " N·m, predicted, to strike from rest"
	case math.IsNaN(n.Measured):
		return f(n.Predicted) + " N·m, predicted with every load on"
	case n.Used > n.Measured:
		return fmt.Sprintf("%s N·m, what drags and loads take (measured %s, predicted %s)", f(n.Used), f(n.Measured), f(n.Predicted))
	}
	return fmt.Sprintf("%s N·m, measured (predicted %s)", f(n.Measured), f(n.Predicted))
}

func swingLine(r *sim.Result) string {
	s, f := r.Swing, Figure
	switch {
	case !math.IsNaN(s.Rate.Mean):
	case s.Trips:
		return "trips by prediction, see the fault"
	default:
		return "by prediction it does not keep swinging at any turn"
	}
	deg := func(rad float64) string { return fmt.Sprintf("%.2f°", Degrees(rad)) }
	text := fmt.Sprintf("semi-arc %s to %s, mean %s; Q %s; rate against its own beat %s to %s s a day",
		deg(s.Amplitude.Min), deg(s.Amplitude.Max), deg(s.Amplitude.Mean), f(r.Quality), f(s.Rate.Min*perDay), f(s.Rate.Max*perDay))
	if r.GoesFor() < r.Turns-r.TurnsLost {
		text += "; all this as long as it goes"
	}
	if s.Trips {
		text += "; where it does not trip, see the fault"
	}
	return text
}

func runtime(r *sim.Result) string {
	n := Turns(r.Turns - r.TurnsLost)
	if math.IsNaN(r.Runtime) {
		return n + " fusee turns; hours not known: neither pendulum nor blows are given"
	}
	text := fmt.Sprintf("%s fusee turns of %s h: %s h, %s days", n, Figure(r.HoursPerTurn), Figure(r.Runtime), Figure(r.Runtime/24))
	if goes := r.HoursGoing(); goes <= 0 {
		text += ", none of which it goes"
	} else if goes < r.Runtime*(1-1e-9) {
		text += fmt.Sprintf(", of which it goes %s h, %s days, before it stops", Figure(goes), Figure(goes/24))
	}
	return text
}

func springLine(r *sim.Result) string {
	s, f := r.Spring, Figure
	text := fmt.Sprintf("%s turns available, %s with ideal packing%s; %s used after %s of set-up; fills %.0f %% of the barrel's free area",
		f(s.Available), f(s.Ideal), byHandbook(s.Handbook), f(s.Used), Turns(s.SetUp), 100*s.Fill)
	if s.Slack > 0.005 {
		text += fmt.Sprintf("; inner coils stand %s turns off the wall at rest", f(s.Slack))
	}
	return text
}

func byHandbook(turns float64) string {
	if math.IsNaN(turns) {
		return ""
	}
	return ", " + Figure(turns) + " by handbooks"
}

func stressLine(r *sim.Result) string {
	s, f := r.Spring, Figure
	text := fmt.Sprintf("lies free in %s coils; peak stress %.0f MPa", f(s.FreeCoils), s.PeakStress/1e6)
	switch {
	case r.ByCoils:
		text += fmt.Sprintf(" (its coils tell of a steel that flows at %.0f MPa)", r.Yield/1e6)
	case r.Form == mainspring.Even:
		text += " (elastic, made in even coils)"
	case s.Overstrain > 1:
		text += fmt.Sprintf(" (it flows: bent to %s times the yield strain)", f(s.Overstrain))
	}
	return text + fmt.Sprintf("; stores %s J; end float %.1f mm; held flat across its width to %.0f %%", f(s.Stored), s.EndFloat*1e3, 100*s.Flat)
}

func lineLine(r *sim.Result) string {
	l, f := r.Line, Figure
	text := fmt.Sprintf("%.0f mm on the fusee; %s barrel turns lie over %.1f mm and need %.1f; tension to %s N, %s while winding",
		l.OnFusee*1e3, f(l.BarrelTurns), l.Spread*1e3, l.Room*1e3, f(l.MaxTension), f(l.MaxWindingTension))
	if l.FleetKnown {
		text += fmt.Sprintf("; fleet angle to %.1f°", l.MaxFleet.Degrees())
	}
	return text
}

// counted is a number of blows in 12 hours, with what is usually counted so.
func counted(blows float64) string {
	text := fmt.Sprintf("%g blows in 12 h", blows)
	switch blows {
	case float64(train.StrikesIn12Hours(false)):
		return text + " (the hours by count)"
	case float64(train.StrikesIn12Hours(true)):
		return text + " (the hours by count and one at each half)"
	case float64(train.QuartersIn12Hours()):
		return text + " (the quarters by count)"
	}
	return text
}

// workLine tells where the work of a blow goes at the mean torque.
func workLine(r *sim.Result) string {
	w, c := r.Train.Striker.Power(r.Torque.Mean), r.Train.Striker.Steady(r.Torque.Mean)
	if c.Status != train.Strikes {
		return "on the mean torque it stalls"
	}
	text := fmt.Sprintf("a blow takes %s mJ at the mean torque", Figure(w.Spring*1e3))
	for i, part := range []struct {
		name string
		work float64
	}{{"hammers", w.Hammers}, {"fly", w.Fly}, {"wheels", w.Wheels}, {"tails", w.Tails}, {"loads", w.Loads}} {
		if share := 100 * part.work / w.Spring; share > 0.05 {
			text += fmt.Sprintf("%s %s %.1f %%", map[bool]string{true: ":", false: ","}[i == 0], part.name, share)
		}
	}
	return text + fmt.Sprintf("; the fly holds %s to %s mJ", Figure(c.KineticLeast*1e3), Figure(c.KineticMost*1e3))
}

// strikeLines are the lines of the summary about striking.
func strikeLines(r *sim.Result) []Line {
	k, c, f := &r.Train.Striker, r.Cadence, Figure
	if math.IsNaN(c.Interval.Mean) {
		return []Line{{"striking", fmt.Sprintf("stalls at every turn; from rest it takes %s N·m", f(k.Least()))}}
	}
	text := fmt.Sprintf("a blow every %s to %s s, mean %s; fly %s to %s turns a second",
		f(c.Interval.Min), f(c.Interval.Max), f(c.Interval.Mean), f(c.Fly.Min), f(c.Fly.Max))
	if !math.IsNaN(c.Twelve.Mean) {
		text += fmt.Sprintf("; twelve from rest in %s to %s s", f(c.Twelve.Min), f(c.Twelve.Max))
	}
	list := []Line{{"striking", text}, {"", fmt.Sprintf("%s; %s; %d blows in the run", workLine(r), counted(r.Train.BlowsPer12H), k.BlowsInRun(r.GoesFor()))}}
	if radius := r.MiddleFly(); !math.IsNaN(radius) && r.Verdict.Code != rules.Stops {
		i := r.Wanted
		list = append(list, Line{"", fmt.Sprintf("a fly of %.1f mm outer radius in place of %.1f would strike every %s s, the middle of the %s to %s s wanted; at the slow end it takes %s N·m, from rest %s",
			radius*1e3, r.Train.FlyRadius()*1e3, f(i.Center()), f(i.Lo), f(i.Hi), f(k.Slow()), f(k.Least()))})
	}
	return list
}

// Has is the spring that a train has and the barrel around it.
func Has(r *sim.Result) string {
	const mm = 1e3
	d := &r.Train.Drive
	return fmt.Sprintf("width × thickness × length %.4g × %.4g × %.5g mm, in a barrel %.4g mm wide and %.4g mm high inside, on an arbor of %.4g mm",
		d.Spring.Width*mm, d.Spring.Thickness*mm, d.Spring.Length*mm, 2*d.Housing.Inside*mm, d.Barrel.Height*mm, 2*d.Housing.Arbor*mm)
}
