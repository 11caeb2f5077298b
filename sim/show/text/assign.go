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
			fmt.Sprintf("reserve mean %s, least %s", words.Two(q.Reserve(q.Torque.Mean)), words.Two(q.Reserve(q.Torque.Min))))
	}
	g.Write(p)
	p.list("  ! fault: ", words.AssignFaults(st))
	p.list("  * note: ", words.AssignNotes(st))
	p.Line("")
	p.pairs(st)
	p.Line("")
	p.list("Caution: ", words.AssignCautions(st))
	return p.Flush()
}

func (p *Page) pairs(st *assign.Study) {
	var g Grid
	g.Row("  spring", "train", "read in", "mean", "least", "unevenness", "reserve", "reserve", "off the", "verdict")
	g.Row("", "", "", "N·m", "N·m", "%", "mean", "least", "middle, %", "")
	for i := range st.Pairs {
		q := &st.Pairs[i]
		mark, in, off := "  ", q.ReadIn, "–"
		if q.Chosen {
			mark = "> "
		}
		if q.Carried() {
			in += ", carried over"
		}
		if !math.IsNaN(q.Off) && !math.IsInf(q.Off, 0) {
			off = words.Minus(fmt.Sprintf("%+.0f", 100*q.Off))
		}
		t := &q.Torque
		g.Row(mark+q.Label, q.Train, in, words.Figure(t.Mean), words.Figure(t.Min), words.Share(t.Unevenness),
			words.Two(q.Reserve(t.Mean)), words.Two(q.Reserve(t.Min)), off, words.PairDoes(q, words.Small))
	}
	g.Right(3, 4, 5, 6, 7, 8)
	g.Write(p)
}
