// Package drawing draws metal: the trains of a clock, each barrel to scale with the coils
// of its spring run down and wound, the fusee with its grooves, and the wheels as a diagram
// by their tooth counts; and the cone to cut at its true size. What a line of a drawing
// looks like stands in sheet.go.
package drawing

import (
	"fmt"
	"io"
	"math"

	"evenpull/fusee"
	"evenpull/sim"
	"evenpull/sim/show/canvas"
	"evenpull/sim/show/chart"
	"evenpull/sim/show/words"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Sizes on the sheet, mm.
const (
	trainWidth = float64(chart.Width / vg.Millimeter)
	margin     = 8.0
	gap        = 12.0
	caption    = 15.0 // below each part, of three lines
	captioned  = 34.0 // the least width of a part, for the words below it
	barRoom    = 11.0
	coneWords  = 8.0 // above and below the cone, for its diameters
)

// scales are the sizes on the sheet over true ones that a drawing may have.
var scales = []float64{2, 1, 0.5, 0.2, 0.1, 0.05}

// Write draws the trains of runs in a format of package canvas: one below the other, or in
// a PDF a page each.
func Write(w io.Writer, format string, trains []sim.Result) error {
	list, sum, most := make([]trainDrawing, len(trains)), 0.0, 0.0
	for i := range trains {
		if err := list[i].measure(&trains[i]); err != nil {
			return err
		}
		sum, most = sum+list[i].height, math.Max(most, list[i].height)
	}
	if format != "pdf" {
		return write(w, format, trainWidth, sum, func(s *sheet) {
			top := sum
			for i := range list {
				s.train(&list[i], top)
				top -= list[i].height
			}
		})
	}
	pages := make([]func(draw.Canvas), len(list))
	for i := range list {
		pages[i] = func(on draw.Canvas) { (&sheet{on: on}).train(&list[i], most) }
	}
	return canvas.Form{Format: format}.Write(w, length(trainWidth), length(most), pages...)
}

// trainDrawing is a train with what is drawn of it.
type trainDrawing struct {
	*sim.Result
	cone          fusee.Cone
	land          float64 // m, over the groove bottoms
	scale         float64 // of the drawing over the train
	head          paragraphs
	barrel        float64 // mm, the width of the room for one
	parts, height float64 // mm, of barrels and fusee, and of all
	wheels        []wheelRow
}

// measure takes the sizes of a train and finds the scale at which it fits the sheet.
func (d *trainDrawing) measure(r *sim.Result) error {
	wound, err := r.Train.Drive.Wind()
	if err != nil {
		return err
	}
	line := r.Train.Drive.Line.Thickness
	*d = trainDrawing{Result: r, cone: wound.CutCone(), land: line / 2} // a groove half as deep as the line is thick (common practice, no source)
	for _, d.scale = range scales {
		if s := (sheet{scale: d.scale}); 2*s.paper(barrelWidth(&d.Train.Drive))+s.paper(d.coneLength()) <= trainWidth-2*margin-2*gap {
			break
		}
	}
	s := sheet{scale: d.scale}
	barrel := s.paper(barrelWidth(&d.Train.Drive))
	d.barrel = math.Max(barrel, captioned)
	d.parts = math.Max(barrel, 2*(widest(s.profile(&d.cone, d.land, 0))+coneWords))
	const width = trainWidth - 2*margin
	d.head.add(width, large, fitted(words.TrainTitle(r), large, width))
	d.head.add(width, normal, words.TrainScale(ratio(d.scale)))
	d.wheels = wheelsOf(r)
	d.height = margin + d.head.height() + 2 + d.parts + caption + barRoom + gap
	for i := range d.wheels {
		d.height += d.wheels[i].height()
	}
	return nil
}

// coneLength is the length of the fusee with half a turn beside the groove at both ends.
func (d *trainDrawing) coneLength() float64 { return d.cone.Pitch * (d.cone.Turns + 1) }

// train draws a train below the given height.
func (s *sheet) train(d *trainDrawing, top float64) {
	s.scale = d.scale
	s.paragraphs(spot{margin, top - margin/2}, d.head)
	at := spot{margin, top - margin/2 - d.head.height() - 2 - d.parts/2}
	below := at.y - d.parts/2
	for i, name := range words.BarrelAs(d.Result) {
		s.barrel(spot{at.x + d.barrel/2, at.y}, d.Result, d.Spring.SetUp+float64(i)*d.Spring.Used)
		s.under(spot{at.x + d.barrel/2, below}, name)
		at.x += d.barrel + gap
	}
	wide := s.paper(d.coneLength())
	at.x += math.Max(captioned-wide, 0) / 2
	s.fusee(spot{at.x + s.paper(d.cone.Pitch)/2, at.y}, d)
	s.under(spot{at.x + wide/2, below}, words.FuseeAs(&d.cone))
	below -= caption + barRoom
	s.bar(spot{margin, below + 4}, "")
	for i := range d.wheels {
		s.wheels(&d.wheels[i], below)
		below -= d.wheels[i].height()
	}
}

// fusee draws the cone with its small end at the left, over the lands, with the diameters
// over the groove bottoms at both ends.
func (s *sheet) fusee(at spot, d *trainDrawing) {
	profile := s.profile(&d.cone, d.land, 0)
	outline := around(at, profile)
	s.fill(metal, outline)
	s.line(solid, outline...)
	s.helix(at, &d.cone, d.land, 0)
	last := len(profile) - 1
	s.line(middle, spot{at.x - 5, at.y}, spot{at.x + profile[last].x + 5, at.y})
	diameter := func(p spot) string { return fmt.Sprintf("Ø %s mm", words.Figure(2e3*(p.y/s.paper(1)-d.land))) }
	// The one of the small end stands above whatever of the outline is below it, that of the
	// large end under the foot, so that they do not meet however short the cone is.
	small, top := diameter(profile[0]), 0.0
	half := float64(canvas.Letters(normal).Width(small)/vg.Millimeter) / 2
	for _, p := range profile {
		if p.x <= half+1 {
			top = math.Max(top, p.y)
		}
	}
	s.line(leader, spot{at.x, at.y + profile[0].y + 0.7}, spot{at.x, at.y + top + 1.8})
	s.words(spot{at.x, at.y + top + 4.3}, 0, normal, small)
	s.words(spot{at.x + profile[last].x, at.y - profile[last].y - 3}, -1, normal, diameter(profile[last]))
}
