package page

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/show/chart"
	"evenpull/sim/show/drawing"
	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
	"evenpull/sim/study/dossier"
	"evenpull/sim/study/rank"
)

// verdict is what is found of a train, why, and what to do; the first tells how sure that is.
func verdict(t *dossier.Train, id, name string, first bool) Block {
	d := &t.Result.Digest
	said := slices.Concat(items("fault", "Fault:", words.Faults(d)...), items("", "Why:", sentences(words.Reasons(d))))
	if t.SetUp != nil {
		said = append(said, items("do", "Set-up:", words.SetUpToDo(t.SetUp))...)
	}
	if t.Made != nil {
		said = append(said, items("do", "To order:", words.OrderToDo(t.Made))...)
	}
	if first {
		said = append(said, items("", "How sure:", words.Meant(d))...)
	}
	said = append(said, items("", "What decides:", words.Decider(d))...)
	class := "verdict " + strings.ReplaceAll(words.Small(d.Verdict.Code), " ", "-")
	return Block{Section: &Section{ID: id, Title: name, Word: words.Judged(d, words.Verdict), Class: class, Blocks: []Block{{List: said}}}}
}

// torqueCaption tells what the first picture of runs is that has bands; the others say it
// themselves.
func torqueCaption(first bool) string {
	return words.Either(first, "Torque at the fusee from wound to run down, and behind it how a train fares on each torque: it stops, is thin, suits, is strong or is overdriven", "")
}

// torqueAlt tells the same to those who cannot see it.
func torqueAlt(runs []chart.Compared) string {
	var said []string
	for _, r := range runs {
		f, t := words.Figure, r.Torque
		said = append(said, strings.TrimSpace(fmt.Sprintf("%s mean %s, least %s, greatest %s N·m; verdict %s.", r.Name, f(t.Mean), f(t.Min), f(t.Max), words.Verdict(r.Verdict.Code))))
	}
	return "Torque at the fusee over the run: " + strings.Join(said, " ")
}

// train is all that is known of one beside the answer.
func (d *Document) train(t *dossier.Train, id string) []Block {
	r := t.Result
	var said []Item
	if t.SetUp != nil {
		said = items("", "The set-up:", words.SetUpAdvice(t.SetUp))
	}
	said = slices.Concat(said, items("", "Note:", words.Notes(&r.Digest)...), items("", "Of a blow:", words.StrikesBy(r)...))
	thickness := draw(d, id+"-thickness", "What another thickness of the spring would do, its length the same",
		"Torque and unevenness against the thickness of the mainspring: "+strings.Join(words.SweepSays(t.Sweep), "; "), chart.Thickness, t.Sweep)
	row := []Block{thickness}
	if chart.Follows(r) {
		row = append(row, draw(d, id+"-run", followCaption(r), followCaption(r), chart.Follow, t.Fine))
	}
	row = append(row, draw(d, id+"-drawing", "The spring it has: "+words.Has(r),
		"Drawing to scale of the barrel with its coils run down and wound, the fusee with its grooves, with the wheels as a diagram, of the "+r.Name+" train", drawing.Narrow, r),
		table("Torque at every arbor", 1, text.Arbors(r)))
	return []Block{
		{List: said},
		{Heading: "Were the spring thicker or thinner, all else as it is"}, {Text: &Item{Text: sentences(words.SweepSays(t.Sweep))}}, {List: append(items("", "", words.SweepWarns(t.Sweep)...), d.order(t)...)},
		{Row: row},
		matters(t.Rank),
		table("The run-down, turn by turn; turn 0 is fully wound", 2, text.Rows(r)),
		{Heading: "Every figure of the run"}, everyFigure(&r.Digest),
	}
}

// followCaption tells what a run does to a pendulum or to blows.
func followCaption(r *sim.Result) string {
	return words.Either(r.Escapes, "What the torque does to the semi-arc of the pendulum, and to the rate off its mean", "What the torque does to the blows")
}

// order tells which springs could be ordered, beside one that the answer names.
func (d *Document) order(t *dossier.Train) []Item {
	if t.Made == nil {
		return nil
	}
	springs := words.OthersToOrder(t.Made)
	return items("", "", words.Either(len(springs) == 0, "", "springs of the same steel that could be had made, width × thickness × length, aimed at "+words.ChooseGoal(t.Made)+": "+strings.Join(springs, "; or ")))
}

// uneven names the figure that tells the same as the unevenness in words for statisticians.
const uneven = "fusee_torque_nm.cv"

func everyFigure(d *sim.Digest) Block {
	var all []words.Line
	for _, f := range outcome.All() {
		if v := f.Of(d); !math.IsNaN(v) && f.Name != uneven {
			all = append(all, words.Line{strings.TrimSpace(f.Words + " " + f.Symbol), strings.TrimSpace(words.Figure(f.Shown(v)) + " " + words.ValueUnit(&f.Quantity))})
		}
	}
	return Block{Pairs: all}
}

// mattering is the number of inputs that are told.
const mattering = 10

// matters sets side by side what the inputs do to the results that they are ranked by, those
// first that move the last of them most.
func matters(st *rank.Study) Block {
	g := text.Grid{Right: map[int]bool{1: true, 2: true}}
	head, under := []string{"input", "it is", "may be off by"}, []string{"", "", ""}
	for i := range st.Rankings {
		q := &st.Rankings[i].Of.Quantity
		g.Right[len(head)], g.Right[len(head)+1] = true, true
		head, under = append(head, q.Words, ""), append(under, "with less of it", "with more")
	}
	g.Right[len(head)] = true
	g.Row(append(head, "for 1 % more")...)
	g.Row(append(under, "torque, %")...)
	last := &st.Rankings[len(st.Rankings)-1]
	for i := range last.Inputs[:min(mattering, len(last.Inputs))] {
		in := &last.Inputs[i]
		if !last.Moves(in) {
			break
		}
		row := []string{words.Input(in.Quantity.Words, st.Own.Name), strings.TrimSpace(fmt.Sprintf("%.6g %s", in.Value, in.Quantity.Unit)), words.RankMoved(in)}
		for k := range st.Rankings {
			r := &st.Rankings[k]
			of := r.Input(in.Quantity.Key)
			row = append(row, words.Changed(&r.Of.Quantity, of.Minus), words.Changed(&r.Of.Quantity, of.Plus))
		}
		g.Row(append(row, words.RankElasticity(st.Rankings[0].Input(in.Quantity.Key)))...)
	}
	return table("What matters most, each input moved by as much as it may be off", 2, g)
}
