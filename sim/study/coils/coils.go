// Package coils winds the mainspring of a train coil by coil and lets it run down, with
// friction between its coils, beside what the closed form says that a run-down uses. Model,
// symbols, limits and sources are those of fusee/mainspring/coils. Turns count from the rest
// of the closed form, couples are in N·m.
package coils

import (
	"context"
	"errors"
	"fmt"
	"math"

	strip "evenpull/fusee/mainspring/coils"

	"evenpull/fusee/mainspring"
	"evenpull/sim"
)

// Options tell how to wind.
type Options struct {
	Turns    []float64          // of the mainspring, rising; nil for every half turn
	Friction float64            // coefficient, 0 to strip.MostFriction
	End      mainspring.End     // how the outer end is held
	Nodes    int                // to a turn, strip.Fewest to strip.MostNodes; 0 for strip.Usual
	Told     func(done, of int) // is told the shapes that are found, and how many there will be; may be nil
}

// Result is what the strip came to.
type Result struct {
	Train       string // by its name
	Options     Options
	Spring      mainspring.Strip   // that is wound
	Housing     mainspring.Housing // that it is wound in
	Loop        *strip.Loop        // the windings, one to each of Options.Turns
	Closed      []float64          // N·m at the windings, by the closed form without coil friction
	ClosedSolid float64            // turns available by the closed form
	Used        []float64          // N·m that a run-down of the train reckons with at the windings, past the coils
	Stored      float64            // J, by the closed form at the last winding
}

// MostWindings is the most windings that are computed.
const MostWindings = 200

// ErrWindings: windings that cannot be computed.
var ErrWindings = errors.New("windings that cannot be")

// Follow winds the mainspring of a train up and lets it run down. It fails with ErrWindings,
// with the errors of mainspring.New and of strip.Barrel, or with that of ctx.
func Follow(ctx context.Context, t *sim.Train, o Options) (*Result, error) {
	if o.Nodes == 0 {
		o.Nodes = strip.Usual
	}
	c, err := mainspring.New(t.Drive.Spring, t.Drive.Housing)
	if err != nil {
		return nil, err
	}
	b, err := strip.NewBarrel(strip.Of(&c, o.End, o.Friction), c.Angle(0), o.Nodes)
	if err != nil {
		return nil, err
	}
	rest, solid, err := b.Ends(ctx)
	if err != nil {
		return nil, err
	}
	if o.Turns == nil {
		o.Turns = halves(rest, solid)
	}
	if err := fits(o.Turns, rest, solid); err != nil {
		return nil, err
	}
	r := &Result{Train: t.Name, Options: o, Spring: t.Drive.Spring, Housing: t.Drive.Housing, ClosedSolid: c.Turns()}
	passes := t.Drive.Passes(&c)
	for _, turns := range o.Turns {
		r.Closed = append(r.Closed, c.Couple(turns))
		r.Used = append(r.Used, c.Couple(turns)*passes(turns))
	}
	r.Stored = c.Energy(o.Turns[len(o.Turns)-1])
	r.Loop, err = b.Loop(ctx, rest, solid, o.Turns, o.Told)
	return r, err
}

// halves are every half turn between rest and solid.
func halves(rest, solid float64) (turns []float64) {
	for at := 0.5; at <= solid-strip.Margin && len(turns) < MostWindings; at += 0.5 {
		if at >= rest+strip.Margin {
			turns = append(turns, at)
		}
	}
	return turns
}

func fits(turns []float64, rest, solid float64) error {
	if len(turns) == 0 || len(turns) > MostWindings {
		return fmt.Errorf("%w: %d of them; want 1 to %d", ErrWindings, len(turns), MostWindings)
	}
	low, high := math.Ceil(100*(rest+strip.Margin))/100, math.Floor(100*(solid-strip.Margin))/100
	for i, at := range turns {
		if !(at >= low && at <= high) {
			return fmt.Errorf("%w: %.6g turns; want %.4g to %.4g, from where the strip rests to where it is solid", ErrWindings, at, low, high)
		}
		if i > 0 && !(at > turns[i-1]) {
			return fmt.Errorf("%w: %.6g turns after %.6g; want them to rise", ErrWindings, at, turns[i-1])
		}
	}
	return nil
}
