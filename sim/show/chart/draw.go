package chart

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"evenpull/sim/show/canvas"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// upwards is how far letters are turned that go up.
const upwards = math.Pi / 2

// draw draws a frame on a canvas as high as it is.
func (f *frame) draw(on draw.Canvas) {
	l := f.look
	f.plot = vg.Rectangle{
		Min: vg.Point{X: on.Min.X + f.left, Y: on.Max.Y - f.above() - f.height},
		Max: vg.Point{X: on.Max.X - f.right, Y: on.Max.Y - f.above()},
	}
	l.written(on, vg.Point{X: on.Min.X, Y: on.Max.Y}, text.XLeft, l.title, f.titles)
	f.shades(on)
	inner := draw.Canvas{Canvas: on.Canvas, Rectangle: f.plot}
	plt := f.transforms()
	for i := range f.layers {
		f.layer(inner, plt, f.layers[i].on(l))
	}
	for i := range f.regions {
		f.hatchRegion(on, &f.regions[i])
	}
	f.writeRegions(on)
	for i := range f.layers {
		for k := range f.layers[i].notes {
			f.put(on, &f.layers[i].notes[k])
		}
	}
	f.axes(on)
	if f.scale != nil {
		f.scaleBar(on)
	}
	f.legend.draw(draw.Canvas{Canvas: on.Canvas, Rectangle: vg.Rectangle{
		Min: vg.Point{X: on.Min.X + f.beforeLegend(), Y: on.Min.Y}, Max: vg.Point{X: on.Max.X, Y: f.plot.Min.Y - f.axis() - 0.4*l.text}}})
}

// place is where a point of the data stands on the page.
func (f *frame) place(p plotter.XY) vg.Point {
	in := f.inner()
	share := func(v float64, e r1.Interval) vg.Length { return vg.Length((v - e.Lo) / e.Length()) }
	return vg.Point{X: in.Min.X + share(p.X, f.across)*in.Size().X, Y: in.Min.Y + share(p.Y, f.up)*in.Size().Y}
}

// inner is the part of the plot that holds the data.
func (f *frame) inner() vg.Rectangle {
	return vg.Rectangle{Min: f.plot.Min.Add(vg.Point{Y: f.foot}), Max: f.plot.Max.Sub(vg.Point{X: f.gutter, Y: f.head})}
}

// transforms is a plot of gonum that has the whole plot as its axes, for its plotters.
func (f *frame) transforms() *plot.Plot {
	plt, in := plot.New(), f.inner().Size()
	of := func(e r1.Interval, v, over vg.Length) float64 { return e.Length() * float64(v/over) }
	plt.X.Min, plt.X.Max = f.across.Lo, f.across.Hi+of(f.across, f.gutter, in.X)
	plt.Y.Min, plt.Y.Max = f.up.Lo-of(f.up, f.foot, in.Y), f.up.Hi+of(f.up, f.head, in.Y)
	return plt
}

// axes draws the two axes with their names.
func (f *frame) axes(on draw.Canvas) {
	l, size := f.look, f.look.text
	lo, hi := f.plot.Min, f.plot.Max
	on.StrokeLine2(axisLine, lo.X, lo.Y, hi.X, lo.Y)
	on.StrokeLine2(axisLine, lo.X, lo.Y, lo.X, hi.Y)
	for _, k := range f.columns {
		x := f.place(plotter.XY{X: k.Value}).X
		if f.across.Contains(k.Value) {
			on.StrokeLine2(axisLine, x, lo.Y, x, lo.Y-tickLong)
			l.lines(on, vg.Point{X: x, Y: lo.Y - tickLong - 1}, text.XCenter, split(k.Label))
		}
	}
	l.lines(on, vg.Point{X: (lo.X + hi.X) / 2, Y: lo.Y - tickLong - 0.3*size - row(size)*vg.Length(f.columnsNeeded)}, text.XCenter, f.xName)
	for _, k := range f.lines {
		y, lines := f.place(plotter.XY{Y: k.Value}).Y, split(k.Label)
		if f.rows == nil {
			on.StrokeLine2(axisLine, lo.X, y, lo.X-tickLong, y)
		}
		l.lines(on, vg.Point{X: lo.X - tickLong - 0.3*size, Y: y + row(size)*vg.Length(len(lines))/2}, text.XRight, lines)
	}
	f.rising(on, lo.X-f.own, f.yName)
}

// rising writes lines upwards along the plot, from a place to the right.
func (f *frame) rising(on draw.Canvas, x vg.Length, lines []string) {
	style := canvas.Letters(f.look.text)
	style.Rotation = upwards
	for i, s := range lines {
		on.FillText(style, vg.Point{X: x + row(f.look.text)*(vg.Length(i)+0.5), Y: (f.plot.Min.Y + f.plot.Max.Y) / 2}, s)
	}
}

func split(label string) []string {
	if label == "" {
		return nil
	}
	return strings.Split(label, "\n")
}

// layer draws a layer, without its notes.
func (f *frame) layer(in draw.Canvas, plt *plot.Plot, l *layer) {
	if l.half != nil {
		l.errorBars().Plot(in, plt)
	}
	for _, run := range l.parts(runs(f.visible(l))) {
		run.Plot(in, plt)
	}
}

// errorBars are those of the points of which half the length is known.
func (l *layer) errorBars() *plotter.YErrorBars {
	bars := &plotter.YErrorBars{LineStyle: errorLine, CapWidth: 6}
	for i, half := range l.half[:min(len(l.half), len(l.points))] {
		if pt := l.points[i]; half > 0 && finite(pt.X+pt.Y+half) {
			bars.XYs, bars.YErrors = append(bars.XYs, pt), append(bars.YErrors, struct{ Low, High float64 }{half, half})
		}
	}
	return bars
}

// parts are gonum's plotters for runs of points that are all numbers.
func (l *layer) parts(runs []plotter.XYs) (list []plot.Plotter) {
	if l.fill != nil && len(runs) > 0 {
		return []plot.Plotter{&plotter.Polygon{XYs: runs, Color: l.fill, LineStyle: l.line}}
	}
	for _, run := range runs {
		if l.line.Width > 0 {
			list = append(list, &plotter.Line{XYs: run, LineStyle: l.line})
		}
		for _, dot := range []draw.GlyphStyle{l.glyph, l.dot} {
			if dot.Shape != nil {
				list = append(list, &plotter.Scatter{XYs: run, GlyphStyle: dot})
			}
		}
	}
	return list
}

// visible are the points that can be seen: of marks those within the axes, of a limit
// there the ends of the axes. What passes the axes else is cut off by gonum.
func (f *frame) visible(l *layer) plotter.XYs {
	if !l.limit && l.glyph.Shape == nil {
		return l.points
	}
	var list plotter.XYs
	for _, pt := range l.points {
		if l.limit && math.IsInf(pt.X, 0) {
			pt.X = f.across.ClampPoint(pt.X)
		}
		if l.limit && math.IsInf(pt.Y, 0) {
			pt.Y = f.up.ClampPoint(pt.Y)
		}
		if f.across.Contains(pt.X) && f.up.Contains(pt.Y) {
			list = append(list, pt)
		}
	}
	return list
}

// runs are the stretches of points that are numbers.
func runs(points plotter.XYs) (list []plotter.XYs) {
	from := 0
	for i := range len(points) + 1 {
		if i < len(points) && finite(points[i].X) && finite(points[i].Y) {
			continue
		}
		if from < i {
			list = append(list, points[from:i])
		}
		from = i + 1
	}
	return list
}

// widestGap is the widest part of the y axis that nothing passes over a stripe.
func (f *frame) widestGap(stripe r1.Interval) (gap r1.Interval) {
	taken := []r1.Interval{r1.IntervalFromPoint(f.up.Hi)}
	for _, l := range f.layers {
		all := r1.EmptyInterval()
		for _, pt := range l.points {
			if l.limit && math.IsInf(pt.X, 0) && f.up.Contains(pt.Y) || stripe.Contains(pt.X) && !l.limit {
				all = hold(all, pt.Y)
			}
		}
		if !all.IsEmpty() {
			taken = append(taken, all)
		}
	}
	slices.SortFunc(taken, func(a, b r1.Interval) int { return cmp.Compare(a.Lo, b.Lo) })
	lo := f.up.Lo
	for _, t := range taken {
		if t.Lo-lo > gap.Length() {
			gap = r1.Interval{Lo: lo, Hi: t.Lo}
		}
		lo = math.Max(lo, t.Hi)
	}
	return gap
}
