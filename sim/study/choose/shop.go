package choose

import (
	"math"

	"evenpull/fusee/mainspring"
	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/stock"
)

// shop is the train that springs are tried in.
type shop struct {
	train   sim.Train // whole, its cone cut
	advice  *rules.Advice
	present float64          // set-up that it has, in clicks
	steel   mainspring.Strip // form and yield stress of a spring whose own is not known
	takes   float64          // turns of the spring that the fusee takes
	height  float64          // mm, of the barrel inside
	shake   float64          // mm
}

func shopOf(sc *scenario.Scenario, train *sim.Train, now *sim.Digest, height, shake float64) shop {
	s := shop{train: *train, present: now.Standing().Clicks, height: height, shake: shake, steel: steelOf(train)}
	// What was counted and inferred is of the present spring.
	s.train.Advice, s.train.Counted, s.train.ByCoils = rules.Advice(sc.Advice), false, false
	s.advice = &s.train.Advice
	s.takes = takesOf(train)
	return s
}

// takesOf is the turns of the spring that the fusee of a train takes.
func takesOf(train *sim.Train) float64 {
	d := &train.Drive
	_, _, area := d.Cone.Profile.At(d.Cone.Turns)
	return (area + d.Cone.Turns*d.Line.Thickness/2) / (d.Barrel.Radius + d.Line.Thickness/2)
}

// steelOf is the steel of the scenario's own spring; what is assumed of any where that
// was made in even coils, which tell nothing of it.
func steelOf(train *sim.Train) mainspring.Strip {
	own := &train.Drive.Spring
	if own.Form == mainspring.Even {
		return mainspring.Strip{Form: mainspring.Set, Yield: scenario.AssumedYieldMPa * mpa}
	}
	return mainspring.Strip{Form: own.Form, Yield: own.Yield}
}

// stripOf is the strip as it is sold, of its own steel or else of the scenario's.
func (s *shop) stripOf(sp *stock.Spring) mainspring.Strip {
	strip := s.madeOf(sp.WidthMM, sp.ThicknessMM, sp.LengthMM)
	if scenario.Given(sp.YieldMPa) {
		strip.Form, strip.Yield = mainspring.Set, sp.YieldMPa*mpa
	}
	if scenario.Given(sp.ModulusGPa) {
		strip.Modulus = sp.ModulusGPa * gpa
	}
	return strip
}

// madeOf is a strip of the scenario's steel, its size in mm.
func (s *shop) madeOf(width, thickness, length float64) mainspring.Strip {
	strip := s.train.Drive.Spring
	strip.Width, strip.Thickness, strip.Length = width*mm, thickness*mm, length*mm
	strip.Form, strip.Yield, strip.FreeCoils = s.steel.Form, s.steel.Yield, 0
	return strip
}

// spacersFor is what lies beside a spring of a width in the barrel (mm), to the
// millionth of a millimetre; negative when the spring is too wide.
func (s *shop) spacersFor(width float64) float64 { return micro(s.height - width - s.shake) }

// micro takes the rounding of binary fractions off a length in mm.
func micro(v float64) float64 { return math.Round(v*1e6) / 1e6 }
