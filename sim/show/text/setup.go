package text

import (
	"io"

	"evenpull/sim"
	"evenpull/sim/show/words"
	"evenpull/sim/study/setup"
)

// SetUp writes the search for a set-up: the best, what it gives beside the present
// one, what is advised, and every few clicks.
func SetUp(w io.Writer, st *setup.Study, o Options) error {
	p := o.page(w)
	p.Wrap("", words.SetUpHead(st, p.Verdict))
	p.list("  - ", words.SetUpSays(st))
	p.list("  ! ", words.SetUpWarns(st))
	p.Line("")
	g := setUps(st)
	g.Write(p)
	p.Line("")
	p.Wrap("Caution: ", words.Caution(st.Now.Spring.Stored))
	return p.Flush()
}

// setUpRows are about how many set-ups the table shows beside the marked ones.
const setUpRows = 12

func setUps(st *setup.Study) Grid {
	var g Grid
	g.Row("  set-up", "unevenness", "variation", "mean", "reserve", "reserve", "to spare", "verdict")
	g.Row("  turns", "%", "%", "N·m", "mean", "least", "turns", "")
	row := func(d *sim.Digest, note string) {
		g.Row("  "+words.Two(d.Spring.SetUp), words.Share(d.Torque.Unevenness), words.Share(d.Torque.CV), words.Figure(d.Torque.Mean),
			words.Two(d.Reserve(d.Torque.Mean)), words.Two(d.Reserve(d.Torque.Min)), words.Two(d.Left()), words.Small(d.Verdict.Code)+note)
	}
	now, best := st.Now.Spring.SetUp, st.Best.Spring.SetUp
	marks := []mark{{&st.Now, ", now"}, {&st.Best, ", best"}}
	switch {
	case best == now:
		marks = []mark{{&st.Now, ", now and best"}}
	case best < now:
		marks[0], marks[1] = marks[1], marks[0]
	}
	every := max(1, (len(st.Curve)+setUpRows-1)/setUpRows)
	for i := range st.Curve {
		d := &st.Curve[i]
		for len(marks) > 0 && marks[0].d.Spring.SetUp <= d.Spring.SetUp {
			row(marks[0].d, marks[0].note)
			marks = marks[1:]
		}
		if i%every == 0 && d.Spring.SetUp != now && d.Spring.SetUp != best {
			row(d, "")
		}
	}
	for _, m := range marks {
		row(m.d, m.note)
	}
	g.Right(0, 1, 2, 3, 4, 5, 6)
	return g
}

// mark is a set-up with a note beside it.
type mark struct {
	d    *sim.Digest
	note string
}
