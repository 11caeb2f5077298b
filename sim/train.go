package sim

import (
	"fmt"
	"math"
	"slices"

	"evenpull/escapement"
	"evenpull/fusee"
	"evenpull/sim/rules"
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
	switch k {
	case Going:
		return "going"
	case Striking:
		return "striking"
	}
	return fmt.Sprintf("kind %d", uint8(k))
}

// Meshes are the wheels and pinions, from the great wheel.
func (t *Train) Meshes() []train.Mesh { return slices.Clone(t.meshes) }

// FlyRadius is the outer radius (m) of the fly; 0 without one.
func (t *Train) FlyRadius() float64 { return t.flyRadius }

// PinWork is what a striking train lifts its hammers with, and what brakes it.
type PinWork struct {
	Arbor         int // that the pins are on, of the train's, the fusee's being 0
	Pins, Hammers int // of the pin wheel, and hammers that they lift
	Vanes         int // of the fly
}

// PinWork is that of a striking train; zero without one.
func (t *Train) PinWork() PinWork { return t.pinWork }

// Train is a compiled train: everything its run-down depends on. SI, but for
// hours. What is not known is NaN. Copies may be changed and run on their own,
// as long as slices are replaced, not written into; but see Reuse.
type Train struct {
	Name        string // as the scenario has it
	Kind        Kind
	Drive       fusee.Drive
	Wheels      Wheels
	Arbors      []string // names, the fusee's first
	Escapes     bool     // the last arbor is that of an escape wheel, with the two below
	Escapement  escapement.Escapement
	Pendulum    escapement.Pendulum
	Strikes     bool // the last arbor is that of a fly, with the pin work below
	Striker     Striker
	BlowsPer12H float64 // blows in 12 hours; NaN where it does not strike
	Demand      Demand
	Bands       rules.Bands
	Advice      rules.Advice
	Clicks      float64 // of the set-up ratchet in a turn
	ByCoils     bool    // the steel of the spring was inferred from its free coils
	Counted     bool    // and its packing from turns counted from rest to solid
	Timed       bool    // the drag of the fly was inferred from a timed strike
	Untimed     bool    // it is that of any fly, since nothing tells it
	ConeDoubt   float64 // how far a radius of the cone may be off between few points: see fusee.Doubt

	meshes    []train.Mesh // from the great wheel
	flyRadius float64      // m, outer
	pinWork   PinWork
	room      *fusee.Room // for its cones one after the other; nil: each is its own
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

// Row is the train at one fusee turn. SI but for hours; NaN where something
// does not apply.
type Row struct {
	FuseeTurn     float64           // paid out: 0 is fully wound
	Hours         float64           // since the start of the run
	SpringTurns   float64           // from rest
	SpringTorque  float64           // N·m, before coil friction
	LineTension   float64           // N, running down
	FuseeTorque   float64           // N·m, at the fusee arbor after every loss up to it
	WindingTorque float64           // N·m, at the winding square
	Fleet         float64           // tangent of the fleet angle
	LastTorque    float64           // N·m, left at the last arbor
	Status        escapement.Status // of a clock: how it goes, Stops once it has stopped
	Amplitude     float64           // rad, semi-arc of the pendulum; NaN when it stops or trips
	Rate          float64           // gained on the pendulum's own beat, as a fraction; likewise
	BlowInterval  float64           // s from blow to blow, once it goes; NaN when it stalls
	FlySpeed      float64           // turns of the fly a second, likewise
	Twelve        float64           // s for a strike of twelve from rest, from the first blow to the last; NaN when it does not strike from rest
}

// Recorder watches a run. Its methods are called in the order Begin, Row for
// every row, End.
type Recorder interface {
	Begin(t *Train, rows int) // before the first row; rows is how many there will be
	Row(r Row)                // in the order of the run
	End(res *Result)          // with the result filled in
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

// FineStep is a step (fusee turns) too fine to see in a picture of a run.
func FineStep(turns float64) float64 { return min(QuarterTurn, turns/240) }
