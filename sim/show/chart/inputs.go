package chart

import (
	"fmt"
	"image/color"
	"math"
	"strings"

	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/show/words"
	"evenpull/sim/study/rank"
	"evenpull/sim/study/shares"
	"evenpull/sim/study/spread"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
)

// Rank draws for each result what moving the inputs down and up does to it, the
// greatest effect at the top; or what each has in its variance, the greatest share in all
// at the top.
func Rank(look Look, st *rank.Study) (Files, error) {
	panels := make([]*panel, len(st.Rankings))
	for i := range st.Rankings {
		if panels[i] = ranked(st, &st.Rankings[i]); st.Total {
			panels[i] = rankedInAll(st, &st.Rankings[i])
		}
	}
	return stack(look, panels...)
}

func ranked(st *rank.Study, r *rank.Ranking) *panel {
	var effects []effect
	for i := range r.Inputs {
		if in := &r.Inputs[i]; r.Moves(in) && in.Effect() > 0 {
			name := words.Input(in.Quantity.Words, st.Own.Name) + " " + solid(words.RankMoved(in))
			effects = append(effects, effect{name, r.Of.Shown(in.Minus), r.Of.Shown(in.Plus)})
		}
	}
	return tornado(words.FoundRank(st, r), r.Of.Words, "change of the "+r.Of.Label(), moved, effects)
}

// rankedInAll has each share in all in figures too, with its standard error.
func rankedInAll(st *rank.Study, r *rank.Ranking) *panel {
	var effects []effect
	finding := words.FoundRank(st, r)
	for i := range r.Inputs {
		if in := &r.Inputs[i]; in.Share.Total.Value >= rules.LeastShare {
			share := words.ShareAndError(in.Share.Total)
			finding = strings.ReplaceAll(finding, share, solid(share))
			effects = append(effects, inAll(words.Input(in.Quantity.Words, st.Own.Name)+" "+solid(share), &in.Share))
		}
	}
	p := variance(finding, r.Of.Words, effects)
	return p.add(layer{label: "in figures: in all, ± standard error", points: plotter.XYs{{}}})
}

var moved = [2]string{"less of the input", "more of the input"}

// effect is two figures of an input, such as what moving it down and up does to a result;
// NaN where it cannot be built.
type effect struct {
	name        string
	minus, plus float64
}

// solid is what is not to be broken into lines.
func solid(s string) string { return strings.ReplaceAll(s, " ", "\u00a0") }

// mostBars is the number of inputs that are drawn: those that the text lists with figures.
const mostBars = 16

// tornado is a panel of bars from 0 to either side, a pair for each input from the top
// down; the sides are what the upper and the lower of a pair is.
func tornado(finding, name, x string, sides [2]string, effects []effect) *panel {
	shown := effects[:min(len(effects), mostBars)]
	n := max(len(shown), 1)
	p := &panel{finding: finding, name: name, x: x, ys: r1.Interval{Lo: 0.4 - float64(n), Hi: 0.6}, rows: make([]plot.Tick, len(shown))}
	for i, label := range sides {
		p.add(layer{label: label, points: plotter.XYs{{}}, line: outline, fill: sideFills[i]})
	}
	if left := len(effects) - len(shown); left > 0 {
		p.add(layer{label: words.Count(left, "more input") + " with less effect", points: plotter.XYs{{}}})
	}
	for i, e := range shown {
		y := -float64(i)
		p.rows[i] = plot.Tick{Value: y, Label: e.name}
		if math.IsNaN(e.minus) && math.IsNaN(e.plus) {
			p.add(half(e.minus, e.plus, r1.IntervalFromPoint(y), nil))
			continue
		}
		p.add(
			half(e.minus, e.plus, r1.Interval{Lo: y, Hi: y + 0.36}, sideFills[0]),
			half(e.plus, e.minus, r1.Interval{Lo: y - 0.36, Hi: y}, sideFills[1]))
	}
	return p.add(line("", errorLine, plotter.XYs{{X: 0, Y: p.ys.Hi}, {X: 0, Y: p.ys.Lo}}))
}

// half is one of a pair of bars, or words that there is none, where the other is not.
func half(v, other float64, y r1.Interval, fill color.Color) layer {
	if finite(v) {
		return filled(fill, r1.Interval{Lo: 0, Hi: v}, y)
	}
	n := note{at: plotter.XY{Y: y.Center()}, words: words.Unbuilt, side: 1, level: true}
	if other > 0 {
		n.side = -1
	}
	return layer{notes: []note{n}}
}

// fewResults is the number of results up to which all are drawn; of more, the
// least reserve and the mean torque.
const fewResults = 4

// Spread draws histogram and empirical distribution of the results, and the shares of the
// inputs in the variance of the first.
func Spread(look Look, st *spread.Study) (Files, error) {
	var panels []*panel
	for i := range st.Results {
		d := &st.Results[i]
		first := d.Of.Name == outcome.LeastReserve || d.Of.Name == outcome.MeanTorque
		if d.N() > 0 && (len(st.Results) <= fewResults || first) {
			panels = append(panels, histogram(st, d), cumulative(st, d))
			panels[len(panels)-2].name = d.Of.Words
		}
	}
	if len(panels) > 0 {
		panels[0].finding = words.SpreadHead(st, words.Verdict)
	}
	if st.Shares != nil {
		panels = append(panels, shared(st))
	}
	if len(panels) == 0 {
		panels = append(panels, &panel{finding: st.Own.Name + " train: no run has any of the results", x: "–", y: "–"})
	}
	return stack(look, panels...)
}

func shared(st *spread.Study) *panel {
	var effects []effect
	for i := range st.Inputs {
		if in := &st.Inputs[i]; in.Share.Total.Value >= rules.LeastShare {
			effects = append(effects, inAll(words.Input(in.Words, st.Own.Name)+" "+solid(words.Off(in.Parts[0].Error, in.Unit)), &in.Share))
		}
	}
	what := "what varies the " + st.Results[0].Of.Words
	return variance(st.Own.Name+" train: "+what, what, effects)
}

// inAll is what an input has of a variance in percent, alone and in all.
func inAll(name string, of *shares.Input) effect {
	return effect{name, 100 * max(of.First.Value, 0), 100 * of.Total.Value}
}

// variance is a panel of what inputs have of a variance.
func variance(finding, name string, effects []effect) *panel {
	return tornado(finding, name, "share of how far it may be off, %", [2]string{"alone", "in all, with what it does together with others"}, effects)
}

// barsFor is the number of bars for some runs: their cube root, doubled (common
// practice, no source), within what can be told apart.
func barsFor(runs int) int { return min(max(int(2*math.Cbrt(float64(runs))), 8), 60) }

func histogram(st *spread.Study, d *spread.Distribution) *panel {
	q := &d.Of.Quantity
	p := overResult(st, d)
	p.y, p.floor = "share of the runs, %", true
	for _, b := range d.Bars(barsFor(d.N())) {
		p.add(bar(q.Shown(b.From), q.Shown(b.To), 100*b.Share))
	}
	return p.add(
		upright(fmt.Sprintf("between these 95 %% of %s", words.Count(d.N(), "run")), limits[0], q.Shown(d.Quantile(0.025))),
		upright("", limits[0], q.Shown(d.Quantile(0.975))),
		upright(asItIs, nowLine, q.Shown(d.Own)), upright("least torque needed", needLine, needOf(st, d)))
}

func cumulative(st *spread.Study, d *spread.Distribution) *panel {
	p := overResult(st, d)
	p.y, p.height = "runs up to it, %", lowPlot
	steps := points(d.Steps(400), func(s *spread.Step) (x, y float64) { return d.Of.Shown(s.Value), 100 * s.Share })
	p.layers = []layer{line("runs that come to no more", trials[0], steps), level("half of the runs", limits[1], 50)}
	return p
}

// needOf is the need that a result is compared with: NaN for one that is no torque there.
func needOf(st *spread.Study, d *spread.Distribution) float64 {
	if d.Of.Name == outcome.MeanTorque || d.Of.Name == outcome.LeastTorque {
		return st.Own.Need.Used
	}
	return math.NaN()
}

// overResult is a panel over a result, from its least value to its greatest. The
// least reserves that are called thin and that stop the train are shaded.
func overResult(st *spread.Study, d *spread.Distribution) *panel {
	lo, hi := d.Range()
	p := &panel{x: d.Of.Label(), xs: hold(r1.Interval{Lo: d.Of.Shown(lo), Hi: d.Of.Shown(hi)}, needOf(st, d))}
	if d.Of.Name != outcome.LeastReserve || st.Own.Standard.Basis != rules.ByReserve {
		return p
	}
	at := st.Own.Standard.Bands
	enough := judged(rules.Suits, at.Thin, math.Inf(1))
	enough.name = "enough"
	p.stripes = []shade{judged(rules.Stops, math.Inf(-1), at.Stops), judged(rules.Thin, at.Stops, at.Thin), enough}
	return p
}
