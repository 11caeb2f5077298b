package words

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"evenpull/escapement"
	"evenpull/fusee/mainspring"
	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/train"
)

// Line is a name and what is said of it; without a name it goes with the line before.
type Line [2]string

// Summary is a run in words: torque, need, time, pendulum or blows, mainspring, line.
func Summary(r *sim.Result) []Line {
	t, s, l, n := r.Torque, r.Spring, r.Line, r.Need
	// Both needs where both are known, the one judged by first.
	need := cmp.Or(
		where(n.Beyond && math.IsNaN(n.Measured), "%v N·m, predicted, to escape at all; no torque gives it its margin", n.Used),
		where(math.IsNaN(n.Predicted), "%v N·m, measured", n.Measured),
		where(math.IsNaN(n.Measured), "%v N·m, predicted%s", n.Predicted, Either(r.Strikes, ", to strike from rest", " with every load on")),
		where(n.Used > n.Measured, "%v N·m, what drags and loads take (measured %v, predicted %v)", n.Used, n.Measured, n.Predicted),
		say("%v N·m, measured (predicted %v)", n.Measured, n.Predicted))
	list := []Line{
		{"torque at the fusee", say("mean %v, least %v, greatest %v N·m; unevenness %s; typically %s off the mean",
			t.Mean, t.Min, t.Max, Percent(t.Unevenness), Percent(t.CV))},
		{"least needed", where(!math.IsNaN(n.Used), "%s; reserve mean %v, least %v, greatest %v",
			need, r.Reserve(t.Mean), r.Reserve(t.Min), r.Reserve(t.Max))},
		{"running time", runtime(r)},
		{"pendulum", where(r.Escapes, "%s", swingLine(r))},
	}
	if r.Strikes {
		list = append(list, strikeLines(r)...)
	}
	list = append(list,
		Line{"mainspring", say("%v turns available, %v with ideal packing%s; %v used after %s of set-up; fills %.0f %% of the barrel's free area",
			s.Available, s.Ideal, where(!math.IsNaN(s.Handbook()), ", %v by handbooks", s.Handbook()), s.Used, Turns(s.SetUp), 100*s.Fill) +
			where(s.Slack > 0.005, "; inner coils stand %v turns off the wall at rest", s.Slack)},
		Line{"", say("lies free in %v coils; peak stress %.0f MPa", s.FreeCoils, s.PeakStress/1e6) +
			where(r.Form == mainspring.Even, " (elastic, made in even coils)") +
			where(r.ByCoils, " (they tell of a steel that flows at %.0f MPa)", r.Yield/1e6) +
			where(!r.ByCoils && s.Overstrain > 1, " (it flows: bent to %v times the yield strain)", s.Overstrain) +
			say("; stores %v J; end float %.1f mm; held flat across its width to %.0f %%", s.Stored, s.EndFloat*mm, 100*s.Flat)},
		Line{"line", say("%.0f mm on the fusee; %v barrel turns lie over %.1f mm and need %.1f; tension up to %v N, %v while winding",
			l.OnFusee*mm, l.BarrelTurns, l.Spread*mm, l.Room*mm, l.MaxTension, l.MaxWindingTension) +
			where(l.FleetKnown, "; fleet angle, between line and groove, up to %.1f°", l.MaxFleet.Degrees())})
	return slices.DeleteFunc(list, func(l Line) bool { return l[1] == "" })
}

func swingLine(r *sim.Result) string {
	const perDay = escapement.SecondsPerDay
	s, a := r.Swing, r.Swing.Amplitude
	if math.IsNaN(s.Rate.Mean) {
		return cmp.Or(where(s.Trips, "trips by prediction, see the fault"),
			where(r.GoesFor() <= 0 && !math.IsNaN(r.Need.Measured), "stopped: by the need measured it does not start"),
			"by prediction it does not keep swinging at any turn")
	}
	return say("semi-arc %.2f° to %.2f°, mean %.2f°; Q %v; on a free swing of the smallest arc it gains %s to %s s a day, which regulating takes away",
		Degrees(a.Min), Degrees(a.Max), Degrees(a.Mean), r.Quality, Minus(Figure(s.Rate.Min*perDay)), Minus(Figure(s.Rate.Max*perDay))) +
		where(r.GoesFor() < r.Turns-r.TurnsLost, "; all this as long as it goes") +
		where(s.Trips, "; where it does not trip, see the fault")
}

func runtime(r *sim.Result) string {
	n, goes := Turns(r.Turns-r.TurnsLost), r.HoursGoing()
	if math.IsNaN(r.Runtime) {
		return n + " fusee turns; hours not known: neither pendulum nor blows are given"
	}
	return say("%s fusee turns of %v h: %v h, %v days", n, r.HoursPerTurn, r.Runtime, r.Runtime/24) +
		cmp.Or(where(goes <= 0, ", none of which it goes"),
			where(goes < r.Runtime*(1-1e-9), ", of which it goes %v h, %v days, before it stops", goes, goes/24))
}

// counted is a number of blows in 12 hours, with what is usually counted so.
func counted(blows float64) string {
	return say("%g blows in 12 h", blows) + map[float64]string{
		float64(train.StrikesIn12Hours(false)): " (the hours by count)",
		float64(train.StrikesIn12Hours(true)):  " (the hours by count and one at each half)",
		float64(train.QuartersIn12Hours()):     " (the quarters by count)",
	}[blows]
}

// workLine tells where the work of a blow goes at the mean torque.
func workLine(r *sim.Result) string {
	w, c := r.Train.Striker.Power(r.Torque.Mean), r.Train.Striker.Steady(r.Torque.Mean)
	if c.Status != train.Strikes {
		return "on the mean torque it stalls"
	}
	var parts told
	works := []float64{w.Hammers, w.Fly, w.Wheels, w.Tails, w.Loads}
	for i, name := range []string{"hammers", "fly", "wheels", "tails", "loads"} {
		share := 100 * works[i] / w.Spring
		parts.when(share > 0.05, "%s %.1f %%", name, share)
	}
	return say("a blow takes %v mJ at the mean torque%s%s; the fly holds %v to %v mJ",
		w.Spring*1e3, where(len(parts) > 0, ": "), strings.Join(parts, ", "), c.KineticLeast*1e3, c.KineticMost*1e3)
}

func strikeLines(r *sim.Result) []Line {
	k, every, fly, twelve := &r.Train.Striker, r.Cadence.Interval, r.Cadence.Fly, r.Cadence.Twelve
	if math.IsNaN(every.Mean) {
		return []Line{{"striking", say("stalls at every turn; from rest it takes %v N·m", k.Least())}}
	}
	i, radius := r.Wanted, r.MiddleFly()
	return []Line{
		{"striking", say("a blow every %s s, mean %v; fly %s turns a second", span(every.Min, every.Max), every.Mean, span(fly.Min, fly.Max)) +
			where(!math.IsNaN(twelve.Mean), "; twelve from rest, first blow to last, in %s s", span(twelve.Min, twelve.Max)) + spreadOfUntimed(&r.Digest) + where(r.Untimed, ", since no strike was timed (strike.timed)") +
			where(r.Timed, "; drag coefficient of the fly %v, from the timed strike", r.Drag)},
		{"", say("%s; %s; %d blows in the run", workLine(r), counted(r.Train.BlowsPer12H), k.BlowsInRun(r.GoesFor()))},
		{"", where(!math.IsNaN(radius) && r.Verdict.Code != rules.Stops, "a fly of %.1f mm outer radius in place of %.1f would strike every %v s, the middle of the %v to %v s wanted; at the slow end it takes %v N·m, from rest %v%s",
			radius*mm, r.Train.FlyRadius()*mm, i.Center(), i.Lo, i.Hi, k.Slow(), k.Least(), where(r.Untimed, "; all this if the drag is as assumed"))},
	}
}

// Has is the spring that a train has and the barrel around it.
func Has(r *sim.Result) string {
	d := &r.Train.Drive
	return say("width × thickness × length %.4g × %.4g × %.5g mm, in a barrel %.4g mm across and %.4g mm high inside, on an arbor of %.4g mm",
		d.Spring.Width*mm, d.Spring.Thickness*mm, d.Spring.Length*mm, 2*d.Housing.Inside*mm, d.Barrel.Height*mm, 2*d.Housing.Arbor*mm)
}

// Assumed is every value that a scenario left out, with its train.
func Assumed(c *sim.Clock) []string {
	var says told
	for _, a := range c.Assumed {
		says.add("%s", a)
	}
	return says
}
