package chart

import (
	"image/color"
	"math"
	"slices"
	"testing"

	"evenpull/sim"
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
func strokes(t testing.TB, p Picture) []stroke {
	t.Helper()
	var rec recorder.Canvas
	if err := p.draw(draw.NewCanvas(&rec, Width, p.height())); err != nil {
		t.Fatal(err)
	}
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
	other := Curve{Label: "other", Points: curve(math.Sqrt)}
	for name, g := range map[string]*Graph{
		"curve":       {Lines: []Curve{other, {Label: "need", Points: curve(straight), Role: Need}, other}},
		"level":       {Lines: []Curve{other}, Levels: []Level{{Label: "limit", At: 1}, {Label: "need", At: 2, Role: Need}}},
		"upright":     {Lines: []Curve{other}, Uprights: []Upright{{Label: "need", At: 2, Role: Need}, {Label: "limit", At: 3}}},
		"first level": {Lines: []Curve{other}, Levels: []Level{{Label: "need", At: 2, Role: Need}}},
	} {
		list := strokes(t, g)
		if n := count(list, func(s stroke) bool { return s.like(roleLines[Need]) }); n != 2 {
			t.Errorf("%s: %d lines like the need", name, n)
		}
	}
	for _, r := range []sim.Result{results(t, "eight-day")[0], results(t, "strike-quick")[0]} {
		list := strokes(t, torque(&r))
		near := r.Need.Used > 0.6*r.Torque.Min
		if n := count(list, func(s stroke) bool { return s.like(roleLines[Need]) }); near != (n == 2) {
			t.Errorf("%s: %d lines like the need", r.Train.Name, n)
		}
	}
}

// Styles of one kind differ, and so do those of the roles.
func TestStylesDiffer(t *testing.T) {
	all := func(lists ...[]draw.LineStyle) []draw.LineStyle { return slices.Concat(lists...) }
	var roles []draw.LineStyle
	for _, r := range []Role{Need, Now, Mean} {
		roles = append(roles, roleLines[r])
	}
	for _, list := range [][]draw.LineStyle{all(roles, curveLines), all(roles, limitLines), borderLines} {
		for i, a := range list {
			for _, b := range list[:i] {
				if slices.Equal(a.Dashes, b.Dashes) && math.Abs(float64(a.Width-b.Width)) < 1 {
					t.Errorf("%+v and %+v look alike without colour", a, b)
				}
			}
		}
	}
	p := picker[int]{own: map[Role]int{Need: 9}, others: []int{1, 2}}
	var got []int
	for _, r := range []Role{Other, Need, Other, Best, Need} {
		got = append(got, p.style(r))
	}
	if !slices.Equal(got, []int{1, 9, 2, 1, 9}) {
		t.Errorf("%v", got)
	}
}

// The best is marked alike whether or not there is a mark for what is.
func TestMarksOfRoles(t *testing.T) {
	line := []Curve{{Points: curve(straight)}}
	now, best := Mark{Label: "now", X: 2, Y: 2, Role: Now}, Mark{Label: "best", X: 5, Y: 5, Role: Best}
	corners := func(marks ...Mark) (n int) {
		return count(strokes(t, &Graph{Lines: line, Marks: marks}), func(s stroke) bool {
			return !s.filled && len(s.path) == 5 && s.path[4].Type == vg.CloseComp && s.path[2].Pos.X-s.path[0].Pos.X > 0
		})
	}
	if a, b := corners(best), corners(now, best); a != 2 || b != 2 {
		t.Errorf("%d and %d squares", a, b)
	}
}

// A level goes from end to end of the data and no farther: names stand in the gutter.
func TestLevelsEndBeforeTheGutter(t *testing.T) {
	g := &Graph{From: 0, To: 10, Gutter: true, Lines: []Curve{{Points: curve(straight)}}, Levels: []Level{{At: 5, Role: Need}}}
	list := strokes(t, g)
	i := slices.IndexFunc(list, func(s stroke) bool { return s.like(roleLines[Need]) })
	k := slices.IndexFunc(list, func(s stroke) bool { return s.like(curveLines[0]) })
	level, line := list[i].path, list[k].path
	if from, to := level[0].Pos.X-line[0].Pos.X, level[1].Pos.X-line[len(line)-1].Pos.X; math.Abs(float64(from)) > 0.01 || math.Abs(float64(to)) > 0.01 {
		t.Errorf("off the ends by %v and %v points", from, to)
	}
	if room := Width - level[1].Pos.X; math.Abs(float64(room/(level[1].Pos.X-level[0].Pos.X)-gutter)) > 0.01 {
		t.Errorf("%v of a gutter", room)
	}
}

// Error bars reach from end to end, and there are none for what is not known.
func TestErrorBars(t *testing.T) {
	d := Dots{Points: plotter.XYs{{X: 0, Y: 0}, {X: 1, Y: 1}, {X: 2, Y: 2}, {X: 3, Y: 3}}, Half: []float64{1, nan, 0}}
	bars := count(strokes(t, &Graph{Dots: []Dots{d}}), func(s stroke) bool { return s.like(errorLine) })
	if bars != 3 { // the bar and its two caps
		t.Errorf("%d strokes", bars)
	}
}

// Words that are turned run straight up the page.
func TestWordsRunUp(t *testing.T) {
	g := everything()
	g.Stripes = []Stripe{{From: 0, To: 9.7, Code: rules.Suits}, {From: 9.7, To: 10, Code: rules.Thin}}
	var rec recorder.Canvas
	if err := g.draw(draw.NewCanvas(&rec, Width, g.height())); err != nil {
		t.Fatal(err)
	}
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
