package chart

import (
	"evenpull/sim/show/canvas"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// legend is what stands below a plot: names in as many rows as the width asks for,
// where gonum's own has one name a row.
type legend struct {
	width, high vg.Length // high is that of all rows
	at          vg.Length // where the next name begins
	entries     []entry
}

type entry struct {
	plot.Legend
	at, below vg.Length // of its left end, and of its foot below the top of the legend
}

// Sizes of a legend's parts, in points.
const (
	legendRow  = 18
	thumbWidth = 34
	legendLeft = 40
	besideName = 8 + 24 // between thumbnail and name, and to the next
)

// name adds a name, unless it is "".
func (l *legend) name(label string, thumb plot.Thumbnailer) {
	if label == "" {
		return
	}
	wide := thumbWidth + besideName + canvas.Letters(textSize).Width(label)
	if l.at+wide > l.width {
		l.at, l.high = legendLeft, l.high+legendRow
	}
	e := entry{plot.NewLegend(), l.at, l.high}
	e.TextStyle.Font.Size, e.Left, e.ThumbnailWidth = textSize, true, thumbWidth
	e.Add(label, thumb)
	l.entries = append(l.entries, e)
	l.at += wide
}

// draw draws the names at the foot of a canvas.
func (l *legend) draw(on draw.Canvas) {
	for _, e := range l.entries {
		e.Draw(draw.Crop(on, e.at, 0, l.high-e.below, 0))
	}
}
