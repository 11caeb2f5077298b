package sim

import (
	"math"

	"evenpull/escapement"
	"evenpull/fusee"
	"evenpull/train"

	"github.com/golang/geo/r1"
)

// Kind is what a train does.
type Kind uint8

const (
	Going    Kind = iota // drives an escapement
	Striking             // lifts hammers against a fly
)

// String is the kind as scenarios write it.
func (k Kind) String() string {
	if k == Striking {
		return "striking"
	}
	return "going"
}

// Train is a compiled train: everything its run-down depends on. SI, but for
// hours. What is not known is NaN. Copies may be changed and run on their own,
// as long as slices are replaced, not written into.
type Train struct {
	Name         string
	Kind         Kind
	Drive        fusee.Drive
	Wheels       Wheels
	Meshes       []train.Mesh // from the great wheel
	Arbors       []string     // names, the fusee's first
	Escapes      bool         // the last arbor is that of an escape wheel, with the two below
	Escapement   escapement.Escapement
	Pendulum     escapement.Pendulum
	Strikes      bool // the last arbor is that of a fly, with the pin work below
	Striker      Striker
	FlyRadius    float64 // m, outer
	BlowsPer12H  float64
	HoursPerTurn float64 // of the fusee
	Demand       Demand
	Bands        Bands
}

// Wheels is the wheel train under its loads: the standing ones, as it mostly
// goes; all of them, its worst minutes; none, to see what they cost.
type Wheels struct {
	train.Train             // with the standing loads
	Worst       train.Train // with those that come and go as well
	Free        train.Train // with none
}

// Demand is what a train was found to need at the fusee arbor.
type Demand struct {
	Least float64     // N·m
	Band  r1.Interval // N·m, liked at the bench; empty when not known
}

// Bands are the reserves by which a drive is judged (common practice, no
// published source): the least of the run below Stops or Thin, the mean up to
// Suits or Strong.
type Bands struct{ Stops, Thin, Suits, Strong float64 }

// DefaultBands are those that hold where a scenario says nothing else.
func DefaultBands() Bands { return Bands{1, 1.15, 1.6, 2} }

// ThinRange is the least reserve that is called thin.
func (b Bands) ThinRange() r1.Interval { return r1.Interval{Lo: b.Stops, Hi: b.Thin} }

// SuitsRange is the reserve that suits: the least from Thin, the mean up to Suits.
func (b Bands) SuitsRange() r1.Interval { return r1.Interval{Lo: b.Thin, Hi: b.Suits} }

// StrongRange is the mean reserve that is called strong.
func (b Bands) StrongRange() r1.Interval { return r1.Interval{Lo: b.Suits, Hi: b.Strong} }

// Row is the train at one fusee turn. SI but for hours; NaN where something
// does not apply.
type Row struct {
	FuseeTurn     float64 // paid out: 0 is fully wound
	Hours         float64 // since the start of the run
	SpringTurns   float64 // from rest
	SpringTorque  float64 // N·m, before coil friction
	LineTension   float64 // N, running down
	FuseeTorque   float64 // N·m, at the fusee arbor after every loss up to it
	WindingTorque float64 // N·m, at the winding square
	Fleet         float64 // tangent of the fleet angle
	LastTorque    float64 // N·m, left at the last arbor
	Amplitude     float64 // rad, semi-arc of the pendulum; 0 when it stops
	Rate          float64 // gained on the pendulum's own beat, as a fraction; NaN when it stops
	BlowInterval  float64 // s from blow to blow, once it goes; NaN when it stalls
	FlySpeed      float64 // turns of the fly a second, likewise
	Twelve        float64 // s for a strike of twelve from rest; NaN when it does not strike from rest
}

// Recorder watches a run. Its methods are called in the order Begin, Row for
// every row, End.
type Recorder interface {
	Begin(t *Train, rows int)
	Row(r Row)
	End(res *Result)
}

// QuarterTurn is the step at which whole-run figures are taken, and the rows'
// own when nothing else is asked for.
const QuarterTurn = 0.25

// Options of a run.
type Options struct {
	Step     float64  // fusee turns between rows, 0 for QuarterTurn; at least MinStep
	Recorder Recorder // or nil
	// TorqueOnly leaves arc, rate and blows out, which take most of the time; need
	// and verdict are the same.
	TorqueOnly bool
}

// MinStep is the finest step between rows.
const MinStep = 0.001

func (o *Options) step() float64 {
	if o.Step == 0 {
		return QuarterTurn
	}
	return math.Max(o.Step, MinStep)
}
