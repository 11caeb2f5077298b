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
	"evenpull/sim/study/choose"
	"evenpull/sim/study/dossier"
)

const has, toOrder = "The spring it has:", "To order:"

// verdict is what is found of a train, why, and what to do.
func verdict(t *dossier.Train, id, name string) Block {
	d := &t.Result.Digest
	said := slices.Concat(items("", "Sureness:", words.Decides(d)), items("", "", words.Reasons(d)...), items("fault", "Fault:", words.Faults(d)...), items("", "Note:", words.Notes(d)...),
		items("", has, words.Has(t.Result)))
	if t.SetUp != nil {
		said = append(said, Item{Mark: "Set-up:", Text: words.SetUpAdvice(t.SetUp)})
	}
	if t.Made != nil {
		said = append(said, Item{Mark: toOrder, Text: words.ToOrder(t.Made)})
	}
	class := "verdict " + strings.ReplaceAll(words.Small(d.Verdict.Code), " ", "-")
	return Block{Section: &Section{ID: id, Title: name, Word: words.Judged(d, words.Verdict), Class: class, Blocks: []Block{{List: said}}}}
}

// train is all that is known of one.
func (d *Document) train(t *dossier.Train, id string) []Block {
	r, f := t.Result, words.Figure
	thicker := append(words.SweepSays(t.Sweep), words.SweepWarns(t.Sweep)...)
	blocks := []Block{
		draw(d, id+"-drawing", "The "+r.Name+" train to scale",
			"Drawing to scale of the barrel with its coils run down and wound and of the fusee with its grooves, with the wheels as a diagram, of the "+r.Name+" train", drawing.Write, []sim.Result{*r}),
		{Heading: "Figures"}, {Pairs: words.Summary(r)},
		draw(d, id+"-torque", "Torque over the run, with the need and the bands of the verdict",
			fmt.Sprintf("Torque at the fusee over the run: mean %s, least %s, greatest %s N·m; verdict %s.", f(r.Torque.Mean), f(r.Torque.Min), f(r.Torque.Max), words.Verdict(r.Verdict.Code)),
			chart.Write, []sim.Result{*t.Fine}),
		{Heading: "The run-down"},
		table("The run-down, turn by turn; turn 0 is fully wound", 2, text.Rows(r)),
		table("Torque at every arbor", 1, text.Arbors(r)),
		everyFigure(&r.Digest),
		{Heading: "What if the spring were thicker or thinner, all else as it is"}, list(thicker),
		draw(d, id+"-thickness", "What another thickness of the spring would do, its length the same",
			"Torque, reserve and unevenness against the thickness of the mainspring: "+strings.Join(thicker, "; "), chart.Sweep, t.Sweep),
	}
	if t.Made != nil {
		blocks = append(blocks, order(r, t.Made)...)
	}
	return append(blocks, Block{Heading: "What matters most"},
		table("The inputs that the mean torque depends on most; elasticity: how many % it changes for 1 % more", 1, text.Inputs(t.Rank, &t.Rank.Rankings[0], 10)),
		draw(d, id+"-rank", "What moving each input by as much as it may be off does", "Bars showing the effect of each input, the greatest at the top", chart.Rank, t.Rank))
}

func everyFigure(d *sim.Digest) Block {
	g := text.Grid{Right: map[int]bool{2: true}}
	g.Row("figure", "symbol", "value", "unit")
	for _, f := range outcome.All() {
		if v := f.Of(d); !math.IsNaN(v) {
			g.Row(f.Words, f.Symbol, words.Figure(f.Shown(v)), words.ValueUnit(&f.Quantity))
		}
	}
	return table("Every figure of the run", 1, g)
}

// order tells what to order; nothing where no spring will do.
func order(r *sim.Result, st *choose.Study) []Block {
	springs := words.ToOrders(st)
	if len(springs) == 0 {
		return nil
	}
	return []Block{{Heading: "What to order"}, paragraph(has, words.Has(r)), paragraph(toOrder, words.ToOrder(st)), list(springs),
		table("The spring to have made, for "+words.ChooseGoal(st)+": "+words.ChooseMade(st), 2, text.Ideals(st))}
}
