package sim

import (
	"fmt"
	"math"

	"github.com/golang/geo/r1"
)

// cadenceReasons are the reasons of a striking train judged by its cadence.
func (r *Result) cadenceReasons(band r1.Interval) []string {
	t, w := r.Torque, r.Train.Striker.Interval
	k := &r.Train.Striker
	switch r.Verdict.Code {
	case Stops:
		return []string{fmt.Sprintf("the least torque, %s N·m at %s, is %s times the %s N·m %s",
			Figure(t.Min), r.when(t.MinAt), Figure(r.Reserve(t.Min)), Figure(r.Need.Used), r.strikeNeed()), r.whereItStops()}
	case Thin:
		return []string{fmt.Sprintf("the least torque, %s N·m at %s, strikes more slowly than every %s s, which takes %s N·m",
			Figure(t.Min), r.when(t.MinAt), Figure(w.Hi), Figure(band.Lo))}
	case Suits:
		return []string{fmt.Sprintf("the mean torque, %s N·m, does not strike faster than every %s s, which takes %s N·m; nowhere does it strike more slowly than every %s s",
			Figure(t.Mean), Figure(w.Lo), Figure(band.Hi), Figure(w.Hi))}
	}
	if k.Hurries {
		return []string{fmt.Sprintf("on any torque from the %s N·m that it needs to strike at all, it strikes faster than every %s s, the fastest wanted; the mean torque, %s N·m, is %s times that, and up to %s times is strong: the fly is too small, or the hammers are too light",
			Figure(k.Least), Figure(w.Lo), Figure(t.Mean), Figure(t.Mean/band.Hi), Figure(bandStrong))}
	}
	return []string{fmt.Sprintf("the mean torque, %s N·m, is %s times the %s N·m that strike every %s s, the fastest wanted; up to %s times is strong",
		Figure(t.Mean), Figure(t.Mean/band.Hi), Figure(band.Hi), Figure(w.Lo), Figure(bandStrong))}
}

// cadenceSaid is how the train strikes, in a sentence.
func (r *Result) cadenceSaid() string {
	c := r.Cadence
	if math.IsNaN(c.Interval.Mean) {
		return "by prediction it stalls at every turn"
	}
	where := ""
	if r.Torque.Min < r.Train.Striker.Least {
		where = ", where it strikes"
	}
	return fmt.Sprintf("by prediction it strikes every %s s in the mean, %s to %s s over the run%s; wanted are %s to %s s",
		Figure(c.Interval.Mean), Figure(c.Interval.Min), Figure(c.Interval.Max), where, Figure(r.Train.Striker.Interval.Lo), Figure(r.Train.Striker.Interval.Hi))
}

// strikeNeed tells where the need of a striking train comes from.
func (r *Result) strikeNeed() string {
	if math.IsNaN(r.Need.Measured) {
		return "from which on it strikes from rest, whichever pin comes first; with less the hammer stalls it"
	}
	return "found to be needed"
}
