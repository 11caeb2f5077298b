package sim

import (
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
	}
	t.Pendulum = escapement.Pendulum{Length: p.LengthMM * mm, Mass: p.MassG * 1e-3, Gravity: s.Place.GravityMS2, Quality: p.Quality}
	if p.Decay != nil {
		q, err := escapement.QualityFromDecay(escapement.SemiDegrees(p.Decay.FromDeg), escapement.SemiDegrees(p.Decay.ToDeg), p.Decay.Periods)
		if err != nil {
			return err
		}
		t.Pendulum.Quality = q
	}
	_, err := t.clock()
	return err
}

func kindOf(kind string) escapement.Kind {
	switch kind {
	case scenario.Verge:
		return escapement.Verge
	case scenario.DeadBeat:
		return escapement.DeadBeat
	}
	return escapement.Recoil
}

// escapementKey is the key of the scenario behind a field of the package
// escapement.
func escapementKey(field string, in *scenario.Train) string {
	keys := map[string]string{
		"Teeth": "escapement.teeth", "Arc": "escapement.escaping_arc_deg", "Drop": "escapement.drop",
		"Efficiency": "escapement.efficiency", "Margin": "escapement.margin_deg", "Late": "escapement.impulse_late_deg",
		"Limit": "escapement.trip_deg", "Length": "pendulum.length_mm", "Mass": "pendulum.mass_g", "Gravity": "pendulum",
		"Quality": "pendulum.quality",
	}
	field, _, _ = strings.Cut(field, " ") // as in "Arc with Margin"
	if key, ok := keys[field]; ok && (field != "Quality" || !math.IsNaN(in.Pendulum.Quality)) {
		return key
	}
	return "pendulum.decay"
}
