// Package chart draws quantities. Every picture is a value: a stack of panels, each of
// them layers over two axes (panel.go), and one hand draws them all (draw.go); a file a
// study declares what its panels are. An axis is made in axis.go, and what a line or a
// mark looks like stands in marks.go. Lines differ in dash and bands in lightness and by
// a name, so that a chart reads without colour.
package chart

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	// The formats a chart can be written in register themselves.
	_ "gonum.org/v1/plot/vg/vgpdf"
	_ "gonum.org/v1/plot/vg/vgsvg"
)

// FormatOf is the format that a file's name asks for by its ending.
func FormatOf(name string) (string, error) {
	ending := strings.ToLower(name[strings.LastIndexByte(name, '.')+1:])
	if !strings.Contains(name, ".") || !slices.Contains([]string{"svg", "png", "pdf"}, ending) {
		return "", fmt.Errorf("%s: a plot is written as .svg, .png or .pdf; give the file one of these endings", name)
	}
	return ending, nil
}

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

// stack draws panels one below the other in the given format. It fails as Page does.
func stack(w io.Writer, format string, panels ...*panel) error {
	var height vg.Length
	for _, p := range panels {
		height += p.tall()
	}
	return Page(w, format, Width, height, func(page draw.Canvas) {
		top := height
		for _, p := range panels {
			bottom := top - p.tall()
			p.draw(draw.Crop(page, margin, -margin, bottom+margin, top-height-margin))
			top = bottom
		}
	})
}

// Page writes a page that fill draws on, in the given format, for a screen. It fails as
// Pages does.
func Page(w io.Writer, format string, width, height vg.Length, fill func(draw.Canvas)) error {
	return Pages(w, format, width, height, Screen, fill)
}

// Pages writes pages of one size, each drawn on by a fill, as one file in the given format;
// a PNG has so many dots to an inch, which it tells. It fails for none and for pages without
// a height, for more than one in a format that has no pages, for a format that is none, and
// where w does.
func Pages(w io.Writer, format string, width, height vg.Length, dots int, fill ...func(draw.Canvas)) error {
	if height == 0 || len(fill) == 0 {
		return errors.New("there is nothing to draw: a page takes at least one picture")
	}
	if format == "png" && len(fill) == 1 {
		return pixels(w, width, height, dots, fill[0])
	}
	c, err := draw.NewFormattedCanvas(width, height, format)
	if err != nil {
		return err
	}
	on := draw.New(c)
	for i, f := range fill {
		if i > 0 {
			paged, is := c.(interface{ NextPage() })
			if !is {
				return fmt.Errorf("a file of format %s holds one page; want pdf", format)
			}
			paged.NextPage()
		}
		f(on)
	}
	_, err = c.WriteTo(w)
	return err
}
