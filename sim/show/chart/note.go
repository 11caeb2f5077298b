package chart

import (
	"evenpull/sim/show/canvas"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// note are words in a plot.
type note struct {
	at    plotter.XY
	words string
	side  int  // of the place: 1 right of it, −1 left
	level bool // with it; else above, or below where that is beyond the plot
}

// put writes a note. Words beside a place go to its other side where there is no room.
func (f *frame) put(on draw.Canvas, n *note) {
	place, size := f.place(n.at), f.look.text
	half := vg.Point{X: f.look.wide(n.words) / 2, Y: row(size) / 2}
	side, below := vg.Length(n.side), false
	beside := func() vg.Length { return place.X + side*(0.6*size+half.X) }
	if x := beside(); x+half.X > f.inner().Max.X || x-half.X < f.plot.Min.X {
		side, below = -side, !below
	}
	at := vg.Point{X: beside(), Y: place.Y}
	if up := at.Y + 0.3*size + half.Y; !n.level && !below && up+half.Y <= f.inner().Max.Y {
		at.Y = up
	} else if down := at.Y - 0.3*size - half.Y; !n.level && down-half.Y >= f.plot.Min.Y {
		at.Y = down
	}
	for i := range f.bands {
		b := &f.bands[i]
		if y := f.place(plotter.XY{Y: b.Lo}).Y; at.Y+half.Y > y && at.Y-half.Y < y+f.bandHigh(b) && b.hatch != 0 {
			f.plateOf(on, n.words, at, &b.tint, false)
			return
		}
	}
	on.FillText(canvas.Letters(size), at, n.words)
}

// lines writes lines of words below a place, that they begin at, end at or have in the middle.
func (l *layout) lines(on draw.Canvas, top vg.Point, x text.XAlignment, lines []string) {
	l.written(on, top, x, l.text, lines)
}

func (l *layout) written(on draw.Canvas, top vg.Point, x text.XAlignment, size vg.Length, lines []string) {
	style := canvas.Letters(size)
	style.XAlign = x
	for i, s := range lines {
		on.FillText(style, vg.Point{X: top.X, Y: top.Y - row(size)*(vg.Length(i)+0.5)}, s)
	}
}
