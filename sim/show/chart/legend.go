package chart

import (
	"evenpull/sim/show/canvas"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// legend is what stands below a plot: names in as many rows as the width asks for, each of as
// many lines.
type legend struct {
	look    *layout
	width   vg.Length
	high    vg.Length // of all rows
	at, row vg.Length // where the next name begins, and how high its row is so far
	entries []entry
}

type entry struct {
	of        *layer
	lines     []string
	at, below vg.Length // of its left end, and of its head below the top of the legend
}

// thumb is the width of what stands before a name, and beside the room to it and to the next.
func (l *legend) thumb() vg.Length { return 2.6 * l.look.text }

func (l *legend) beside() (name, next vg.Length) { return 0.6 * l.look.text, 1.8 * l.look.text }

// name adds the name of a layer, unless it is "".
func (l *legend) name(of *layer) {
	if of.label == "" {
		return
	}
	name, next := l.beside()
	lines := canvas.Wrap(l.look.text, l.width-l.thumb()-name, of.label)
	wide := l.thumb() + name + l.look.widest(lines)
	if l.at > 0 && l.at+wide > l.width {
		l.at, l.high, l.row = 0, l.high+l.row, 0
	}
	l.entries = append(l.entries, entry{of, lines, l.at, l.high})
	l.at += wide + next
	l.row = max(l.row, 1.2*row(l.look.text)*vg.Length(len(lines)))
}

// tall is the height of the legend.
func (l *legend) tall() vg.Length { return l.high + l.row }

// draw draws the names at the top of a canvas.
func (l *legend) draw(on draw.Canvas) {
	name, _ := l.beside()
	high := row(l.look.text)
	for _, e := range l.entries {
		x, top := on.Min.X+e.at, on.Max.Y-e.below
		e.of.on(l.look).thumb(draw.Canvas{Canvas: on.Canvas, Rectangle: vg.Rectangle{
			Min: vg.Point{X: x, Y: top - high}, Max: vg.Point{X: x + l.thumb(), Y: top}}})
		l.look.lines(on, vg.Point{X: x + l.thumb() + name, Y: top}, text.XLeft, e.lines)
	}
}

// on is the layer as it is drawn on a page: on a narrow one with thinner lines and smaller marks.
func (l *layer) on(look *layout) *layer {
	o, by := *l, vg.Length(min(max(look.grow, 0.65), 1))
	o.line.Width *= by
	o.line.Dashes = make([]vg.Length, len(l.line.Dashes))
	for i, d := range l.line.Dashes {
		o.line.Dashes[i] = d * by
	}
	o.glyph.Radius *= by
	o.dot.Radius *= by
	return &o
}

// thumb draws what stands for a layer.
func (l *layer) thumb(on draw.Canvas) {
	box := on.Rectangle
	box.Min.Y, box.Max.Y = box.Min.Y+2, box.Max.Y-2
	middle := vg.Point{X: (box.Min.X + box.Max.X) / 2, Y: (box.Min.Y + box.Max.Y) / 2}
	switch {
	case l.fill != nil:
		on.SetColor(l.fill)
		on.Fill(box.Path())
		hatches{l.hatch, box}.stroke(on)
		on.SetLineStyle(l.line)
		on.Stroke(box.Path())
	case l.glyph.Shape != nil:
		if l.half != nil {
			on.StrokeLine2(errorLine, middle.X, box.Min.Y-2, middle.X, box.Max.Y+2)
		}
		on.DrawGlyphNoClip(l.glyph, middle)
	case l.line.Width > 0:
		on.StrokeLine2(l.line, box.Min.X, middle.Y, box.Max.X, middle.Y)
		if l.dot.Shape != nil {
			on.DrawGlyphNoClip(l.dot, middle)
		}
	}
}
