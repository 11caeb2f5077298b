package setup

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"

	"evenpull/sim"
	"evenpull/sim/show/text"
)

type number = text.Number

type pointJSON struct {
	SetUp      number  `json:"set_up_turns"`
	Unevenness number  `json:"unevenness"`
	Mean       number  `json:"mean"`
	CV         number  `json:"cv"`
	Reserve    number  `json:"reserve_min"`
	Verdict    *string `json:"verdict"`
	Lost       number  `json:"turns_lost"`
}

// JSON writes the machine-readable study.
func JSON(w io.Writer, st *Study) error {
	doc := struct {
		Train    string      `json:"train"`
		Now      pointJSON   `json:"now"`
		Best     pointJSON   `json:"best"`
		Range    [2]number   `json:"range"`
		Most     number      `json:"most_set_up_turns"`
		Curve    []pointJSON `json:"curve"`
		Cautions []string    `json:"cautions"`
	}{
		Train: st.Train.Name, Now: pointOf(&st.Now), Best: pointOf(&st.Best), Range: [2]number{number(st.Range.Lo), number(st.Range.Hi)},
		Most: number(st.Most), Curve: make([]pointJSON, len(st.Curve)), Cautions: []string{st.Caution},
	}
	for i := range st.Curve {
		doc.Curve[i] = pointOf(&st.Curve[i])
	}
	return text.JSON(w, doc)
}

func pointOf(p *Point) pointJSON {
	return pointJSON{number(p.SetUp), number(p.Unevenness), number(p.Mean), number(p.CV), number(p.Reserve.Min), text.Code(p.Verdict), number(p.Lost)}
}

// CSV writes the curve, comma-separated with a header (RFC 4180).
func CSV(w io.Writer, st *Study) error {
	out := csv.NewWriter(w)
	lines := [][]string{{"set_up_turns", "unevenness", "cv", "fusee_torque_nm.mean", "reserve.mean", "reserve.min", "verdict"}}
	for i := range st.Curve {
		p := &st.Curve[i]
		lines = append(lines, []string{text.Cell(p.SetUp), text.Cell(p.Unevenness), text.Cell(p.CV), text.Cell(p.Mean),
			text.Cell(p.Reserve.Mean), text.Cell(p.Reserve.Min), p.Verdict.String()})
	}
	return out.WriteAll(lines)
}

// Text writes a study for people.
type Text struct{ Colour bool }

// spare is the least of turns that is well left between fully wound and bound:
// imperfect packing takes about one (common practice, no source).
const spare = 1.0

// Write writes it: the best set-up, what it gives beside the present one, and
// the range that is nearly as good.
func (t Text) Write(w io.Writer, st *Study) error {
	p := text.New(w, t.Colour)
	if st.Best.SetUp == st.Now.SetUp {
		p.Line(fmt.Sprintf("%s train: most even with the %s turns of set-up that it has, where it %s", st.Train.Name, turns(st.Best.SetUp), st.says(p)))
		p.Wrap("  - ", fmt.Sprintf("unevenness %s there", text.Percent(st.Best.Unevenness)))
	} else {
		p.Line(fmt.Sprintf("%s train: most even with %s turns of set-up, where it %s", st.Train.Name, turns(st.Best.SetUp), st.says(p)))
		p.Wrap("  - ", fmt.Sprintf("unevenness %s there, %s with the %s turns it has now", text.Percent(st.Best.Unevenness), text.Percent(st.Now.Unevenness), turns(st.Now.SetUp)))
	}
	p.Wrap("  - ", fmt.Sprintf("from %s to %s turns it stays %s", fine3(st.Range.Lo), fine3(st.Range.Hi), st.within()))
	p.Wrap("  - ", fmt.Sprintf("the fusee can be wound fully with up to %s turns of set-up", turns(st.Most)))
	if left := st.Most - st.Best.SetUp; left < spare {
		p.Wrap("  ! ", fmt.Sprintf("do not set it up so far: the best leaves only %s turns before the spring binds, and coils that do not pack perfectly take about one (common practice, no source)", turns(left)))
	}
	if st.Now.Lost > 0 {
		p.Wrap("  ! ", fmt.Sprintf("with the present set-up the spring binds before the fusee is wound, and %s fusee turns are lost", turns(st.Now.Lost)))
	}
	p.Line("")
	st.table(p)
	p.Line("")
	p.Wrap("Caution: ", st.Caution)
	return p.Flush()
}

// Words tell the best set-up in a sentence: what it gives beside the present one.
func (st *Study) Words() string {
	best, now := &st.Best, &st.Now
	if best.SetUp == now.SetUp {
		return fmt.Sprintf("the %s turns it has are the most even, to %s", turns(now.SetUp), text.Percent(now.Unevenness))
	}
	gives := ""
	if !math.IsNaN(best.Reserve.Mean) {
		gives = fmt.Sprintf("; reserve then mean %s, least %s, verdict %s", text.Two(best.Reserve.Mean), text.Two(best.Reserve.Min), verdict(best))
	}
	if left := st.Most - best.SetUp; left < spare {
		return fmt.Sprintf("none to be advised: the most even, %s turns in place of %s, to %s instead of %s, leaves only %s before the spring binds, and a real barrel gives about a turn less than is computed (common practice, no source)%s",
			turns(best.SetUp), turns(now.SetUp), text.Percent(best.Unevenness), text.Percent(now.Unevenness), turns(left), gives)
	}
	return fmt.Sprintf("most even with %s turns in place of %s, to %s instead of %s%s", turns(best.SetUp), turns(now.SetUp), text.Percent(best.Unevenness), text.Percent(now.Unevenness), gives)
}

func (st *Study) table(p *text.Page) {
	var g text.Grid
	g.Row("  set-up", "unevenness", "variation", "mean", "reserve", "reserve", "verdict")
	g.Row("  turns", "%", "%", "N·m", "mean", "least", "")
	row := func(q *Point, note string) {
		g.Row("  "+turns(q.SetUp), text.Share(q.Unevenness), text.Share(q.CV), sim.Figure(q.Mean), text.Two(q.Reserve.Mean), text.Two(q.Reserve.Min), verdict(q)+note)
	}
	shown := map[string]bool{turns(st.Now.SetUp): true, turns(st.Best.SetUp): true}
	marks := []struct {
		p    *Point
		note string
	}{{&st.Now, ", now"}, {&st.Best, ", best"}}
	if st.Best.SetUp == st.Now.SetUp {
		marks = marks[:1]
		marks[0].note = ", now and best"
	}
	if len(marks) > 1 && st.Best.SetUp < st.Now.SetUp {
		marks[0], marks[1] = marks[1], marks[0]
	}
	for i := 0; i < len(st.Curve); i += steps / 12 {
		q := &st.Curve[i]
		for len(marks) > 0 && marks[0].p.SetUp <= q.SetUp {
			row(marks[0].p, marks[0].note)
			marks = marks[1:]
		}
		if !shown[turns(q.SetUp)] {
			row(q, "")
		}
	}
	for _, m := range marks {
		row(m.p, m.note)
	}
	g.Right(0, 1, 2, 3, 4, 5)
	g.Write(p)
}

// says is the verdict with the best set-up as a verb.
func (st *Study) says(p *text.Page) string {
	switch c := st.Best.Verdict; c {
	case sim.Stops, sim.Suits:
		return p.Verdict(c)
	default:
		return "is " + p.Verdict(c)
	}
}

// within tells what the range keeps.
func (st *Study) within() string {
	if near*st.Best.Unevenness < trifle {
		return "as even as anybody could tell, below " + text.Percent(trifle)
	}
	return "within 10 % of the best"
}

// fine3 writes the ends of a range that may be narrow.
func fine3(v float64) string { return fmt.Sprintf("%.3f", v) }

func turns(v float64) string { return fmt.Sprintf("%.2f", v) }

func verdict(q *Point) string {
	if q.Verdict == sim.Unjudged {
		return "not judged"
	}
	return q.Verdict.String()
}
