package sim

import (
	"cmp"
	"math"
	"slices"

	"evenpull/sim/scenario"
	"evenpull/train"
)

// FuseeArbor is the name of the arbor that carries fusee and great wheel.
const FuseeArbor = "fusee"

func arborsOf(in *scenario.Train) []string {
	names := make([]string, 1, len(in.Meshes)+1)
	names[0] = FuseeArbor
	for i := range in.Meshes {
		names = append(names, in.Meshes[i].Drives)
	}
	return names
}

// meshesOf adds the meshes to a list.
func meshesOf(in *scenario.Train, meshes []train.Mesh) []train.Mesh {
	for _, m := range in.Meshes {
		e := m.Efficiency
		if scenario.Given(m.FrictionCoefficient) {
			e = train.FrictionEfficiency(m.FrictionCoefficient, m.Wheel, m.Pinion)
		}
		meshes = append(meshes, train.Mesh{Wheel: m.Wheel, Pinion: m.Pinion, Efficiency: e, Drag: m.DragNM})
	}
	return meshes
}

// loadsOf gives the loads, the standing ones first, and the number of those.
func loadsOf(in *scenario.Train, arbors []string) (loads []train.Load, standing int) {
	loads = make([]train.Load, 0, len(in.Loads))
	for _, stands := range []bool{true, false} {
		for _, l := range in.Loads {
			if scenario.Given(l.EveryH) != stands {
				loads = append(loads, train.Load{Arbor: slices.Index(arbors, l.Arbor), Torque: l.TorqueNM})
			}
		}
		if stands {
			standing = len(loads)
		}
	}
	return loads, standing
}

// compile makes the wheels with the standing loads, with all and with none.
func (w *Wheels) compile(in *scenario.Train, arbors []string) error {
	var room [train.Most]train.Mesh // that is no garbage
	meshes := meshesOf(in, room[:0])
	loads, standing := loadsOf(in, arbors)
	return cmp.Or(w.Train.Make(meshes, loads[:standing]), w.Worst.Make(meshes, loads), w.Free.Make(meshes, nil))
}

// HoursPerTurn are the hours of a fusee turn, from the pendulum or the blows; NaN
// without either.
func (t *Train) HoursPerTurn() float64 {
	switch {
	case t.Escapes:
		return t.Wheels.SecondsPerTurn(t.Escapement.Teeth, t.Pendulum.Period()) / 3600
	case t.Strikes:
		return 12 * t.Striker.BlowsPerTurn() / t.BlowsPer12H
	}
	return math.NaN()
}
