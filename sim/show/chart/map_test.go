package chart

import (
	"image/color"
	"math"
	"slices"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
)

func grid(n int) []float64 {
	v := make([]float64, n)
	for i := range v {
		v[i] = -2 + 4*float64(i)/float64(n-1)
	}
	return v
}

// hill is a map of a hill, of which a corner cannot be built.
func hill(n int) *panel {
	xs := grid(n)
	at := func(i, j int) float64 { return 3 - xs[i]*xs[i] - xs[j]*xs[j] }
	built := func(i, j int) float64 {
		if xs[i] > 1 && xs[j] > 1 {
			return math.NaN()
		}
		return at(i, j)
	}
	of := func(at func(i, j int) float64) *lattice { return &lattice{xs, xs, at} }
	p := &panel{finding: "A hill (invented)", x: "east", y: "north", layers: []layer{
		line("shore", borders[0], of(built).contour(0)), line("never", borders[1], of(func(int, int) float64 { return 1 }).contour(0)),
		mark("here", nowMark, 0.5, 0.5)}}
	p.shade(of(built), "height")
	p.regions = []region{{of(func(i, j int) float64 {
		if finite(built(i, j)) {
			return -1
		}
		return 1
	}), "cannot be built", crossed, true}}
	return p
}

func TestMap(t *testing.T) {
	svg := drawn(t, hill(41))
	has(t, svg, "A hill", "east", "north", "height", "shore", "cannot be built", "here")
	if strings.Contains(svg, "never") {
		t.Error("a border that is nowhere is in the legend")
	}
	for _, n := range []int{2, 3, 100} {
		if svg := drawn(t, hill(n)); len(svg) > 2<<20 {
			t.Errorf("%d by %d points make %d bytes", n, n, len(svg))
		}
	}
	trial.Golden(t, "map", stacked(hill(41)))
}

// In grey each step is darker than the one before.
func TestMapTones(t *testing.T) {
	d := make(steps, 13)
	last := math.Inf(1)
	for k := range 12 {
		c := color.GrayModel.Convert(d.tone(k)).(color.Gray).Y
		if float64(c) > last-5 {
			t.Errorf("step %d is %d grey, the one before %v", k, c, last)
		}
		last = float64(c)
	}
}

// The contour of x² + y² = r² is a closed circle: its points lie on it to the
// second order of the grid, and its length is 2πr.
func TestContourOfACircle(t *testing.T) {
	const r = 1.3
	off := func(n int) float64 {
		v := grid(n)
		l := lattice{v, v, func(i, j int) float64 { return v[i]*v[i] + v[j]*v[j] }}
		lines := runs(l.contour(r * r))
		if len(lines) != 1 || lines[0][0] != lines[0][len(lines[0])-1] {
			t.Fatalf("%d lines, or an open one", len(lines))
		}
		worst, length := 0.0, 0.0
		for k, p := range lines[0] {
			worst = math.Max(worst, math.Abs(math.Hypot(p.X, p.Y)-r))
			if k > 0 {
				length += math.Hypot(p.X-lines[0][k-1].X, p.Y-lines[0][k-1].Y)
			}
		}
		if math.Abs(length/(2*math.Pi*r)-1) > 10/float64(n*n) {
			t.Errorf("length %v", length)
		}
		return worst
	}
	if order := math.Log2(off(41) / off(81)); order < 1.5 {
		t.Errorf("order %v", order)
	}
}

// Open lines end at the edge or at what is no number, saddles come apart, and a
// level beyond everything has no line.
func TestContours(t *testing.T) {
	v := grid(9)
	slope := lattice{v, v, func(i, j int) float64 { return v[i] + 0.1*v[j] }}
	if lines := runs(slope.contour(0.03)); len(lines) != 1 || len(lines[0]) < 9 || lines[0][0].Y*lines[0][len(lines[0])-1].Y != -4 {
		t.Errorf("%v", lines)
	}
	saddle := lattice{v, v, func(i, j int) float64 { return v[i]*v[j] + 0.01 }}
	if lines := runs(saddle.contour(0)); len(lines) != 2 {
		t.Errorf("a saddle makes %d lines", len(lines))
	}
	hole := lattice{v, v, func(i, j int) float64 {
		if i == 4 && j == 4 {
			return math.NaN()
		}
		return v[i] + 0.1
	}}
	if lines := runs(hole.contour(0)); len(lines) != 2 {
		t.Errorf("across a hole %d lines", len(lines))
	}
	if lines := runs(slope.contour(99)); lines != nil {
		t.Errorf("%v", lines)
	}
}

// enclosed is the area within closed lines: above 0 where they run against the clock.
func enclosed(lines []plotter.XYs) (sum float64) {
	for _, l := range lines {
		for k := 1; k < len(l); k++ {
			sum += (l[k-1].X*l[k].Y - l[k].X*l[k-1].Y) / 2
		}
	}
	return sum
}

// In its frame every contour closes about what is higher, and a hollow is left out: the
// areas of a ring are those of two circles, and all that can be built is within a level
// below everything.
func TestContoursCloseInTheFrame(t *testing.T) {
	v := grid(81)
	ring := lattice{v, v, func(i, j int) float64 { return -math.Abs(math.Hypot(v[i], v[j]) - 1) }}
	lines := runs(ring.framed().contour(-0.5)) // from 0.5 to 1.5 about the middle
	if a := enclosed(lines); len(lines) != 2 || math.Abs(math.Abs(a)/(math.Pi*(1.5*1.5-0.5*0.5))-1) > 0.01 || enclosed(lines[:1])*enclosed(lines[1:]) > 0 {
		t.Errorf("%d lines, area %v", len(lines), a)
	}
	half := lattice{v, v, func(i, j int) float64 {
		if v[i] > 1 {
			return nan
		}
		return v[i]
	}}
	for level, want := range map[float64]float64{-9: 3 * 4, 0: 1 * 4, 1: 0} {
		lines := runs(half.framed().contour(level))
		for _, l := range lines {
			if d := math.Hypot(l[0].X-l[len(l)-1].X, l[0].Y-l[len(l)-1].Y); d > 1e-12 {
				t.Errorf("an open line at %v", level)
			}
		}
		if a := -enclosed(lines); math.Abs(a-want) > 1e-9 {
			t.Errorf("at %v: area %v, want %v", level, a, want)
		}
	}
}

// A saddle in one cell, with the level a tenth of the side off its middle, worked out
// by hand: below the mean of the corners the low ones are cut off, above it the high
// ones, each by a line of two points.
func TestSaddleInOneCell(t *testing.T) {
	corners := lattice{[]float64{0, 1}, []float64{0, 1}, func(i, j int) float64 { return float64(1 - (i+j)%2) }}
	for level, want := range map[float64][]plotter.XYs{
		0.4: {{{X: 0.6, Y: 0}, {X: 1, Y: 0.4}}, {{X: 0.4, Y: 1}, {X: 0, Y: 0.6}}},
		0.6: {{{X: 0.4, Y: 0}, {X: 0, Y: 0.4}}, {{X: 1, Y: 0.6}, {X: 0.6, Y: 1}}},
	} {
		got := runs(corners.contour(level))
		for _, line := range want {
			is := func(l plotter.XYs) bool {
				if len(l) == 2 && math.Hypot(l[0].X-line[0].X, l[0].Y-line[0].Y) > 0.1 { // from its other end
					l = plotter.XYs{l[1], l[0]}
				}
				return len(l) == 2 && math.Hypot(l[0].X-line[0].X, l[0].Y-line[0].Y)+math.Hypot(l[1].X-line[1].X, l[1].Y-line[1].Y) < 1e-12
			}
			if len(got) != 2 || !slices.ContainsFunc(got, is) {
				t.Errorf("at %v: %v, want %v", level, got, line)
			}
		}
	}
}

// A region is named where it lies or, where there is no room for that, in the key; in the key too
// where hatches or dots lie over those of others. What is nowhere is in neither.
func TestRegionKeys(t *testing.T) {
	at := func(i, j int) func(int, int) float64 {
		return func(x, y int) float64 {
			if x == i && y == j {
				return 1
			}
			return -1
		}
	}
	p := hill(41)
	on := p.regions[0].lattice
	of := func(f func(int, int) float64) *lattice { return &lattice{on.xs, on.ys, f} }
	p.regions = []region{
		{of(at(20, 20)), "first", 0, false}, {of(at(20, 20)), "behind", falling, false}, {of(at(10, 10)), "over", dotted, true},
		{of(at(-1, 0)), "nowhere", crossed, true},
	}
	svg := drawn(t, p)
	for name, times := range map[string]int{"first": 1, "behind": 1, "over": 2, "nowhere": 0} {
		if n := strings.Count(svg, ">"+name+"<"); n != times {
			t.Errorf("%s stands there %d times", name, n)
		}
	}
	l := Look{}.layout()
	f := l.frames([]*panel{p})[0]
	var keys []string
	for _, e := range f.legend.entries {
		keys = append(keys, e.of.label)
	}
	if want := []string{"behind", "over", "shore", "here"}; !slices.Equal(keys, want) {
		t.Errorf("the key has %q, want %q", keys, want)
	}
}

// Dots lie on level lines across the box, hatches on slanting ones, and both within a region.
func TestDotted(t *testing.T) {
	box := vg.Rectangle{Min: vg.Point{X: 3, Y: 3}, Max: vg.Point{X: 40, Y: 31}}
	lines := levels(box)
	if len(lines) != 4 {
		t.Fatalf("%d lines", len(lines))
	}
	for i, l := range lines {
		if l[0].Y != l[1].Y || l[0].Y != vg.Length(i+1)*hatchStep || l[0].X != box.Min.X || l[1].X != box.Max.X {
			t.Errorf("%v", l)
		}
	}
	path := pieces(nil, lines[0], func(p vg.Point) bool { return 10 < p.X && p.X < 20 || p.X > 30 })
	if len(path) != 4 || math.Abs(float64(path[0].Pos.X-10)) > 2 || math.Abs(float64(path[1].Pos.X-20)) > 2 || math.Abs(float64(path[2].Pos.X-30)) > 2 || path[3].Pos.X != box.Max.X {
		t.Errorf("%v", path)
	}
}
