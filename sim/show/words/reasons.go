package words

import (
	"fmt"
	"math"

	"evenpull/sim"
	"evenpull/sim/rules"
)

// Reasons are the verdict's reasons in plain words, each with its figure. The
// first one decided.
func Reasons(d *sim.Digest) []string {
	switch d.Standard.Basis {
	case rules.ByBand, rules.ByCadence:
		return bandReasons(d)
	case rules.ByReserve:
		return reserveReasons(d)
	}
	if d.Kind == sim.Striking {
		return []string{"no need is known: give demand.torque_band_nm, the torques at which the train strikes as you like it, or demand.least_torque_nm, the least at which it strikes at all, found with weights on a pulley at the winding square"}
	}
	return []string{"no need is known: give demand.least_torque_nm, the least torque at the fusee arbor on which the train runs, found with weights on a pulley at the winding square; or escapement and pendulum, from which it is predicted"}
}

func reserveReasons(d *sim.Digest) []string {
	b, need := d.Standard.Bands, d.Need.Used
	least, mean := d.Reserve(d.Torque.Min), d.Reserve(d.Torque.Mean)
	at := when(d, d.Torque.MinAt)
	var why []string
	switch d.Verdict.Code {
	case rules.Stops:
		why = append(why, fmt.Sprintf("the least torque, %s N·m at %s, is %s times the %s N·m needed; %s",
			Figure(d.Torque.Min), at, Figure(least), Figure(need), whatStopsIt(d)))
		why = append(why, whereItStops(d))
	case rules.Thin:
		why = append(why, fmt.Sprintf("the least torque, %s N·m at %s, is %s times the %s N·m needed; below %s too little is left for thick oil, dirt and cold",
			Figure(d.Torque.Min), at, Figure(least), Figure(need), Figure(b.Thin)))
	case rules.Suits:
		why = append(why, fmt.Sprintf("the mean torque, %s N·m, is %s times the %s N·m needed; up to %s suits",
			Figure(d.Torque.Mean), Figure(mean), Figure(need), Figure(b.Suits)))
		why = append(why, fmt.Sprintf("the least torque, %s N·m at %s, still is %s times the need; %s is enough",
			Figure(d.Torque.Min), at, Figure(least), Figure(b.Thin)))
	case rules.Strong:
		why = append(why, fmt.Sprintf("the mean torque, %s N·m, is %s times the %s N·m needed; up to %s suits, up to %s is strong",
			Figure(d.Torque.Mean), Figure(mean), Figure(need), Figure(b.Suits), Figure(b.Strong)))
	case rules.Overdriven:
		why = append(why, fmt.Sprintf("the mean torque, %s N·m, is %s times the %s N·m needed; above %s the train is overdriven",
			Figure(d.Torque.Mean), Figure(mean), Figure(need), Figure(b.Strong)))
	}
	if d.Verdict.Code >= rules.Strong {
		why = append(why, fmt.Sprintf("wear grows with load times distance slid (Archard 1953): pivots and pallets wear about %s times as fast as on the torque that would just do",
			Figure(mean)))
		if least < b.Thin*1.05 {
			why = append(why, fmt.Sprintf("and yet the least torque, at %s, is only %s times the need: the cone does not even this spring out", at, Figure(least)))
		}
	}
	return why
}

// onlyPredicted tells whether the need holds the margin asked for, so that a
// pendulum may still just swing below it.
func onlyPredicted(d *sim.Digest) bool {
	return d.Escapes && math.IsNaN(d.Need.Measured)
}

// whatStopsIt tells why less than the need is too little.
func whatStopsIt(d *sim.Digest) string {
	if onlyPredicted(d) {
		return fmt.Sprintf("below it the swing does not reach the escaping arc with its margin of %.2f°, and any disturbance stops the clock", d.Margin.Degrees())
	}
	return fmt.Sprintf("below %s the train stops", Figure(d.Standard.Bands.Stops))
}

// whereItStops tells where on its run a train stops first.
func whereItStops(d *sim.Digest) string {
	start := d.StopsAt <= d.TurnsLost
	switch {
	case start && onlyPredicted(d):
		return "so it is from the start, fully wound"
	case start:
		return "it would not even start when fully wound"
	case onlyPredicted(d):
		return "running down it comes to that at " + when(d, d.StopsAt)
	}
	return "running down it stops at " + when(d, d.StopsAt)
}

func bandReasons(d *sim.Digest) []string {
	band, basis := d.Standard.Liked, d.Standard.Basis
	t := d.Torque
	liked := fmt.Sprintf("%s to %s N·m liked at the bench", Figure(band.Lo), Figure(band.Hi))
	if basis == rules.ByCadence {
		if !d.Strikes { // the cadence was timed, and nothing is predicted
			return cadenceReasons(d)
		}
		return append(cadenceReasons(d), cadenceSaid(d))
	}
	switch d.Verdict.Code {
	case rules.Stops:
		return []string{fmt.Sprintf("the least torque, %s N·m at %s, is %s times the %s N·m %s",
			Figure(t.Min), when(d, t.MinAt), Figure(d.Reserve(t.Min)), Figure(d.Need.Used), strikeNeed(d)), whereItStops(d)}
	case rules.Thin:
		return []string{fmt.Sprintf("the least torque, %s N·m at %s, is below the %s", Figure(t.Min), when(d, t.MinAt), liked)}
	case rules.Suits:
		return []string{fmt.Sprintf("the mean torque, %s N·m, is within the %s", Figure(t.Mean), liked),
			fmt.Sprintf("the least torque, %s N·m at %s, is not below it", Figure(t.Min), when(d, t.MinAt))}
	}
	limit := fmt.Sprintf("up to %s N·m is strong", Figure(d.Standard.Limits()[3]))
	if d.Verdict.Code == rules.Overdriven {
		limit = fmt.Sprintf("above %s N·m it is overdriven", Figure(d.Standard.Limits()[3]))
	}
	return []string{fmt.Sprintf("the mean torque, %s N·m, is %s times the upper end of the %s; %s",
		Figure(t.Mean), Figure(t.Mean/band.Hi), liked, limit)}
}

// when is a fusee turn with the day it falls on, as people say it.
func when(d *sim.Digest, turn float64) string {
	s := "turn " + Turns(turn)
	if !math.IsNaN(d.Turns) {
		s += " of " + Turns(d.Turns)
	}
	if hours := (turn - d.TurnsLost) * d.HoursPerTurn; !math.IsNaN(hours) {
		// The end of the run still is its last day, also when that ends minutes late.
		last := max(math.Ceil(d.Runtime/24-0.01), 1)
		s += fmt.Sprintf(" (day %.0f)", min(math.Floor(hours/24)+1, last))
	}
	return s
}
