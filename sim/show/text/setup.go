package text

import (
	"io"

	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/show/words"
	"evenpull/sim/study/setup"
)

// SetUp writes the search for a set-up: the best, what it gives beside the present
// one, what is advised, and every few clicks.
func SetUp(w io.Writer, st *setup.Study, o Options) error {
	p := o.page(w)
	p.found(words.SetUpHead(st), words.SetUpSays(st, p.Verdict), words.SetUpWarns(st))
	p.table(setUps(st))
	return p.end(words.Caution(st.Now.Spring.Stored))
}

// setUpRows are about how many set-ups the table shows beside the marked ones.
const setUpRows = 12

func setUps(st *setup.Study) Grid {
	var rows []mark
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
			rows = append(rows, marks[0])
			marks = marks[1:]
		}
		if i%every == 0 && d.Spring.SetUp != now && d.Spring.SetUp != best {
			rows = append(rows, mark{d, ""})
		}
	}
	columns := figures(func(m *mark) *sim.Digest { return m.d }, none, byTwo, "spring.set_up_turns", outcome.Unevenness,
		"fusee_torque_nm.cv", outcome.MeanTorque, outcome.MeanReserve, outcome.LeastReserve, "spring.turns_to_spare")
	columns = append(columns, column[mark]{"verdict", "", left, func(m *mark) string { return words.Small(m.d.Verdict.Code) + m.note }})
	return table(append(rows, marks...), indented(columns))
}

// mark is a set-up with a note beside it.
type mark struct {
	d    *sim.Digest
	note string
}
