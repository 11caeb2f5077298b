package vary

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"evenpull/fusee/mainspring"
	"evenpull/sim"
	"evenpull/sim/scenario"
)

// observation is something that was seen of a train and tells a value of it.
type observation struct {
	key  string                                         // of the value that was seen
	seen func(t *scenario.Train) []*float64             // where it stands; none where it was not seen
	told func(in *scenario.Train, t *sim.Train) float64 // what it tells
	put  func(in *scenario.Train, told float64)         // puts that in its place
}

// observations are in the order in which they are inferred: turns to solid are those of
// the steel.
var observations = [...]observation{
	{"mainspring.free_coils", coilsSeen, flowsFrom, putSteel},
	{"mainspring.solid_turns", turnsSeen, func(_ *scenario.Train, t *sim.Train) float64 { return t.Drive.Spring.Packing }, func(t *scenario.Train, told float64) {
		t.Mainspring.SolidTurns, t.Mainspring.Packing = math.NaN(), told
	}},
	{"mainspring.length_mm", lengthUnseen, func(in *scenario.Train, _ *sim.Train) float64 { return in.Mainspring.LengthMM }, func(in *scenario.Train, told float64) { in.Mainspring.Keep(told) }},
	{"strike.timed.torque_nm", strikeSeen, dragOf, func(t *scenario.Train, told float64) { t.Strike.Timed, t.Fly.DragCoefficient = nil, told }},
}

const mpa = 1e6

func coilsSeen(t *scenario.Train) []*float64 {
	if m := &t.Mainspring; m.NaturalForm == scenario.BySet && scenario.Given(m.FreeCoils) {
		return []*float64{&m.FreeCoils}
	}
	return nil
}

// flowsFrom is the flow stress of the spring, Pa; infinite where it never set.
func flowsFrom(_ *scenario.Train, t *sim.Train) float64 {
	if t.Drive.Spring.Form == mainspring.Straight {
		return math.Inf(1)
	}
	return t.Drive.Spring.Yield
}

func putSteel(t *scenario.Train, flows float64) {
	m := &t.Mainspring
	if m.FreeCoils, m.YieldMPa = math.NaN(), flows/mpa; math.IsInf(flows, 1) {
		m.NaturalForm, m.YieldMPa = scenario.AsStraight, math.NaN()
	}
}

func turnsSeen(t *scenario.Train) []*float64 {
	if m := &t.Mainspring; scenario.Given(m.SolidTurns) && m.LengthBy == scenario.LengthGiven {
		return []*float64{&m.SolidTurns}
	}
	return nil
}

// lengthUnseen is the count that tells a length which was left out; NaN where half the
// barrel is filled.
func lengthUnseen(t *scenario.Train) []*float64 {
	if m := &t.Mainspring; m.LengthBy == scenario.LengthInferred || m.LengthBy == scenario.LengthMisread {
		return []*float64{&m.SolidTurns}
	}
	return nil
}

func strikeSeen(t *scenario.Train) []*float64 {
	if t.Strike == nil || t.Strike.Timed == nil || t.Fly == nil {
		return nil
	}
	return []*float64{&t.Strike.Timed.TorqueNM, &t.Strike.Timed.BlowIntervalS, &t.Strike.Timed.TwelveS}
}

func dragOf(_ *scenario.Train, t *sim.Train) float64 {
	if !t.Strikes {
		return math.NaN()
	}
	return t.Striker.DragCoefficient()
}

// infer puts what was seen of a train by what it tells, but for what varies itself: another
// spring is one of the same steel, wound as well. It fails where what was seen tells of
// what no scenario can state.
func infer(m *Model) error {
	in := &m.s.Trains[m.number]
	for _, o := range observations {
		seen, told := o.seen(in), o.told(in, &m.train)
		if len(seen) == 0 || slices.ContainsFunc(seen, m.varies) || math.IsNaN(told) {
			continue
		}
		value := *seen[0]
		o.put(in, told)
		var faults scenario.Faults
		if errors.As(m.s.CheckTrain(m.number), &faults) {
			f := faults[0]
			return &sim.Error{Fault: m.base.FaultAt(m.number, o.key, fmt.Sprintf("found %.6g, by which %s would be %s", value, f.Key, strings.TrimPrefix(f.Found, "found ")),
				"want one that makes it "+strings.TrimPrefix(f.Want, "want ")), Err: faults}
		}
	}
	return nil
}

// Apply makes changes of the form KEY=VALUE to a scenario, as its own Apply does, for what
// would be: another spring is one of the same steel. Where a change would make the free
// coils of a spring, its turns from rest to solid or a timed strike tell another flow
// stress, packing or drag coefficient than before, what they told stays and stands for
// them; unless they are changed themselves. All faults come back together, and then
// nothing is changed.
func Apply(s *scenario.Scenario, sets []string) error {
	changed := s.Clone()
	inferred(changed, scenario.LengthInferred, scenario.LengthMisread) // a count that is to go is not judged
	if err := changed.Apply(sets); err != nil {
		return err
	}
	for number := range changed.Trains {
		keep(s, changed, number)
	}
	if inferred(changed, scenario.LengthMisread, scenario.LengthInferred) {
		if err := changed.Check(); err != nil {
			return err
		}
	}
	*s = *changed
	return nil
}

// inferred makes lengths that were inferred one way inferred another way, and tells whether
// there are any.
func inferred(s *scenario.Scenario, from, to scenario.LengthBy) (any bool) {
	for i := range s.Trains {
		if m := &s.Trains[i].Mainspring; m.LengthBy == from {
			m.LengthBy, any = to, true
		}
	}
	return any
}

// keep puts what was seen of a train, where it would tell something else in the changed
// scenario, by what it told before.
func keep(s, changed *scenario.Scenario, number int) {
	before, err := sim.CompileTrain(s, number)
	if err != nil {
		return // nothing was told
	}
	old, in := &s.Trains[number], &changed.Trains[number]
	for _, o := range observations {
		seen, told := o.seen(in), o.told(old, &before)
		if len(seen) == 0 || math.IsNaN(told) || !slices.EqualFunc(seen, o.seen(old), same) {
			continue
		}
		if after, err := sim.CompileTrain(changed, number); err != nil || o.told(in, &after) != told {
			o.put(in, told)
			changed.Complete() // a length that was left out follows the steel
		}
	}
}

// same tells whether both are one number, or none.
func same(a, b *float64) bool { return *a == *b || math.IsNaN(*a) && math.IsNaN(*b) }
