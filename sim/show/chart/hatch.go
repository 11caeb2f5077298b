package chart

import (
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// hatching is how a range is hatched.
type hatching int

const (
	rising hatching = 1 << iota
	falling
	dotted
	crossed = rising | falling
)

// hatchStep is the distance of hatches along the axes, in points.
const hatchStep = 7

// hatches are those of a box on a page.
type hatches struct {
	hatching
	box vg.Rectangle
}

// stroke draws them, as one path each way.
func (h hatches) stroke(c draw.Canvas) { h.within(c, nil) }

// within draws what of them lies inside; nil: all.
func (h hatches) within(c draw.Canvas, inside func(vg.Point) bool) {
	c.SetLineStyle(hatchLine)
	for _, way := range []hatching{rising, falling, dotted} {
		if h.hatching&way == 0 {
			continue
		}
		lines := slants(h.box, way == rising)
		if way == dotted {
			c.SetLineStyle(dotLine)
			lines = levels(h.box)
		}
		var path vg.Path
		for _, l := range lines {
			path = pieces(path, l, inside)
		}
		if len(path) > 0 {
			c.Stroke(path)
		}
	}
}

// levels are the lines of dots across a box, at the same heights in all boxes of a page.
func levels(box vg.Rectangle) (list [][2]vg.Point) {
	for y := vg.Length(math.Ceil(float64(box.Min.Y/hatchStep))) * hatchStep; y < box.Max.Y; y += hatchStep {
		list = append(list, [2]vg.Point{{X: box.Min.X, Y: y}, {X: box.Max.X, Y: y}})
	}
	return list
}

// slants are the lines at half a right angle across a box, at the same places in all boxes of
// a page.
func slants(box vg.Rectangle, up bool) (list [][2]vg.Point) {
	lo, hi := box.Min.Y-box.Max.X, box.Max.Y-box.Min.X // of y − x
	if !up {
		lo, hi = box.Min.Y+box.Min.X, box.Max.Y+box.Max.X // of y + x
	}
	for k := vg.Length(math.Ceil(float64(lo/hatchStep))) * hatchStep; k < hi; k += hatchStep {
		from, to := max(box.Min.Y, box.Min.X+k), min(box.Max.Y, box.Max.X+k)
		if !up {
			from, to = max(box.Min.Y, k-box.Max.X), min(box.Max.Y, k-box.Min.X)
		}
		at := func(y vg.Length) vg.Point {
			if up {
				return vg.Point{X: y - k, Y: y}
			}
			return vg.Point{X: k - y, Y: y}
		}
		if from < to {
			list = append(list, [2]vg.Point{at(from), at(to)})
		}
	}
	return list
}

// pieces adds to a path what of a line lies inside, to two points.
func pieces(path vg.Path, l [2]vg.Point, inside func(vg.Point) bool) vg.Path {
	n := 1
	if inside != nil {
		n = int(math.Ceil(float64(max(l[1].Y-l[0].Y, l[1].X-l[0].X)) / 2))
	}
	drawn := false
	for i := range n {
		at := func(i int) vg.Point { return l[0].Add(l[1].Sub(l[0]).Scale(vg.Length(i) / vg.Length(n))) }
		a, b := at(i), at(i+1)
		is := inside == nil || inside(a.Add(b).Scale(0.5))
		if is && !drawn {
			path.Move(a)
			path.Line(b)
		} else if is {
			path[len(path)-1].Pos = b
		}
		drawn = is
	}
	return path
}
