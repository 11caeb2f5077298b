package text

import (
	"cmp"
	"io"
	"slices"

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
	p.table(setUps(st, p.Full))
	p.then = words.SetUpNext(st)
	return p.end(words.Caution(st.Now.Spring.Stored))
}

// setUpRows are about how many set-ups the table shows beside the marked ones.
const setUpRows = 12

func setUps(st *setup.Study, full bool) Grid {
	var rows []mark
	for _, m := range words.SetUpMarks(st) {
		rows = append(rows, mark{m.Run, ", " + m.Name})
	}
	marked := rows
	every := max(1, (len(st.Curve)+setUpRows-1)/setUpRows)
	for i := 0; i < len(st.Curve); i += every {
		d := &st.Curve[i]
		if !slices.ContainsFunc(marked, func(m mark) bool { return m.d.Spring.SetUp == d.Spring.SetUp }) {
			rows = append(rows, mark{d, ""})
		}
	}
	slices.SortFunc(rows, func(a, b mark) int { return cmp.Compare(a.d.Spring.SetUp, b.d.Spring.SetUp) })
	columns := []column[mark]{{cell: func(*mark) string { return "" }}} // puts the others in from the edge
	names := []string{"spring.set_up_turns", outcome.Unevenness, "??fusee_torque_nm.cv", "?" + outcome.MeanTorque, outcome.MeanReserve, outcome.LeastReserve, "spring.turns_to_spare"}
	if !full { // beside the unevenness it would be one figure too many
		names = slices.Delete(names, 2, 3)
	}
	columns = append(columns, figures(func(m *mark) *sim.Digest { return m.d }, none, byTwo, names...)...)
	return table(rows, append(columns, column[mark]{"verdict", "", left, func(m *mark) string { return words.Small(m.d.Verdict.Code) + m.note }}))
}

// mark is a set-up with a note beside it.
type mark struct {
	d    *sim.Digest
	note string
}
