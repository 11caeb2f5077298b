package data

import (
	"math"
	"strings"

	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/show/words"
	"evenpull/train"
)

// Digest is what every study tells of a run: the verdict and every figure, named
// and nested as in the JSON of a run.
func Digest() Object[sim.Digest] {
	return append(Object[sim.Digest]{Sub("verdict", "the judgement of the drive", verdict(), self)}, figures()...)
}

// withRun puts a run behind other members: all null where of gives nil.
func withRun[T any](of func(*T) *sim.Digest, before ...Member[T]) Object[T] {
	return append(before, Within(Digest(), of)...)
}

// trainOf names the train of a study.
func trainOf[T any](own func(*T) *sim.Digest) Member[T] {
	return Text("train", "the train", func(t *T) string { return own(t).Name })
}

// cautionsOf tell what to mind with the spring of a study.
func cautionsOf[T any](own func(*T) *sim.Digest) Member[T] {
	return Texts("cautions", "what to mind before a spring is touched", func(t *T) []string { return []string{words.Caution(own(t).Spring.Stored)} })
}

func verdict() Object[sim.Digest] {
	return Object[sim.Digest]{
		Text("code", "stops, thin, suits, strong or overdriven; null when no need is known", func(d *sim.Digest) string { return d.Verdict.Code.String() }),
		Number("sure", "share of the draws that end in the same verdict; null where none were made", "", func(d *sim.Digest) float64 { return drawn(d, d.Verdict.Sureness.Same) }),
		Text("else", "the verdict that comes up next among them", func(d *sim.Digest) string { return d.Verdict.Sureness.Else.String() }),
		Text("decides", "the input whose exact knowledge would make surest", func(d *sim.Digest) string { return d.Verdict.Sureness.Decides.Inputs[0].Key }),
		Number("decides_sure", "the share were it known exactly", "", func(d *sim.Digest) float64 { return decided(d, d.Verdict.Sureness.Decides.Alone) }),
		Number("decides_within", "how well it alone would have to be known for 0.95, to both sides in its unit, or a factor; null where that is not enough", "", func(d *sim.Digest) float64 { return decided(d, d.Verdict.Sureness.Decides.Inputs[0].Within) }),
		Texts("decides_with", "inputs that would have to be known exactly with it", func(d *sim.Digest) []string { return d.Verdict.Sureness.Decides.With() }),
		Number("decides_with_sure", "the share were they all", "", func(d *sim.Digest) float64 { return decided(d, d.Verdict.Sureness.Decides.All) }),
		Texts("reasons", "why, each with its figure; the first decided", words.Reasons),
		Texts("faults", "what does not fit or is unsafe whatever the torque", words.Faults),
		Text("loads_off", "the code with every load off; null without loads", func(d *sim.Digest) string { return d.Verdict.LoadsOff.String() }),
		Texts("notes", "what else is worth knowing", words.Notes),
	}
}

// drawn is a share of the draws, or NaN where none were made.
func drawn(d *sim.Digest, share float64) float64 {
	if d.Verdict.Sureness.Draws == 0 {
		return math.NaN()
	}
	return share
}

// decided is a figure of what decides, or NaN where nothing does.
func decided(d *sim.Digest, v float64) float64 {
	if d.Verdict.Sureness.Decides.Inputs[0].Key == "" {
		return math.NaN()
	}
	return v
}

// figures are those of the table; names with a dot are nested.
func figures() Object[sim.Digest] {
	var o, group Object[sim.Digest]
	all := outcome.All()
	for i, f := range all {
		table, key, nested := strings.Cut(f.Name, ".")
		if !nested {
			o = append(o, Number(f.Name, f.Words, f.Unit, f.Of))
			continue
		}
		group = append(group, Number(key, f.Words, f.Unit, f.Of))
		if i+1 < len(all) && strings.HasPrefix(all[i+1].Name, table+".") {
			continue
		}
		o, group = append(o, Sub(table, "", group, self)), nil
	}
	return o
}

// Run is the document of a run; its rows are those of every train, one below the
// other.
func Run() Document[sim.Clock] {
	o := Object[sim.Clock]{
		Text("scenario", "title of the scenario", func(c *sim.Clock) string { return c.Title }),
		Text("note", "what the scenario says of itself", func(c *sim.Clock) string { return c.Note }),
		Texts("assumed", "every value that the scenario leaves out", words.Assumed),
		Texts("from_bench", "what a bench book said in the place of what the scenario says", func(c *sim.Clock) []string { return c.Bench }),
		List("trains", "each train", trainDocument(), func(c *sim.Clock) []sim.Result { return c.Trains }),
		List("runs_down_first", "the trains whose hours are known, the one that stops or has run down first before the others", Object[sim.Digest]{
			Text("name", "the train", func(d *sim.Digest) string { return d.Name }),
			Number("goes_h", "hours that it goes before it stops or has run down", "h", (*sim.Digest).HoursGoing),
		}, (*sim.Clock).DownFirst),
		Texts("cautions", "what to mind before a spring is touched", words.Cautions),
	}
	lines := append(Object[turn]{Text("train", "the train", func(t *turn) string { return t.of.Name })}, row()...)
	lines = append(lines,
		Text("verdict.code", "the verdict on its whole run", func(t *turn) string { return t.of.Verdict.Code.String() }),
		Texts("verdict.faults", "what does not fit or is unsafe in it whatever the torque", func(t *turn) []string { return words.Faults(&t.of.Digest) }))
	return Document[sim.Clock]{o, rows(lines, func(c *sim.Clock) []turn {
		return partsOf(c.Trains, func(r *sim.Result) []sim.Row { return r.Rows })
	})}
}

// turn is a row with the run that it belongs to.
type turn = part[sim.Result, sim.Row]

func trainDocument() Object[sim.Result] {
	run := withRun(func(r *sim.Result) *sim.Digest { return &r.Digest },
		Text("name", "the train", func(r *sim.Result) string { return r.Name }),
		Text("kind", "going or striking", func(r *sim.Result) string { return r.Kind.String() }))
	return append(run,
		Sub("strike", "what a striking train does with the torque; null for others", strike(), func(r *sim.Result) *sim.Result { return only(r.Strikes, r) }),
		List("arbors", "the torque at every arbor, the fusee's first", Object[sim.Arbor]{
			Text("name", "the arbor", func(a *sim.Arbor) string { return a.Name }),
			Number("turns_per_fusee_turn", "turns for one of the fusee", "turns", func(a *sim.Arbor) float64 { return a.Speed }),
			Sub("torque_nm", "the torque there over the run", Object[sim.Spread]{
				Number("mean", "mean", "N·m", func(s *sim.Spread) float64 { return s.Mean }),
				Number("min", "least", "N·m", func(s *sim.Spread) float64 { return s.Min }),
				Number("max", "greatest", "N·m", func(s *sim.Spread) float64 { return s.Max }),
			}, func(a *sim.Arbor) *sim.Spread { return &a.Torque }),
		}, (*sim.Result).Arbors),
		List("turns", "the rows", row(), func(r *sim.Result) []turn { return parts(r, r.Rows) }),
	)
}

func row() Object[turn] {
	var o Object[turn]
	for _, c := range outcome.Columns() {
		o = append(o, Number(c.Name, c.Words, c.Unit, func(t *turn) float64 { return c.Of(&t.of.Digest, t.it) }))
	}
	return o
}

// strike is what a striking train does with the torque. Torques are at the fusee
// arbor; the work of a blow is that at the mean torque.
func strike() Object[sim.Result] {
	of := func(f func(*sim.Striker) float64) func(*sim.Result) float64 {
		return func(r *sim.Result) float64 { return f(&r.Train.Striker) }
	}
	return Object[sim.Result]{
		Number("least_torque_nm", "torque from which on it strikes from rest", "N·m", of((*sim.Striker).Least)),
		Number("slow_torque_nm", "torque for the slowest interval wanted", "N·m", of((*sim.Striker).Slow)),
		Number("fast_torque_nm", "torque for the fastest interval wanted", "N·m", of((*sim.Striker).Fast)),
		Number("blows_per_fusee_turn", "blows of a fusee turn", "blows", of(func(k *sim.Striker) float64 { return k.BlowsPerTurn() })),
		Whole("blows_in_run", "blows of the run", func(r *sim.Result) int { return r.Train.Striker.BlowsInRun(r.GoesFor()) }),
		Number("fly_radius_mm", "outer radius that the fly has", "mm", func(r *sim.Result) float64 { return r.Train.FlyRadius() * 1e3 }),
		Number("fly_radius_middle_mm", "outer radius that would strike in the middle of the interval wanted", "mm", func(r *sim.Result) float64 { return r.MiddleFly() * 1e3 }),
		Sub("work_of_a_blow_j", "where the work of a blow goes; null where it does not strike", Object[train.BlowWork]{
			Number("spring", "given by the spring", "J", func(w *train.BlowWork) float64 { return w.Spring }),
			Number("hammers", "lifts hammers", "J", func(w *train.BlowWork) float64 { return w.Hammers }),
			Number("tails", "friction at the tails", "J", func(w *train.BlowWork) float64 { return w.Tails }),
			Number("fly", "the air takes", "J", func(w *train.BlowWork) float64 { return w.Fly }),
			Number("wheels", "friction of the wheels", "J", func(w *train.BlowWork) float64 { return w.Wheels }),
			Number("loads", "loads take", "J", func(w *train.BlowWork) float64 { return w.Loads }),
		}, func(r *sim.Result) *train.BlowWork {
			w := r.Train.Striker.Power(r.Torque.Mean)
			return only(r.Train.Striker.Steady(r.Torque.Mean).Status == train.Strikes, &w)
		}),
		Numbers("fly_energy_j", "energy of the fly, least and most within a blow", "J", func(r *sim.Result) []float64 {
			if c := r.Train.Striker.Steady(r.Torque.Mean); c.Status == train.Strikes {
				return []float64{c.KineticLeast, c.KineticMost}
			}
			return []float64{math.NaN(), math.NaN()}
		}),
	}
}
