// Package found puts what the bench found into a scenario: what the weights tell of the
// trains, and each spring as it was measured and as its readings tell it, in the train it was
// read in or in any other. What it gives is a scenario like any, whose tolerances say how well
// that is known, so that every study takes it as it takes what a file says.
//
// Of a spring, what was known of its strip before (measured or usual, each with its error) and
// the torques that were read are weighed against each other: the strip is where both together
// are nearest, by least squares, and its errors are those of that fit, widened by the rms of
// the residuals over what scatter explains where that is above 1 (after R. T. Birge, Phys. Rev.
// 40, 1932). Where nothing tells how readings scatter, one is taken to be off by 0.6 % and a
// run-down as a whole by 0.4 %, at one standard deviation (common practice, no source).
//
// Quantities are in the units of their keys, torques in N·m, turns those of the fusee unless
// they are said to be the spring's. Terms are those of package sim.
package found

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"evenpull/sim"
	"evenpull/sim/bench/book"
	"evenpull/sim/bench/readings"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"
)

// Clock is a scenario beside a bench book.
type Clock struct {
	Book     *book.Book
	Given    *scenario.Scenario // as it was given
	Scenario *scenario.Scenario // with what the weights tell in place of what it said
	Demands  []Demand           // what that is, in the order of the book's weights
	Springs  []*Spring          // one for each set of readings, in the order of the book

	carved *scenario.Scenario // with every even profile as it was cut
}

// Of works out what the book tells of the scenario's clock. A spring that its readings
// cannot tell has that in its Why. It fails with the error of ctx.
func Of(ctx context.Context, b *book.Book, s *scenario.Scenario) (*Clock, error) {
	c := &Clock{Book: b, Given: s}
	read := readings.Read(b.Resolved(s), s.Place.GravityMS2)
	c.Scenario, c.Demands = demands(read, s)
	c.carved = c.Scenario.Clone()
	for i := range c.carved.Trains {
		carve(c.carved, i)
	}
	for i := range read.Springs {
		sp := c.springOf(ctx, read.Springs, i)
		if vary.Stopped(sp.Why) {
			return nil, sp.Why
		}
		c.Springs = append(c.Springs, sp)
	}
	return c, nil
}

// Find is the spring of a label as it was read in a train or, where it was not, as it was
// first read; nil when it was not read at all.
func (c *Clock) Find(label, train string) *Spring {
	var first *Spring
	for _, sp := range c.Springs {
		switch {
		case sp.Label != label:
		case sp.Train == train:
			return sp
		case first == nil:
			first = sp
		}
	}
	return first
}

// ErrFew tells that readings are at too few turns to tell of a spring.
var ErrFew = errors.New("too few turns were read")

// carvedPoints is how many diameters stand for an even profile: between them the radius
// is out by less than a millionth.
const carvedPoints = 129

// carve makes an even profile one that was cut, as it is for the train's own spring: it
// stays when another spring is put in. A train that cannot be run is left as it is.
func carve(s *scenario.Scenario, number int) {
	t := &s.Trains[number]
	if t.Fusee.Profile != scenario.Even {
		return
	}
	w, err := sim.WindTrain(s, number)
	if err != nil {
		return
	}
	cone, f := w.CutCone(), &t.Fusee
	f.Profile, f.Over, f.Points = scenario.Measured, scenario.OverGroove, make([]scenario.Point, carvedPoints)
	for i := range f.Points {
		turn := f.Turns * float64(i) / (carvedPoints - 1)
		r, _, _ := cone.Profile.At(turn)
		f.Points[i] = scenario.Point{Turn: turn, DiameterMM: 2e3 * r}
		exact(s, fmt.Sprintf("%s.fusee.points.%d", t.Name, i))
	}
	f.SmallDiameterMM, f.LargeDiameterMM, f.LandHeightMM = nan, nan, nan
}

// exact makes a quantity one that is known.
func exact(s *scenario.Scenario, key string) { within(s, scenario.Tolerance{Key: key, Percent: nan}) }

// within gives a quantity a tolerance in place of the one it had.
func within(s *scenario.Scenario, t scenario.Tolerance) {
	s.Tolerances = slices.DeleteFunc(s.Tolerances, func(old scenario.Tolerance) bool { return old.Key == t.Key })
	if t.Shape == "" {
		t.Shape = scenario.Normal
	}
	s.Tolerances = append(s.Tolerances, t)
}
