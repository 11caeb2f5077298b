package words

import (
	"cmp"
	"math"
	"strings"

	"evenpull/sim"
	"evenpull/sim/rules"
)

// Verdict is the word of a verdict in capitals.
func Verdict(c rules.Code) string { return cmp.Or(strings.ToUpper(c.String()), "NOT JUDGED") }

// Small is the word of a verdict in small letters.
func Small(c rules.Code) string { return strings.ToLower(Verdict(c)) }

// Does is a verdict as a verb after "it".
func Does(c rules.Code) string { return DoesLoudly(c, rules.Code.String) }

// DoesLoudly is Does with the word of the verdict as shown makes it; what else is told
// takes such a function where the verdict stands out.
func DoesLoudly(c rules.Code, shown func(rules.Code) string) string {
	switch c {
	case rules.Stops, rules.Suits:
		return shown(c)
	case rules.Unjudged:
		return "is not judged"
	}
	return "is " + shown(c)
}

// fares is what a train does and which faults it has, after "the train".
func fares(d *sim.Digest) string {
	return Does(d.Verdict.Code) + surely(d) + " and " + hasFaults(d)
}

// hasFaults counts and names the faults.
func hasFaults(d *sim.Digest) string {
	var named told
	for _, f := range d.Faults.List() {
		named.add("%s", f)
	}
	return cmp.Or(where(len(named) > 0, "has %s (%s)", Count(len(named), "fault"), listed(named)), "has no fault")
}

// Reasons are the verdict's reasons, each with its figure; the first one decided.
func Reasons(d *sim.Digest) []string {
	switch d.Standard.Basis {
	case rules.ByReserve:
		return reserveReasons(d)
	case rules.ByBand:
		return bandReasons(d)
	case rules.ByCadence:
		return cadenceReasons(d)
	}
	return []string{"no need is known: give " + Either(d.Kind == sim.Striking,
		"demand.torque_band_nm, the torques at which the train strikes as you like it, or demand.least_torque_nm, the least at which it strikes at all, found with weights on a pulley at the winding square",
		"demand.least_torque_nm, the least torque at the fusee arbor on which the train runs, found with weights on a pulley at the winding square; or escapement and pendulum, from which it is predicted")}
}

// leastAt begins a sentence on the least torque, and meanOf one on the mean.
func leastAt(d *sim.Digest) string {
	return say("the least torque, %v N·m at %s,", d.Torque.Min, turnOf(d, d.Torque.MinAt))
}

// timesNeed begins one on how the least torque stands to the need.
func timesNeed(d *sim.Digest, needed string) string {
	return Either(d.Torque.Min > 0, leastAt(d)+say(" is %v", d.Reserve(d.Torque.Min)), "at "+turnOf(d, d.Torque.MinAt)+" the spring has nothing to give: 0") +
		say(" times the %v N·m %s", d.Need.Used, needed)
}

func meanOf(d *sim.Digest) string { return say("the mean torque, %v N·m,", d.Torque.Mean) }

func reserveReasons(d *sim.Digest) []string {
	code, b, need := d.Verdict.Code, d.Standard.Bands, d.Need.Used
	least, mean := d.Reserve(d.Torque.Min), d.Reserve(d.Torque.Mean)
	low := timesNeed(d, "needed")
	high := say("the mean torque is %v times the %v N·m needed", mean, need)
	past := d.Need.Beyond && code == rules.Thin && least >= b.Thin // thin for want of the margin alone
	var why told
	why.when(d.Need.Beyond, "no torque swings the pendulum to half the escaping arc with its margin of %.2f°: at %.1f° %s; so it is at best thin, and the need is what it takes to escape", d.Margin.Degrees(), d.Widest.Degrees(),
		Either(d.Rubs, "the dead faces rub away all that it is given (escapement.dead_friction)", "driving the wheel back takes all that it is given (escapement.recoil_ratio)"))
	why.when(code == rules.Stops, "%s; %s", low, cmp.Or(
		where(onlyPredicted(d), "below it the swing does not reach the escaping arc with its margin of %.2f°, and any disturbance stops the clock", d.Margin.Degrees()),
		say("below %v the train stops", b.Stops)))
	why.when(code == rules.Stops, "%s", whereItStops(d))
	why.when(code == rules.Thin && !past, "%s; below %v too little is left for thick oil, dirt and cold", low, b.Thin)
	why.when(past, "%s", high)
	why.when(code == rules.Suits, "%s; up to %v suits", high, b.Suits)
	why.when(code == rules.Suits, "the least, at %s, is %v times it; %v is enough", turnOf(d, d.Torque.MinAt), least, b.Thin)
	why.when(code == rules.Strong, "%s; up to %v suits, up to %v is strong", high, b.Suits, b.Strong)
	why.when(code == rules.Overdriven, "%s; above %v the train is overdriven", high, b.Strong)
	if code >= rules.Strong {
		why.add("wear grows with load times distance slid (Archard 1953): pivots and pallets wear about %v times as fast as on the torque that would just do", mean)
		why.when(least < b.Thin*1.05, "and yet the least torque, at %s, is only %v times the need: the cone does not even this spring out",
			turnOf(d, d.Torque.MinAt), least)
	}
	return why
}

// onlyPredicted tells whether the need holds the margin asked for, so that a
// pendulum may still just swing below it.
func onlyPredicted(d *sim.Digest) bool { return d.Escapes && math.IsNaN(d.Need.Measured) }

func whereItStops(d *sim.Digest) string {
	start, at := d.StopsAt <= d.TurnsLost, turnOf(d, d.StopsAt)
	return cmp.Or(
		where(start && onlyPredicted(d), "so it is from the start, fully wound"),
		where(start, "it would not even start when fully wound"),
		where(onlyPredicted(d), "running down it comes to that at %s", at),
		"running down it stops at "+at)
}

func bandReasons(d *sim.Digest) []string {
	code, band, limit := d.Verdict.Code, d.Standard.Liked, d.Standard.Limits()[3]
	if code == rules.Stops {
		return strikesBelow(d)
	}
	liked := say("the %v to %v N·m liked at the bench", band.Lo, band.Hi)
	var why told
	why.when(code == rules.Thin, "%s is below %s", leastAt(d), liked)
	why.when(code == rules.Suits, "the mean torque is within %s", liked)
	why.when(code == rules.Suits, "%s is not below that", leastAt(d))
	why.when(code >= rules.Strong, "%s is %v times the upper end of %s; %s", meanOf(d), d.Torque.Mean/band.Hi, liked,
		cmp.Or(where(code == rules.Overdriven, "above %v N·m it is overdriven", limit), say("up to %v N·m is strong", limit)))
	return why
}

func strikesBelow(d *sim.Digest) []string {
	need := Either(math.IsNaN(d.Need.Measured), "from which on it strikes from rest, whichever pin comes first; with less the hammer stalls it", "found to be needed")
	return []string{timesNeed(d, need), whereItStops(d)}
}

// cadenceReasons are the reasons of a striking train judged by its cadence, and how it
// strikes where that is predicted.
func cadenceReasons(d *sim.Digest) []string {
	code, w, band, every := d.Verdict.Code, d.Wanted, d.Standard.Liked, d.Cadence.Interval
	times, predicted := d.Torque.Mean/band.Hi, !math.IsNaN(every.Mean)
	var why told
	if code == rules.Stops {
		why = strikesBelow(d)
	}
	why.when(code == rules.Thin, "%s strikes more slowly than every %v s, which takes %v N·m", leastAt(d), w.Hi, band.Lo)
	why.when(code == rules.Suits, "%s is less than the %v N·m on which it would strike every %v s, the fastest wanted", meanOf(d), band.Hi, w.Lo)
	why.when(code >= rules.Strong && d.Hurries, "on any torque from the %v N·m that it needs to strike at all, it strikes faster than every %v s, the fastest wanted; %s is %v times that, and up to %v times is strong: the fly is too small, or the hammers are too light",
		d.StrikesFrom, w.Lo, meanOf(d), times, rules.StrongBand)
	why.when(code >= rules.Strong && !d.Hurries, "%s is %v times the %v N·m on which it would strike every %v s, the fastest wanted; up to %v times is strong",
		meanOf(d), times, band.Hi, w.Lo, rules.StrongBand)
	why.when(d.Strikes && !predicted, "by prediction it stalls at every turn")
	why.when(d.Strikes && predicted, "it strikes every %s s%s%s; you want %v to %v s",
		span(every.Min, every.Max), where(d.Torque.Min < d.StrikesFrom, ", where it strikes"), spreadOfUntimed(d), w.Lo, w.Hi)
	return why
}

// spreadOfUntimed goes with every cadence of a fly whose drag nothing tells.
func spreadOfUntimed(d *sim.Digest) string {
	return where(d.Untimed, ", each ± %.0f %%", 100*rules.UntimedCadence)
}

// turnOf is a fusee turn with the day it falls on, as people say it.
func turnOf(d *sim.Digest, turn float64) string {
	hours := (turn - d.TurnsLost) * d.HoursPerTurn
	// The end of the run still is its last day, also when that ends minutes late.
	last := max(math.Ceil(d.Runtime/24-0.01), 1)
	return "turn " + Turns(turn) + where(!math.IsNaN(d.Turns), " of %s", Turns(d.Turns)) +
		where(!math.IsNaN(hours), " (day %.0f)", min(math.Floor(hours/24)+1, last))
}
