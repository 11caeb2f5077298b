package readings

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"sync"

	"evenpull/fusee"
	"evenpull/sim"
	"evenpull/sim/bench/fit"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"
)

// Carried is what a spring that was read in one train gives in another, N·m at its
// winding square.
type Carried struct {
	Mean, Min, Max float64
	Unevenness     float64
	TurnsLost      float64 // fusee turns that the spring does not let be wound
}

// ErrCarry tells that readings cannot be carried over.
var ErrCarry = errors.New("the readings cannot be carried over to another train")

// Carrier carries readings over from train to train of a scenario. It may be used
// by several goroutines at once.
type Carrier struct {
	s     *scenario.Scenario
	cones []func() (fusee.Cone, error) // as they were cut for the trains' own springs, each worked out once
}

// NewCarrier makes one.
func NewCarrier(s *scenario.Scenario) *Carrier {
	c := &Carrier{s: s, cones: make([]func() (fusee.Cone, error), len(s.Trains))}
	for i := range s.Trains {
		c.cones[i] = sync.OnceValues(func() (fusee.Cone, error) { return coneOf(s, i) })
	}
	return c
}

// Number is that of the train of a name; −1 when there is none.
func (c *Carrier) Number(train string) int {
	n, _ := c.s.Train(train)
	return n
}

// Carry carries readings over to another train, with the given number. The spring
// is taken to lie in the barrel of that train, which is what is in question when
// barrels were mixed up; in the train it was read in it worked with the set-up of
// that train, and comes to work with the set-up of the other.
//
// Thickness and coil efficiency of the other train's spring are fitted to the
// readings, which gives a torque curve of the right kind. The readings' own
// departure from it, against the turns of the spring, stays with the spring, so
// that at turns it was read at the curve is the measured one. It fails with ErrCarry
// or a scenario.NoTrainError.
func (c *Carrier) Carry(sp Spring, to int) (Carried, error) {
	from, err := c.s.Train(sp.Train)
	if err != nil {
		return Carried{}, err
	}
	r, departure, err := c.carry(sp, from, to)
	if err != nil {
		return Carried{}, fmt.Errorf("%w: %s", ErrCarry, vary.Why(err))
	}
	return carried(r, departure), nil
}

// carry gives the run in the other train with the spring that explains the
// readings, and their departure from it.
func (c *Carrier) carry(sp Spring, from, to int) (*sim.Result, []step, error) {
	cone, err := c.cones[from]()
	if err != nil {
		return nil, nil, err
	}
	other, err := c.cones[to]()
	if err != nil {
		return nil, nil, err
	}
	there := c.s.Clone() // the other's barrel in the train it was read in
	a, b := &there.Trains[from], &c.s.Trains[to]
	setUp := a.Barrel.SetUpTurns
	a.Mainspring, a.Barrel = b.Mainspring, b.Barrel
	a.Barrel.SetUpTurns = setUp
	if err := there.CheckTrain(from); err != nil {
		return nil, nil, err
	}
	sp.MeterRelative = 0 // it shifts the fitted values, which nobody asks for here
	const thickness, efficiency = ".mainspring.thickness_mm", ".mainspring.efficiency"
	e, err := explain(sp, there, []string{a.Name + thickness, a.Name + efficiency}, &cone)
	if err != nil {
		return nil, nil, err
	}
	if e.Status != fit.Converged && e.Status != fit.AtBound {
		return nil, nil, errors.New(e.Status.String())
	}
	m, err := vary.WithCone(c.s, to, other, b.Name+thickness, b.Name+efficiency)
	if err != nil {
		return nil, nil, err
	}
	m.DriveOnly()
	r, err := m.Run([]float64{e.Inputs[0].Value, e.Inputs[1].Value})
	return r, e.departure, err
}

// coneOf is the cone of a train as it was cut for its own spring.
func coneOf(s *scenario.Scenario, number int) (fusee.Cone, error) {
	t, err := sim.CompileTrain(s, number)
	if err != nil {
		return fusee.Cone{}, err
	}
	w, err := t.Drive.Wind()
	if err != nil {
		return fusee.Cone{}, sim.Blame(s, number, err)
	}
	return w.CutCone(), nil
}

// step is measured over fitted torque at some turns of the spring.
type step struct{ turns, ratio float64 }

// departures are those of the readings running down, by the turns of the spring.
func (x *explainer) departures(r *sim.Result) []step {
	var list []step
	for i := range x.points {
		p := &x.points[i]
		if row := rowAt(r, float64(p.FuseeTurn)); row != nil && !p.Winding && row.FuseeTorque > 0 {
			list = append(list, step{row.SpringTurns, p.Measured / row.FuseeTorque})
		}
	}
	slices.SortFunc(list, func(a, b step) int {
		if a.turns < b.turns {
			return -1
		}
		return 1
	})
	return list
}

// ratioAt is the departure at some turns of the spring: straight between readings,
// level beyond them.
func ratioAt(list []step, turns float64) float64 {
	i := slices.IndexFunc(list, func(s step) bool { return s.turns >= turns })
	switch {
	case len(list) == 0:
		return 1
	case i < 0:
		return list[len(list)-1].ratio
	case i == 0:
		return list[0].ratio
	}
	a, b := list[i-1], list[i]
	return a.ratio + (turns-a.turns)/(b.turns-a.turns)*(b.ratio-a.ratio)
}

// carried sums a run up with the readings' departure put back in.
func carried(r *sim.Result, departure []step) Carried {
	c := Carried{Min: math.Inf(1), TurnsLost: r.TurnsLost}
	area, last := 0.0, 0.0
	for i := range r.Rows {
		row := &r.Rows[i]
		v := row.FuseeTorque * ratioAt(departure, row.SpringTurns)
		c.Min, c.Max = min(c.Min, v), max(c.Max, v)
		if i > 0 {
			area += (v + last) / 2 * (row.FuseeTurn - r.Rows[i-1].FuseeTurn)
		}
		last = v
	}
	c.Mean = area / (r.Rows[len(r.Rows)-1].FuseeTurn - r.Rows[0].FuseeTurn)
	c.Unevenness = (c.Max - c.Min) / c.Mean
	return c
}
