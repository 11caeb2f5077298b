package choose

import (
	"errors"
	"fmt"
	"math"

	"evenpull/fusee/mainspring"
	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/vary"
)

// Target is the mean torque to aim at.
type Target struct {
	Mean    float64     // N·m at the fusee
	Need    float64     // N·m; NaN when not known
	Reserve float64     // Mean over Need; NaN when that is not known
	Basis   rules.Basis // ByBand and ByCadence: the middle of these; else it is a reserve
}

// targetOf is the target for a reserve, NaN when none is asked for.
func targetOf(now *sim.Digest, reserve float64) (Target, error) {
	need := now.Need.Used
	if basis := now.Standard.Basis; math.IsNaN(reserve) && (basis == rules.ByBand || basis == rules.ByCadence) {
		mean := now.Standard.Liked.Center()
		if math.IsInf(mean, 0) || !(mean > 0) {
			return Target{}, errors.New("no torque strikes as fast as is wanted: look at demand.blow_interval_s, the fly and the hammers; or give a reserve to aim at")
		}
		return Target{Mean: mean, Need: need, Reserve: mean / need, Basis: basis}, nil
	}
	if math.IsNaN(reserve) {
		reserve = rules.TargetReserve
	}
	switch {
	case !(reserve > 0 && reserve <= MaxReserve):
		return Target{}, fmt.Errorf("a reserve of %.3g: %w", reserve, ErrReserve)
	case !(need > 0) || math.IsInf(need, 0):
		return Target{}, ErrNoNeed
	}
	return Target{Mean: reserve * need, Need: need, Reserve: reserve, Basis: rules.ByReserve}, nil
}

// Present is the spring that the scenario has.
type Present struct {
	Width, Thickness, Length float64 // mm
	Digest                   sim.Digest
	// Exponent is ∂ ln(mean torque)/∂ ln(thickness), the strip cut to the same fill:
	// as it is, and if it never set. The rule of thumb says 3.
	Exponent, Unset float64
}

// presentOf tells of the scenario as it is.
func presentOf(m *vary.Model, s *shop) Present {
	train, now := m.Own()
	sp := &train.Drive.Spring
	p := Present{Width: sp.Width / mm, Thickness: m.Nominal()[0], Length: sp.Length / mm, Digest: *now, Exponent: math.NaN(), Unset: math.NaN()}
	mean, err := outcome.Several(outcome.MeanTorque)
	if err != nil {
		return p
	}
	p.Exponent = m.Slopes(0, 0, mean)[0].Elasticity(p.Thickness, now.Torque.Mean).Value
	// The same strip if it never set, by a central difference: for a sentence.
	const step = 1e-3
	unset := *s
	unset.steel = mainspring.Strip{Form: mainspring.Straight}
	f, at := made{fitter: newFitter(&unset), width: p.Width, fill: now.Spring.Fill}, now.Spring.SetUp
	p.Unset = math.Log(f.mean(p.Thickness*(1+step), at)/f.mean(p.Thickness*(1-step), at)) / math.Log((1+step)/(1-step))
	return p
}
