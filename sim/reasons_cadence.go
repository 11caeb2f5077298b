package sim

import (
	"fmt"
	"math"

	"github.com/golang/geo/r1"
)

// cadenceReasons are the reasons of a striking train judged by its cadence.
func (r *Result) cadenceReasons(band r1.Interval) []string {
	t, w := r.Torque, r.Train.Striker.Interval
	switch r.Verdict.Code {
	case Stops:
		return []string{fmt.Sprintf("the least torque, %s N·m at %s, is %s times the %s N·m from which on the train strikes from rest; below that the hammer stalls it",
			Figure(t.Min), r.when(t.MinAt), Figure(r.Reserve(t.Min)), Figure(r.Need.Used)), r.whereItStops()}
	case Thin:
		return []string{fmt.Sprintf("the least torque, %s N·m at %s, strikes more slowly than every %s s, which takes %s N·m",
			Figure(t.Min), r.when(t.MinAt), Figure(w.Hi), Figure(band.Lo))}
	case Suits:
		return []string{fmt.Sprintf("the mean torque, %s N·m, does not strike faster than every %s s, which takes %s N·m; nowhere does it strike more slowly than every %s s",
			Figure(t.Mean), Figure(w.Lo), Figure(band.Hi), Figure(w.Hi))}
	}
	return []string{fmt.Sprintf("the mean torque, %s N·m, is %s times the %s N·m that strike every %s s, the fastest wanted; up to %s times is strong",
		Figure(t.Mean), Figure(t.Mean/band.Hi), Figure(band.Hi), Figure(w.Lo), Figure(bandStrong))}
}

// cadenceSaid is how the train strikes, in a sentence.
func (r *Result) cadenceSaid() string {
	c := r.Cadence
	if math.IsNaN(c.Interval.Mean) {
		return "it does not keep striking at any turn"
	}
	return fmt.Sprintf("it strikes every %s s in the mean, %s to %s s over the run; wanted are %s to %s s",
		Figure(c.Interval.Mean), Figure(c.Interval.Min), Figure(c.Interval.Max), Figure(r.Train.Striker.Interval.Lo), Figure(r.Train.Striker.Interval.Hi))
}
