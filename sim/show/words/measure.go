package words

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"evenpull/sim/bench/measure"
)

// mostTold is how many sentences of one kind are told in full.
const mostTold = 5

// NeedNotes are what is worth knowing beside what a train was found to need.
func NeedNotes(n *measure.Need) []string {
	notes := told{}
	ran, stopped, never := "ran", "stopped", "never stopped"
	if n.Cadence != nil {
		ran, stopped, never = "struck", "did not strike", "always struck"
	}
	b, f := &n.Bracket, Figure
	if len(b.Contrary) == 0 {
		notes.when(!b.HasUpper(), "no weight of the trials %s: the least torque is above %s N·m; try heavier ones", ran, f(b.Between.Lo))
		notes.when(b.HasUpper() && !b.HasLower(), "every weight of the trials %s: the least torque is at most %s N·m and may be far less; try lighter ones", ran, f(b.Between.Hi))
	} else {
		trial := func(i int) string { return fmt.Sprintf("trial %d (%s g)", i+1, f(n.Trials[i].Mass*1e3)) }
		for _, c := range b.Contrary[:min(len(b.Contrary), mostTold)] {
			notes.when(true, "%s %s although %s, no heavier, %s", trial(c.Heavier), stopped, trial(c.Lighter), ran)
		}
		notes.when(len(b.Contrary) > mostTold, "%d more trials contradict lighter ones in the same way", len(b.Contrary)-mostTold)
		left := "no weight is known above which it " + never
		if b.HasUpper() && b.HasLower() {
			left = fmt.Sprintf("all that is sure is that the least torque lies from %s to %s N·m", f(b.Between.Lo), f(b.Between.Hi))
		} else if b.HasUpper() {
			left = fmt.Sprintf("all that is sure is that the least torque is at most %s N·m", f(b.Between.Hi))
		}
		notes.when(true, "%s; repeat these trials", left)
	}
	if n.Cadence != nil {
		notes.cadence(n)
	}
	return notes
}

// cadence tells of the blows that were timed.
func (t *told) cadence(n *measure.Need) {
	c, timed := n.Cadence, 0
	for _, trial := range n.Trials {
		if !math.IsNaN(trial.Interval) {
			timed++
		}
	}
	law := fmt.Sprintf("1/interval² grows by %s /s² for each N·m above %s N·m", Figure(c.Slope), Figure(c.Threshold))
	switch {
	case math.IsNaN(c.Slope):
		t.when(true, "blows were timed under one torque only: nothing tells how their pace follows the torque")
	case !(c.Slope > 0):
		t.when(true, "the blows do not come faster under heavier weights as a fly lets them: look for a fly that slips, a hammer that binds or trials mixed up")
	case timed == 2:
		t.when(true, "two timed trials make a line whatever they are: %s", law)
	default:
		t.when(true, "%s, as a fly makes it (r² %.4f over %d trials)", law, c.R2, timed)
	}
	for _, trials := range c.Pooled[:min(len(c.Pooled), mostTold)] {
		t.when(true, "trials %s do not strike faster with more weight: their mean stands for them between trials", numbers(trials, 1))
	}
	t.when(len(c.Pooled) > mostTold, "%d more groups of trials do not strike faster with more weight", len(c.Pooled)-mostTold)
}

// numbers are whole numbers, a first one counted on to each, as in "1, 2 and 3".
func numbers(list []int, first int) string {
	texts := make([]string, len(list))
	for i, v := range list {
		texts[i] = strconv.Itoa(v + first)
	}
	if len(texts) < 2 {
		return strings.Join(texts, "")
	}
	last := len(texts) - 1
	return strings.Join(texts[:last], ", ") + " and " + texts[last]
}

// fuseeTurns names some fusee turns.
func fuseeTurns(at []int) string {
	if len(at) == 1 {
		return "fusee turn " + numbers(at, 0)
	}
	return "fusee turns " + numbers(at, 0)
}
