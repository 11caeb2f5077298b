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
func drawn(t testing.TB, panels ...*panel) string {
	t.Helper()
	svg := string(trial.Picture(t, "svg", stacked(panels...)))
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

// everything is a panel with all that a panel can have, of invented data.
func everything() *panel {
	unbuilt := shade{Interval: ext(7, 10), tint: impossible, name: "cannot be built"}
	return &panel{
		finding: "All at once (invented)", x: "turns", y: "N·m", xs: ext(0, 10),
		stripes: []shade{judged(rules.Thin, 0, 3), judged(rules.Stops, 3, 3.1), judged(rules.Suits, 3.1, 7), unbuilt, {Interval: ext(4, 5), tint: nearby, label: "plain"}},
		layers: []layer{
			area("area", curve(func(x float64) float64 { return x - 1 }), curve(func(x float64) float64 { return x + 1 })),
			line("line", trials[0], curve(straight)),
			line("broken", trials[1], curve(func(x float64) float64 {
				if x > 4 && x < 6 {
					return nan
				}
				return 5 + math.Sin(x)
			})),
			level("level", limits[0], 8), level("far away", limits[1], 800),
			upright("upright", limits[0], 2), upright("", limits[0], 8), upright("outside", limits[1], 80),
			mark("mark", nowMark, 5, 5), mark("nowhere", nowMark, nan, 1),
		},
	}
}

func TestPanel(t *testing.T) {
	g := everything()
	svg := drawn(t, g)
	has(t, svg, "All at once", "turns", "N·m", "area", "line", "broken", "level", "upright", "mark", "thin", "suits", "stops", "cannot be built", "plain")
	for _, not := range []string{"far away", "outside", "nowhere"} {
		if strings.Contains(svg, not) {
			t.Errorf("%q in the picture", not)
		}
	}
	g.height, g.layers = lowPlot, append(g.layers, bar(0, 1, 3), bar(1, 2, 5), bar(2, 3, nan))
	if low := drawn(t, g); strings.Count(low, "fill:#9DA9BB") != 2 || strings.Contains(svg, "#9DA9BB") {
		t.Error("the bars are missing")
	}
	trial.Golden(t, "graph", stacked(everything()))
}

// Nothing, one point, a level line, values that are none: a picture each.
func TestPanelOfLittle(t *testing.T) {
	of := func(l ...layer) *panel { return &panel{layers: l} }
	for name, g := range map[string]*panel{
		"nothing": {}, "one point": of(line("l", trials[0], plotter.XYs{{X: 1, Y: 1}})),
		"level":   of(line("l", trials[0], plotter.XYs{{X: 1, Y: 0}, {X: 2, Y: 0}})),
		"no data": {layers: []layer{line("l", trials[0], plotter.XYs{{X: nan, Y: 1}, {X: 2, Y: inf}})}, stripes: []shade{judged(rules.Thin, nan, 1)}},
		"one bar": of(bar(0.4, 0.4, 100)),
	} {
		if svg := drawn(t, g); !strings.Contains(svg, "</svg>") {
			t.Errorf("%s: no picture", name)
		}
	}
	for _, format := range []string{"png", "pdf"} {
		if b := trial.Picture(t, format, stacked(everything())); len(b) < 1000 {
			t.Errorf("%s: %d bytes", format, len(b))
		}
	}
	if stacked(everything())(io.Discard, "gif") == nil {
		t.Error("a format that is none was written")
	}
}

// A legend takes as many rows as it needs, no entry passes the right edge, and a name that is
// wider than a row takes as many lines as it needs.
func TestLegendRows(t *testing.T) {
	look := Look{}.layout()
	const label = "a label of some length"
	b := legend{look: &look, width: 500}
	b.name(&layer{})
	if b.tall() != 0 || len(b.entries) != 0 {
		t.Error("a legend of nothing is high")
	}
	for range 9 {
		b.name(&layer{label: label})
	}
	name, next := b.beside()
	wide := b.thumb() + name + look.wide(label)
	perRow := 1 + int((500-wide)/(wide+next))
	if rows := (9 + perRow - 1) / perRow; perRow < 2 || math.Abs(float64(b.tall()-1.2*row(look.text)*vg.Length(rows))) > 1e-9 {
		t.Errorf("%v high, with %d in a row", b.tall(), perRow)
	}
	for i, e := range b.entries {
		if math.Abs(float64(e.at-vg.Length(i%perRow)*(wide+next))) > 1e-9 || e.at+wide > 500 {
			t.Errorf("entry %d at %v", i, e.at)
		}
	}
	one := legend{look: &look, width: 100}
	one.name(&layer{label: label})
	if len(one.entries[0].lines) < 2 || look.widest(one.entries[0].lines) > 100 {
		t.Errorf("%q", one.entries[0].lines)
	}
}

func TestTornado(t *testing.T) {
	var effects []effect
	for i := range mostBars + 3 {
		effects = append(effects, effect{"input " + string(rune('A'+i)), -1 / float64(i+1), 1 / float64(i+1)})
	}
	effects[2].plus = nan
	whole := tornado("What moves it (invented)", "what moves it", "change, N·m", moved, effects)
	svg := drawn(t, whole)
	has(t, svg, "What moves it", "change, N·m", "input A", "input P", "less of the input", "more of the input", "3 more inputs with less effect", "cannot be built")
	if strings.Contains(svg, "input Q") {
		t.Error("too many bars")
	}
	has(t, drawn(t, tornado("none", "none", "x", moved, effects[:mostBars+1])), "1 more input with less effect")
	drawn(t, tornado("none", "none", "x", moved, nil))
	trial.Golden(t, "tornado", stacked(whole))
}
