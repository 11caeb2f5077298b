// Package book reads what was measured at the bench from a TOML file and
// checks it.
//
// Weights hung from a pulley on the winding square tell what a train needs;
// torques read at the square at each whole fusee turn tell what a spring gives.
// Quantities keep the units of the file: each field name ends in its unit just
// as its key does. A number that was not given is NaN.
package book

import (
	"io"
	"math"

	"evenpull/sim/scenario"
)

// Bounds of a bench file, so that no text can make it large.
const (
	MaxTables  = 64                    // of weights, and of torques
	MaxTrials  = 200                   // of a train by weights
	MaxRepeats = 200                   // of a run of readings
	MaxTurns   = scenario.MaxTurns + 1 // readings in a repeat: one at each fusee turn, from 0
)

// Book is a bench file.
type Book struct {
	Title   string // "" when there is none
	Weights []Weights
	Torques []Torque
	Source  string // names the file in messages
}

// Weights are the trials of one train with weights hung from a pulley on its
// winding square.
type Weights struct {
	Train           string
	PulleyRadiusMM  float64 // 1 to 2000
	CordThicknessMM float64 // 0 to 50; half of it adds to the radius
	Trials          []Trial // at least one, in the order of the file
}

// Trial is one weight and what the train did under it.
type Trial struct {
	MassG         float64 // 1 to 100 000
	Runs          *bool   // whether it goes or, with false, that it does not strike; nil beside an interval
	BlowIntervalS float64 // from blow to blow, 0.05 to 60; NaN when none was taken
}

// Struck tells whether intervals from blow to blow were taken, so that a trial
// without one is a weight that does not strike.
func (w *Weights) Struck() bool {
	for i := range w.Trials {
		if !math.IsNaN(w.Trials[i].BlowIntervalS) {
			return true
		}
	}
	return false
}

// Torque is what a spring was found to give at the winding square: for each
// repeat the readings (N·m, 0 to 10 000) at fusee turns 0 (fully wound), 1, 2 …
// paid out. A missing reading is NaN, or the list ends before it.
type Torque struct {
	Train             string      // it was measured in
	Spring            string      // a label of one's own
	RunningDown       [][]float64 // at least one repeat, each with a reading
	WindingUp         [][]float64 // the same while winding; nil when not taken
	MeterRelative     float64     // bound of the instrument's error, a share of the reading, 0 to 0.5
	MeterResolutionNM float64     // its step, 0 to 1000
}

// Open opens a file of readings by the name that the bench file gives it. One that has a
// Name, as an os.File has, goes by that in messages.
type Open func(name string) (io.ReadCloser, error)
