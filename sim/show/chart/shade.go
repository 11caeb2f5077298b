package chart

import (
	"evenpull/sim/show/canvas"
	"math"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// shades tints the stripes, the bands and the feet, and names them.
func (f *frame) shades(on draw.Canvas) {
	whole, in := f.plot, f.inner()
	stripe := func(s *shade, y r1.Interval) (vg.Rectangle, bool) {
		e := s.Intersection(f.across)
		box := vg.Rectangle{Min: vg.Point{X: f.place(plotter.XY{X: e.Lo}).X, Y: vg.Length(y.Lo)}, Max: vg.Point{X: f.place(plotter.XY{X: e.Hi}).X, Y: vg.Length(y.Hi)}}
		return box, e.Lo < e.Hi
	}
	for _, b := range f.bands {
		e := b.Intersection(f.up)
		if !(e.Lo < e.Hi) {
			continue
		}
		box := vg.Rectangle{Min: vg.Point{X: whole.Min.X, Y: f.place(plotter.XY{Y: e.Lo}).Y}, Max: vg.Point{X: whole.Max.X, Y: f.place(plotter.XY{Y: e.Hi}).Y}}
		if b.Hi >= f.up.Hi {
			box.Max.Y = whole.Max.Y
		}
		if b.Lo <= f.up.Lo {
			box.Min.Y = whole.Min.Y
		}
		b.draw(on, box)
		if f.bandHigh(&b) >= row(f.look.text) { // enough for its name
			f.plateOf(on, b.name, vg.Point{X: (in.Max.X + whole.Max.X) / 2, Y: (box.Min.Y + box.Max.Y) / 2}, &b.tint, false)
		}
	}
	for i := range f.stripes {
		if box, seen := stripe(&f.stripes[i], r1.Interval{Lo: float64(whole.Min.Y), Hi: float64(whole.Max.Y)}); seen {
			f.stripes[i].draw(on, box)
		}
	}
	for i := range f.feet {
		if box, seen := stripe(&f.feet[i], r1.Interval{Lo: float64(whole.Min.Y), Hi: float64(in.Min.Y)}); seen {
			f.feet[i].draw(on, box)
			if f.look.wide(f.feet[i].name)+6 <= box.Size().X {
				f.plateOf(on, f.feet[i].name, box.Min.Add(box.Max).Scale(0.5), &f.feet[i].tint, false)
			}
		}
	}
	for i := range f.stripes {
		f.nameStripe(on, &f.stripes[i])
	}
}

// bandHigh is how high a band is.
func (f *frame) bandHigh(b *shade) vg.Length {
	e := b.Intersection(f.up)
	return vg.Length(math.Max(e.Length(), 0)/f.up.Length()) * (f.height - f.head - f.foot)
}

// draw tints and hatches a box.
func (t *tint) draw(on draw.Canvas, box vg.Rectangle) {
	on.SetColor(t.fill)
	on.Fill(box.Path())
	hatches{t.hatch, box}.stroke(on)
	on.SetLineStyle(tintLine)
	on.Stroke(box.Path())
}

// plateOf writes words in a tint, clear of its hatches.
func (f *frame) plateOf(on draw.Canvas, words string, at vg.Point, t *tint, upright bool) {
	style := canvas.Letters(f.look.text)
	half := vg.Point{X: f.look.wide(words)/2 + 2, Y: row(f.look.text) / 2}
	if upright {
		style.Rotation, half = upwards, vg.Point{X: half.Y, Y: half.X}
	}
	if t.hatch != 0 {
		on.SetColor(t.fill)
		on.Fill(vg.Rectangle{Min: at.Sub(half), Max: at.Add(half)}.Path())
	}
	on.FillText(style, at, words)
}

// How the name of a stripe stands.
type naming int

const (
	nowhereNamed naming = iota
	aboveData           // above the data
	upwardly            // in the widest gap that they leave
	inLegend
)

// naming finds out how the name of a stripe stands where the plot is so wide: where the room
// does not allow it, in the legend.
func (f *frame) naming(s *shade, width vg.Length) naming {
	e, size := s.Intersection(f.across), f.look.text
	if s.name == "" || !(e.Lo < e.Hi) {
		return nowhereNamed
	}
	room := (width - f.gutter) * vg.Length(e.Length()/f.across.Length())
	gap := vg.Length(f.widestGap(e).Length()/f.up.Length()) * (f.height - f.head - f.foot)
	switch {
	case f.look.wide(s.name)+6 <= room:
		return aboveData
	case row(size) <= room && f.look.wide(s.name)+8 <= gap:
		return upwardly
	}
	return inLegend
}

func (f *frame) nameStripe(on draw.Canvas, s *shade) {
	e := s.Intersection(f.across)
	x := f.place(plotter.XY{X: e.Center()}).X
	switch f.naming(s, f.plot.Size().X) {
	case aboveData:
		f.plateOf(on, s.name, vg.Point{X: x, Y: f.plot.Max.Y - f.head/2}, &s.tint, false)
	case upwardly:
		f.plateOf(on, s.name, vg.Point{X: x, Y: f.place(plotter.XY{Y: f.widestGap(e).Center()}).Y}, &s.tint, true)
	}
}

// nameStripes puts into the legend what has no room for its name, and labels.
func (f *frame) nameStripes(width vg.Length) {
	add := func(label string, t *tint) {
		f.legend.name(&layer{label: label, fill: t.fill, hatch: t.hatch, line: tintLine})
	}
	named := map[string]bool{}
	for i := range f.stripes {
		s := &f.stripes[i]
		if s.label != "" && !named[s.label] {
			add(s.label, &s.tint)
			named[s.label] = true
		}
		if f.naming(s, width) == inLegend && !named[s.name] {
			add(s.name, &s.tint)
			named[s.name] = true
		}
	}
	for i := range f.bands {
		b := &f.bands[i]
		high := f.bandHigh(b)
		if high > 3 && high < row(f.look.text) && !named[b.name] {
			add(b.name, &b.tint)
		}
	}
	for i := range f.feet {
		s := &f.feet[i]
		e := s.Intersection(f.across)
		if f.look.wide(s.name)+6 > (width-f.gutter)*vg.Length(math.Max(e.Length(), 0)/f.across.Length()) && !named[s.name] {
			add(s.name, &s.tint)
			named[s.name] = true
		}
	}
}
