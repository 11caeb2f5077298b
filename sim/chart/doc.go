// Package chart draws run-downs: torque against fusee turns and hours, with
// the need and the bands of the verdict shaded. Lines differ in dash and
// bands in lightness and by a label, so that a chart reads without colour.
package chart

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"evenpull/sim"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	// The formats a chart can be written in register themselves.
	_ "gonum.org/v1/plot/vg/vgimg"
	_ "gonum.org/v1/plot/vg/vgpdf"
	_ "gonum.org/v1/plot/vg/vgsvg"
)

// Formats are the file formats a chart can be written in.
func Formats() []string { return []string{"svg", "png", "pdf"} }

// FormatOf is the format that a file's name asks for by its ending.
func FormatOf(name string) (string, error) {
	ending := strings.ToLower(name[strings.LastIndexByte(name, '.')+1:])
	if !strings.Contains(name, ".") || !slices.Contains(Formats(), ending) {
		return "", fmt.Errorf("%s: a plot is written as .svg, .png or .pdf; give the file one of these endings", name)
	}
	return ending, nil
}

// Size of one train's panel.
const (
	Width  = 24 * vg.Centimeter
	Height = 13 * vg.Centimeter
)

// Write draws a panel for each train, one below the other, in the given format.
func Write(w io.Writer, format string, trains []sim.Result) error {
	c, err := draw.NewFormattedCanvas(Width, Height*vg.Length(len(trains)), format)
	if err != nil {
		return err
	}
	page := draw.New(c)
	for i := range trains {
		top := vg.Length(i) * Height
		panel := draw.Crop(page, 0, 0, vg.Length(len(trains)-1-i)*Height, -top)
		if err := drawTorque(panel, &trains[i]); err != nil {
			return err
		}
	}
	_, err = c.WriteTo(w)
	return err
}
