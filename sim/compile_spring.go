package sim

import (
	"math"

	"evenpull/fusee/mainspring"
	"evenpull/sim/scenario"
)

// springOf is the strip in its housing. Coils that it shows lying free tell the stress at
// which its steel flows, and turns counted from rest to solid how its coils pack.
func springOf(in *scenario.Mainspring, h mainspring.Housing) (mainspring.Strip, error) {
	s := mainspring.Strip{
		Width: in.WidthMM * mm, Thickness: in.ThicknessMM * mm, Length: in.LengthMM * mm,
		Modulus: in.ModulusGPa * gpa, Bending: bendingOf(in.Bending), Poisson: in.Poisson, Packing: 1,
		Couple: in.CoupleRatio,
	}
	if scenario.Given(in.Packing) {
		s.Packing = in.Packing
	}
	if err := form(&s, in, h); err != nil || !scenario.Given(in.SolidTurns) {
		return s, err
	}
	// The steel hangs on the packing only through the mean curvature wound home, a
	// hundredth of a percent: the second time round nothing changes any more.
	for range 3 {
		packing, err := mainspring.PackingFor(s, h, in.SolidTurns)
		if err != nil {
			return s, err // and no packing that makes a second fault of it
		}
		s.Packing = packing
		if err := form(&s, in, h); err != nil {
			return s, err
		}
	}
	return s, nil
}

// form sets the natural form of a strip of the given size and packing.
func form(s *mainspring.Strip, in *scenario.Mainspring, h mainspring.Housing) (err error) {
	s.Form = mainspring.Straight
	switch {
	case in.NaturalForm == scenario.AsEven:
		s.Form, s.FreeCoils = mainspring.Even, in.FreeCoils
	case in.NaturalForm == scenario.BySet && scenario.Given(in.YieldMPa):
		s.Form, s.Yield = mainspring.Set, in.YieldMPa*mpa
	case in.NaturalForm == scenario.BySet && in.FreeCoils > 0: // 0: it never set
		if s.Yield, err = mainspring.YieldForCoils(*s, h, in.FreeCoils); err == nil {
			s.Form = mainspring.Set
		}
	}
	return err
}

func bendingOf(word string) mainspring.Bending {
	switch word {
	case scenario.AsStrip:
		return mainspring.Narrow
	case scenario.AsPlate:
		return mainspring.Plate
	}
	return mainspring.Wide
}

// coilEfficiency is what coil friction leaves of the couple: given, or in the middle of
// the run by how the outer end is held (our own solution of the strip coil by coil).
func coilEfficiency(in *scenario.Mainspring) float64 {
	switch mu := in.FrictionCoefficient; {
	case !scenario.Given(mu):
		return in.Efficiency
	case in.OuterEnd == scenario.Braced:
		return math.Max(1-0.2*mu, leastShare)
	default:
		return math.Max(1-0.75*mu, leastShare)
	}
}

// leastShare is the least efficiency that a scenario may give.
const leastShare = 0.01
