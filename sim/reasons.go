package sim

import (
	"fmt"
	"math"
	"strconv"
)

// Reasons are the verdict's reasons in plain words, each with its figure. The
// first one decided.
func (r *Result) Reasons() []string {
	switch r.Verdict.Basis {
	case ByBand, ByCadence:
		return r.bandReasons()
	case ByReserve:
		return r.reserveReasons()
	}
	if r.Train.Kind == Striking {
		return []string{"no need is known: give demand.torque_band_nm, the torques at which the train strikes as you like it, or demand.least_torque_nm, the least at which it strikes at all, found with weights on a pulley at the winding square"}
	}
	return []string{"no need is known: give demand.least_torque_nm, the least torque at the fusee arbor on which the train runs, found with weights on a pulley at the winding square; or escapement and pendulum, from which it is predicted"}
}

func (r *Result) reserveReasons() []string {
	b, need := r.Train.Bands, r.Need.Used
	least, mean := r.Reserve(r.Torque.Min), r.Reserve(r.Torque.Mean)
	at := r.when(r.Torque.MinAt)
	var why []string
	switch r.Verdict.Code {
	case Stops:
		why = append(why, fmt.Sprintf("the least torque, %s N·m at %s, is %s times the %s N·m needed; %s",
			Figure(r.Torque.Min), at, Figure(least), Figure(need), r.whatStopsIt()))
		why = append(why, r.whereItStops())
	case Thin:
		why = append(why, fmt.Sprintf("the least torque, %s N·m at %s, is %s times the %s N·m needed; below %s too little is left for thick oil, dirt and cold",
			Figure(r.Torque.Min), at, Figure(least), Figure(need), Figure(b.Thin)))
	case Suits:
		why = append(why, fmt.Sprintf("the mean torque, %s N·m, is %s times the %s N·m needed; up to %s suits",
			Figure(r.Torque.Mean), Figure(mean), Figure(need), Figure(b.Suits)))
		why = append(why, fmt.Sprintf("the least torque, %s N·m at %s, still is %s times the need; %s is enough",
			Figure(r.Torque.Min), at, Figure(least), Figure(b.Thin)))
	case Strong:
		why = append(why, fmt.Sprintf("the mean torque, %s N·m, is %s times the %s N·m needed; up to %s suits, up to %s is strong",
			Figure(r.Torque.Mean), Figure(mean), Figure(need), Figure(b.Suits), Figure(b.Strong)))
	case Overdriven:
		why = append(why, fmt.Sprintf("the mean torque, %s N·m, is %s times the %s N·m needed; above %s the train is overdriven",
			Figure(r.Torque.Mean), Figure(mean), Figure(need), Figure(b.Strong)))
	}
	if r.Verdict.Code >= Strong {
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
func (r *Result) onlyPredicted() bool {
	return r.Train.Escapes && math.IsNaN(r.Need.Measured)
}

// whatStopsIt tells why less than the need is too little.
func (r *Result) whatStopsIt() string {
	if r.onlyPredicted() {
		return fmt.Sprintf("below it the swing does not reach the escaping arc with its margin of %.2f°, and any disturbance stops the clock", r.Train.Escapement.Margin.Degrees())
	}
	return fmt.Sprintf("below %s the train stops", Figure(r.Train.Bands.Stops))
}

// whereItStops tells where on its run a train stops first.
func (r *Result) whereItStops() string {
	start := r.stopsAt <= r.Rows[0].FuseeTurn
	switch {
	case start && r.onlyPredicted():
		return "so it is from the start, fully wound"
	case start:
		return "it would not even start when fully wound"
	case r.onlyPredicted():
		return "running down it comes to that at " + r.when(r.stopsAt)
	}
	return "running down it stops at " + r.when(r.stopsAt)
}

func (r *Result) bandReasons() []string {
	band, basis := r.Train.Liked()
	t := r.Torque
	liked := fmt.Sprintf("%s to %s N·m liked at the bench", Figure(band.Lo), Figure(band.Hi))
	if basis == ByCadence {
		return append(r.cadenceReasons(band), r.cadenceSaid())
	}
	switch r.Verdict.Code {
	case Stops:
		return []string{fmt.Sprintf("the least torque, %s N·m at %s, is %s times the %s N·m %s",
			Figure(t.Min), r.when(t.MinAt), Figure(r.Reserve(t.Min)), Figure(r.Need.Used), r.strikeNeed()), r.whereItStops()}
	case Thin:
		return []string{fmt.Sprintf("the least torque, %s N·m at %s, is below the %s", Figure(t.Min), r.when(t.MinAt), liked)}
	case Suits:
		return []string{fmt.Sprintf("the mean torque, %s N·m, is within the %s", Figure(t.Mean), liked),
			fmt.Sprintf("the least torque, %s N·m at %s, is not below it", Figure(t.Min), r.when(t.MinAt))}
	}
	limit := fmt.Sprintf("up to %s N·m is strong", Figure(StrongAbove(band)))
	if r.Verdict.Code == Overdriven {
		limit = fmt.Sprintf("above %s N·m it is overdriven", Figure(StrongAbove(band)))
	}
	return []string{fmt.Sprintf("the mean torque, %s N·m, is %s times the upper end of the %s; %s",
		Figure(t.Mean), Figure(t.Mean/band.Hi), liked, limit)}
}

// when is a fusee turn with the day it falls on, as people say it.
func (r *Result) when(turn float64) string {
	s := fmt.Sprintf("turn %s of %s", Turns(turn), Turns(r.Train.Drive.Cone.Turns))
	if hours := (turn - r.TurnsLost) * r.HoursPerTurn; !math.IsNaN(hours) {
		// The end of the run still is its last day, also when that ends minutes late.
		last := max(math.Ceil(r.Runtime/24-0.01), 1)
		s += fmt.Sprintf(" (day %.0f)", min(math.Floor(hours/24)+1, last))
	}
	return s
}

// Turns writes a number of turns to the hundredth, whole ones whole.
func Turns(turn float64) string {
	return strconv.FormatFloat(math.Round(turn*100)/100, 'f', -1, 64)
}
