// Package cut works out the cone for a spring: what must come off an existing one,
// or a new one from blank, and tells first whether the cone suits the spring as it
// is.
package cut

import (
	"context"
	"errors"
	"math"

	"evenpull/fusee"
	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/study/setup"
	"evenpull/sim/vary"
)

// Options of a study.
type Options struct {
	FromBlank bool
	Large     float64 // m, from blank: radius of the large end's groove bottom; NaN: the scenario's
	Small     float64 // m, from blank: likewise of the small end, in place of Large; NaN: not given
	KeepSetUp bool    // within a cone: leave the set-up as it is
	Step      float64 // fusee turns between rows, 0 for 1
}

const (
	MinStep     = 0.05 // fusee turns, the finest step between rows
	MinDiameter = 0.5  // mm, of an end asked for
	MaxDiameter = 2000.0
)

// Way is the train driven in one way: as it is, with another set-up, or cut.
type Way struct {
	SetUp   float64 // turns
	Torque  sim.Summary
	Reserve sim.Spread
	Verdict rules.Code
	Lost    float64 // fusee turns that the binding spring does not let be wound
	Spare   float64 // turns the spring has left when the fusee is wound
	Removed float64 // m³ of the cone; 0 where nothing is cut
	Touch   float64 // fusee turn at which nothing comes off; NaN where there is none
	Stored  float64 // J
	Fault   string  // why it cannot be had; then the figures are none
}

// Study is the answer.
type Study struct {
	Title string     // of the scenario
	Train *sim.Train // as the scenario has it, an even cone cut
	Cut   sim.Train  // with the cone to cut and its set-up
	Options

	AsItIs  Way  // nothing changed
	SetUp   Way  // the best set-up alone, nothing cut
	Present Way  // cut, with the present set-up
	Least   Way  // cut, with the set-up that takes the least metal off; as Present from blank
	After   Way  // the one that the rows are for
	Kept    bool // After keeps the present set-up
	Nothing bool // there is nothing to cut, or nothing can be cut: the rows are for the cone as it is

	Refused string // why no even cone can be cut within this one; "" when one can

	Need        float64 // N·m
	Line        sim.Line
	Span        float64 // m, of line between fusee and barrel when wound; NaN when not known
	Groove      Groove
	Rows        []Row
	Sensitivity Sensitivity
	Whole       float64  // unevenness of a cone turned to the diameters at whole turns and joined smoothly; NaN when the turns are not whole
	Deepest     float64  // m of diameter that comes off at the most, at DeepestAt
	DeepestAt   float64  // fusee turn
	Share       float64  // of the present diameter that comes off at the most
	Between     bool     // DeepestAt lies between the turns at which the present cone was measured
	Missing     float64  // m of diameter by which the present cone is too thin at the most, at MissingAt
	MissingAt   float64  // fusee turn
	Faults      []string // what does not fit or is unsafe once the cone is cut
	Caution     string

	judged sim.Result // of the train with the cone to cut, but for its rows
}

const (
	// spare are the turns that a cone is to leave the spring when the fusee is wound:
	// coils that do not pack perfectly take about one (common practice, no source).
	spare = 1.0
	// leastSpare are those without which no cone is cut: nearer home the couple is so
	// steep that no lathe makes it even (common practice, no source).
	leastSpare = 0.05
)

// Run works the cone out for the train with the given number. It fails when the
// scenario as it is cannot be run, when no even cone can be had from blank or with
// the set-up to be kept, and with the error of ctx. Where any even cone within the
// present one would be too thin, the study tells so as Refused.
func Run(ctx context.Context, s *scenario.Scenario, number int, o Options) (*Study, error) {
	if o.Step == 0 {
		o.Step = 1
	}
	o.Step = math.Max(o.Step, MinStep)
	k := &worker{s: s, number: number, ctx: ctx, st: &Study{Options: o, Title: s.Title}}
	name := s.Trains[number].Name
	k.keys = []string{name + ".barrel.set_up_turns", name + ".mainspring.thickness_mm"}
	steps := []func() error{k.asItIs, k.setUpAlone, k.within, k.judge, k.figures}
	if o.FromBlank {
		steps[2] = k.blank
	}
	for _, step := range steps {
		if err := step(); err != nil {
			return nil, err
		}
	}
	return k.st, nil
}

// worker is a study on its way.
type worker struct {
	s      *scenario.Scenario
	number int
	keys   []string // of set-up and thickness
	ctx    context.Context
	st     *Study
	wound  fusee.Wound // the scenario's drive, its cone cut
	even   bool        // that cone was asked to be even, and is
	cone   fusee.Cone  // to be cut
	set    float64     // up, turns, with it
}

// asItIs runs the train with nothing changed.
func (k *worker) asItIs() error {
	m, err := vary.New(k.s, k.number, vary.Length, k.keys...)
	if err != nil {
		return err
	}
	r, err := m.Run(m.Nominal())
	if err != nil {
		return err
	}
	own, caution := m.Own()
	k.st.Train, k.st.Caution = own, caution
	k.st.AsItIs, k.st.Need = wayOf(r), r.Need.Used
	if k.wound, err = own.Drive.Wind(); err != nil {
		return sim.Blame(k.s, k.number, err)
	}
	k.even = k.s.Trains[k.number].Fusee.Profile == scenario.Even && r.TurnsLost == 0
	return nil
}

// setUpAlone looks for the best set-up with nothing cut.
func (k *worker) setUpAlone() error {
	best, err := setup.Run(k.ctx, k.s, k.number)
	if errors.Is(err, setup.ErrNoRoom) {
		k.st.SetUp = Way{Fault: err.Error()}
		return nil
	}
	if err != nil {
		return err
	}
	_, k.st.SetUp, err = k.drive(k.st.Train.Drive.Cone, best.Best.SetUp)
	return err
}

// drive is the train with a cone, already cut, and a set-up.
func (k *worker) drive(cone fusee.Cone, setUp float64) (*vary.Model, Way, error) {
	m, err := vary.WithCone(k.s, k.number, cone, k.keys...)
	if err != nil {
		return nil, Way{}, err
	}
	r, err := m.Run([]float64{setUp, m.Nominal()[1]})
	if err != nil {
		return nil, Way{}, err
	}
	return m, wayOf(r), nil
}

func wayOf(r *sim.Result) Way {
	return Way{
		SetUp: r.Spring.SetUp, Torque: r.Torque, Verdict: r.Verdict.Code, Lost: r.TurnsLost, Touch: math.NaN(), Stored: r.Spring.Stored,
		Spare:   math.Max(r.Spring.Available-r.Spring.SetUp-r.Spring.Used, 0),
		Reserve: sim.Spread{Mean: r.Reserve(r.Torque.Mean), Min: r.Reserve(r.Torque.Min), Max: r.Reserve(r.Torque.Max)},
	}
}
