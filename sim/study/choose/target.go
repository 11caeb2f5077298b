package choose

import (
	"errors"
	"fmt"
	"math"

	"evenpull/fusee/mainspring"
	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/show/words"
	"evenpull/sim/vary"
)

// Target is the mean torque to aim at.
type Target struct {
	Mean    float64 // N·m at the fusee
	Need    float64 // N·m; NaN when not known
	Reserve float64 // Mean over Need; NaN when that is not known
	Basis   rules.Basis
}

// targetOf is the target for a reserve, NaN when none is asked for.
func targetOf(train *sim.Train, need, reserve float64) (Target, error) {
	liked, basis := train.Liked()
	if math.IsNaN(reserve) && basis != rules.ByNothing {
		mean := (liked.Lo + liked.Hi) / 2
		if math.IsInf(mean, 0) || !(mean > 0) {
			return Target{}, errors.New("no torque strikes as fast as is wanted: look at demand.blow_interval_s, the fly and the hammers; or give a reserve to aim at")
		}
		return Target{Mean: mean, Need: need, Reserve: mean / need, Basis: basis}, nil
	}
	if math.IsNaN(reserve) {
		reserve = DefaultReserve
	}
	switch {
	case !(reserve > 0 && reserve <= MaxReserve):
		return Target{}, fmt.Errorf("a reserve of %s: %w", words.Figure(reserve), ErrReserve)
	case !(need > 0) || math.IsInf(need, 0):
		return Target{}, ErrNoNeed
	}
	return Target{Mean: reserve * need, Need: need, Reserve: reserve, Basis: rules.ByReserve}, nil
}

// Present is the spring that the scenario has.
type Present struct {
	Width, Thickness, Length float64 // mm
	SetUp                    float64 // turns
	Fill                     float64 // share of the barrel
	Mean, Need               float64 // N·m
	Reserve                  float64 // mean; NaN when the need is not known
	Verdict                  rules.Code
	Stored                   float64 // J
	// Exponent is ∂ ln(mean torque)/∂ ln(thickness), the strip cut to the same fill:
	// as it is, and if it never set. The rule of thumb says 3.
	Exponent, Unset float64
}

// present runs the scenario as it is.
func (st *Study) present(m *vary.Model) error {
	r, err := m.Run(m.Nominal())
	if err != nil {
		return err
	}
	sp := &st.Train.Drive.Spring
	st.Present = Present{
		Width: sp.Width / mm, Thickness: m.Nominal()[0], Length: sp.Length / mm, SetUp: r.Spring.SetUp, Fill: r.Spring.Fill,
		Mean: r.Torque.Mean, Need: r.Need.Used, Reserve: r.Reserve(r.Torque.Mean), Verdict: r.Verdict.Code, Stored: r.Spring.Stored,
	}
	return nil
}

// exponents differentiates the mean torque by the thickness.
func (p *Present) exponents(m *vary.Model, s *shop) {
	p.Exponent, p.Unset = math.NaN(), math.NaN()
	mean, err := outcome.Several(outcome.MeanTorque)
	if err != nil {
		return
	}
	p.Exponent = m.Slopes(0, 0, mean)[0].Elasticity(p.Thickness, p.Mean).Value
	// The same strip if it never set, by a central difference: for a sentence.
	const step = 1e-3
	f := newFitter(*s)
	f.steel = mainspring.Strip{Form: mainspring.Straight}
	up, down := f.meanOf(p.Width, p.Thickness*(1+step)), f.meanOf(p.Width, p.Thickness*(1-step))
	p.Unset = math.Log(up/down) / math.Log((1+step)/(1-step))
}
