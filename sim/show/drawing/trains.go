// Package drawing draws metal: the trains of a clock to scale, each barrel with the
// coils of its spring run down and wound, the fusee with its grooves, and the wheels
// as pitch circles by their tooth counts; and the cone to cut at its true size. What
// a line of a drawing looks like stands in sheet.go.
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
)

// Sizes on the sheet, mm.
const (
	trainWidth = float64(chart.Width / vg.Millimeter)
	margin     = 8.0
	gap        = 12.0
	heading    = 12.0
	caption    = 12.0 // below each part
	wheelRoom  = 62.0
	barRoom    = 13.0
	lastName   = 21.0 // for the name of the last arbor, at its right
	arborName  = 10.5 // for those of the others, above and below
)

// scales are the sizes on the sheet over true ones that a drawing may have.
var scales = []float64{2, 1, 0.5, 0.2, 0.1, 0.05}

// Write draws the trains of runs, one below the other.
func Write(w io.Writer, form canvas.Form, trains []sim.Result) error {
	list, height := make([]trainDrawing, len(trains)), 0.0
	for i := range trains {
		if err := list[i].measure(&trains[i]); err != nil {
			return err
		}
		height += list[i].height
	}
	return write(w, form, trainWidth, height, func(s *sheet) {
		top := height
		for i := range list {
			s.scale = list[i].scale
			s.train(&list[i], top)
			top -= list[i].height
		}
	})
}

// trainDrawing is a train with what is drawn of it.
type trainDrawing struct {
	*sim.Result
	cone          fusee.Cone
	land          float64 // m, over the groove bottoms
	scale         float64 // of the drawing over the train
	parts, height float64 // mm, of barrels and fusee, and of all
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
	d.parts = math.Max(s.paper(barrelWidth(&d.Train.Drive)), 2*widest(s.profile(&d.cone, line, 0)))
	d.height = heading + d.parts + caption + barRoom + gap
	if len(r.Train.Arbors) > 1 {
		d.height += wheelRoom
	}
	return nil
}

// coneLength is the length of the fusee with half a turn beside the groove at both ends.
func (d *trainDrawing) coneLength() float64 { return d.cone.Pitch * (d.cone.Turns + 1) }

// train draws a train below the given height.
func (s *sheet) train(d *trainDrawing, top float64) {
	// The ratio holds only when nothing is scaled on the way to paper; the bar always.
	s.words(spot{margin, top - heading/2}, 1, large, fmt.Sprintf("%s train, to scale: %s when printed at its own size, else by the bar", d.Train.Name, ratio(s.scale)))
	at := spot{margin, top - heading - d.parts/2}
	below := at.y - d.parts/2 - caption/2
	half := s.paper(barrelWidth(&d.Train.Drive)) / 2
	for _, state := range []struct {
		turns float64
		words string
	}{{d.Spring.SetUp, "barrel run down, set-up " + words.Turns(d.Spring.SetUp)}, {d.Spring.SetUp + d.Spring.Used, "barrel wound"}} {
		s.barrel(spot{at.x + half, at.y}, d.Result, state.turns)
		s.words(spot{at.x + half, below}, 0, normal, state.words)
		at.x += 2*half + gap
	}
	s.fusee(spot{at.x + s.paper(d.cone.Pitch)/2, at.y}, d)
	s.words(spot{at.x + s.paper(d.coneLength())/2, below}, 0, normal, fmt.Sprintf("fusee: %s turns, %s groove, line at the left when wound", words.Turns(d.cone.Turns), words.Hand(&d.cone)))
	below -= caption/2 + barRoom
	s.bar(spot{margin, below + 4}, "")
	if len(d.Train.Arbors) > 1 {
		s.wheels(spot{margin, below - wheelRoom/2}, d.Result)
	}
}

// fusee draws the cone with its small end at the left, over the lands, with the
// diameters over the groove bottoms at both ends.
func (s *sheet) fusee(at spot, d *trainDrawing) {
	profile := s.profile(&d.cone, d.land, 0)
	outline := around(at, profile)
	s.fill(metal, outline)
	s.line(solid, outline...)
	s.helix(at, &d.cone, d.land, 0)
	last := len(profile) - 1
	s.line(middle, spot{at.x - 5, at.y}, spot{at.x + profile[last].x + 5, at.y})
	for x, p := range []spot{profile[last], profile[0]} { // words end at the large end, and are centred over the small one
		diameter := 2e3 * (p.y/s.paper(1) - d.land)
		s.words(spot{at.x + p.x, at.y + p.y + 4}, x-1, normal, fmt.Sprintf("Ø %s mm", words.Figure(diameter)))
	}
}

// wheels draws the pitch circles of a train in a row, all of one module: their radii
// go with the tooth counts. Each wheel meets the pinion that it drives, and from the
// first arbor to the last the centres stand in line.
func (s *sheet) wheels(at spot, r *sim.Result) {
	meshes := r.Train.Meshes()
	teeth, most := meshes[0].Wheel+meshes[len(meshes)-1].Pinion, 0
	for _, m := range meshes {
		teeth += m.Wheel + m.Pinion
		most = max(most, m.Wheel)
	}
	module := math.Min((trainWidth-2*margin-lastName)/float64(teeth), (wheelRoom-2*arborName)/float64(most))
	radius := func(teeth int) float64 { return module * float64(teeth) / 2 }
	at.x += radius(meshes[0].Wheel)
	for i, name := range r.Train.Arbors {
		var teeth []string
		reach := 0.0
		turn := func(what string, n int) {
			reach = radius(n)
			s.circle(at, reach, nil, solid)
			teeth = append(teeth, fmt.Sprintf("%s %d", what, n))
		}
		s.circle(at, 0.5, black, solid)
		if i > 0 {
			turn("pinion", meshes[i-1].Pinion)
		}
		if i == len(meshes) {
			s.words(spot{at.x + reach + 4, at.y}, 1, normal, name+"\n"+teeth[0])
			return
		}
		turn("wheel", meshes[i].Wheel)
		up := float64(1 - 2*(i%2)) // below every other time, so that neighbours do not meet
		s.words(spot{at.x, at.y + up*(reach+7)}, 0, normal, name)
		s.words(spot{at.x, at.y + up*(reach+3)}, 0, normal, strings.Join(teeth, ", "))
		at.x += reach + radius(meshes[i].Pinion)
	}
}
