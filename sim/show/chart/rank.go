package chart

import (
	"image/color"
	"io"
	"math"

	"evenpull/sim/show/words"
	"evenpull/sim/study/rank"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
)

// Rank draws for each result what moving the inputs down and up does to it, the
// greatest effect at the top.
func Rank(w io.Writer, format string, st *rank.Study) error {
	panels := make([]*panel, len(st.Rankings))
	for i := range st.Rankings {
		panels[i] = ranked(st, &st.Rankings[i])
	}
	return stack(w, format, panels...)
}

func ranked(st *rank.Study, r *rank.Ranking) *panel {
	var effects []effect
	for i := range r.Inputs {
		if in := &r.Inputs[i]; r.Moves(in) && in.Effect() > 0 {
			name := words.Input(&in.Quantity, st.Own.Name) + " " + words.RankMoved(st, in)
			effects = append(effects, effect{name, r.Of.Shown(in.Minus), r.Of.Shown(in.Plus)})
		}
	}
	return tornado(words.RankHead(st, r), "change of the "+r.Of.Label(), effects)
}

// effect is what moving one input down and up does to a result; NaN where it cannot
// be built.
type effect struct {
	name        string
	minus, plus float64
}

// mostBars is the number of inputs that are drawn.
const mostBars = 14

// tornado is a panel of bars to both sides of 0, a pair for each input from the top
// down: less of it above, more below.
func tornado(title, x string, effects []effect) *panel {
	shown := effects[:min(len(effects), mostBars)]
	n := max(len(shown), 1)
	p := &panel{
		title: title, x: x, ys: r1.Interval{Lo: 0.4 - float64(n), Hi: 0.6},
		height: 3.4*vg.Centimeter + 0.62*vg.Centimeter*vg.Length(max(n, 3)), rows: make([]plot.Tick, len(shown)),
	}
	for i, label := range []string{"less of the input", "more of the input"} {
		p.layers = append(p.layers, layer{label: label, points: plotter.XYs{{}}, line: outline, fill: sideFills[i]})
	}
	if left := len(effects) - len(shown); left > 0 {
		p.layers = append(p.layers, layer{label: words.Count(left, "more input") + " with less effect", points: plotter.XYs{{}}})
	}
	for i, e := range shown {
		y := -float64(i)
		p.rows[i] = plot.Tick{Value: y, Label: e.name}
		if math.IsNaN(e.minus) && math.IsNaN(e.plus) {
			p.layers = append(p.layers, unbuilt(y, 1))
			continue
		}
		p.layers = append(p.layers,
			half(e.minus, e.plus, r1.Interval{Lo: y, Hi: y + 0.36}, sideFills[0]),
			half(e.plus, e.minus, r1.Interval{Lo: y - 0.36, Hi: y}, sideFills[1]))
	}
	p.layers = append(p.layers, line("", errorLine, plotter.XYs{{X: 0, Y: p.ys.Hi}, {X: 0, Y: p.ys.Lo}}))
	return p
}

// half is one of a pair of bars.
func half(v, other float64, y r1.Interval, fill color.Color) layer {
	switch {
	case math.IsNaN(v):
		return unbuilt(y.Center(), -other)
	case v != 0 && finite(v):
		return filled(fill, r1.Interval{Lo: 0, Hi: v}, y)
	}
	return layer{}
}

// unbuilt says beside 0 that there is no bar, to the right of it or, where side is
// negative, to the left.
func unbuilt(y, side float64) layer {
	l := written(0, y, "cannot be built")
	style := &l.TextStyle[0]
	style.Font.Size, style.XAlign, l.Offset.X = textSize-2, text.XLeft, 5
	if side < 0 {
		style.XAlign, l.Offset.X = text.XRight, -5
	}
	return layer{words: l}
}
