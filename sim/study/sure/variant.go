package sure

import (
	"context"

	"evenpull/fusee"
	"evenpull/sim"
	"evenpull/sim/scenario"
)

// Variant tells how sure the verdict is on a train as it would be with something done to
// it: change makes the change in a copy of the scenario. The cone is that of the
// scenario as it is: an even one stays as it is cut for it.
func Variant(ctx context.Context, s *scenario.Scenario, number int, o Options, change func(t *scenario.Train)) (sim.Sureness, error) {
	if o.Cone == nil {
		cone, err := cutCone(s, number)
		if err != nil {
			return sim.Sureness{}, err
		}
		o.Cone = cone
	}
	v := s.Clone()
	change(&v.Trains[number])
	return Of(ctx, v, number, o)
}

// cutCone is the cone of a train that is to be even, cut for it; nil of one that is given
// by its diameters.
func cutCone(s *scenario.Scenario, number int) (*fusee.Cone, error) {
	if s.Trains[number].Fusee.Profile != scenario.Even {
		return nil, nil
	}
	w, err := sim.WindTrain(s, number)
	if err != nil {
		return nil, err
	}
	cone := w.CutCone()
	return &cone, nil
}
