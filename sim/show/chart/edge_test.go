package chart

import (
	"evenpull/sim/rules"
	"io"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/plot/plotter"
)

var inf = math.Inf(1)

func straight(x float64) float64 { return x }

// Values that are none, and ranges without a length, make a picture and no fuss.
func TestPicturesOfOddValues(t *testing.T) {
	line := Curve{Label: "line", Points: curve(straight)}
	g := grid(5)
	for name, p := range map[string]Picture{
		"no end to the axis":   &Graph{From: -inf, To: inf, Lines: []Curve{line}},
		"an axis of one ulp":   &Graph{From: 0.38, To: math.Nextafter(0.38, 1), Lines: []Curve{line}},
		"a level axis":         &Graph{From: 1e15, To: 1e15 + 1, Lines: []Curve{line}},
		"limits that are none": &Graph{Lines: []Curve{line}, Uprights: []Limit{{Label: "u", At: nan}, {Label: "v", At: inf}}, Levels: []Limit{{Label: "l", At: nan, Always: true}, {Label: "k", At: -inf, Always: true}}},
		"bars that are none":   &Graph{Bars: []Bar{{1, 0, 3}, {0, 1, -3}, {0, inf, 2}, {nan, 1, 1}}},
		"endless stripe":       &Graph{From: 0, To: 1, Stripes: []Shade{{From: -inf, To: inf, Code: rules.Thin}}},
		"infinite points":      &Graph{Lines: []Curve{{Label: "l", Points: plotter.XYs{{X: 0, Y: -inf}, {X: 1, Y: 2}, {X: inf, Y: 3}}}}},
		"level below stripes":  &Graph{Lines: []Curve{{Label: "l", Points: plotter.XYs{{X: 0, Y: 5}, {X: 1, Y: 5}}}}, Stripes: []Shade{{From: 0, To: 1, Code: rules.Suits}}},
		"no bars":              &Tornado{},
		"infinite bars":        &Tornado{Bars: []TornadoBar{{"a", inf, -inf}, {"b", 0, 0}, {"c", nan, inf}}},
		"holes in the map":     &Map{Xs: g, Ys: g, At: func(i, j int) float64 { return []float64{1, inf, nan, -inf, 2}[i] }},
		"a mark beside":        &Map{Xs: g, Ys: g, At: func(i, j int) float64 { return float64(i) }, Dots: []Dots{mark("beside", 99, 0, Now)}},
		"no length":            &Map{Xs: []float64{1, 1}, Ys: []float64{2, 2, 2}, At: func(i, j int) float64 { return float64(i * j) }},
		"two points by five":   &Map{Xs: grid(2), Ys: g, At: func(i, j int) float64 { return float64(i * j) }},
	} {
		t.Run(name, func(t *testing.T) {
			if svg := drawn(t, p); strings.Contains(svg, "beside") || !strings.Contains(svg, "</svg>") {
				t.Error("no picture, or one with a mark that is not there")
			}
		})
	}
}

func TestPageOfNothing(t *testing.T) {
	if Stack(io.Discard, "svg") == nil {
		t.Error("a page of nothing was written")
	}
}

// An area has a gap wherever either of its curves has one.
func TestAreaBreaksWithEitherCurve(t *testing.T) {
	a := Area{Lower: curve(straight), Upper: curve(straight)}
	a.Lower[10].Y, a.Upper[20].Y, a.Upper[40].X = nan, inf, nan
	var points []int
	for _, o := range a.outlines() {
		points = append(points, len(o))
	}
	if len(points) != 3 || points[0] != 20 || points[1] != 18 || points[2] != 38 {
		t.Errorf("outlines of %v points", points)
	}
}

// No border runs through what cannot be built, whatever its own quantity says there.
func TestBorderEndsAtTheUnbuilt(t *testing.T) {
	v := grid(9)
	m := &Map{Xs: v, Ys: v, At: func(i, j int) float64 {
		if j > 4 {
			return nan
		}
		return 1
	}, Borders: []Border{{"border", func(i, j int) float64 { return v[i] + 0.1 }}}}
	lines := m.border(&m.Borders[0]).contour(0)
	if len(lines) != 1 {
		t.Fatalf("%d lines", len(lines))
	}
	for _, p := range lines[0] {
		if p.Y > v[4] || math.Abs(p.X+0.1) > 1e-12 {
			t.Errorf("the border passes %v", p)
		}
	}
}
