package chart

import (
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// legend is what stands below a plot: names in as many rows as the width asks for,
// where gonum's own has one name a row.
type legend []entry

type entry struct {
	label     string
	thumb     plot.Thumbnailer
	at, below vg.Length // of its left end, and of its foot below the top of the legend
}

// Sizes of a legend's parts, in points.
const (
	legendRow  = 18
	thumbWidth = 34
	legendLeft = 40
	besideName = 8 + 24 // between thumbnail and name, and to the next
)

// entry adds a name, unless it is "".
func (l *legend) entry(label string, thumb plot.Thumbnailer) {
	if label != "" {
		*l = append(*l, entry{label: label, thumb: thumb})
	}
}

// layOut places the entries within a width, and tells how high they are.
func (l legend) layOut(width vg.Length) (high vg.Length) {
	at := width
	for i := range l {
		e := &l[i]
		wide := thumbWidth + besideName + letters.Width(e.label)
		if at+wide > width {
			at, high = legendLeft, high+legendRow
		}
		e.at, e.below = at, high
		at += wide
	}
	return high
}

// draw draws the entries at the foot of a canvas.
func (l legend) draw(on draw.Canvas, high vg.Length) {
	for _, e := range l {
		one := plot.NewLegend()
		one.TextStyle.Font.Size = textSize
		one.Left, one.ThumbnailWidth = true, thumbWidth
		one.Add(e.label, e.thumb)
		one.Draw(draw.Crop(on, e.at, 0, high-e.below, 0))
	}
}
