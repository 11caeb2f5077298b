package chart

import (
	"cmp"
	"evenpull/sim/show/canvas"
	"math"
	"slices"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// drawing is a panel on its way to the page.
type drawing struct {
	*plot.Plot
	*panel
	legend
	across, up r1.Interval // ranges of the axes, without the names of the stripes
	end        float64     // of the x axis before the gutter
	whole      r1.Interval // of the y axis, those names included
}

// names is the share of the height above the data that is kept for the names of
// the stripes.
const names = 0.09

func (p *panel) draw(on draw.Canvas) {
	width := on.Max.X - on.Min.X
	d := drawing{Plot: newPlot(p), panel: p, legend: legend{width: width, at: width}}
	d.across, d.up, d.end = p.extents()
	d.whole = d.up
	if slices.ContainsFunc(p.stripes, func(s shade) bool { return s.name != "" }) {
		d.whole.Hi += names * d.up.Length()
	}
	d.setAxes()
	inner := d.DataCanvas(on)
	d.shades(inner.Max.X - inner.Min.X)
	for i := range p.layers {
		d.layer(&p.layers[i])
	}
	d.setAxes()
	above := draw.Crop(on, 0, 0, d.high, 0)
	if p.scale != nil {
		p.scale.draw(draw.Crop(above, width-scaleWidth, 0, 0, 0))
		above = draw.Crop(above, 0, -scaleWidth, 0, 0)
	}
	d.Draw(above)
	d.legend.draw(on)
}

// setAxes gives the axes their ranges, which gonum widens to all that is added.
func (d *drawing) setAxes() {
	d.X.Min, d.X.Max, d.Y.Min, d.Y.Max = d.across.Lo, d.across.Hi, d.whole.Lo, d.whole.Hi
}

// layer adds a layer to the plot, and its label to the legend if it is to be seen.
func (d *drawing) layer(l *layer) {
	if l.half != nil {
		d.Add(l.errorBars())
	}
	label := l.label
	for _, p := range l.parts(runs(d.visible(l))) {
		d.Add(p)
		d.name(label, p)
		label = "" // one entry for all of it
	}
	if l.words != nil {
		d.Add(l.words)
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
func (l *layer) parts(runs []plotter.XYs) (list []part) {
	if l.fill != nil && len(runs) > 0 {
		return []part{&plotter.Polygon{XYs: runs, Color: l.fill, LineStyle: l.line}}
	}
	for _, run := range runs {
		if l.glyph.Shape != nil {
			list = append(list, &plotter.Scatter{XYs: run, GlyphStyle: l.glyph})
		} else {
			list = append(list, &plotter.Line{XYs: run, LineStyle: l.line})
		}
	}
	return list
}

// part is what is drawn, in the plot and in the legend.
type part interface {
	plot.Plotter
	plot.Thumbnailer
}

// visible are the points that can be seen: of marks those within the axes, of a limit
// there the ends of the axes. What passes the axes else is cut off by gonum.
func (d *drawing) visible(l *layer) plotter.XYs {
	if !l.limit && l.glyph.Shape == nil {
		return l.points
	}
	ends := r1.Interval{Lo: d.across.Lo, Hi: d.end}
	var list plotter.XYs
	for _, pt := range l.points {
		if l.limit && math.IsInf(pt.X, 0) {
			pt.X = ends.ClampPoint(pt.X)
		}
		if l.limit && math.IsInf(pt.Y, 0) {
			pt.Y = d.up.ClampPoint(pt.Y)
		}
		if ends.Contains(pt.X) && d.up.Contains(pt.Y) {
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

// shades tints the stripes and, over all their tints, names them; then the bands.
func (d *drawing) shades(width vg.Length) {
	tint := func(s *shade, x, y r1.Interval) {
		if x.Lo < x.Hi && y.Lo < y.Hi {
			d.layer(&layer{label: s.label, points: box(x, y), fill: s.fill, line: tintLine})
		}
	}
	for _, s := range d.stripes {
		tint(&s, s.Intersection(d.across), d.whole)
	}
	for _, s := range d.stripes {
		s.Interval = s.Intersection(d.across)
		d.nameStripe(&s, width*vg.Length(s.Length()/d.across.Length()))
	}
	for _, b := range d.bands {
		y := b.Intersection(d.whole)
		tint(&b, d.across, y)
		if y.Length() >= d.leastNamed()*d.whole.Length() {
			d.Add(written((d.end+d.across.Hi)/2, y.Center(), b.name))
		}
	}
}

// leastNamed is the share of the height that a band takes with its name.
func (p *panel) leastNamed() float64 {
	if p.narrow {
		return 0.09
	}
	return 0.04
}

// nameStripe writes the name above the data where the room allows it, else upwards, in
// the widest gap that the data leave, where it allows that.
func (d *drawing) nameStripe(s *shade, room vg.Length) {
	switch {
	case s.name == "":
	case canvas.Letters(textSize).Width(s.name)+6 <= room:
		d.Add(written(s.Center(), (d.up.Hi+d.whole.Hi)/2, s.name))
	case textSize+2 <= room:
		l := written(s.Center(), d.widestGap(s.Interval, d.whole).Center(), s.name)
		l.TextStyle[0].Rotation = math.Pi / 2
		d.Add(l)
	}
}

// widestGap is the widest part of the y axis that nothing passes over a stripe.
func (p *panel) widestGap(stripe, y r1.Interval) (gap r1.Interval) {
	taken := []r1.Interval{r1.IntervalFromPoint(y.Hi)}
	for _, l := range p.layers {
		all := r1.EmptyInterval()
		for _, pt := range l.points {
			if !l.limit && stripe.Contains(pt.X) {
				all = hold(all, pt.Y)
			}
		}
		if !all.IsEmpty() {
			taken = append(taken, all)
		}
	}
	slices.SortFunc(taken, func(a, b r1.Interval) int { return cmp.Compare(a.Lo, b.Lo) })
	lo := y.Lo
	for _, t := range taken {
		if t.Lo-lo > gap.Length() {
			gap = r1.Interval{Lo: lo, Hi: t.Lo}
		}
		lo = math.Max(lo, t.Hi)
	}
	return gap
}

// written are words with their middle at a place.
func written(x, y float64, words string) *plotter.Labels {
	return &plotter.Labels{XYs: plotter.XYs{{X: x, Y: y}}, Labels: []string{words}, TextStyle: []text.Style{canvas.Letters(textSize)}}
}
