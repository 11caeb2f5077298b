package readings

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"sync"

	"evenpull/fusee"
	"evenpull/sim"
	"evenpull/sim/bench/fit"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"
)

// ErrCarry tells that readings cannot be carried over.
var ErrCarry = errors.New("the readings cannot be carried over to another train")

// Carrier carries readings over from train to train of a scenario.
type Carrier struct {
	s     *scenario.Scenario
	cones []func() (fusee.Cone, error) // as they were cut for the trains' own springs, each worked out once
}

// NewCarrier makes one. It may be used by several goroutines at once.
func NewCarrier(s *scenario.Scenario) *Carrier {
	c := &Carrier{s: s, cones: make([]func() (fusee.Cone, error), len(s.Trains))}
	for i := range s.Trains {
		c.cones[i] = sync.OnceValues(func() (fusee.Cone, error) { return coneOf(s, i) })
	}
	return c
}

// Target is a train that readings are carried over to. It is not for use by several
// goroutines at once.
type Target struct {
	carrier    *Carrier
	number     int
	explainers map[int]*explainer // by the train that readings were taken in
	m          *vary.Model
}

// To is the train with the given number.
func (c *Carrier) To(number int) *Target {
	return &Target{carrier: c, number: number, explainers: map[int]*explainer{}}
}

// Carry carries readings over to the train, and gives its run with the spring. The
// spring is taken to lie in the barrel of that train, which is what is in question
// when barrels were mixed up; in the train it was read in it worked with the set-up
// of that train, and comes to work with the set-up of the other.
//
// Thickness and coil efficiency of the other train's spring are fitted to the
// readings, which gives a torque curve of the right kind. The readings' own
// departure from it, against the turns of the spring, stays with the spring, so
// that at turns it was read at the curve is the measured one. Carried over to the
// train it was read in, readings are filled in between and beyond the turns read. It
// fails with ErrCarry, a scenario.NoTrainError, and the error of ctx.
func (t *Target) Carry(ctx context.Context, sp Spring) (*sim.Digest, error) {
	from, err := t.carrier.s.Train(sp.Train)
	if err != nil {
		return nil, err
	}
	d, err := t.carry(ctx, sp, from)
	if ended := ctx.Err(); ended != nil {
		return nil, ended
	}
	if err != nil {
		return nil, fmt.Errorf("%w: %s", ErrCarry, vary.Why(err))
	}
	return d, nil
}

func (t *Target) carry(ctx context.Context, sp Spring, from int) (*sim.Digest, error) {
	x, err := t.explainer(from)
	if err != nil {
		return nil, err
	}
	res, err := x.fit(ctx, sp)
	if err != nil {
		return nil, err
	}
	if res.Status != fit.Converged && res.Status != fit.AtBound {
		return nil, errors.New(res.Status.String())
	}
	there, err := x.m.Run(res.B)
	if err != nil {
		return nil, err
	}
	departure := x.departures(there)
	t.m.Depart(func(turns float64) float64 { return ratioAt(departure, turns) })
	r, err := t.m.Run(res.B)
	if err != nil {
		return nil, err
	}
	d := r.Digest
	return &d, nil
}

// explainer is what explains readings that were taken in a train by the spring of
// the target; it makes the model of the target on the way.
func (t *Target) explainer(from int) (*explainer, error) {
	if x := t.explainers[from]; x != nil {
		return x, nil
	}
	c := t.carrier
	cone, err := c.cones[from]()
	if err != nil {
		return nil, err
	}
	other, err := c.cones[t.number]()
	if err != nil {
		return nil, err
	}
	there := c.s.Clone() // the other's barrel in the train it was read in
	a, b := &there.Trains[from], &c.s.Trains[t.number]
	setUp := a.Barrel.SetUpTurns
	a.Mainspring, a.Barrel = b.Mainspring, b.Barrel
	a.Barrel.SetUpTurns = setUp
	if err := there.CheckTrain(from); err != nil {
		return nil, err
	}
	if t.m == nil {
		if t.m, err = vary.Drive(c.s, t.number, &other, springKeys(b.Name)...); err != nil {
			return nil, err
		}
		t.m.Whole()
	}
	x, err := newExplainer(there, from, springKeys(a.Name), &cone)
	t.explainers[from] = x
	return x, err
}

func springKeys(train string) []string {
	return []string{train + ".mainspring.thickness_mm", train + ".mainspring.efficiency"}
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
		if a, b, share := rowsAt(r, p.FuseeTurn); a != nil && !p.Winding && a.FuseeTorque > 0 {
			list = append(list, step{a.SpringTurns + share*(b.SpringTurns-a.SpringTurns), p.Measured / predicted(r, p)})
		}
	}
	slices.SortFunc(list, func(a, b step) int { return cmp.Compare(a.turns, b.turns) })
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
