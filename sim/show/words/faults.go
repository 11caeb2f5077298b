package words

import (
	"cmp"
	"math"

	"evenpull/escapement"
	"evenpull/fusee/mainspring"
	"evenpull/sim"
	"evenpull/sim/rules"
)

// Fault is one fault of a run in plain words, with its figure.
func Fault(d *sim.Digest, f sim.Fault) string {
	l, s, breaks, trips := d.Line, d.Spring, d.Breaking, d.TripsAt
	pull := l.MaxWindingTension
	return map[sim.Fault]string{
		sim.Binds: say("the spring binds solid before the fusee is wound: it has %v turns, %s of them taken by the set-up, and %s of the %s fusee turns are lost; the winding stop would never be reached and winding on would load line and stop work with all of one's strength",
			s.Available, Turns(s.SetUp), Turns(d.TurnsLost), Turns(d.Turns)),
		sim.NoSetUp: "there is no set-up: the torque falls away at the end of the run and the line may go slack and leave its groove",
		sim.NoRoom:  say("the line needs %.1f mm of barrel and has %.1f", l.Room*mm, d.BarrelRoom*mm),
		sim.Askew:   say("the line lies over %.1f mm of barrel and has %.1f: it will run up against the end and lie askew", l.Spread*mm, d.BarrelRoom*mm),
		sim.NearBreak: say("winding pulls the line with %v N", pull) + cmp.Or(
			where(pull < breaks, ", %.0f %% of the %v N at which it breaks; under half is wanted", 100*pull/breaks, breaks),
			say(" and it breaks at %v", breaks)),
		sim.FleetAngle: say("the line leaves the groove at up to %.1f°, more than %.1f°: it may climb out", l.MaxFleet.Degrees(), d.FleetMax.Degrees()),
		sim.PastSteel:  pastSteel(d),
		sim.SharpArbor: say("the arbor is only %.1f times as thick as the strip, less than %.0f: the innermost coil is strained %.1f %% and likely to break", d.ArborRatio, rules.TightArbor, 100/d.ArborRatio),
		sim.NoFloat:    say("the spring has %.2f mm of end float in the barrel and will rub on the caps; about 1 mm is wanted", s.EndFloat*mm),
		sim.Trips: cmp.Or(
			where(trips == 0, "by prediction the pendulum would swing past %.0f°, further than any pallets reach: look at its mass and quality, and at the torque", escapement.Widest.Degrees()),
			say("the pendulum would swing to the %.2f° at which the escapement trips: a tooth passes both pallets and the train runs free", trips.Degrees())),
	}[f]
}

// pastSteel tells of a stress that no strip bears, or of a steel that there is not.
func pastSteel(d *sim.Digest) string {
	const mega = 1e6
	steel := say("no hardened strip bears more than about %.0f", rules.HardStrip/mega)
	if d.Form == mainspring.Set {
		coils := where(d.ByCoils, "free coils, %v, tell of a steel", d.Spring.FreeCoils)
		return where(d.Yield < rules.SoftStrip, "%s that flows at %.0f MPa already, and a hardened strip bears %.0f at least: another spring, another barrel, or stretched by hand", coils, d.Yield/mega, rules.SoftStrip/mega) +
			where(d.Yield > rules.HardStrip, "%s that flows at %.0f MPa only: %s", cmp.Or(coils, "a strip"), d.Yield/mega, steel)
	}
	return say("a strip %s would bear %.0f MPa at the arbor, and %s: it will set and ", either(d.Form == mainspring.Even, "made in even coils", "that never set"), d.Spring.PeakStress/mega, steel) +
		either(d.Form == mainspring.Even, "show more coils", "give less; give mainspring.yield_mpa, or free_coils when it has set already")
}

// Faults are what does not fit or is unsafe, each with its figure.
func Faults(d *sim.Digest) []string {
	says := []string{}
	for _, f := range d.Faults.List() {
		says = append(says, Fault(d, f))
	}
	return says
}

// Cautions are what to mind before any spring of a clock is touched, with the
// energy of the strongest.
func Cautions(c *sim.Clock) []string {
	if len(c.Trains) == 0 {
		return []string{}
	}
	most, _ := c.MostStored()
	return []string{Caution(most)}
}

// Caution tells what to mind before a spring is let down, taken out, fitted or
// wound, with the energy (J) that is let loose when something slips; NaN when it
// is not known.
func Caution(stored float64) string {
	const gravity = 9.80665 // m/s²: how high that energy throws a weight of one kilogram
	return cmp.Or(
		where(!math.IsNaN(stored), "Wound, this spring holds %v J: enough to throw 1 kg %v m high.", stored, stored/gravity),
		"A wound mainspring lets tens of joules go at once.") +
		" Let it down fully with a proper let-down key before anything is loosened; use a mainspring winder to take it out or fit it; wear eye protection and gloves; never stand in line with a spring or a line under load. Local safety rules and a qualified clockmaker's judgement come before anything printed here."
}
