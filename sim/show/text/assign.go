package text

import (
	"fmt"
	"io"
	"math"

	"evenpull/sim"
	"evenpull/sim/bench/assign"
	"evenpull/sim/outcome"
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
	choice := func(cell func(*assign.Pair) string) column[int] {
		return column[int]{"", "", left, func(at *int) string { return cell(&st.Pairs[*at]) }}
	}
	p.table(table(st.Best, []column[int]{
		choice(func(q *assign.Pair) string { return "  spring " + q.Label }),
		choice(func(q *assign.Pair) string { return "to the " + q.Train + " train:" }),
		choice(func(q *assign.Pair) string { return words.PairDoes(q, p.Verdict) }),
		choice(func(q *assign.Pair) string {
			return "reserve mean " + words.Two(q.Reserve(q.Torque.Mean)) + ", least " + words.Two(q.Reserve(q.Torque.Min))
		}),
	}))
	p.list("  ! fault: ", words.AssignFaults(st))
	p.list("  * note: ", words.AssignNotes(st))
	p.Line("")
	p.table(pairs(st))
	return p.end(words.AssignCautions(st)...)
}

func pairs(st *assign.Study) Grid {
	columns := append([]column[assign.Pair]{
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
	}, figures(func(q *assign.Pair) *sim.Digest { return &q.Digest }, none, byTwo,
		outcome.MeanTorque, outcome.LeastTorque, outcome.Unevenness, outcome.MeanReserve, outcome.LeastReserve)...)
	return table(st.Pairs, append(columns,
		column[assign.Pair]{"off the", "middle, %", right, func(q *assign.Pair) string {
			if math.IsNaN(q.Off) || math.IsInf(q.Off, 0) {
				return none
			}
			return words.Minus(fmt.Sprintf("%+.0f", 100*q.Off))
		}},
		column[assign.Pair]{"verdict", "", left, func(q *assign.Pair) string { return words.PairDoes(q, words.Small) }}))
}
