// Package chart draws run-downs: torque against fusee turns and hours, with
// the need and the bands of the verdict shaded, and below it what the drive
// does to the pendulum's arc and rate, or to the blows of a striking train. Lines differ in dash and
// bands in lightness and by a label, so that a chart reads without colour.
package chart

import (
	"fmt"
	"io"
	"math"
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

// Sizes of the panels of a train.
const (
	Width       = 24 * vg.Centimeter
	Height      = 13 * vg.Centimeter // torque
	SwingHeight = 7 * vg.Centimeter  // semi-arc and rate of a going train, cadence and twelve of a striking one
)

// panel is one picture of a train.
type panel struct {
	height vg.Length
	draw   func(draw.Canvas, *sim.Result) error
}

// panelsOf are the pictures that a train has.
func panelsOf(r *sim.Result) []panel {
	list := []panel{{Height, drawTorque}}
	if !math.IsNaN(r.Swing.Rate.Mean) {
		list = append(list, panel{SwingHeight, drawAmplitude}, panel{SwingHeight, drawRate})
	}
	if r.Train.Strikes {
		if !math.IsNaN(r.Cadence.Interval.Mean) {
			list = append(list, panel{SwingHeight, drawCadence})
		}
		list = append(list, panel{SwingHeight, drawTwelve})
	}
	return list
}

// Write draws the panels of every train, one below the other, in the given
// format.
func Write(w io.Writer, format string, trains []sim.Result) error {
	var height vg.Length
	for i := range trains {
		for _, p := range panelsOf(&trains[i]) {
			height += p.height
		}
	}
	c, err := draw.NewFormattedCanvas(Width, height, format)
	if err != nil {
		return err
	}
	page := draw.New(c)
	top := height
	for i := range trains {
		for _, p := range panelsOf(&trains[i]) {
			at := draw.Crop(page, margin, -margin, top-p.height+margin, top-height-margin)
			if err := p.draw(at, &trains[i]); err != nil {
				return err
			}
			top -= p.height
		}
	}
	_, err = c.WriteTo(w)
	return err
}
