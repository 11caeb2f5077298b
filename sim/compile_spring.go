package sim

import (
	"evenpull/fusee/mainspring"
	"evenpull/sim/scenario"
)

// springOf is the strip in its housing. Coils that it shows lying free tell the stress at
// which its steel flows, and turns counted from rest to solid how its coils pack.
func springOf(in *scenario.Mainspring, h mainspring.Housing) (mainspring.Strip, error) {
	s := in.Strip()
	if err := steel(&s, in, h); err != nil || scenario.Given(in.Packing) || !scenario.Given(in.SolidTurns) {
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
		if err := steel(&s, in, h); err != nil {
			return s, err
		}
	}
	return s, nil
}

// steel is that of a strip which tells it by the coils that it shows lying free.
func steel(s *mainspring.Strip, in *scenario.Mainspring, h mainspring.Housing) (err error) {
	if in.NaturalForm != scenario.BySet || scenario.Given(in.YieldMPa) || !(in.FreeCoils > 0) { // 0: it never set
		return nil
	}
	s.Form = mainspring.Straight
	if s.Yield, err = mainspring.YieldForCoils(*s, h, in.FreeCoils); err == nil {
		s.Form = mainspring.Set
	}
	return err
}

// coilsOf is what coil friction leaves of the couple, or 0 and the friction that tells it.
func coilsOf(in *scenario.Mainspring) (efficiency, friction float64, end mainspring.End) {
	if !scenario.Given(in.FrictionCoefficient) {
		return in.Efficiency, 0, mainspring.Hooked
	}
	return 0, in.FrictionCoefficient, scenario.EndOf(in.OuterEnd)
}
