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
	notes := []string{}
	ran, stopped := "ran", "stopped"
	if n.Cadence != nil {
		ran, stopped = "struck", "did not strike"
	}
	b := &n.Bracket
	switch {
	case len(b.Contrary) > 0:
		notes = append(notes, contraryTrials(n, ran, stopped)...)
	case !b.HasUpper():
		notes = append(notes, fmt.Sprintf("no weight of the trials %s: the least torque is above %s N·m; try heavier ones", ran, Figure(b.Between.Lo)))
	case !b.HasLower():
		notes = append(notes, fmt.Sprintf("every weight of the trials %s: the least torque is at most %s N·m and may be far less; try lighter ones", ran, Figure(b.Between.Hi)))
	}
	if n.Cadence != nil {
		notes = append(notes, timedPaces(n)...)
	}
	return notes
}

// contraryTrials tells of trials that contradict each other, and what is left.
func contraryTrials(n *measure.Need, ran, stopped string) []string {
	b := &n.Bracket
	var notes []string
	for i, c := range b.Contrary {
		if i == mostTold {
			notes = append(notes, fmt.Sprintf("%d more trials contradict lighter ones in the same way", len(b.Contrary)-mostTold))
			break
		}
		notes = append(notes, fmt.Sprintf("%s %s although %s, no heavier, %s", trialNumber(n, c.Heavier), stopped, trialNumber(n, c.Lighter), ran))
	}
	left := "no weight is known above which it never " + stopped
	if stopped == "did not strike" {
		left = "no weight is known above which it always " + ran
	}
	switch {
	case b.HasUpper() && b.HasLower():
		left = fmt.Sprintf("all that is sure is that the least torque lies from %s to %s N·m", Figure(b.Between.Lo), Figure(b.Between.Hi))
	case b.HasUpper():
		left = fmt.Sprintf("all that is sure is that the least torque is at most %s N·m", Figure(b.Between.Hi))
	}
	return append(notes, left+"; repeat these trials")
}

func trialNumber(n *measure.Need, i int) string {
	return fmt.Sprintf("trial %d (%s g)", i+1, Figure(n.Trials[i].Mass*1e3))
}

// timedPaces tells of the blows that were timed.
func timedPaces(n *measure.Need) []string {
	c := n.Cadence
	var notes []string
	timed := 0
	for _, t := range n.Trials {
		if !math.IsNaN(t.Interval) {
			timed++
		}
	}
	switch {
	case math.IsNaN(c.Slope):
		notes = append(notes, "blows were timed under one torque only: nothing tells how their pace follows the torque")
	case !(c.Slope > 0):
		notes = append(notes, "the blows do not come faster under heavier weights as a fly lets them: look for a fly that slips, a hammer that binds or trials mixed up")
	case timed == 2:
		notes = append(notes, fmt.Sprintf("two timed trials make a line whatever they are: 1/interval² grows by %s /s² for each N·m above %s N·m",
			Figure(c.Slope), Figure(c.Threshold)))
	default:
		notes = append(notes, fmt.Sprintf("1/interval² grows by %s /s² for each N·m above %s N·m, as a fly makes it (r² %.4f over %d trials)",
			Figure(c.Slope), Figure(c.Threshold), c.R2, timed))
	}
	for i, trials := range c.Pooled {
		if i == mostTold {
			notes = append(notes, fmt.Sprintf("%d more groups of trials do not strike faster with more weight", len(c.Pooled)-mostTold))
			break
		}
		names := make([]string, len(trials))
		for j, k := range trials {
			names[j] = strconv.Itoa(k + 1)
		}
		notes = append(notes, "trials "+joined(names)+" do not strike faster with more weight: their mean stands for them between trials")
	}
	return notes
}

// joined is words as in "a, b and c".
func joined(list []string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	last := len(list) - 1
	return strings.Join(list[:last], ", ") + " and " + list[last]
}

// fuseeTurns names some fusee turns.
func fuseeTurns(at []int) string {
	list := make([]string, len(at))
	for i, turn := range at {
		list[i] = strconv.Itoa(turn)
	}
	if len(at) == 1 {
		return "fusee turn " + list[0]
	}
	return "fusee turns " + joined(list)
}
