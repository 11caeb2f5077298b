package chart

import (
	"io"
	"math"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/rules"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
)

var nan = math.NaN()

// drawn is a picture as SVG.
func drawn(t testing.TB, pictures ...Picture) string {
	t.Helper()
	svg := string(trial.Picture(t, "svg", func(w io.Writer, format string) error { return Stack(w, format, pictures...) }))
	if strings.Contains(svg, "NaN") || strings.Contains(svg, "Inf") {
		t.Error("NaN or Inf in the picture")
	}
	if err := wellFormed(svg); err != nil {
		t.Errorf("not well-formed: %v", err)
	}
	return svg
}

func has(t testing.TB, svg string, wants ...string) {
	t.Helper()
	for _, want := range wants {
		if !strings.Contains(svg, want) {
			t.Errorf("no %q in the picture", want)
		}
	}
}

func curve(f func(x float64) float64) plotter.XYs {
	xys := make(plotter.XYs, 41)
	for i := range xys {
		x := float64(i) / 4
		xys[i] = plotter.XY{X: x, Y: f(x)}
	}
	return xys
}

// everything is a graph with all that a graph can have, of invented data.
func everything() *Graph {
	return &Graph{
		Title: "All at once (invented)", X: "turns", Y: "N·m", From: 0, To: 10,
		Stripes: []Shade{{From: 0, To: 3, Code: rules.Thin}, {From: 3, To: 3.1, Code: rules.Stops}, {From: 3.1, To: 7, Code: rules.Suits}, {From: 7, To: 10, Name: "cannot be built"}, {From: 4, To: 5, Name: "plain", Plain: true}},
		Areas:   []Area{{Label: "area", Lower: curve(func(x float64) float64 { return x - 1 }), Upper: curve(func(x float64) float64 { return x + 1 })}},
		Lines: []Curve{{Label: "line", Points: curve(func(x float64) float64 { return x })}, {Label: "broken", Points: curve(func(x float64) float64 {
			if x > 4 && x < 6 {
				return nan
			}
			return 5 + math.Sin(x)
		})}},
		Levels:   []Limit{{Label: "level", At: 8}, {Label: "far away", At: 800}},
		Uprights: []Limit{{Label: "upright", At: 2}, {At: 8}, {Label: "outside", At: 80}},
		Dots:     []Dots{mark("mark", 5, 5, Now), mark("nowhere", nan, 1, Now)},
	}
}

func TestGraph(t *testing.T) {
	g := everything()
	svg := drawn(t, g)
	has(t, svg, "All at once", "turns", "N·m", "area", "line", "broken", "level", "upright", "mark", "thin", "suits", "cannot be built", "plain")
	for _, not := range []string{">stops<", "far away", "outside", "nowhere"} {
		if strings.Contains(svg, not) {
			t.Errorf("%q in the picture", not)
		}
	}
	g.Low, g.Bars = true, []Bar{{0, 1, 3}, {1, 2, 5}, {2, 3, nan}}
	if low := drawn(t, g); len(low) <= len(svg) {
		t.Error("the bars are missing")
	}
	trial.Golden(t, "graph", func(w io.Writer, format string) error { return Stack(w, format, everything()) })
}

// Nothing, one point, a level line, values that are none: a picture each.
func TestGraphOfLittle(t *testing.T) {
	for name, g := range map[string]*Graph{
		"nothing": {}, "one point": {Lines: []Curve{{Label: "l", Points: plotter.XYs{{X: 1, Y: 1}}}}},
		"level":   {Lines: []Curve{{Label: "l", Points: plotter.XYs{{X: 1, Y: 0}, {X: 2, Y: 0}}}}},
		"no data": {Lines: []Curve{{Label: "l", Points: plotter.XYs{{X: nan, Y: 1}, {X: 2, Y: math.Inf(1)}}}}, Stripes: []Shade{{From: nan, To: 1}}},
		"one bar": {Bars: []Bar{{0.4, 0.4, 100}}},
	} {
		if svg := drawn(t, g); !strings.Contains(svg, "</svg>") {
			t.Errorf("%s: no picture", name)
		}
	}
	for _, format := range []string{"png", "pdf"} {
		if b := trial.Picture(t, format, func(w io.Writer, format string) error { return Stack(w, format, everything()) }); len(b) < 1000 {
			t.Errorf("%s: %d bytes", format, len(b))
		}
	}
	if Stack(io.Discard, "gif", everything()) == nil {
		t.Error("a format that is none was written")
	}
}

// A legend takes as many rows as it needs, and no entry passes the right edge.
func TestLegendRows(t *testing.T) {
	b := &board{}
	if b.layOut(500) != 0 {
		t.Error("a legend of nothing is high")
	}
	for range 9 {
		b.entry("a label of some length", nil)
	}
	const width = 500
	high := b.layOut(width)
	wide := thumbWidth + besideName + letters.Width("a label of some length")
	perRow := int((width - legendLeft) / wide)
	if rows := (9 + perRow - 1) / perRow; perRow < 2 || high != legendRow*vg.Length(rows) {
		t.Errorf("%v high, with %d in a row", high, perRow)
	}
	for i, e := range b.entries {
		row, column := i/perRow, vg.Length(i%perRow)
		if e.below != legendRow*vg.Length(row+1) || math.Abs(float64(e.at-legendLeft-column*wide)) > 1e-9 || e.at+wide > width {
			t.Errorf("entry %d at %v, %v below", i, e.at, e.below)
		}
	}
}

func TestTornado(t *testing.T) {
	tornado := &Tornado{Title: "What moves it (invented)", X: "change, N·m"}
	for i := range mostBars + 3 {
		tornado.Bars = append(tornado.Bars, TornadoBar{"input " + string(rune('A'+i)), -1 / float64(i+1), 1 / float64(i+1)})
	}
	tornado.Bars[2].Plus = nan
	svg := drawn(t, tornado)
	has(t, svg, "What moves it", "change, N·m", "input A", "input N", "less of the input", "more of the input", "3 more inputs do less", "cannot be built")
	if strings.Contains(svg, "input O") {
		t.Error("too many bars")
	}
	has(t, drawn(t, &Tornado{Title: "none", X: "x", Bars: tornado.Bars[:mostBars+1]}), "one more input does less")
	drawn(t, &Tornado{Title: "none", X: "x"})
	trial.Golden(t, "tornado", func(w io.Writer, format string) error { return Stack(w, format, tornado) })
}
