package measure

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"evenpull/sim/show/words"
)

// mostTold is how many sentences of one kind are told in full.
const mostTold = 5

// Notes are what is worth knowing beside the figures, in plain words.
func (n *Need) Notes() []string {
	notes := []string{}
	ran, stopped := "ran", "stopped"
	if n.Cadence != nil {
		ran, stopped = "struck", "did not strike"
	}
	b := &n.Bracket
	switch {
	case len(b.Contrary) > 0:
		notes = append(notes, n.contrary(ran, stopped)...)
	case !b.HasUpper():
		notes = append(notes, fmt.Sprintf("no weight of the trials %s: the least torque is above %s N·m; try heavier ones", ran, words.Figure(b.Between.Lo)))
	case !b.HasLower():
		notes = append(notes, fmt.Sprintf("every weight of the trials %s: the least torque is at most %s N·m and may be far less; try lighter ones", ran, words.Figure(b.Between.Hi)))
	}
	if n.Cadence != nil {
		notes = append(notes, n.paces()...)
	}
	return notes
}

// contrary tells of trials that contradict each other, and what is left.
func (n *Need) contrary(ran, stopped string) []string {
	b := &n.Bracket
	var notes []string
	for i, c := range b.Contrary {
		if i == mostTold {
			notes = append(notes, fmt.Sprintf("%d more trials contradict lighter ones in the same way", len(b.Contrary)-mostTold))
			break
		}
		notes = append(notes, fmt.Sprintf("%s %s although %s, no heavier, %s", n.trial(c.Heavier), stopped, n.trial(c.Lighter), ran))
	}
	left := "no weight is known above which it never " + stopped
	if stopped == "did not strike" {
		left = "no weight is known above which it always " + ran
	}
	switch {
	case b.HasUpper() && b.HasLower():
		left = fmt.Sprintf("all that is sure is that the least torque lies from %s to %s N·m", words.Figure(b.Between.Lo), words.Figure(b.Between.Hi))
	case b.HasUpper():
		left = fmt.Sprintf("all that is sure is that the least torque is at most %s N·m", words.Figure(b.Between.Hi))
	}
	return append(notes, left+"; repeat these trials")
}

func (n *Need) trial(i int) string {
	return fmt.Sprintf("trial %d (%s g)", i+1, words.Figure(n.Trials[i].Mass*1e3))
}

// paces tells of the blows that were timed.
func (n *Need) paces() []string {
	c := n.Cadence
	var notes []string
	timed := 0
	for _, k := range c.Knots {
		timed += len(k.trials)
	}
	switch {
	case math.IsNaN(c.Slope):
		notes = append(notes, "blows were timed under one torque only: nothing tells how their pace follows the torque")
	case !(c.Slope > 0):
		notes = append(notes, "the blows do not come faster under heavier weights as a fly lets them: look for a fly that slips, a hammer that binds or trials mixed up")
	case timed == 2:
		notes = append(notes, fmt.Sprintf("two timed trials make a line whatever they are: 1/interval² grows by %s /s² for each N·m above %s N·m",
			words.Figure(c.Slope), words.Figure(c.Threshold)))
	default:
		notes = append(notes, fmt.Sprintf("1/interval² grows by %s /s² for each N·m above %s N·m, as a fly makes it (r² %.4f over %d trials)",
			words.Figure(c.Slope), words.Figure(c.Threshold), c.R2, timed))
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
		notes = append(notes, "trials "+and(names)+" do not strike faster with more weight: their mean stands for them between trials")
	}
	return notes
}

// and joins words as in "a, b and c".
func and(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}

// turns names some fusee turns.
func turns(at []int) string {
	words := make([]string, len(at))
	for i, turn := range at {
		words[i] = strconv.Itoa(turn)
	}
	if len(at) == 1 {
		return "fusee turn " + words[0]
	}
	return "fusee turns " + and(words)
}
