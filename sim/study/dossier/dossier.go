// Package dossier gathers every study of a clock that a report is made from: the run, another
// thickness of each spring, another set-up, the spring to have made, what matters most; and
// what a bench book says of it. It computes nothing of its own: each study has its method and
// limits in its own package. The thickness is tried in 41 steps from a quarter below to a
// quarter above; what matters is ranked by the mean torque and, where a need is known, by the
// least reserve, each input moved by its own error.
package dossier

import (
	"context"
	"errors"
	"math"

	"evenpull/sim"
	"evenpull/sim/bench/assign"
	"evenpull/sim/bench/book"
	"evenpull/sim/bench/found"
	"evenpull/sim/bench/readings"
	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/study/choose"
	"evenpull/sim/study/rank"
	"evenpull/sim/study/setup"
	"evenpull/sim/study/sure"
	"evenpull/sim/study/sweep"
)

// steps are the points at which another thickness is tried.
const steps = 41

// Clock is a scenario with its studies.
type Clock struct {
	Scenario *scenario.Scenario
	Run      *sim.Clock // every train run down
	Trains   []Train    // as those of Run
}

// Train is the studies of one train.
type Train struct {
	Result *sim.Result
	Fine   *sim.Result   // at steps too fine to see
	Sweep  *sweep.Study  // over the thickness of the spring
	Rank   *rank.Study   // of the inputs, by what they do to the results
	SetUp  *setup.Study  // nil where with any set-up the spring binds
	Made   *choose.Study // springs to have made; nil where there is nothing to choose by

	draws *sure.Options
}

// Seed is that of the draws; 0 where none were made.
func (t *Train) Seed() int64 {
	if t.draws == nil {
		return 0
	}
	return t.draws.Seed
}

// First is what is to be done first for the train, and whether that is known.
func (t *Train) First() rules.Step {
	if t.SetUp != nil {
		return t.SetUp.First()
	}
	now := t.Result.Standing()
	return t.Result.Advice.First(&now, &now)
}

// Bench is what a bench book says.
type Bench struct {
	Book     *book.Book
	Readings *readings.Study // beside what the scenario predicts
	Assign   *assign.Study   // nil where nothing can be assigned
	Taken    []found.Taken   // what went from it into the scenario
}

// OfClock runs a scenario and its studies, with the draws that tell how sure verdicts are,
// or with none. It fails when the scenario cannot be run, and with the error of ctx.
func OfClock(ctx context.Context, s *scenario.Scenario, draws *sure.Options) (*Clock, error) {
	run, err := sim.RunClock(s, sim.Options{})
	if err != nil {
		return nil, err
	}
	c := &Clock{Scenario: s, Run: run, Trains: make([]Train, len(run.Trains))}
	for i := range run.Trains {
		t := &c.Trains[i]
		t.Result, t.draws = &run.Trains[i], draws
		if t.Fine, err = t.Result.Train.Run(sim.Options{Step: sim.FineStep(t.Result.Turns)}); err != nil {
			return nil, err
		}
		for _, study := range []func(context.Context, *scenario.Scenario, int) error{t.thickness, t.setUp, t.made, t.matters} {
			if err := study(ctx, s, i); err != nil {
				return nil, err
			}
		}
	}
	return c, nil
}

func (t *Train) thickness(ctx context.Context, s *scenario.Scenario, number int) (err error) {
	over := sweep.Axis{Key: t.Result.Name + ".mainspring.thickness_mm", From: math.NaN(), To: math.NaN(), Steps: steps}
	t.Sweep, err = sweep.Run(ctx, s, number, sweep.Options{Over: over})
	return err
}

func (t *Train) setUp(ctx context.Context, s *scenario.Scenario, number int) (err error) {
	is := &t.Result.Verdict.Sureness
	t.SetUp, err = setup.Run(ctx, s, number)
	switch none := errors.Is(err, setup.ErrNoRoom); {
	case err != nil && !none:
		return err
	case t.draws == nil:
		return nil
	case none:
		*is, err = sure.Of(ctx, s, number, *t.draws)
		return err
	}
	err = t.SetUp.SureToDo(ctx, s, number, *t.draws)
	*is = t.SetUp.Now.Verdict.Sureness
	return err
}

func (t *Train) made(ctx context.Context, s *scenario.Scenario, number int) (err error) {
	o := choose.Options{Reserve: math.NaN(), EndShake: math.NaN()}
	if t.draws != nil {
		brief := *t.draws // nobody asks what would make a spring surer that is not there yet
		brief.Brief = true
		o.Sure = &brief
	}
	if t.Made, err = choose.ToHave(ctx, s, number, o); errors.Is(err, choose.ErrNoNeed) {
		return nil
	}
	return err
}

// matters ranks the inputs by the mean torque and, where a need is known, by the
// least reserve.
func (t *Train) matters(ctx context.Context, s *scenario.Scenario, number int) error {
	names := []string{outcome.MeanTorque, outcome.LeastReserve}
	if math.IsNaN(t.Result.Need.Used) {
		names = names[:1]
	}
	of, err := outcome.Several(names...)
	if err == nil {
		t.Rank, err = rank.Run(ctx, s, number, rank.Options{Of: of})
	}
	return err
}

// OfBench sets a bench book beside the scenario that it was put into, with draws as OfClock
// has them. It fails with the error of ctx.
func OfBench(ctx context.Context, clock *found.Clock, draws *sure.Options) (*Bench, error) {
	var o sure.Options // of no draws
	if draws != nil {
		o = *draws
	}
	r, err := assign.RecordOf(ctx, clock.Book, clock, true, o.Draws, o.Seed)
	switch {
	case errors.Is(err, assign.ErrMany): // nothing is assigned then
		return &Bench{Book: clock.Book, Readings: readings.Of(clock.Book, clock.Scenario)}, nil
	case err != nil:
		return nil, err
	}
	return &Bench{Book: clock.Book, Readings: r.Study, Assign: r.Judged}, nil
}
