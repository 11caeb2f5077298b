package words

import (
	"fmt"

	"evenpull/escapement"
	"evenpull/fusee/mainspring"
	"evenpull/sim"
	"evenpull/sim/rules"
)

// faultWords are the sentences of the faults.
var faultWords = map[sim.Fault]func(*sim.Digest) string{
	sim.Binds: binds, sim.NoSetUp: slack, sim.NoRoom: room, sim.Askew: askew, sim.NearBreak: tension,
	sim.FleetAngle: fleet, sim.PastSteel: stress, sim.SharpArbor: sharpness, sim.NoFloat: float, sim.Trips: trips,
}

// Fault is one fault of a run in plain words, with its figure.
func Fault(d *sim.Digest, f sim.Fault) string {
	if says := faultWords[f]; says != nil {
		return says(d)
	}
	return f.String()
}

// Faults are what does not fit or is unsafe, in plain words, each with its
// figure. None: an empty list.
func Faults(d *sim.Digest) []string {
	list := d.Faults.List()
	says := make([]string, len(list))
	for i, f := range list {
		says[i] = Fault(d, f)
	}
	return says
}

func binds(d *sim.Digest) string {
	s := d.Spring
	return fmt.Sprintf("the spring binds solid before the fusee is wound: it has %s turns, %s of them taken by the set-up, and %s of the %s fusee turns are lost; the winding stop would never be reached and winding on would load line and stop work with all of one's strength",
		Figure(s.Available), Turns(s.SetUp), Turns(d.TurnsLost), Turns(d.Turns))
}

func slack(d *sim.Digest) string {
	return "there is no set-up: the torque falls away at the end of the run and the line may go slack and leave its groove"
}

func room(d *sim.Digest) string {
	return fmt.Sprintf("the line needs %.1f mm of barrel and has %.1f", d.Line.Room*1e3, d.BarrelRoom*1e3)
}

func askew(d *sim.Digest) string {
	return fmt.Sprintf("the line lies over %.1f mm of barrel and has %.1f: it will run up against the end and lie askew", d.Line.Spread*1e3, d.BarrelRoom*1e3)
}

func tension(d *sim.Digest) string {
	breaking, most := d.Breaking, d.Line.MaxWindingTension
	if most < breaking {
		return fmt.Sprintf("winding pulls the line with %s N, %.0f %% of the %s N at which it breaks; under half is wanted", Figure(most), 100*most/breaking, Figure(breaking))
	}
	return fmt.Sprintf("winding pulls the line with %s N and it breaks at %s", Figure(most), Figure(breaking))
}

func fleet(d *sim.Digest) string {
	return fmt.Sprintf("the line leaves the groove at up to %.1f°, more than %.1f°: it may climb out", d.Line.MaxFleet.Degrees(), d.FleetMax.Degrees())
}

func stress(d *sim.Digest) string {
	steel := fmt.Sprintf("no hardened strip bears more than about %.0f", rules.HardStrip/1e6)
	switch yield := d.Yield / 1e6; {
	case d.Form == mainspring.Even:
		return fmt.Sprintf("a strip made in %s even coils would bear %.0f MPa at the arbor, and %s: it will set and show more coils", Figure(d.Spring.FreeCoils), d.Spring.PeakStress/1e6, steel)
	case d.Form == mainspring.Straight:
		return fmt.Sprintf("a strip that never set would bear %.0f MPa at the arbor, and %s: it will set and give less; give mainspring.yield_mpa, or free_coils when it has set already",
			d.Spring.PeakStress/1e6, steel)
	case d.ByCoils && d.Yield < rules.SoftStrip:
		return fmt.Sprintf("free coils, %s, tell of a steel that flows at %.0f MPa already, and a hardened strip bears %.0f at least: another spring, another barrel, or stretched by hand",
			Figure(d.Spring.FreeCoils), yield, rules.SoftStrip/1e6)
	case d.ByCoils:
		return fmt.Sprintf("free coils, %s, tell of a steel that flows at %.0f MPa only, and %s: another spring, or another barrel", Figure(d.Spring.FreeCoils), yield, steel)
	default:
		return fmt.Sprintf("a strip that flows at %.0f MPa only: %s", yield, steel)
	}
}

func sharpness(d *sim.Digest) string {
	return fmt.Sprintf("the arbor is only %.1f times as thick as the strip, less than %.0f: the innermost coil is strained %.1f %% and likely to break", d.ArborRatio, rules.TightArbor, 100/d.ArborRatio)
}

func float(d *sim.Digest) string {
	return fmt.Sprintf("the spring has %.2f mm of end float in the barrel and will rub on the caps; about 1 mm is wanted", d.Spring.EndFloat*1e3)
}

func trips(d *sim.Digest) string {
	if d.TripsAt == 0 {
		return fmt.Sprintf("by prediction the pendulum would swing past %.0f°, further than any pallets reach: look at its mass and quality, and at the torque", escapement.Widest.Degrees())
	}
	return fmt.Sprintf("the pendulum would swing to the %.2f° at which the escapement trips: a tooth passes both pallets and the train runs free", d.TripsAt.Degrees())
}
