package text

import (
	"fmt"
	"io"
	"math"

	"evenpull/sim/bench/assign"
	"evenpull/sim/show/words"
)

// Assign writes which spring goes to which train: the choice, what speaks against
// it, then every pair.
func Assign(w io.Writer, st *assign.Study, o Options) error {
	p := o.page(w)
	if st.Title != "" {
		p.Wrap("", st.Title)
		p.Line("")
	}
	p.Line(words.AssignHead(st))
	var g Grid
	for _, at := range st.Best {
		q := &st.Pairs[at]
		g.Row("  spring "+q.Label, "to the "+q.Train+" train:", words.PairDoes(q, p.Verdict),
			fmt.Sprintf("reserve mean %s, least %s", meanReserve(&q.Digest), leastReserve(&q.Digest)))
	}
	g.Write(p)
	p.list("  ! fault: ", words.AssignFaults(st))
	p.list("  * note: ", words.AssignNotes(st))
	p.Line("")
	p.table(pairs(st))
	return p.end(words.AssignCautions(st)...)
}

func pairs(st *assign.Study) Grid {
	return table(st.Pairs, []column[assign.Pair]{
		{"  spring", "", left, func(q *assign.Pair) string {
			if q.Chosen {
				return "> " + q.Label
			}
			return "  " + q.Label
		}},
		{"train", "", left, func(q *assign.Pair) string { return q.Train }},
		{"read in", "", left, func(q *assign.Pair) string {
			if q.Carried() {
				return q.ReadIn + ", carried over"
			}
			return q.ReadIn
		}},
		{"mean", "N·m", right, func(q *assign.Pair) string { return words.Figure(q.Torque.Mean) }},
		{"least", "N·m", right, func(q *assign.Pair) string { return words.Figure(q.Torque.Min) }},
		{"unevenness", "%", right, func(q *assign.Pair) string { return unevenness(&q.Digest) }},
		{"reserve", "mean", right, func(q *assign.Pair) string { return meanReserve(&q.Digest) }},
		{"reserve", "least", right, func(q *assign.Pair) string { return leastReserve(&q.Digest) }},
		{"off the", "middle, %", right, func(q *assign.Pair) string {
			if math.IsNaN(q.Off) || math.IsInf(q.Off, 0) {
				return "–"
			}
			return words.Minus(fmt.Sprintf("%+.0f", 100*q.Off))
		}},
		{"verdict", "", left, func(q *assign.Pair) string { return words.PairDoes(q, words.Small) }},
	})
}
