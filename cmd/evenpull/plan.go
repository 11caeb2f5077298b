package main

import (
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"

	"evenpull/sim/scenario"
	"evenpull/sim/show/chart"
	"evenpull/sim/show/data"
	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
	"evenpull/sim/study/plan"

	"github.com/spf13/cobra"
)

// planFlags are the flags of plan.
type planFlags struct {
	flags
	key, against   string
	error, power   string
	repeats, turns int
	law            plan.Law
}

func newPlan(s streams) *cobra.Command {
	f := planFlags{law: plan.Usual()}
	c := &cobra.Command{
		Use:   "plan [SCENARIO]",
		Short: "Tell which torques to read, and how often",
		Long: `Plan tells at which turns of the fusee, and in how many run-downs, the torque at the
winding square is to be read so that an input is known as well as is asked for, or as
well as so many run-downs can. It is the input that "evenpull record --fit KEY" is then
to find: the standard error promised is that of this fit, which takes every other input
as the scenario has it.

Without --error it takes three run-downs, or --repeats, and the fewest turns whose
standard error is within 5 % of the best. With --error it takes the fewest run-downs
that reach it, three at least, since fewer do not show how run-downs differ, at most
--repeats where that is given, and the fewest turns that then reach it. --turns says how
many are to be read.

Readings scatter from turn to turn, run-downs differ as wholes, by how the coils lie
that time, and the meter is off by the same share each time: --scatter, --offset and
--meter-relative say how far, as a share of the torque or in percent, such as 0.006 or
0.6%. More turns and repeats lessen the first, repeats alone the second, and only a
better meter the third.

--against names a scenario with another spring: then it tells which readings of both, by
one meter in one clock, tell them apart, and in what share of experiments they do, by
Student's t at 5 %. --power asks for such a share. --set changes the first scenario only;
where its cone is as if cut for the spring, the other spring is read through it too.

Every set of turns is tried; of a fusee with more than 20, exchanges of one turn for
another find the best.`,
		Example: `  evenpull plan
  evenpull plan --error 0.3
  evenpull plan --for going.mainspring.yield_mpa --repeats 2 --meter-relative 0.5%
  evenpull plan three-trains --for striking.mainspring.efficiency --plot plan.svg --force
  evenpull plan --set going.mainspring.thickness_mm=0.381 --against eight-day --power 80`,
		Args: usageArgs(cobra.MaximumNArgs(1)),
		RunE: func(c *cobra.Command, args []string) error { return runPlan(c, s, &f, args) },
	}
	f.register(c, "the train of this `name`; left out, the one whose input it is", "also draw what other plans come to, and what each turn tells,")
	c.Flags().StringVar(&f.key, "for", "", "`KEY` of the input to be known; left out, the thickness of the train's mainspring")
	c.Flags().StringVar(&f.error, "error", "", "standard error it is to be known to, in `percent` of it")
	c.Flags().StringVar(&f.against, "against", "", "`scenario` with another spring, to be told apart: a file, - or a sample")
	c.Flags().StringVar(&f.power, "power", "", "`percent` of the experiments that are to tell the springs apart")
	c.Flags().IntVar(&f.repeats, "repeats", 0, "`number` of run-downs; with --error or --power the most there may be")
	c.Flags().IntVar(&f.turns, "turns", 0, "`number` of turns to read in each")
	c.Flags().Var((*share)(&f.law.Scatter), "scatter", "`share` by which readings scatter within a run-down")
	c.Flags().Var((*share)(&f.law.Offset), "offset", "`share` by which run-downs differ as wholes")
	c.Flags().Var((*share)(&f.law.MeterRelative), "meter-relative", "`share` that the meter may be off")
	c.Flags().Float64Var(&f.law.MeterResolution, "meter-resolution", 0, "step of the meter in `N·m`; left out, none")
	completeKeys(c, "for", "")
	complete(c, "against", completeSamples)
	return c
}

// share is a share of the torque, as such or in percent.
type share float64

func (s *share) String() string { return strconv.FormatFloat(float64(*s), 'g', -1, 64) }
func (*share) Type() string     { return "share" }

// mostShare is the greatest that readings may err by: more is hardly a reading.
const (
	mostShare = 0.2
	wantShare = "a share of the torque from 0 to 0.2, such as 0.006 or 0.6%"
)

// Set reads it.
func (s *share) Set(text string) error {
	number, percent := strings.CutSuffix(strings.TrimSpace(text), "%")
	v, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
	if percent {
		v /= 100
	}
	if err != nil || !(v >= 0 && v <= mostShare) {
		return errors.New(wantShare)
	}
	*s = share(v)
	return nil
}

func runPlan(c *cobra.Command, s streams, f *planFlags, args []string) error {
	o, err := f.options(c, args)
	if err != nil {
		return err
	}
	sc, number, err := f.loadTrain(c, s, args, func(*scenario.Scenario) []string { return []string{f.key} })
	if err != nil {
		return err
	}
	if f.against != "" {
		if o.Against, err = f.other(s, sc.Trains[number].Name); err != nil {
			return err
		}
	} else if o.Key == "" {
		o.Key = sc.Trains[number].Name + ".mainspring.thickness_mm"
	}
	ctx := c.Context()
	st, err := plan.Run(ctx, sc, number, o)
	if err != nil {
		return planFault(o, f, err)
	}
	return shown[plan.Study]{plot: chart.Plan, text: text.Plan, document: data.Plan(), notes: words.PlanWarns, cautions: words.PlanCautions}.write(ctx, s, &f.flags, st)
}

// options are what the flags ask for.
func (f *planFlags) options(c *cobra.Command, args []string) (plan.Options, error) {
	o := plan.Options{Key: f.key, Repeats: f.repeats, Turns: f.turns, Law: f.law}
	given := c.Flags().Changed
	var err error
	switch r := f.law.MeterResolution; {
	case f.against != "" && f.key != "":
		return o, usagef("--for and --against: want one of them, an input to be known or another spring to be told from this one")
	case f.against == "-" && argument(args, "") == "-":
		return o, usagef("standard input can be the scenario or that of --against, not both")
	case given("against") && f.against == "":
		return o, usagef("--against: want a scenario: a file, - or a sample")
	case f.against != "" && given("error"):
		return o, usagef("--error goes with --for; with --against ask for --power")
	case f.against == "" && given("power"):
		return o, usagef("--power goes with --against; of an input ask for --error")
	case given("repeats") && (f.repeats < 1 || f.repeats > plan.MostRepeats):
		return o, usagef("--repeats %d: want 1 to %d run-downs", f.repeats, plan.MostRepeats)
	case given("turns") && f.turns < 1:
		return o, usagef("--turns %d: want at least one turn to read", f.turns)
	case !(r >= 0 && r <= 1000):
		return o, usagef("--meter-resolution %.6g: want a step from 0 to 1000 N·m", r)
	}
	if o.Error, err = percentOf(c, "error", f.error, 100); err != nil {
		return o, err
	}
	o.Power, err = percentOf(c, "power", f.power, 99.9)
	return o, err
}

// percentOf is the share that a flag gives in percent, above 0; NaN where it is left out.
func percentOf(c *cobra.Command, flag, text string, most float64) (float64, error) {
	if !c.Flags().Changed(flag) {
		return math.NaN(), nil
	}
	v, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "%")), 64)
	if err != nil || !(v > 0 && v <= most) {
		return 0, usagef("--%s %q: want a percentage above 0 up to %g, such as 1%%", flag, text, most)
	}
	return v / 100, nil
}

// other is the spring that --against names, in the train of the same name.
func (f *planFlags) other(s streams, train string) (*plan.Other, error) {
	sc, err := open(s, f.against)
	if err != nil {
		return nil, err
	}
	i := slices.IndexFunc(sc.Trains, func(t scenario.Train) bool { return t.Name == train })
	if i < 0 {
		names := make([]string, len(sc.Trains))
		for k := range names {
			names[k] = sc.Trains[k].Name
		}
		return nil, usagef("--against %s: it has no train %s; it has: %s", f.against, train, strings.Join(names, ", "))
	}
	return &plan.Other{Scenario: sc, Number: i}, nil
}

// planFault lays a fault at its flag.
func planFault(o plan.Options, f *planFlags, err error) error {
	switch {
	case errors.Is(err, plan.ErrTurns):
		return usagef("--turns %d: %w", o.Turns, err)
	case errors.Is(err, plan.ErrAlike):
		return usagef("--against %s: %w", f.against, err)
	case errors.Is(err, plan.ErrShare):
		return usagef("--error: %s %w; want --repeats", o.Key, err)
	case errors.Is(err, plan.ErrMoves), errors.Is(err, plan.ErrApart):
		return usagef("--for %s %w", o.Key, err)
	}
	return keyFault("for", o.Key, err)
}
