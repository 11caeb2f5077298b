package sim

import (
	"errors"
	"slices"

	"evenpull/sim/scenario"
	"evenpull/train"

	"github.com/golang/geo/r1"
)

// strike sets pin work and fly. All loads count, also those that come and go:
// a striking train has few, and none while it stands. It fails with a
// train.Fault.
func (t *Train) strike(s *scenario.Scenario, in *scenario.Train) error {
	k, f := in.Strike, in.Fly
	hammers := make([]train.Hammer, len(k.Hammers))
	for i, h := range k.Hammers {
		hammers[i] = train.Hammer{Mass: h.MassG * 1e-3, Lift: h.LiftMM * mm, Spring: h.SpringN}
	}
	loads, _ := loadsOf(in, t.Arbors)
	design := train.StrikeDesign{
		Meshes: meshesOf(in, nil), Loads: loads, PinArbor: slices.Index(t.Arbors, k.PinArbor),
		Pins: pinsOf(k, hammers), LiftShare: k.LiftShare, TailEfficiency: k.Tail,
		Fly: train.Fly{
			Vanes: f.Vanes, Width: f.WidthMM * mm, Inner: f.InnerRadiusMM * mm, Outer: f.OuterRadiusMM * mm,
			Thickness: f.ThicknessMM * mm, Density: f.DensityKgM3, DragCoefficient: f.DragCoefficient,
			Inertia: orZero(f.InertiaGMM2) * 1e-9,
		},
		AirDensity: s.Place.AirDensityKgM3, Gravity: s.Place.GravityMS2,
	}
	strike, err := strikeOf(design, k.Timed)
	if err != nil {
		return err
	}
	wanted := r1.EmptyInterval()
	if in.Demand.BlowIntervalS.Given() {
		wanted = r1.Interval{Lo: in.Demand.BlowIntervalS.Lo, Hi: in.Demand.BlowIntervalS.Hi}
	}
	t.Strikes, t.Striker, t.flyRadius = true, NewStriker(strike, wanted), f.OuterRadiusMM*mm
	t.BlowsPer12H = k.BlowsPer12H
	t.pinWork = PinWork{Arbor: design.PinArbor, Hammers: len(hammers), Vanes: f.Vanes}
	for i := range design.Pins {
		t.pinWork.Pins += design.Pins[i].Count
	}
	return nil
}

// strikeOf compiles a striking train. A strike that was timed tells the drag coefficient
// of its fly.
func strikeOf(d train.StrikeDesign, timed *scenario.Timed) (train.Strike, error) {
	if timed == nil {
		return train.NewStrike(d)
	}
	d.Fly.DragCoefficient = 1 // any will do until it is known
	s, err := train.NewStrike(d)
	if err != nil {
		return s, err
	}
	if scenario.Given(timed.TwelveS) {
		d.Fly.DragCoefficient, err = s.DragForTwelve(timed.TorqueNM, timed.TwelveS)
	} else {
		d.Fly.DragCoefficient, err = s.DragFor(timed.TorqueNM, timed.BlowIntervalS)
	}
	if err != nil {
		return s, err
	}
	return train.NewStrike(d)
}

// pinsOf gives the pins in succession: all alike, or in sets.
func pinsOf(k *scenario.Strike, hammers []train.Hammer) []train.PinSet {
	if len(k.PinSets) == 0 {
		return train.AllPins(k.Pins, hammers...)
	}
	sets := make([]train.PinSet, len(k.PinSets))
	for i, p := range k.PinSets {
		sets[i].Count = p.Pins
		for _, n := range p.Lifts {
			sets[i].Hammers = append(sets[i].Hammers, hammers[int(n)-1])
		}
	}
	return sets
}

// strikeFault says what the package train refuses in the keys of the scenario.
func strikeFault(s *scenario.Scenario, number int, fault train.Fault) scenario.Fault {
	timed := "strike.timed.blow_interval_s"
	if t := s.Trains[number].Strike.Timed; t != nil && scenario.Given(t.TwelveS) {
		timed = "strike.timed.twelve_s"
	}
	for kind, key := range map[error]string{
		train.ErrNoDrive: "strike.timed.torque_nm", train.ErrTooSlow: timed, train.ErrTooFast: timed,
		train.ErrNoFly: "fly.width_mm", train.ErrInertia: "fly.inertia_g_mm2", train.ErrPinArbor: "strike.pin_arbor",
		train.ErrPins: "strike.pins", train.ErrLiftShare: "strike.lift_share", train.ErrMore: "strike.hammers",
	} {
		if errors.Is(fault, kind) {
			return s.FaultAt(number, key, fault.Error(), "")
		}
	}
	return s.FaultAt(number, "strike", fault.Error(), "")
}
