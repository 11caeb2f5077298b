// Package book reads what was measured at the bench from a TOML file and checks it.
//
// Weights hung from a pulley on the winding square, the end of the fusee arbor that the key
// fits, tell what a train needs; torques read there at each whole fusee turn tell what a spring
// gives. A fusee turn counts from 0, fully wound. Each field name ends in its unit just as its
// key does, also where the file has another unit of the kind (pulley_radius_in). Ranges stand
// with the fields, ends included. A number that was not given is NaN. Everything that is wrong
// comes back at once, each with its line, what was found and what would do. Terms are those of
// package sim.
package book

import (
	"io"
	"math"
	"slices"

	"evenpull/sim/internal/entry"
	"evenpull/sim/scenario"
)

// Bounds of a bench file, so that no text can make it large.
const (
	MaxTables  = 64                    // of weights, of springs and of torques
	MaxTrials  = 200                   // of a train by weights
	MaxRepeats = 200                   // of a run of readings
	MaxTurns   = scenario.MaxTurns + 1 // readings in a repeat: one at each fusee turn, from 0
)

// Book is a bench file.
type Book struct {
	Title   string // "" when there is none
	Letter  Letter
	Weights []Weights
	Springs []Spring
	Torques []Torque
	Source  string // names the file in messages
	file    *entry.Table
}

// Letter is the head of the letter to the owner; what was left out is "".
type Letter struct {
	Workshop, Owner, Clock string
	Date                   string // 2024-05-31
}

// Noted is when, by whom and with what an entry was taken; what was left out is "".
type Noted struct {
	Date           string // 2024-05-31
	By, Instrument string
}

// Weights are the trials of one train with weights hung from a pulley on its
// winding square.
type Weights struct {
	Noted
	Train           string
	PulleyRadiusMM  float64 // 1 to 2000
	CordThicknessMM float64 // 0 to 50; half of it adds to the radius
	Trials          []Trial // at least one, in the order of the file
}

// Intervals are those from blow to blow in a strike of twelve.
const Intervals = 11

// Trial is one weight and what the train did under it: one of the four.
type Trial struct {
	MassG         float64 // 1 to 100 000
	Runs          *bool   // whether it goes or, with false, that it does not strike; nil when not said
	BlowIntervalS float64 // from blow to blow, 0.05 to 60; NaN when none was taken
	TwelveS       float64 // from the first blow to the last of twelve, 0.55 to 660; NaN likewise
	Judged        Judged
}

// Judged is how a strike was judged by ear.
type Judged uint8

// How a strike was judged by ear.
const (
	NotJudged Judged = iota
	Weak             // too slow or too soft
	Liked
	Brisk // too fast or too hard
)

var judgements = []string{Weak: "weak", Liked: "liked", Brisk: "brisk"}

// String is the word of the file; "" when not judged.
func (j Judged) String() string { return judgements[min(int(j), len(judgements)-1)] }

// Interval is the time (s) from blow to blow, of twelve the mean of the eleven; NaN when
// none was taken.
func (t *Trial) Interval() float64 {
	switch {
	case t.BlowIntervalS > 0:
		return t.BlowIntervalS
	case t.TwelveS > 0:
		return t.TwelveS / Intervals
	}
	return math.NaN()
}

// Struck tells whether blows were timed, so that a trial without an interval is a
// weight that does not strike, or was judged.
func (w *Weights) Struck() bool {
	return slices.ContainsFunc(w.Trials, func(t Trial) bool { return !math.IsNaN(t.Interval()) })
}

// Spring is what was measured of a spring beside its torque.
type Spring struct {
	Noted
	Label       string                // a label of one's own
	Train       string                // it was read in; "" when it is not said, nor told by one [[torque]] alone
	Strip       []scenario.StripValue // in the order of the format, in its units
	SolidAtTurn float64               // fusee turn, counted from run down, at which it went solid in Train, 0 to 64; NaN when not said
}

// Torque is what a spring was found to give at the winding square: for each
// repeat the readings (N·m, 0 to 10 000) at fusee turns FirstTurn, FirstTurn + 1 …
// paid out, 0 being fully wound. A missing reading is NaN, or the list ends before it.
type Torque struct {
	Noted
	Train             string      // it was measured in
	Spring            string      // a label of one's own
	FirstTurn         float64     // fusee turn paid out at the first reading, 0 to 64; NaN when not said: see Book.Resolved
	RunningDown       [][]float64 // at least one repeat, each with a reading
	WindingUp         [][]float64 // the same while winding; nil when not taken
	MeterRelative     float64     // bound of the instrument's error, a share of the reading, 0 to 0.5
	MeterResolutionNM float64     // its step, 0 to 1000
	StepAssumed       bool        // the step is not said, and taken to be the last digit that was written
}

// Open opens a file of readings by the name that the bench file gives it. One that has a
// Name, as an os.File has, goes by that in messages.
type Open func(name string) (io.ReadCloser, error)
