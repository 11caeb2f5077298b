package sim

import (
	"fmt"
	"math/bits"

	"evenpull/fusee/mainspring"
	"evenpull/sim/rules"
)

// Fault is one thing that does not fit or is unsafe whatever the torque. Its
// sentence is in package words.
type Fault uint8

const (
	Binds      Fault = iota // the spring binds before the fusee is wound
	NoSetUp                 // the torque falls away at the end of the run
	NoRoom                  // the line needs more barrel than there is
	Askew                   // the line runs up against the end of the barrel
	NearBreak               // the line is pulled with more than half of what breaks it
	FleetAngle              // the line may climb out of its groove
	PastSteel               // a stress that no strip bears
	SharpArbor              // the arbor bends the innermost coil too sharply
	NoFloat                 // the spring rubs on the caps
	Trips                   // the pendulum swings past what the pallets allow
	faultCount
)

var faultNames = [faultCount]string{
	"the spring binds", "no set-up", "no room for the line", "the line lies askew", "tension near breaking", "fleet angle too great",
	"stress past what steel bears", "arbor too small", "no end float", "the escapement trips",
}

// String is the fault in two or three words.
func (f Fault) String() string {
	if f < faultCount {
		return faultNames[f]
	}
	return fmt.Sprintf("fault %d", uint8(f))
}

// Faults is a set of faults.
type Faults uint16

// Has tells whether a fault is in the set.
func (s Faults) Has(f Fault) bool { return s&(1<<f) != 0 }

// Count is the number of faults.
func (s Faults) Count() int { return bits.OnesCount16(uint16(s)) }

// List gives the faults, in the order of their declaration; nil when there are none.
func (s Faults) List() []Fault {
	var list []Fault
	for f := range faultCount {
		if s.Has(f) {
			list = append(list, f)
		}
	}
	return list
}

// rounding is how far a length may be over what there is and still fit.
const rounding = 1 + 1e-9

// look finds the faults of a run.
func (d *Digest) look() {
	var s Faults
	note := func(f Fault, is bool) {
		if is {
			s |= 1 << f
		}
	}
	note(Binds, d.TurnsLost != 0)
	note(NoSetUp, !(d.Spring.SetUp > 0))
	room := d.BarrelRoom * rounding
	note(NoRoom, d.Line.Room > room)
	note(Askew, d.Line.Room <= room && d.Line.Spread > room)
	note(NearBreak, d.Breaking != 0 && d.Line.MaxWindingTension >= rules.NearBreaking*d.Breaking)
	note(FleetAngle, d.Line.FleetKnown && d.FleetMax != 0 && d.Line.MaxFleet > d.FleetMax)
	note(PastSteel, d.pastSteel())
	note(SharpArbor, d.ArborRatio < rules.TightArbor)
	note(NoFloat, !(d.Spring.EndFloat >= rules.LeastFloat))
	note(Trips, d.Swing.Trips)
	d.Faults = s
}

// pastSteel tells whether the strip would bear more than any hardened steel does, or its
// free coils tell of a steel that there is not.
func (d *Digest) pastSteel() bool {
	if d.Form == mainspring.Set {
		return d.Yield > rules.HardStrip || d.ByCoils && d.Yield < rules.SoftStrip
	}
	return d.Spring.PeakStress > rules.HardStrip
}
