package sim

import (
	"fmt"
	"math"

	"evenpull/escapement"
	"evenpull/fusee/mainspring"
)

// Limits beyond which something does not fit or is unsafe whatever the torque.
const (
	// nearBreaking is the share of the line's breaking strength at which it is
	// called near (common practice, no source: a safety of two).
	nearBreaking = 0.5
	// hardStrip is the stress (Pa) that no hardened spring strip bears: tensile
	// strengths of EN 10132-4 end near 2100 MPa (from memory).
	hardStrip = 2100e6
	// tightArbor is the least arbor diameter over strip thickness; bent more
	// sharply the innermost coil breaks (common practice, no source).
	tightArbor = 15
	// leastFloat is the end float (m) below which the coils rub on the caps;
	// about 1 mm is wanted (common practice, no source).
	leastFloat = 0.2e-3
)

// Fault is one thing that does not fit or is unsafe.
type Fault struct {
	Kind  string // in two or three words, the same for all faults of the kind
	Words string // in plain words, with its figure
}

// faultChecks find the faults; each gives "" when all is well.
var faultChecks = [...]struct {
	kind string
	says func(*Result) string
}{
	{"the spring binds", (*Result).binds}, {"no set-up", (*Result).slack}, {"no room for the line", (*Result).room},
	{"tension near breaking", (*Result).tension}, {"fleet angle too great", (*Result).fleet}, {"stress past yield", (*Result).stress},
	{"arbor too small", (*Result).sharpness}, {"no end float", (*Result).float}, {"the escapement trips", (*Result).trips},
}

// FaultList is what does not fit or is unsafe. None: nil.
func (r *Result) FaultList() []Fault {
	var list []Fault
	for i := range faultChecks {
		if words := faultChecks[i].says(r); words != "" {
			list = append(list, Fault{faultChecks[i].kind, words})
		}
	}
	return list
}

// Faults are what does not fit or is unsafe, in plain words, each with its
// figure. None: an empty list.
func (r *Result) Faults() []string {
	faults := []string{}
	for _, f := range r.FaultList() {
		faults = append(faults, f.Words)
	}
	return faults
}

func (r *Result) binds() string {
	if r.TurnsLost == 0 {
		return ""
	}
	s := r.Spring
	return fmt.Sprintf("the spring binds solid before the fusee is wound: it has %s turns, %s of them taken by the set-up, and %s of the %s fusee turns are lost; the winding stop would never be reached and winding on would load line and stop work with all of one's strength",
		Figure(s.Available), Turns(s.SetUp), Turns(r.TurnsLost), Turns(r.Train.Drive.Cone.Turns))
}

func (r *Result) slack() string {
	if r.Spring.SetUp > 0 {
		return ""
	}
	return "there is no set-up: the torque falls away at the end of the run and the line may go slack and leave its groove"
}

func (r *Result) room() string {
	have := r.Train.Drive.Barrel.Length
	switch {
	case r.Line.Room > have*(1+1e-9):
		return fmt.Sprintf("the line needs %.1f mm of barrel and has %.1f", r.Line.Room*1e3, have*1e3)
	case r.Line.Spread > have*(1+1e-9):
		return fmt.Sprintf("the line lies over %.1f mm of barrel and has %.1f: it will run up against the end and lie askew", r.Line.Spread*1e3, have*1e3)
	}
	return ""
}

func (r *Result) tension() string {
	breaking, most := r.Train.Drive.Line.Breaking, r.Line.MaxWindingTension
	switch {
	case breaking == 0 || most < nearBreaking*breaking:
		return ""
	case most < breaking:
		return fmt.Sprintf("winding pulls the line with %s N, %.0f %% of the %s N at which it breaks; under half is wanted", Figure(most), 100*most/breaking, Figure(breaking))
	}
	return fmt.Sprintf("winding pulls the line with %s N and it breaks at %s", Figure(most), Figure(breaking))
}

func (r *Result) fleet() string {
	limit := r.Train.Drive.Line.FleetMax
	if !r.Line.FleetKnown || limit == 0 || r.Line.MaxFleet <= limit {
		return ""
	}
	return fmt.Sprintf("the line leaves the groove at up to %.1f°, more than %.1f°: it may climb out", r.Line.MaxFleet.Degrees(), limit.Degrees())
}

func (r *Result) stress() string {
	spring := &r.Train.Drive.Spring
	steel := fmt.Sprintf("no hardened strip bears more than about %.0f", hardStrip/1e6)
	switch s := r.Spring; {
	case spring.Form == mainspring.Straight && s.PeakStress > hardStrip:
		return fmt.Sprintf("a strip that never set would bear %.0f MPa at the arbor, and %s: it will set and give less; give mainspring.yield_mpa, or free_coils when it has set already",
			s.PeakStress/1e6, steel)
	case spring.Form == mainspring.Set && spring.Yield > hardStrip:
		return fmt.Sprintf("a strip that yields at %.0f MPa only: %s", spring.Yield/1e6, steel)
	case spring.Form == mainspring.Coils && s.MeanStress > 1.5*hardStrip:
		// Even a section all yielded gives no more couple than 1.5 times the
		// yield stress would give elastically.
		return fmt.Sprintf("a strip that lies free in so few coils would bear %.0f MPa in the mean when wound home, past its yield: %s; it will set and show more coils", s.MeanStress/1e6, steel)
	}
	return ""
}

func (r *Result) sharpness() string {
	d := &r.Train.Drive
	ratio := 2 * d.Housing.Arbor / d.Spring.Thickness
	if ratio >= tightArbor {
		return ""
	}
	return fmt.Sprintf("the arbor is only %.1f times as thick as the strip, less than %d: the innermost coil is strained %.1f %% and likely to break", ratio, tightArbor, 100/ratio)
}

func (r *Result) float() string {
	if r.Spring.EndFloat >= leastFloat {
		return ""
	}
	return fmt.Sprintf("the spring has %.2f mm of end float in the barrel and will rub on the caps; about 1 mm is wanted", r.Spring.EndFloat*1e3)
}

func (r *Result) trips() string {
	limit := r.Train.Escapement.Limit
	switch {
	case !r.Swing.Trips:
		return ""
	case limit == 0:
		return fmt.Sprintf("by prediction the pendulum would swing past %.0f°, further than any pallets reach: look at its mass and quality, and at the torque", escapement.Widest.Degrees())
	}
	return fmt.Sprintf("the pendulum would swing to the %.2f° at which the escapement trips: a tooth passes both pallets and the train runs free", limit.Degrees())
}

// Caution tells what to mind before a spring is let down, taken out, fitted or
// wound, with the energy (J) that is let loose when something slips; NaN when it
// is not known.
func Caution(stored float64) string {
	const rest = "Let it down fully with a proper let-down key before anything is loosened; use a mainspring winder to take it out or fit it; wear eye protection and gloves; never stand in line with a spring or a line under load. Local safety rules and a qualified clockmaker's judgement come before anything printed here."
	if math.IsNaN(stored) {
		return "A wound mainspring lets tens of joules go at once. " + rest
	}
	// Height to which that energy throws a weight of one kilogram.
	height := stored / 9.80665
	return fmt.Sprintf("Wound, this spring holds %s J: enough to throw 1 kg %s m high. %s", Figure(stored), Figure(height), rest)
}
