package chart

import (
	"evenpull/sim/rules"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/plot/plotter"
)

var inf = math.Inf(1)

func straight(x float64) float64 { return x }

// Values that are none, and ranges without a length, make a picture and no fuss.
func TestPicturesOfOddValues(t *testing.T) {
	rising := line("line", trials[0], curve(straight))
	g := grid(5)
	of := func(l ...layer) *panel { return &panel{layers: l} }
	over := func(xs, ys []float64, at func(i, j int) float64, marks ...layer) *panel {
		p := &panel{layers: marks}
		p.shade(&lattice{xs, ys, at}, "z")
		return p
	}
	for name, p := range map[string]*panel{
		"no end to the axis":   {xs: ext(-inf, inf), layers: []layer{rising}},
		"an axis of one ulp":   {xs: ext(0.38, math.Nextafter(0.38, 1)), layers: []layer{rising}},
		"a level axis":         {xs: ext(1e15, 1e15+1), layers: []layer{rising}},
		"limits that are none": of(rising, upright("u", limits[0], nan), upright("v", limits[0], inf), level("l", limits[0], nan).seen(), level("k", limits[0], -inf).seen()),
		"bars that are none":   of(bar(1, 0, 3), bar(0, 1, -3), bar(0, inf, 2), bar(nan, 1, 1)),
		"endless stripe":       {xs: ext(0, 1), stripes: []shade{judged(rules.Thin, -inf, inf)}},
		"infinite points":      of(line("l", trials[0], plotter.XYs{{X: 0, Y: -inf}, {X: 1, Y: 2}, {X: inf, Y: 3}})),
		"level below stripes":  {layers: []layer{line("l", trials[0], plotter.XYs{{X: 0, Y: 5}, {X: 1, Y: 5}})}, stripes: []shade{judged(rules.Suits, 0, 1)}},
		"no bars":              tornado("", "", "", moved, nil),
		"infinite bars":        tornado("", "", "", moved, []effect{{"a", inf, -inf}, {"b", 0, 0}, {"c", nan, inf}}),
		"holes in the map":     over(g, g, func(i, j int) float64 { return []float64{1, inf, nan, -inf, 2}[i] }),
		"a mark beside":        over(g, g, func(i, j int) float64 { return float64(i) }, mark("beside", nowMark, 99, 0)),
		"no length":            over([]float64{1, 1}, []float64{2, 2, 2}, func(i, j int) float64 { return float64(i * j) }),
		"two points by five":   over(grid(2), g, func(i, j int) float64 { return float64(i * j) }),
	} {
		t.Run(name, func(t *testing.T) {
			if svg := drawn(t, p); strings.Contains(svg, "beside") || !strings.Contains(svg, "</svg>") {
				t.Error("no picture, or one with a mark that is not there")
			}
		})
	}
}

// An area has a gap wherever either of its curves has one.
func TestAreaBreaksWithEitherCurve(t *testing.T) {
	lower, upper := curve(straight), curve(straight)
	lower[10].Y, upper[20].Y, upper[40].X = nan, inf, nan
	var points []int
	for _, o := range runs(area("", lower, upper).points) {
		points = append(points, len(o))
	}
	if len(points) != 3 || points[0] != 20 || points[1] != 18 || points[2] != 38 {
		t.Errorf("outlines of %v points", points)
	}
}
