// Package beat follows the pendulum of a going train beat by beat at one turn of the fusee,
// beside the averages that a run-down uses. Model, symbols, sources and what both leave out
// are those of escapement.Beats and escapement.Clock; the torque at the escape wheel is that
// of the turn and stays. Angles are semi-arcs unless they are points of the phase portrait.
package beat

import (
	"context"
	"errors"
	"math"

	"evenpull/escapement"
	"evenpull/sim"
)

// Options tell what to follow.
type Options struct {
	FuseeTurn float64            // paid out; NaN for the start of the run
	Periods   int                // at most; it ends sooner when the swing has settled
	Start     escapement.SemiArc // from rest; 0 for the least that is wanted
}

// MaxPeriods is the most periods that are followed: three weeks of a pendulum
// that beats half seconds.
const MaxPeriods = 2_000_000

// ErrNoEscapement tells of a train without escapement and pendulum.
var ErrNoEscapement = errors.New("the train has no escapement and pendulum to follow")

// Result is what the swing came to.
type Result struct {
	Train     string             // by its name
	FuseeTurn float64            // paid out: 0 is fully wound
	Torque    float64            // N·m at the escape wheel
	Start     escapement.SemiArc // semi-arc from rest
	Settled   escapement.Settled // how the beats ended
	Averaged  escapement.Going   // by the formulas of a run-down
	Gap       float64            // energy that the beats do not account for, as a share of what the train gave
	Approach  []Arc              // semi-arc as it settles: of many, evenly spaced ones, at most 2000
	First     []Point            // phase portrait of the first period
	Last      []Point            // and of the last
}

// Arc is the semi-arc after a number of periods.
type Arc struct {
	Period float64            // from the start, two beats each
	Arc    escapement.SemiArc // at its end
}

// Point is an Angle (rad) from the dead point, to the right, and a Velocity (rad/s).
type Point struct{ Angle, Velocity float64 }

// Follow swings the pendulum of a train. It fails with ErrNoEscapement,
// sim.ErrTurn, an escapement.Fault, the errors of fusee.Drive.Wind, or that of ctx.
func Follow(ctx context.Context, t *sim.Train, o Options) (Result, error) {
	if !t.Escapes {
		return Result{}, ErrNoEscapement
	}
	turn := o.FuseeTurn
	if math.IsNaN(turn) {
		w, err := t.Drive.Wind()
		if err != nil {
			return Result{}, err
		}
		turn = w.Start()
	}
	row, err := t.At(turn)
	if err != nil {
		return Result{}, err
	}
	clock, err := escapement.New(t.Escapement, t.Pendulum)
	if err != nil {
		return Result{}, err
	}
	if o.Start == 0 {
		o.Start = t.Escapement.Reach() + t.Escapement.Margin
	}
	beats, err := clock.Beats(row.LastTorque, o.Start)
	if err != nil {
		return Result{}, err
	}
	w := watcher{ledger: clock.NewLedger(row.LastTorque), every: 1}
	beats.Watch(&w)
	settled, err := settle(ctx, &beats, o.Periods)
	if err != nil {
		return Result{}, err
	}
	return Result{
		Train: t.Name, FuseeTurn: row.FuseeTurn, Torque: row.LastTorque, Start: o.Start,
		Settled: settled, Averaged: clock.Going(row.LastTorque),
		Gap:      w.gap(),
		Approach: append([]Arc{{0, o.Start}}, w.arcs...),
		First:    portrait(w.first), Last: portrait(w.last),
	}, nil
}

// stretch are the periods that are swung between two looks at the context.
const stretch = 10_000

// settle swings for at most the given periods, and ends when the swing has settled.
func settle(ctx context.Context, beats *escapement.Beats, periods int) (escapement.Settled, error) {
	for done := 0; ; {
		if err := ctx.Err(); err != nil {
			return escapement.Settled{}, err
		}
		s := beats.Settle(min(stretch, periods-done))
		done += s.Periods
		s.Periods = done
		if s.Status != escapement.Changing || done >= periods {
			return s, nil
		}
	}
}

// maxArcs bounds what is kept of the approach: beyond it every second arc goes.
const maxArcs = 2000

// watcher keeps the legs of the first and the last whole period, and the arcs.
type watcher struct {
	ledger      escapement.Ledger
	first, last []escapement.Leg
	now         []escapement.Leg
	arcs        []Arc
	beats       int
	every       int // periods between the arcs kept
}

// Leg keeps a leg.
func (w *watcher) Leg(l escapement.Leg) {
	w.ledger.Leg(l)
	w.now = append(w.now, l)
}

// Beat ends a swing; every second one ends a period.
func (w *watcher) Beat(b escapement.Beat) {
	w.ledger.Beat(b)
	if w.beats++; w.beats%2 == 1 || b.Status != escapement.Runs {
		return
	}
	if w.first == nil {
		w.first = append(w.first, w.now...)
	}
	w.last, w.now = w.now, w.last[:0]
	period := w.beats / 2
	if period%w.every != 0 {
		return
	}
	w.arcs = append(w.arcs, Arc{float64(period), b.Arc})
	if len(w.arcs) == maxArcs {
		for i := range maxArcs / 2 {
			w.arcs[i] = w.arcs[2*i+1]
		}
		w.arcs, w.every = w.arcs[:maxArcs/2], 2*w.every
	}
}

func (w *watcher) gap() float64 {
	if w.ledger.Train == 0 {
		return 0
	}
	return math.Abs(w.ledger.Gap()) / w.ledger.Train
}

// portrait samples legs for a phase portrait: 41 points of each, evenly in time.
func portrait(legs []escapement.Leg) []Point {
	const n = 40
	var pts []Point
	for i := range legs {
		for k := range n + 1 {
			x, v := legs[i].At(legs[i].Seconds * float64(k) / n)
			pts = append(pts, Point{x, v})
		}
	}
	return pts
}
