package coils

import (
	"context"
	"errors"
	"math"
	"slices"
)

// Winding is what a strip comes to at one winding.
type Winding struct {
	Free *Shape // without friction
	Up   *Shape // being wound
	Down *Shape // running down
}

// Efficiency is the share of the couple that friction leaves: √(down/up), each way.
func (w *Winding) Efficiency() float64 { return math.Sqrt(w.Down.Couple / w.Up.Couple) }

// Loop is a strip wound up, held and run down.
type Loop struct {
	Windings []Winding // by their turns
	Rest     float64   // turns at which it gives no couple, without friction
	Solid    float64   // turns at which its coils are home: see Ends
	Area     float64   // J, that the couple encloses over the turns, from the first winding to the last and back
	Rubbed   float64   // J, that friction takes on that way
	Shapes   int       // that were found
}

const (
	// stride is the most turns between two shapes, short that below bent, where the couple
	// rises steeply from rest, and beyond the last winding, where it may rise to solid.
	stride, short, bent = 0.25, 0.1, 1.25
	// over is the turns that the strip goes further and comes back at the ends, where there is
	// room, so that friction has turned round where the first and last figures are taken; back
	// is the first step of the way back, in which most of it does.
	over, back = 1.5, 0.04
)

// Margin is the turns that windings keep from rest and solid.
const Margin = 0.1

// ErrTurns: windings that cannot be.
var ErrTurns = errors.New("turns must rise, from above rest to below solid")

// Loop winds the strip through the given turns, which must rise and lie between rest and solid,
// and lets it run down; those are as Ends tells. Told is called as shapes are found, with their
// number and that of all. It fails with ErrTurns, with the error of ctx, or as Free and Slide do.
func (b *Barrel) Loop(ctx context.Context, rest, solid float64, turns []float64, told func(done, of int)) (*Loop, error) {
	if len(turns) == 0 {
		return nil, ErrTurns
	}
	l := &Loop{Rest: rest, Solid: solid, Windings: make([]Winding, len(turns))}
	top := turns[len(turns)-1]
	if !slices.IsSorted(turns) || !(turns[0] >= rest+Margin && top <= solid-Margin) {
		return nil, ErrTurns
	}
	path := pathThrough(turns, rest+Margin, solid-Margin)
	of := len(path) + len(turns)
	found := func() {
		if l.Shapes++; told != nil {
			told(l.Shapes, of)
		}
	}
	var near *Shape
	var err error
	for i, at := range turns {
		if near, err = b.Free(at, near); err != nil {
			return nil, err
		}
		l.Windings[i].Free = near
		if found(); ctx.Err() != nil {
			return nil, ctx.Err()
		}
	}
	if b.strip.friction == 0 {
		for i := range l.Windings {
			l.Windings[i].Up, l.Windings[i].Down = l.Windings[i].Free, l.Windings[i].Free
		}
		return l, nil
	}
	return l, b.wind(ctx, l, path, found)
}

// stop is one on the way up and down, winding being the number of that which is told, −1 of none.
type stop struct {
	turns   float64
	winding int
	down    bool
}

// pathThrough goes from below the first turn to above the last, and back, between two bounds.
func pathThrough(turns []float64, least, most float64) (path []stop) {
	first, last := max(turns[0]-over, least), min(turns[len(turns)-1]+over, most)
	at, down := first, false
	to := func(turns float64, winding int) {
		most := stride
		if min(turns, at) < bent || winding < 0 && !down {
			most = short
		}
		n := int(math.Ceil(math.Abs(turns-at)/most - 1e-9))
		for k := 1; k < n; k++ {
			path = append(path, stop{at + (turns-at)*float64(k)/float64(n), -1, down})
		}
		path, at = append(path, stop{turns, winding, down}), turns
	}
	path = append(path, stop{first, -1, false})
	for i, t := range turns {
		to(t, i)
	}
	to(last, -1)
	if down = true; last-back > turns[len(turns)-1] {
		to(last-back, -1)
	}
	for i := len(turns) - 1; i >= 0; i-- {
		to(turns[i], i)
	}
	to(first, -1)
	return path
}

// wind follows the path with friction.
func (b *Barrel) wind(ctx context.Context, l *Loop, path []stop, found func()) error {
	x, err := b.Free(path[0].turns, l.Windings[0].Free)
	if err != nil {
		return err
	}
	first := x.Energy
	for _, at := range path {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if x, err = b.pass(l, x, at.turns, halvings); err != nil {
			return err
		}
		found()
		switch {
		case at.winding < 0:
		case at.down:
			l.Windings[at.winding].Down = x
		default:
			l.Windings[at.winding].Up = x
		}
	}
	l.Area -= x.Energy - first
	return nil
}

// halvings is how often a stride is halved where no shape is found.
const halvings = 2

// pass goes from a shape to another winding, by the way between where it must.
func (b *Barrel) pass(l *Loop, x *Shape, turns float64, halvings int) (*Shape, error) {
	y, err := b.Slide(turns, x)
	if err == nil {
		l.Rubbed += y.Rubbed
		l.Area += math.Pi * (y.Turns - x.Turns) * (x.Couple + y.Couple)
		return y, nil
	}
	if halvings == 0 || !errors.Is(err, ErrDiverged) {
		return nil, err
	}
	if x, err = b.pass(l, x, (x.Turns+turns)/2, halvings-1); err != nil {
		return nil, err
	}
	return b.pass(l, x, turns, halvings-1)
}
