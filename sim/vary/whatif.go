package vary

import (
	"fmt"
	"math"

	"evenpull/fusee/mainspring"
	"evenpull/sim"
	"evenpull/sim/scenario"
)

// Apply makes changes of the form KEY=VALUE to a scenario, as its own Apply does, for what
// would be: another spring is one of the same steel. Where a change would make the free
// coils of a spring, its turns from rest to solid or a timed strike tell another flow
// stress, packing or drag coefficient than before, what they told stays and stands for
// them; unless they are changed themselves. All faults come back together, and then
// nothing is changed.
func Apply(s *scenario.Scenario, sets []string) error {
	changed := s.Clone()
	if err := changed.Apply(sets); err != nil {
		return err
	}
	for number := range changed.Trains {
		if err := keep(s, changed, number); err != nil {
			return err
		}
	}
	*s = *changed
	return nil
}

// keep puts what was seen of a train, where it would tell something else in the changed
// scenario, by what it told before: the steel first, since turns to solid are those of it.
func keep(s, changed *scenario.Scenario, number int) error {
	before, err := sim.CompileTrain(s, number)
	if err != nil {
		return nil // nothing was told
	}
	differs := func(of func(*sim.Train) float64) bool {
		after, err := sim.CompileTrain(changed, number)
		return err != nil || of(&after) != of(&before)
	}
	old, in := &s.Trains[number], &changed.Trains[number]
	put := func(key string, v float64) error { return changed.SetNumber(in.Name+"."+key, v) }
	if before.ByCoils && in.Mainspring.FreeCoils == old.Mainspring.FreeCoils && differs(flowsFrom) {
		if before.Drive.Spring.Form == mainspring.Straight {
			err = changed.Set(in.Name+".mainspring.natural_form", scenario.AsStraight)
		} else {
			err = put("mainspring.yield_mpa", flowsFrom(&before)/mpa)
		}
	}
	if err == nil && before.Counted && in.Mainspring.SolidTurns == old.Mainspring.SolidTurns && differs(packing) {
		err = put("mainspring.packing", packing(&before))
	}
	if err == nil && before.Timed && before.Strikes && sameTiming(old, in) && differs(drag) {
		err = put("fly.drag_coefficient", drag(&before))
	}
	return err
}

// flowsFrom is the flow stress of the spring, Pa; infinite where it never set.
func flowsFrom(t *sim.Train) float64 {
	if t.Drive.Spring.Form == mainspring.Straight {
		return math.Inf(1)
	}
	return t.Drive.Spring.Yield
}

func packing(t *sim.Train) float64 { return t.Drive.Spring.Packing }

func drag(t *sim.Train) float64 {
	if !t.Strikes {
		return math.NaN()
	}
	return t.Striker.DragCoefficient()
}

// sameTiming tells whether both have the same timed strike.
func sameTiming(old, in *scenario.Train) bool {
	return in.Strike != nil && in.Strike.Timed != nil && fmt.Sprint(*in.Strike.Timed) == fmt.Sprint(*old.Strike.Timed)
}
