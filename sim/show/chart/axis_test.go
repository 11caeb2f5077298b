package chart

import (
	"evenpull/sim/rules"
	"math"
	"slices"
	"testing"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot/plotter"
)

func ext(lo, hi float64) r1.Interval { return r1.Interval{Lo: lo, Hi: hi} }

func close(a, b r1.Interval) bool { return math.Abs(a.Lo-b.Lo) < 1e-9 && math.Abs(a.Hi-b.Hi) < 1e-9 }

// What each part of a panel asks of its axes: 5 % of room beyond the data at both ends.
func TestExtents(t *testing.T) {
	slope := line("", trials[0], plotter.XYs{{X: 0, Y: 10}, {X: 10, Y: 20}})
	flat := line("", trials[0], plotter.XYs{{X: 0, Y: 2}, {X: 10, Y: 2}})
	pt := func(y float64) plotter.XYs { return plotter.XYs{{X: 0, Y: y}, {X: 10, Y: y}} }
	barred := dots("", trialMark, slope.points)
	barred.half = []float64{4, 3, 99}
	unknown := dots("", trialMark, slope.points)
	unknown.half = []float64{nan}
	of := func(l ...layer) panel { return panel{layers: l} }
	x, y := ext(-0.5, 10.5), ext(9.5, 20.5)
	for name, c := range map[string]struct {
		g    panel
		x, y r1.Interval
	}{
		"line":             {of(slope), x, y},
		"area":             {of(area("", pt(10), pt(20))), x, y},
		"dots":             {of(barred), x, ext(5.15, 23.85)},
		"no half known":    {of(unknown), x, y},
		"mark":             {of(slope, mark("", nowMark, 20, 30)), ext(-1, 21), ext(9, 31)},
		"a mark nowhere":   {of(slope, mark("", nowMark, 20, nan)), x, y},
		"bars":             {panel{floor: true, layers: []layer{bar(0, 5, 10), bar(5, 10, 20)}}, x, ext(0, 21)},
		"level near":       {of(slope, level("", limits[0], 5)), x, ext(4.25, 20.75)},
		"level far":        {of(slope, level("", limits[0], -5), level("", limits[0], 35)), x, y},
		"level always":     {of(slope, level("", limits[0], -10).seen()), x, ext(-11.5, 21.5)},
		"upright":          {of(slope, upright("", limits[0], 30).seen()), x, y},
		"limits of bands":  {panel{layers: []layer{slope}, bands: []shade{judged(rules.Thin, 0, 9), judged(rules.Suits, 9, 21), judged(rules.Strong, 21, 99), judged(rules.Overdriven, 99, inf)}}, x, ext(8.4-0.528, 21.6+0.528)},
		"zero":             {panel{zero: true, layers: []layer{slope}}, x, ext(0, 20.5)},
		"zero, all below":  {panel{zero: true, layers: []layer{line("", trials[0], plotter.XYs{{X: 0, Y: -10}, {X: 10, Y: -5}})}}, x, ext(-10, 0)},
		"zero, below it":   {panel{zero: true, layers: []layer{line("", trials[0], plotter.XYs{{X: 0, Y: -10}, {X: 10, Y: 10}})}}, x, ext(-10, 11)},
		"asked":            {panel{layers: []layer{slope}, xs: ext(2, 4)}, ext(2, 4), y},
		"both asked":       {panel{layers: []layer{slope}, xs: ext(2, 4), ys: ext(0, 1)}, ext(2, 4), ext(0, 1)},
		"asked the wrong":  {panel{layers: []layer{slope}, xs: ext(4, 2), ys: ext(1, 1)}, x, y},
		"level line":       {of(flat), x, ext(1.9, 2.1)},
		"least length":     {panel{layers: []layer{flat}, least: 1}, x, ext(1.5, 2.5)},
		"longer than that": {panel{layers: []layer{slope}, least: 10.9}, x, y},
		"nothing":          {panel{}, ext(0, 1), ext(0, 1)},
		"along zero":       {of(line("", trials[0], pt(0))), x, ext(-0.5, 0.5)},
	} {
		if x, y := c.g.extents(false); !close(x, c.x) || !close(y, c.y) {
			t.Errorf("%s: %v, %v; want %v, %v", name, x, y, c.x, c.y)
		}
	}
	p := panel{zero: true, layers: []layer{slope}}
	if _, near := p.extents(true); !close(near, y) {
		t.Errorf("asked to begin near the data: %v", near)
	}
}

// A limit is near within 1.5 lengths of the data, or 40 % of its end.
func TestNear(t *testing.T) {
	for _, c := range []struct {
		lo, hi, at float64
		want       bool
	}{
		{10, 20, -4.9, true}, {10, 20, -5.1, false}, {10, 20, 34.9, true}, {10, 20, 35.1, false},
		{10, 10, 6.1, true}, {10, 10, 5.9, false}, {10, 10, 13.9, true}, {10, 10, 14.1, false},
		{-10, -10, -13.9, true}, {-10, -10, -14.1, false}, {-10, -10, -6.1, true}, {-10, -10, -5.9, false},
		{10, 20, nan, false}, {10, 20, inf, false}, {inf, -inf, 3, true},
	} {
		if e := ext(c.lo, c.hi); isNear(e, c.at) != c.want {
			t.Errorf("%v near %v: %v", c.at, e, !c.want)
		}
	}
}

func TestLevelExtents(t *testing.T) {
	for _, c := range []struct {
		e, want r1.Interval
		level   bool
	}{
		{ext(1, 1), ext(0.95, 1.05), true}, {ext(1, 1+1e-8), ext(0.95, 1.05), true}, {ext(-1-1e-8, -1), ext(-1.05, -0.95), true},
		{ext(1, 1+4e-8), ext(1, 1), false}, {ext(0, 0), ext(-0.5, 0.5), true}, {ext(0, 1e-7), ext(0, 1e-7), false}, {ext(-1, 1), ext(-1.1, 1.1), false},
	} {
		r := roomy(c.e)
		if isLevel(c.e) != c.level || math.Abs(r.Lo-c.want.Lo) > 1e-7 || math.Abs(r.Hi-c.want.Hi) > 1e-7 || !(r.Lo < r.Hi) {
			t.Errorf("%v: level %v, with room %v", c.e, !c.level, r)
		}
	}
	if roomy(r1.EmptyInterval()) != ext(0, 1) {
		t.Error("the room about nothing")
	}
	if e := ext(2, 4); atLeast(e, 6) != ext(0, 6) || atLeast(e, 1) != e || hold(e, nan, inf, 3) != e || hold(e, 1, nan, 5) != ext(1, 5) {
		t.Error("a range of 2 to 4")
	}
}

// The labels of an axis: round values within it, to as many decimals as they need.
func TestTickLabels(t *testing.T) {
	for _, c := range []struct {
		lo, hi float64
		want   []string
	}{
		{0, 9, []string{"0", "1", "2", "3", "4", "5", "6", "7", "8", "9"}},
		{-0.05, 1.05, []string{"0.0", "0.2", "0.4", "0.6", "0.8", "1.0"}},
		{-9.5, 11, []string{"−5", "0", "5", "10"}},
		{0.123, 0.129, []string{"0.123", "0.124", "0.125", "0.126", "0.127", "0.128", "0.129"}},
		{100, 900, []string{"100", "200", "300", "400", "500", "600", "700", "800", "900"}},
		{-1, 0, []string{"−1.0", "−0.8", "−0.6", "−0.4", "−0.2", "0.0"}},
	} {
		var got []string
		for _, k := range evenTicks(c.lo, c.hi, 9) {
			got = append(got, k.Label)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("from %v to %v: %q, want %q", c.lo, c.hi, got, c.want)
		}
	}
}
