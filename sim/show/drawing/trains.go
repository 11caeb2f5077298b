// Package drawing draws metal: the trains of a clock, each barrel to scale with the coils of
// its spring run down and wound, the fusee with its grooves, and the wheels as a diagram by
// their tooth counts; and the cone to cut at its true size, where 30 mm on paper printed at
// 100 % are 30 mm to 0.02. Sizes on a drawing are in mm. What a line of a drawing looks
// like stands in sheet.go.
package drawing

import (
	"fmt"
	"io"
	"math"
	"strings"

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
	barRoom   = 11.0
	coneWords = 8.0 // above and below the cone, for its diameters
)

// room is what a drawing of trains has, mm.
type room struct {
	wide, edge, gap float64
	captioned       float64 // the least width of a part, for the words below it
	lines           float64 // the least width at which these are broken into lines
	arbors          int     // in a row of the diagram of the wheels
}

// inner is the width between the edges.
func (m room) inner() float64 { return m.wide - 2*m.edge }

// A sheet of its own, and half a sheet of A4 in a report, on a phone with letters 9 px high.
var (
	ownSheet  = room{float64(chart.Width / vg.Millimeter), 8, 12, 34, 60, 8}
	halfSheet = room{104, 4, 8, 26, 26, 5}
)

// scales are the sizes on the sheet over true ones that a drawing may have.
var scales = []float64{2, 1, 0.5, 0.2, 0.1, 0.05}

// Write draws the trains of runs: one below the other, or in a PDF a page each.
func Write(w io.Writer, form canvas.Form, trains []sim.Result) error {
	list, sum, most := make([]trainDrawing, len(trains)), 0.0, 0.0
	for i := range trains {
		if err := list[i].measure(&trains[i], ownSheet); err != nil {
			return err
		}
		sum, most = sum+list[i].height, math.Max(most, list[i].height)
	}
	if form.Format != "pdf" {
		return write(w, form, ownSheet.wide, sum, func(s *sheet) {
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
	return form.Write(w, length(ownSheet.wide), length(most), pages...)
}

// Narrow draws one train in half the width, for a report, which tells beside it what it is.
func Narrow(w io.Writer, format string, r *sim.Result) error {
	var d trainDrawing
	if err := d.measure(r, halfSheet); err != nil {
		return err
	}
	return write(w, canvas.Form{Format: format}, d.wide, d.height, func(s *sheet) { s.train(&d, d.height) })
}

// trainDrawing is a train with what is drawn of it.
type trainDrawing struct {
	*sim.Result
	room
	cone          fusee.Cone
	land          float64 // m, over the groove bottoms
	scale         float64 // of the drawing over the train
	head          paragraphs
	below         [3]paragraphs // below both barrels and the fusee
	barrel        float64       // mm, the width of the room for one
	parts, height float64       // mm, of barrels and fusee, and of all
	caption       float64       // mm, the height of the words below them
	wheels        []wheelRow
}

// measure takes the sizes of a train and finds the scale at which it fits the sheet.
func (d *trainDrawing) measure(r *sim.Result, in room) error {
	wound, err := r.Train.Drive.Wind()
	if err != nil {
		return err
	}
	line := r.Train.Drive.Line.Thickness
	*d = trainDrawing{Result: r, room: in, cone: wound.CutCone(), land: line / 2} // a groove half as deep as the line is thick (common practice, no source)
	for _, d.scale = range scales {
		if s := (sheet{scale: d.scale}); 2*math.Max(s.paper(barrelWidth(&d.Train.Drive)), d.captioned)+math.Max(s.paper(d.coneLength()), d.captioned) <= d.inner()-2*d.gap {
			break
		}
	}
	s := sheet{scale: d.scale}
	barrel := s.paper(barrelWidth(&d.Train.Drive))
	d.barrel = math.Max(barrel, d.captioned)
	d.parts = math.Max(barrel, 2*(widest(s.profile(&d.cone, d.land, 0))+coneWords))
	if d.room == ownSheet {
		d.head.add(d.inner(), large, fitted(words.TrainTitle(r), large, d.inner()))
	}
	d.head.add(d.inner(), normal, words.TrainScale(ratio(d.scale)))
	caption := 0.0
	for i, says := range append(words.BarrelAs(r), words.FuseeAs(&d.cone)) {
		wide := d.barrel
		if i == 2 {
			wide = math.Max(d.captioned, s.paper(d.coneLength()))
		}
		for _, l := range strings.Split(says, "\n") {
			d.below[i].add(math.Max(wide, d.lines), normal, l)
		}
		caption = math.Max(caption, d.below[i].height())
	}
	d.wheels = wheelsOf(r, d.room)
	d.caption = caption + 3
	d.height = d.edge + d.head.height() + 2 + d.parts + d.caption + barRoom + d.gap
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
	s.paragraphs(spot{d.edge, top - d.edge/2}, d.head)
	at := spot{d.edge, top - d.edge/2 - d.head.height() - 2 - d.parts/2}
	below := at.y - d.parts/2
	for i := range 2 {
		s.barrel(spot{at.x + d.barrel/2, at.y}, d.Result, d.Spring.SetUp+float64(i)*d.Spring.Used)
		s.under(spot{at.x + d.barrel/2, below}, d.below[i])
		at.x += d.barrel + d.gap
	}
	wide := s.paper(d.coneLength())
	at.x += math.Max(d.captioned-wide, 0) / 2
	s.fusee(spot{at.x + s.paper(d.cone.Pitch)/2, at.y}, d)
	s.under(spot{at.x + wide/2, below}, d.below[2])
	below -= d.caption + barRoom
	s.bar(spot{d.edge, below + 4}, "")
	for i := range d.wheels {
		s.wheels(&d.wheels[i], d.room, below)
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
