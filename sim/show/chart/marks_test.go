package chart

import (
	"fmt"
	"image/color"
	"math"
	"slices"
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/rules"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"
)

// stroke is a path as it was drawn.
type stroke struct {
	colour color.Color
	width  vg.Length
	dashes []vg.Length
	path   vg.Path
	filled bool
}

func (s stroke) like(style draw.LineStyle) bool {
	return !s.filled && s.colour == style.Color && s.width == style.Width && slices.Equal(s.dashes, style.Dashes)
}

// strokes are those of a picture on a page of the usual width.
func strokes(t testing.TB, p *panel) []stroke {
	t.Helper()
	var rec recorder.Canvas
	l := Look{}.layout()
	f := l.frames([]*panel{p})[0]
	f.draw(draw.NewCanvas(&rec, l.inner(), f.tall()))
	var list []stroke
	var now stroke
	for _, a := range rec.Actions {
		switch a := a.(type) {
		case *recorder.SetColor:
			now.colour = a.Color
		case *recorder.SetLineWidth:
			now.width = a.Width
		case *recorder.SetLineDash:
			now.dashes = a.Dashes
		case *recorder.Stroke:
			now.path, now.filled = a.Path, false
			list = append(list, now)
		case *recorder.Fill:
			now.path, now.filled = a.Path, true
			list = append(list, now)
		}
	}
	return list
}

func count(list []stroke, is func(stroke) bool) int {
	n := 0
	for _, s := range list {
		if is(s) {
			n++
		}
	}
	return n
}

// The need is one line in every picture, whatever it stands beside, and nothing else
// is drawn like it. Each is drawn twice: in the picture and in the legend.
func TestNeedIsOneLine(t *testing.T) {
	other := line("other", trials[0], curve(math.Sqrt))
	for name, g := range map[string]*panel{
		"curve":   {layers: []layer{other, line("need", needLine, curve(straight)), other}},
		"level":   {layers: []layer{other, level("limit", limits[0], 1), needed(2)}},
		"upright": {layers: []layer{other, upright("need", needLine, 2), upright("limit", limits[0], 3)}},
	} {
		list := strokes(t, g)
		if n := count(list, func(s stroke) bool { return s.like(needLine) }); n != 2 {
			t.Errorf("%s: %d lines like the need", name, n)
		}
	}
	for _, r := range []sim.Result{results(t, "eight-day")[0], results(t, "strike-quick")[0]} {
		list := strokes(t, torque(&r))
		if n := count(list, func(s stroke) bool { return s.like(needLine) }); n != 2 {
			t.Errorf("%s: %d lines like the need", r.Train.Name, n)
		}
	}
}

// Styles of one kind differ, and so do those of the roles.
func TestStylesDiffer(t *testing.T) {
	all := func(lists ...[]draw.LineStyle) []draw.LineStyle { return slices.Concat(lists...) }
	roles := []draw.LineStyle{needLine, meanLine, nowLine, bestLine}
	for _, list := range [][]draw.LineStyle{all(roles, trials), all(roles, limits), borders} {
		for i, a := range list {
			for _, b := range list[:i] {
				if slices.Equal(a.Dashes, b.Dashes) && math.Abs(float64(a.Width-b.Width)) < 1 {
					t.Errorf("%+v and %+v look alike without colour", a, b)
				}
			}
		}
	}
}

// The best is marked alike whether or not there is a mark for what is.
func TestMarksOfRoles(t *testing.T) {
	now, best := mark("now", nowMark, 2, 2), mark("best", bestMark, 5, 5)
	corners := func(marks ...layer) (n int) {
		return count(strokes(t, &panel{layers: append([]layer{line("", trials[0], curve(straight))}, marks...)}), func(s stroke) bool {
			return s.filled && len(s.path) == 5 && math.Abs(float64(s.path[2].Pos.X-s.path[0].Pos.X))-float64(bestMark.Radius)*(1+math.Sqrt2/2) < 0.01
		})
	}
	if a, b := corners(best), corners(now, best); a != 2 || b != 2 {
		t.Errorf("%d and %d squares", a, b)
	}
}

// A level goes from end to end of the data and no farther: names of bands stand beyond.
func TestLevelsEndBeforeTheGutter(t *testing.T) {
	g := &panel{xs: ext(0, 10), bands: []shade{judged(rules.Suits, 0, inf)}, layers: []layer{line("", trials[0], curve(straight)), needed(5)}}
	list := strokes(t, g)
	i := slices.IndexFunc(list, func(s stroke) bool { return s.like(needLine) })
	k := slices.IndexFunc(list, func(s stroke) bool { return s.like(trials[0]) })
	need, line := list[i].path, list[k].path
	if from, to := need[0].Pos.X-line[0].Pos.X, need[1].Pos.X-line[len(line)-1].Pos.X; math.Abs(float64(from)) > 0.01 || math.Abs(float64(to)) > 0.01 {
		t.Errorf("off the ends by %v and %v points", from, to)
	}
	look := Look{}.layout()
	f := look.frames([]*panel{g})[0]
	if room := look.inner() - need[1].Pos.X; math.Abs(float64(room-f.gutter-f.right)) > 0.01 || f.gutter < look.wide("suits") {
		t.Errorf("%v of a gutter", room)
	}
}

// Error bars reach from end to end, and there are none for what is not known.
func TestErrorBars(t *testing.T) {
	line := plotter.XYs{{X: 0, Y: 0}, {X: 1, Y: 1}, {X: 2, Y: 2}, {X: 3, Y: 3}, {X: nan, Y: 1}, {X: 1, Y: nan}, {X: 4, Y: 4}}
	bars := func(half ...float64) int {
		barred := dots("", trialMark, line)
		barred.half = half
		g := &panel{layers: []layer{barred, dots("small", smallDot, line), dots("second", meanDot, line)}}
		return count(strokes(t, g), func(s stroke) bool { return s.like(errorLine) })
	}
	for _, c := range []struct {
		half []float64
		want int // the bars, each with its two caps
	}{{nil, 0}, {[]float64{1, nan, 0, -1, 1, 1}, 3}, {[]float64{1, 1, 1, 1, nan, inf, 1, 1, 1}, 15}} {
		if n := bars(c.half...); n != c.want {
			t.Errorf("%v: %d strokes, want %d", c.half, n, c.want)
		}
	}
}

// Bars stand as wide and high as they are asked for; one of a single value can be seen,
// and those of no height or none that is known are left out.
func TestBars(t *testing.T) {
	widths := func(bars ...layer) (w []float64) {
		for _, s := range strokes(t, &panel{xs: ext(0, 10), layers: bars}) {
			if s.filled && s.colour == color.Color(barFill) {
				w = append(w, float64(s.path[1].Pos.X-s.path[0].Pos.X))
			}
		}
		return w
	}
	w := widths(bar(0, 10, 2), bar(3, 3, 5), bar(4, 5, 0), bar(5, 6, -1), bar(nan, 6, 1), bar(5, inf, 1), bar(5, 6, nan), bar(7, 8, 1))
	if len(w) != 3 || math.Abs(w[1]/w[0]-0.0003) > 1e-6 || math.Abs(w[2]/w[0]-0.1) > 1e-6 {
		t.Errorf("bars %v points wide", w)
	}
}

// A band is named in the gutter where it is as high as its name, else in the legend; one that
// can hardly be seen, or not, nowhere.
func TestNamesOfBands(t *testing.T) {
	for high, in := range map[float64]string{8: "gutter", 4: "legend", 0.1: ""} {
		g := &panel{x: "x", layers: []layer{line("line", trials[0], plotter.XYs{{X: 0, Y: 0}, {X: 1, Y: 100}})}, bands: []shade{judged(rules.Thin, 0, 50), judged(rules.Suits, 50, 50+high), judged(rules.Strong, 50+high, inf), judged(rules.Overdriven, 500, 600)}}
		list, is := labels(t, g), ""
		for _, w := range list {
			switch {
			case w.Words == "overdriven":
				t.Error("a band is named that is not there")
			case w.Words == "suits" && w.Top > find(t, list, "x").Foot:
				is = "legend"
			case w.Words == "suits":
				is = "gutter"
			}
		}
		if is != in || find(t, list, "strong").Left < 0.9*float64(Width)-20 || find(t, list, "thin").Left < 0.9*float64(Width)-20 {
			t.Errorf("%v high: named in the %q, want %q", high, is, in)
		}
	}
}

// Words that are turned run straight up the page.
func TestWordsRunUp(t *testing.T) {
	g := everything()
	g.stripes = []shade{judged(rules.Suits, 0, 9.7), judged(rules.Thin, 9.7, 10)}
	var rec recorder.Canvas
	l := Look{}.layout()
	f := l.frames([]*panel{g})[0]
	f.draw(draw.NewCanvas(&rec, l.inner(), f.tall()))
	turned := 0
	for _, a := range rec.Actions {
		if a, ok := a.(*recorder.Rotate); ok {
			turned++
			if math.Abs(a.Angle-math.Pi/2) > 1e-9 {
				t.Errorf("words at %v", a.Angle)
			}
		}
	}
	if turned != 2 { // beside the y axis, and in the narrow stripe
		t.Errorf("%d words are turned", turned)
	}
}

// Every kind of line as it is drawn: those of the roles, and of curves, limits and
// borders as many as are told apart.
func TestGoldenStyles(t *testing.T) {
	at := func(y float64) plotter.XYs { return plotter.XYs{{X: 0, Y: y}, {X: 10, Y: y}} }
	p := &panel{finding: "Every style (invented)", x: "x", y: "y", height: lowPlot}
	for i, style := range append([]draw.LineStyle{needLine, meanLine, nowLine, bestLine, goneLine}, trials...) {
		p.layers = append(p.layers, line(fmt.Sprintf("line %d", i+1), style, at(float64(i))))
	}
	for i, style := range limits {
		p.layers = append(p.layers, level(fmt.Sprintf("limit %d", i+1), style, float64(5+len(trials)+i)))
	}
	v := grid(5)
	m := &panel{finding: "Borders (invented)", x: "x", y: "y"}
	for i, style := range borders {
		at := &lattice{v, v, func(k, _ int) float64 { return v[k] - 0.5*float64(i) + 1 }}
		m.layers = append(m.layers, line(fmt.Sprintf("border %d", i+1), style, at.contour(0)))
	}
	m.shade(&lattice{v, v, func(i, j int) float64 { return 1 }}, "z")
	trial.Golden(t, "styles", stacked(p, m))
}

// A dashed line can be told in the legend: a whole run of its dashes and gaps is
// shorter than the sample there.
func TestDashesFitTheLegend(t *testing.T) {
	look := Look{}.layout()
	for _, style := range slices.Concat([]draw.LineStyle{needLine, meanLine, nowLine, bestLine, goneLine}, trials, limits, borders) {
		var run vg.Length
		for _, d := range style.Dashes {
			run += d
		}
		if run > (&legend{look: &look}).thumb() || len(style.Dashes)%2 != 0 {
			t.Errorf("%v: a run of %v points", style.Dashes, run)
		}
	}
}
