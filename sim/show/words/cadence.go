package words

import (
	"fmt"
	"math"

	"evenpull/sim"
	"evenpull/sim/rules"
)

// cadenceReasons are the reasons of a striking train judged by its cadence.
func cadenceReasons(d *sim.Digest) []string {
	t, w, band := d.Torque, d.Wanted, d.Standard.Liked
	switch d.Verdict.Code {
	case rules.Stops:
		return []string{fmt.Sprintf("the least torque, %s N·m at %s, is %s times the %s N·m %s",
			Figure(t.Min), when(d, t.MinAt), Figure(d.Reserve(t.Min)), Figure(d.Need.Used), strikeNeed(d)), whereItStops(d)}
	case rules.Thin:
		return []string{fmt.Sprintf("the least torque, %s N·m at %s, strikes more slowly than every %s s, which takes %s N·m",
			Figure(t.Min), when(d, t.MinAt), Figure(w.Hi), Figure(band.Lo))}
	case rules.Suits:
		return []string{fmt.Sprintf("the mean torque, %s N·m, does not strike faster than every %s s, which takes %s N·m; nowhere does it strike more slowly than every %s s",
			Figure(t.Mean), Figure(w.Lo), Figure(band.Hi), Figure(w.Hi))}
	}
	if d.Hurries {
		return []string{fmt.Sprintf("on any torque from the %s N·m that it needs to strike at all, it strikes faster than every %s s, the fastest wanted; the mean torque, %s N·m, is %s times that, and up to %s times is strong: the fly is too small, or the hammers are too light",
			Figure(d.StrikesFrom), Figure(w.Lo), Figure(t.Mean), Figure(t.Mean/band.Hi), Figure(rules.StrongBand))}
	}
	return []string{fmt.Sprintf("the mean torque, %s N·m, is %s times the %s N·m that strike every %s s, the fastest wanted; up to %s times is strong",
		Figure(t.Mean), Figure(t.Mean/band.Hi), Figure(band.Hi), Figure(w.Lo), Figure(rules.StrongBand))}
}

// cadenceSaid is how the train strikes, in a sentence.
func cadenceSaid(d *sim.Digest) string {
	c := d.Cadence
	if math.IsNaN(c.Interval.Mean) {
		return "by prediction it stalls at every turn"
	}
	where := ""
	if d.Torque.Min < d.StrikesFrom {
		where = ", where it strikes"
	}
	return fmt.Sprintf("by prediction it strikes every %s s in the mean, %s to %s s over the run%s; wanted are %s to %s s",
		Figure(c.Interval.Mean), Figure(c.Interval.Min), Figure(c.Interval.Max), where, Figure(d.Wanted.Lo), Figure(d.Wanted.Hi))
}

// strikeNeed tells where the need of a striking train comes from.
func strikeNeed(d *sim.Digest) string {
	if math.IsNaN(d.Need.Measured) {
		return "from which on it strikes from rest, whichever pin comes first; with less the hammer stalls it"
	}
	return "found to be needed"
}
