// Package plan tells at which turns of the fusee, and how often, torque is to be read so
// that an input is known as well as is asked for, or that two springs are told apart.
//
// # Model
//
// A meter at the square reads the torque at the same whole turns of the fusee in each of n
// run-downs. The input x that is sought is then fitted to the means of the turns by least
// squares, all turns with the same weight and all other inputs as the scenario has them, as
// package readings does. With T the torque at a turn (N·m), s = ∂T/∂x its slope (N·m for 1 of
// the input in its unit; found by package vary), m the mean of T over the turns of the run,
// and Σ over the turns that are read, the variance of x is, to first order,
//
//	(σ²/Σs² + τ²(Σs)²/(Σs²)²)/n + a²/3·(Σ s T)²/(Σs²)²
//
// where σ = m·Scatter, τ = m·Offset and a = MeterRelative are those of Law. The last term is
// the meter's: a bound, taken as a rectangular distribution (JCGM 100:2008, 4.3.7), that all
// readings share and no repeat lessens. What the meter's step adds is by
// measure.StepCovariance. Of two springs x is what they differ by, 1 as computed, and s how
// much more this one pulls: σ² and τ² count twice, and the meter's bound, which both share, not
// at all. Power is the share of experiments in which a t-test at 5 % finds the difference
// (noncentral t; to 0.0001 in the cases that tests compare), with n − 1 degrees of freedom
// for each spring.
//
// # What is planned
//
// With an error or a power asked for, the fewest run-downs that reach it, then the fewest
// turns; with none, UsualRepeats and the fewest turns that come within Near of the least
// error. Of up to 20 turns every set is tried. Of more, turns are exchanged until no exchange
// helps, which may miss the best set (V. V. Fedorov 1972, A. C. Atkinson and A. N. Donev 1992,
// both from memory).
//
// # Limits
//
// Errors are small and normal, and the rest of the scenario is right: what is off in it shifts
// x and is not in the error. Turns to which the fusee cannot be wound, as the spring binds,
// are not planned. Options and Law are taken as they are: shares above 0 and counts that are
// not negative are up to the caller. To read a spring it is wound and let down as often as
// planned, with a let-down key, eyes and hands protected. Terms are those of package sim.
package plan

import (
	"context"
	"errors"
	"fmt"

	"evenpull/sim"
	"evenpull/sim/scenario"
)

const (
	// MostRepeats is the greatest number of run-downs that is planned.
	MostRepeats = 1000
	// UsualRepeats are planned where nothing is asked for, and are the least where an error
	// is: fewer do not show how run-downs differ (common practice, no source).
	UsualRepeats = 3
	// Near is how far above the least standard error one with fewer turns may lie where no
	// error is asked for (common practice, no source).
	Near = 0.05
)

// Options are what is asked for.
type Options struct {
	Key     string  // KEY of the input; not with Against
	Against *Other  // the other spring, to be told from this one; nil for none
	Error   float64 // standard error asked for, a share of the input, or of what two springs differ by; NaN for none
	Power   float64 // share of experiments, below 1, that are to tell the springs apart; NaN for none, and of an input
	Repeats int     // run-downs, at most where an error or a power is asked for; 0: as many as it takes, or UsualRepeats
	Turns   int     // turns to read in each; 0: as few as will do
	Law     Law
}

// Other is another spring: that of a train of a scenario.
type Other struct {
	Scenario *scenario.Scenario
	Number   int // of the train, from 0
}

// Study is a plan with what it promises.
type Study struct {
	Train   string             // by its name
	Own     sim.Digest         // the train as it is
	For     *scenario.Quantity // the input; nil for two springs
	Value   float64            // of it in the scenario, in its unit; 1 for two springs: what they differ by
	Against string             // the title of the other scenario; "" for an input
	Options Options

	Plan    Plan
	Whole   Plan   // every turn read in as many run-downs
	Needed  int    // run-downs that what was asked for takes, of which more may be planned; 0 where nothing was, or where none are enough
	At      []Turn // every whole turn of the run
	Repeats []int  // of the columns of Choices
	Choices []Size // what other plans come to

	design design
}

// Plan is a set of turns, read in so many run-downs.
type Plan struct {
	Turns   []int // of the fusee paid out: 0 is fully wound
	Repeats int   // run-downs
	// StandardError is that of what the fit of record then finds, in the unit of the input,
	// all other inputs being as the scenario has them; of two springs as a share of what
	// they differ by. FromMeter is the part of it that no repeat lessens.
	StandardError, FromMeter float64
	HalfWidth                float64 // half the 95 % interval that record then tells, in the mean; NaN of one run-down
	Power                    float64 // share of experiments that tell two springs apart at 5 %; NaN of an input, and of one run-down
}

// Turn is a whole turn of the fusee.
type Turn struct {
	FuseeTurn int     // paid out: 0 is fully wound
	Torque    float64 // N·m
	Slope     float64 // N·m for 1 of the input in its unit; of two springs how much more this one pulls
	Read      bool    // by the plan
	Alone     float64 // standard error by this turn alone in as many run-downs, as Plan has it; +Inf where it tells nothing
}

// Size is the best that a number of turns can do, by the numbers of run-downs of
// Study.Repeats.
type Size struct {
	Turns int    // to read in each run-down
	Plans []Plan // one for each of Study.Repeats
}

// Errors of Run: of an input that no turn tells of, of one whose value is 0 and an error asked
// for, of more turns than there are, of two springs that pull alike, and of a KEY of another
// train.
var (
	ErrMoves = errors.New("moves the torque at no turn of the fusee: readings of torque cannot tell it")
	ErrShare = errors.New("is 0, so that an error in percent of it says nothing")
	ErrTurns = errors.New("the run-down has fewer whole turns")
	ErrAlike = errors.New("both springs pull alike at every turn: readings of torque cannot tell them apart")
	ErrApart = errors.New("is no input of the train")
)

// Run plans readings in the train with the given number. It fails with ErrMoves, ErrShare,
// ErrTurns, ErrAlike or ErrApart, with a scenario.Fault of the KEY, where a train cannot be
// run, and with the error of ctx.
func Run(ctx context.Context, s *scenario.Scenario, number int, o Options) (*Study, error) {
	st := &Study{Train: s.Trains[number].Name, Options: o, Value: 1}
	var err error
	if o.Against != nil {
		err = st.apart(s, number)
	} else {
		err = st.input(s, number)
	}
	if err != nil {
		return nil, err
	}
	if n := len(st.design.slope); o.Turns > n {
		return nil, fmt.Errorf("%w: there are %d, from %d to %d", ErrTurns, n, st.design.at[0], st.design.at[n-1])
	}
	st.plan()
	st.others()
	return st, ctx.Err()
}
