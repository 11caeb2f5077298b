package drawing

import (
	"math"

	"evenpull/sim"
	"evenpull/sim/show/words"
)

// Sizes of the diagram of the wheels, mm.
const (
	mostAcross = 46.0 // the greatest wheel
	noteBelow  = 4.0  // between what stands above a row and its wheels
	leaderHigh = 7.0  // from the circles to the labels
	apart      = 4.0  // labels of neighbours
)

// wheelRow is a row of the diagram: arbors from one to the next.
type wheelRow struct {
	arbors []arborMark
	note   paragraphs // above it
	reach  float64    // mm, of what goes farthest off the line of centres
	labels float64    // mm, the height of the tallest label
}

// arborMark is an arbor in the diagram: pitch circles as large as their tooth counts, and
// what is written of it. Places are mm from the left of the sheet.
type arborMark struct {
	x             float64
	pinion, wheel float64 // radii, 0 for none
	teeth         int     // of an escape wheel
	vanes, pins   int
	label         paragraphs
	at            float64 // the middle of the label
}

func (w *wheelRow) height() float64 {
	return w.note.height() + noteBelow + 2*w.reach + leaderHigh + w.labels
}

// wheelsOf lays the train out in rows; each goes on with the last arbor of the one before.
func wheelsOf(r *sim.Result, in room) (rows []wheelRow) {
	last := len(r.Train.Arbors) - 1
	for from := 0; from < last; from += in.arbors - 1 {
		rows = append(rows, wheelRowOf(r, in, from, min(from+in.arbors-1, last)))
	}
	if len(rows) > 0 {
		rows[0].note.add(in.inner(), normal, words.TrainWheels)
	}
	return rows
}

// wheelRowOf lays out a row as large as it has room. Each wheel meets the pinion that it
// drives, and the centres stand in line.
func wheelRowOf(r *sim.Result, in room, from, to int) wheelRow {
	w := wheelRow{arbors: make([]arborMark, to-from+1)}
	least, most, x := 0.0, 0.0, 0.0 // in teeth: the places farthest left and right
	for i := range w.arbors {
		w.arbors[i] = markOf(r, from+i)
		a := &w.arbors[i]
		if i > 0 {
			x += w.arbors[i-1].wheel + a.pinion
		}
		a.x = x
		reach := math.Max(a.pinion, a.wheel)
		least, most, w.reach = math.Min(least, x-reach), math.Max(most, x+reach), math.Max(w.reach, reach)
	}
	width := in.inner()
	module := math.Min(width/(most-least), mostAcross/2/w.reach)
	left := in.edge + (width-module*(most-least))/2
	w.reach *= module
	for i := range w.arbors {
		a := &w.arbors[i]
		a.x, a.pinion, a.wheel = left+module*(a.x-least), module*a.pinion, module*a.wheel
		a.write(r, from+i, width/float64(len(w.arbors))-apart)
		w.labels = math.Max(w.labels, a.label.height())
	}
	in.spread(w.arbors)
	return w
}

// flyTeeth is how many teeth a wheel as large as the fly is drawn would have.
const flyTeeth = 32

// markOf is an arbor with radii in teeth.
func markOf(r *sim.Result, number int) (a arborMark) {
	meshes, work := r.Train.Meshes(), r.Train.PinWork()
	if number > 0 {
		a.pinion = float64(meshes[number-1].Pinion) / 2
	}
	switch {
	case number < len(meshes):
		a.wheel = float64(meshes[number].Wheel) / 2
		if r.Train.Strikes && number == work.Arbor {
			a.pins = work.Pins
		}
	case r.Train.Escapes:
		a.teeth = r.Train.Escapement.Teeth
		a.wheel = float64(a.teeth) / 2
	case r.Train.Strikes:
		a.wheel, a.vanes = flyTeeth/2, work.Vanes
	}
	return a
}

// write makes the label, no wider than so much.
func (a *arborMark) write(r *sim.Result, number int, width float64) {
	a.label.add(width, normal, r.Train.Arbors[number])
	for _, l := range words.ArborHas(r, number) {
		a.label.add(width, small, l)
	}
	for i, l := range a.label { // a word alone may be wider
		a.label[i].words = fitted(l.words, l.size, width)
	}
}

// spread places the labels as near to their arbors as they are when none meets another.
func (m room) spread(arbors []arborMark) {
	low := m.edge
	for i := range arbors {
		half := arbors[i].label.width() / 2
		arbors[i].at = math.Max(arbors[i].x, low+half)
		low = arbors[i].at + half + apart
	}
	high := m.wide - m.edge
	for i := len(arbors) - 1; i >= 0; i-- {
		half := arbors[i].label.width() / 2
		arbors[i].at = math.Min(arbors[i].at, high-half)
		high = arbors[i].at - half - apart
	}
}

// wheels draws a row below the given height. The labels stand below all circles, and a line
// leads to each from its arbor.
func (s *sheet) wheels(w *wheelRow, in room, top float64) {
	s.paragraphs(spot{in.edge, top}, w.note)
	y := top - w.note.height() - noteBelow - w.reach
	low := y - w.reach
	for i := range w.arbors {
		a := &w.arbors[i]
		s.line(leader, spot{a.x, y}, spot{a.x, low - 1}, spot{a.at, low - leaderHigh + 1})
		for k, l := range a.label {
			above := a.label[:k].height()
			s.words(spot{a.at, low - leaderHigh - above - tall(l.size)/2}, 0, l.size, l.words)
		}
	}
	for i := range w.arbors {
		w.arbors[i].draw(s, y)
	}
}

// draw draws an arbor on the line of centres.
func (a *arborMark) draw(s *sheet, y float64) {
	at := spot{a.x, y}
	switch {
	case a.vanes > 0:
		s.vanes(at, a.wheel, min(a.vanes, 12))
	case a.teeth > 0 && 2*math.Pi*a.wheel/float64(a.teeth) > 1:
		s.escapeWheel(at, a.wheel, a.teeth)
	case a.wheel > 0:
		s.circle(at, a.wheel, nil, solid)
	}
	if ring := 0.85 * a.wheel; a.pins > 0 && 2*math.Pi*ring/float64(a.pins) > 1.5 {
		for i := range a.pins {
			s.circle(off(at, ring, float64(i)/float64(a.pins)), 0.6, black, thin)
		}
	}
	if a.pinion > 0 {
		s.circle(at, a.pinion, waste, solid)
	}
	s.circle(at, 0.5, black, thin)
}

// off is a place so far off a spot, so much of a turn from the top, clockwise.
func off(at spot, radius, turn float64) spot {
	sin, cos := math.Sincos(2 * math.Pi * turn)
	return spot{at.x + radius*sin, at.y + radius*cos}
}

// vanes draws a fly from along its arbor.
func (s *sheet) vanes(at spot, radius float64, count int) {
	const thick = 0.02 // of a turn, at the tip
	for i := range count {
		turn := float64(i)/float64(count) + 0.125
		s.fill(metal, []spot{at, off(at, radius, turn-thick), off(at, radius, turn+thick)})
		s.line(solid, at, off(at, radius, turn-thick), off(at, radius, turn+thick), at)
	}
}

// escapeWheel draws a wheel with the teeth that it has.
func (s *sheet) escapeWheel(at spot, radius float64, teeth int) {
	var list []spot
	for i := range teeth {
		turn := float64(i) / float64(teeth)
		list = append(list, off(at, 0.86*radius, turn), off(at, radius, turn))
	}
	s.line(solid, append(list, list[0])...)
}
