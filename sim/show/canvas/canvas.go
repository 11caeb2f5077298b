// Package canvas is what pictures are drawn on: pages that are written as SVG, PNG or PDF with
// every letter that is on them to be read, found and copied, and with the same bytes for the
// same picture on the same kind of processor. Lengths are vg.Length, points of 1/72 inch; a
// vg.Centimeter is so many of them. It draws nothing of its own.
package canvas

import (
	"cmp"
	"errors"
	"fmt"
	"image/color"
	"io"
	"slices"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// FormatOf is the format that a file's name asks for by its ending.
func FormatOf(name string) (string, error) {
	ending := strings.ToLower(name[strings.LastIndexByte(name, '.')+1:])
	if !strings.Contains(name, ".") || !slices.Contains([]string{"svg", "png", "pdf"}, ending) {
		return "", fmt.Errorf("%s: a picture is written as .svg, .png or .pdf; give the file one of these endings", name)
	}
	return ending, nil
}

// Form is how pages are written.
type Form struct {
	Format string // svg, png or pdf
	Dots   int    // to an inch of a PNG, which it tells; 0: Screen
	Grey   bool   // every colour as the grey that is as light
}

// Write writes pages of one size, each drawn on by a fill, as one file. It fails for none
// and for pages without a size, for more than one in a format that has no pages, for a format
// that is none, and where w does.
func (f Form) Write(w io.Writer, width, height vg.Length, fill ...func(draw.Canvas)) error {
	if !(width > 0 && height > 0) || len(fill) == 0 {
		return errors.New("there is nothing to draw: a page takes at least one picture")
	}
	if len(fill) > 1 && f.Format != "pdf" {
		return fmt.Errorf("a file of format %s holds one page; want pdf", f.Format)
	}
	on := func(c vg.Canvas, i int) { f.fill(c, width, height, fill[i]) }
	switch f.Format {
	case "svg":
		return writeSVG(w, width, height, func(c vg.Canvas) { on(c, 0) })
	case "png":
		return writePNG(w, width, height, cmp.Or(f.Dots, Screen), func(c vg.Canvas) { on(c, 0) })
	case "pdf":
		return writePDF(w, width, height, len(fill), on)
	}
	return fmt.Errorf("%q is no format of a picture; want svg, png or pdf", f.Format)
}

// fill draws a page on a canvas.
func (f Form) fill(c vg.Canvas, width, height vg.Length, fill func(draw.Canvas)) {
	if f.Grey {
		c = greyed{c}
	}
	fill(draw.NewCanvas(c, width, height))
}

// Letters are those of all pictures, in a size; texts stand with their middle at a place.
func Letters(size vg.Length) text.Style {
	return text.Style{Color: color.Black, Font: font.From(plot.DefaultFont, size), Handler: plot.DefaultTextHandler, XAlign: text.XCenter, YAlign: text.YCenter}
}

// greyed is a canvas without colours.
type greyed struct{ vg.Canvas }

// SetColor sets the grey of the lightness of a colour (luma of Rec. ITU-R BT.601, as image/color has it).
func (g greyed) SetColor(c color.Color) {
	if c == nil {
		c = color.Black
	}
	if _, _, _, alpha := c.RGBA(); alpha == 0xffff {
		c = color.GrayModel.Convert(c)
	}
	g.Canvas.SetColor(c)
}
