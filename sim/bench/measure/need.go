package measure

import (
	"math"

	"evenpull/sim/bench/book"

	"github.com/golang/geo/r1"
)

// Need is what a train was found to need at the winding square.
type Need struct {
	Train   string  // by its name
	Trials  []Trial // in the order of the file
	Bracket Bracket
	UpDown  *UpDown  // of a going train whose trials are an up-and-down sequence, else nil
	Cadence *Cadence // of a train whose blows were timed, else nil
	Band    *Band    // of a train whose strikes were judged by ear, else nil
}

// Trial is one weight hung from the pulley.
type Trial struct {
	Mass     float64 // kg
	Torque   float64 // N·m at the square: m g (R + c/2), with half the cord's thickness c
	Runs     bool    // whether it goes, or strikes
	Interval float64 // s from blow to blow; NaN when none was timed
	Judged   book.Judged
}

// Bracket is what trials say about the least torque under which a train runs.
//
// Between goes from the heaviest weight that stopped while none so light ran, 0
// when there is none, to the lightest that ran while none so heavy stopped, +Inf
// when there is none. Where no trial contradicts another these are the heaviest
// that stops and the lightest that runs; where some do, no more than that is
// sure.
//
// Least is the middle, and its standard uncertainty that of a rectangular
// distribution over the bracket: half its width over √3 (JCGM 100:2008, 4.3.7).
// With no lower end Least is the upper one, at which the train runs for sure;
// with no upper end it is NaN.
//
// Trials that are an up-and-down sequence contradict each other by design: then
// Least is their mean, with its standard error, and Between its 95 % interval.
type Bracket struct {
	Least       float64     // N·m
	Between     r1.Interval // N·m
	Uncertainty float64     // N·m, standard; NaN unless both ends are known
	Contrary    []Contrary
}

// Contrary is a pair of trials, by their place in the file from 0, that cannot
// both be right if a train has one least torque: Heavier stopped, Lighter, of
// no more weight, ran.
type Contrary struct{ Heavier, Lighter int }

// HasLower tells whether a weight stopped that bounds the need from below.
func (b *Bracket) HasLower() bool { return b.Between.Lo > 0 }

// HasUpper tells whether a weight ran that bounds the need from above.
func (b *Bracket) HasUpper() bool { return !math.IsInf(b.Between.Hi, 1) }

// NeedOf works out the trials of a train, with the acceleration of gravity
// (m/s², above 0).
func NeedOf(w *book.Weights, gravity float64) Need {
	n := Need{Train: w.Train, Trials: make([]Trial, len(w.Trials))}
	arm := (w.PulleyRadiusMM + w.CordThicknessMM/2) / 1e3
	for i, t := range w.Trials {
		mass := t.MassG / 1e3
		n.Trials[i] = Trial{Mass: mass, Torque: mass * gravity * arm, Interval: t.Interval(), Judged: t.Judged,
			Runs: t.Runs == nil || *t.Runs}
	}
	switch n.Band = bandOf(n.Trials); {
	case w.Struck():
		n.Cadence = cadenceOf(n.Trials)
	case n.Band == nil:
		n.UpDown = upDownOf(n.Trials)
	}
	if n.Bracket = bracketOf(n.Trials); n.UpDown != nil {
		n.Bracket = n.UpDown.bracket()
	}
	return n
}

func bracketOf(trials []Trial) Bracket {
	lightest, heaviest := math.Inf(1), 0.0 // that ran, that stopped
	for _, t := range trials {
		if t.Runs {
			lightest = min(lightest, t.Torque)
		} else {
			heaviest = max(heaviest, t.Torque)
		}
	}
	b := Bracket{Between: r1.Interval{Lo: 0, Hi: math.Inf(1)}, Uncertainty: math.NaN()}
	for i, t := range trials {
		switch {
		case !t.Runs && t.Torque < lightest:
			b.Between.Lo = max(b.Between.Lo, t.Torque)
		case t.Runs && t.Torque > heaviest:
			b.Between.Hi = min(b.Between.Hi, t.Torque)
		case !t.Runs:
			b.Contrary = contrary(b.Contrary, trials, i)
		}
	}
	switch {
	case !b.HasUpper():
		b.Least = math.NaN()
	case !b.HasLower():
		b.Least = b.Between.Hi
	default:
		b.Least = b.Between.Center()
		b.Uncertainty = b.Between.Length() / 2 / math.Sqrt(3)
	}
	return b
}

// contrary adds the pair of a trial that stopped and the lightest that ran.
func contrary(pairs []Contrary, trials []Trial, stopped int) []Contrary {
	lighter := -1
	for i, t := range trials {
		if t.Runs && t.Torque <= trials[stopped].Torque && (lighter < 0 || t.Torque < trials[lighter].Torque) {
			lighter = i
		}
	}
	return append(pairs, Contrary{stopped, lighter})
}
