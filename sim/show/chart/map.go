package chart

import (
	"image/color"
	"math"
	"slices"

	"evenpull/sim/show/canvas"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// shade puts a map of a quantity behind the layers of a panel: shaded in steps, the
// darker the more, with a line around every step. Its scale is called z.
func (p *panel) shade(l *lattice, z string) {
	steps := l.steps()
	p.height, p.xs, p.ys, p.scale, p.scaleName = mapPlot, ends(l.xs), ends(l.ys), steps, z
	var layers []layer
	for k, from := range steps[:len(steps)-1] {
		if k == 0 {
			from = -math.MaxFloat64 // whatever can be built, also where rounding puts it below
		}
		layers = append(layers, layer{points: l.framed().contour(from), fill: steps.tone(k), line: stepLine})
	}
	p.layers = slices.Concat(layers, p.layers)
}

func ends(values []float64) r1.Interval { return r1.Interval{Lo: values[0], Hi: values[len(values)-1]} }

// steps are the values between the steps of a shade, and those below and above all.
type steps []float64

// steps lie at round values over what there is.
func (l *lattice) steps() (list steps) {
	z := r1.EmptyInterval()
	for j := range l.ys {
		for i := range l.xs {
			z = hold(z, l.at(i, j))
		}
	}
	if z.IsEmpty() || isLevel(z) {
		z = roomy(z)
	}
	step := roundStep(z.Length() / 11)
	for k := math.Floor(z.Lo/step + 1e-9); ; k++ {
		list = append(list, k*step)
		if k*step >= z.Hi {
			return list
		}
	}
}

// tone is the shade of a step.
func (s steps) tone(step int) color.Color {
	u := float64(step) / float64(max(len(s)-2, 1))
	mix := func(a, b uint8) uint8 { return uint8(math.Round(float64(a)*(1-u) + float64(b)*u)) }
	return color.RGBA{mix(lightest.R, darkest.R), mix(lightest.G, darkest.G), mix(lightest.B, darkest.B), 0xff}
}

// scaleTicks are the names along the scale.
func (f *frame) scaleTicks() []plot.Tick {
	return ticks(ends(f.scale), f.height, func(string) vg.Length { return 2 * row(f.look.text) })
}

// scaleRoom is the width that the scale takes beside a plot.
func (f *frame) scaleRoom() vg.Length {
	var names []string
	for _, k := range f.scaleTicks() {
		names = append(names, k.Label)
	}
	f.besideScale = canvas.Wrap(f.look.text, f.height, f.scaleName)
	return 3.2*f.look.text + tickLong + f.look.widest(names) + row(f.look.text)*vg.Length(len(f.besideScale))
}

// scaleBar draws beside the plot what the tones mean.
func (f *frame) scaleBar(on draw.Canvas) {
	size, e := f.look.text, ends(f.scale)
	box := vg.Rectangle{Min: f.plot.Max.Add(vg.Point{X: size, Y: -f.height}), Max: f.plot.Max.Add(vg.Point{X: 2.4 * size})}
	at := func(v float64) vg.Length { return box.Min.Y + vg.Length((v-e.Lo)/e.Length())*box.Size().Y }
	for k := range len(f.scale) - 1 {
		part := vg.Rectangle{Min: vg.Point{X: box.Min.X, Y: at(f.scale[k])}, Max: vg.Point{X: box.Max.X, Y: at(f.scale[k+1])}}
		on.SetColor(f.scale.tone(k))
		on.Fill(part.Path())
		on.SetLineStyle(stepLine)
		on.Stroke(part.Path())
	}
	var names []string
	for _, k := range f.scaleTicks() {
		y := at(k.Value)
		on.StrokeLine2(axisLine, box.Max.X, y, box.Max.X+tickLong, y)
		f.look.lines(on, vg.Point{X: box.Max.X + tickLong + 2, Y: y + row(size)/2}, text.XLeft, []string{k.Label})
		names = append(names, k.Label)
	}
	f.rising(on, box.Max.X+tickLong+2+f.look.widest(names)+0.3*size, f.besideScale)
}

// region is a part of a map with a name, hatched or not: where a quantity on its lattice is
// not below 0.
type region struct {
	*lattice
	name  string
	hatch hatching
	keyed bool // it stands in the legend too
}

// hatchRegion hatches a region.
func (f *frame) hatchRegion(on draw.Canvas, r *region) {
	in := f.inner()
	back := func(p vg.Point) plotter.XY {
		share := func(v, from, to vg.Length, e r1.Interval) float64 {
			return e.Lo + e.Length()*float64((v-from)/(to-from))
		}
		return plotter.XY{X: share(p.X, in.Min.X, in.Max.X, f.across), Y: share(p.Y, in.Min.Y, in.Max.Y, f.up)}
	}
	hatches{r.hatch, in}.within(on, func(p vg.Point) bool { at := back(p); return r.between(at.X, at.Y) >= 0 })
}

// nameRegions finds places for the names of the regions where these are widest, within the
// plot as it is laid out; a box without a size where there is none.
func (f *frame) nameRegions() []vg.Rectangle {
	in := f.inner()
	boxes := make([]vg.Rectangle, len(f.regions))
	for i := range f.regions {
		half := vg.Point{X: f.look.wide(f.regions[i].name)/2 + 3, Y: row(f.look.text) / 2}
		for _, at := range f.regions[i].inmost() {
			middle := f.place(at)
			box := vg.Rectangle{Min: middle.Sub(half), Max: middle.Add(half)}
			if apart(box, boxes[:i]) && in.Min.X <= box.Min.X && box.Max.X <= in.Max.X && in.Min.Y <= box.Min.Y && box.Max.Y <= in.Max.Y {
				boxes[i] = box
				break
			}
		}
	}
	return boxes
}

// writeRegions writes the names of the regions over the hatches of all.
func (f *frame) writeRegions(on draw.Canvas) {
	for i, box := range f.nameRegions() {
		if box.Size().X > 0 {
			on.SetColor(paper)
			on.Fill(box.Path())
			on.FillText(canvas.Letters(f.look.text), box.Min.Add(box.Size().Scale(0.5)), f.regions[i].name)
		}
	}
}

// regionKeys puts into the legend what is no verdict, of which hatches and dots tell over those
// of verdicts, and regions that are too small for their name.
func (f *frame) regionKeys(width vg.Length) {
	f.plot = vg.Rectangle{Max: vg.Point{X: width, Y: f.height}}
	boxes := f.nameRegions()
	for i := range f.regions {
		r := &f.regions[i]
		if unnamed := boxes[i].Size().X == 0; len(r.inmost()) > 0 && (r.keyed || unnamed) {
			f.legend.name(&layer{label: r.name, fill: paper, hatch: r.hatch, line: tintLine})
		}
	}
}

// apart tells whether a box overlaps none of others.
func apart(box vg.Rectangle, others []vg.Rectangle) bool {
	return !slices.ContainsFunc(others, func(o vg.Rectangle) bool {
		return box.Min.X < o.Max.X && o.Min.X < box.Max.X && box.Min.Y < o.Max.Y && o.Min.Y < box.Max.Y
	})
}

// inmost are the points of the lattice at which the quantity is not below 0, those first that
// lie farthest from where it is, and from the edge.
func (l *lattice) inmost() plotter.XYs {
	type spot struct{ i, j, deep int }
	var list []spot
	for j := range l.ys {
		for i := range l.xs {
			if deep := l.deep(i, j); deep > 0 {
				list = append(list, spot{i, j, deep})
			}
		}
	}
	slices.SortStableFunc(list, func(a, b spot) int { return b.deep - a.deep })
	points := make(plotter.XYs, len(list))
	for n, s := range list {
		points[n] = plotter.XY{X: l.xs[s.i], Y: l.ys[s.j]}
	}
	return points
}

// deep is the number of steps to all four sides over which the quantity is not below 0.
func (l *lattice) deep(i, j int) (n int) {
	in := func(i, j int) bool { return i >= 0 && j >= 0 && i < len(l.xs) && j < len(l.ys) && l.at(i, j) >= 0 }
	for in(i, j) && in(i-n, j) && in(i+n, j) && in(i, j-n) && in(i, j+n) {
		n++
	}
	return n
}

// between is the quantity at a place, straight between the points about it; no number where
// one of them has none.
func (l *lattice) between(x, y float64) float64 {
	i, u := cell(l.xs, x)
	j, v := cell(l.ys, y)
	return (l.at(i, j)*(1-u)+l.at(i+1, j)*u)*(1-v) + (l.at(i, j+1)*(1-u)+l.at(i+1, j+1)*u)*v
}

// cell is the number of the cell of an axis that a value lies in, and where in it.
func cell(values []float64, v float64) (i int, share float64) {
	i, _ = slices.BinarySearch(values, v)
	i = min(max(i-1, 0), len(values)-2)
	return i, (v - values[i]) / (values[i+1] - values[i])
}
