// Package chart draws quantities. Every picture is a value: a stack of panels, each of
// them layers over two axes (panel.go), and one hand draws them all (draw.go); a file a
// study declares what its panels are. An axis is made in axis.go, and what a line or a
// mark looks like stands in marks.go. Lines differ in dash and bands in lightness and by
// a name, so that a chart reads without colour.
package chart

import (
	"io"

	"evenpull/sim/show/canvas"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Sizes on the page.
const (
	Width      = 24 * vg.Centimeter
	margin     = 10 // points, around each picture
	highPanel  = 12 * vg.Centimeter
	lowPanel   = 7 * vg.Centimeter
	mapHeight  = 16 * vg.Centimeter
	scaleWidth = 3 * vg.Centimeter // the scale beside a map
	textSize   = 11
	titleSize  = 14
)

// stack draws panels one below the other in the given format. It fails as canvas.Form.Write
// does.
func stack(w io.Writer, format string, panels ...*panel) error {
	return stackWithin(w, format, Width, panels)
}

func stackWithin(w io.Writer, format string, width vg.Length, panels []*panel) error {
	var height vg.Length
	for _, p := range panels {
		height += p.tall()
	}
	return canvas.Form{Format: format}.Write(w, width, height, func(page draw.Canvas) {
		top := height
		for _, p := range panels {
			bottom := top - p.tall()
			p.draw(draw.Crop(page, margin, -margin, bottom+margin, top-height-margin))
			top = bottom
		}
	})
}
