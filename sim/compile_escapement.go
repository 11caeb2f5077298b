package sim

import (
	"fmt"
	"math"
	"strings"

	"evenpull/escapement"
	"evenpull/sim/scenario"

	"github.com/golang/geo/s1"
)

// escape sets escapement and pendulum. It fails with an escapement.Fault.
func (t *Train) escape(s *scenario.Scenario, in *scenario.Train) error {
	e, p := in.Escapement, in.Pendulum
	t.Escapes = true
	t.Escapement = escapement.Escapement{
		Kind: kindOf(e.Kind), Teeth: e.Teeth, Arc: escapement.WholeDegrees(e.EscapingArcDeg),
		Drop: e.Drop, Efficiency: e.Efficiency, Margin: escapement.SemiDegrees(e.MarginDeg),
		Late:  s1.Angle(orZero(e.ImpulseLateDeg)) * s1.Degree,
		Limit: escapement.SemiDegrees(orZero(e.TripDeg)),
		Ratio: orZero(e.RecoilRatio), DeadFriction: orZero(e.DeadFriction),
		PalletRadius: orZero(e.PalletRadiusMM) * mm, WheelRadius: orZero(e.WheelRadiusMM) * mm,
	}
	t.Pendulum = escapement.Pendulum{Length: p.Metres(s.Place.GravityMS2), Mass: p.MassG * 1e-3, Gravity: s.Place.GravityMS2, Quality: p.Quality}
	if p.Decay != nil {
		q, err := escapement.QualityFromDecay(escapement.SemiDegrees(p.Decay.FromDeg), escapement.SemiDegrees(p.Decay.ToDeg), p.Decay.Count(t.Pendulum.Period()))
		if err != nil {
			return err
		}
		t.Pendulum.Quality = q
	}
	_, err := t.clock()
	return err
}

// kindOf is nil for a kind that there is not, which escapement.New refuses.
func kindOf(kind string) escapement.Kind {
	switch kind {
	case scenario.Recoil:
		return escapement.Recoil{}
	case scenario.Verge:
		return escapement.Verge{}
	case scenario.DeadBeat:
		return escapement.DeadBeat{}
	}
	return nil
}

// escapementFault says what the package escapement refuses in the keys and the
// units of the scenario.
func escapementFault(s *scenario.Scenario, number int, fault escapement.Fault) scenario.Fault {
	in := &s.Trains[number]
	e := in.Escapement
	found := func(v float64) string { return fmt.Sprintf("found %.6g", v) }
	least := fmt.Sprintf("%.6g deg", e.EscapingArcDeg/2+math.Abs(orZero(e.ImpulseLateDeg))+e.MarginDeg)
	field, _, _ := strings.Cut(fault.Field, " ")
	switch field {
	case "Limit":
		return s.FaultAt(number, "escapement.trip_deg", found(e.TripDeg),
			"want more than the pendulum needs, half the escaping arc with the margin: "+least)
	case "Late":
		return s.FaultAt(number, "escapement.impulse_late_deg", found(e.ImpulseLateDeg),
			fmt.Sprintf("want 0 but for a dead beat, and there at most half the escaping arc either way: %.6g deg", e.EscapingArcDeg/2))
	case "Arc":
		key, v := "escapement.escaping_arc_deg", e.EscapingArcDeg
		if e.MarginDeg > v/2 {
			key, v = "escapement.margin_deg", e.MarginDeg
		}
		return s.FaultAt(number, key, found(v), "want half the escaping arc, with the margin, of at most 90 deg; it is "+least)
	case "Ratio":
		return s.FaultAt(number, "escapement.recoil_ratio", found(e.RecoilRatio), "want a ratio from 1 to 100, and none for a dead beat")
	case "DeadFriction":
		return s.FaultAt(number, "escapement.dead_friction", found(e.DeadFriction), "want less, or another radius: it would take more than the pallets give")
	case "Quality":
		return s.FaultAt(number, "pendulum.quality", found(in.Pendulum.Quality), "want a quality of 1 to 1e9")
	}
	return s.FaultAt(number, "pendulum", fault.Error(), "")
}
