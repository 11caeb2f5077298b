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
		sim.Binds: say("the spring binds solid before the fusee is wound: it has %v turns, %s of them taken by the set-up, and %s of the %s fusee turns are lost; winding on past that pulls on the line with the full strength of the arm",
			s.Available, Turns(s.SetUp), Either(d.TurnsLost < 0.005, "less than 0.01", Turns(d.TurnsLost)), Turns(d.Turns)),
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
			where(trips == 0, "by prediction the pendulum would swing past %.1f°, more than the pallets allow (four times half the escaping arc; common practice, no source): look at its mass and quality, and at the torque", d.Allows.Degrees()),
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
			where(d.Yield > rules.HardStrip, "%s that flows at %.0f MPa only%s", cmp.Or(coils, "a strip"), d.Yield/mega,
				Either(d.ByCoils, ", and "+steel+": another spring, or another barrel", ": "+steel))
	}
	even := d.Form == mainspring.Even
	return say("a strip %s would bear %.0f MPa at the arbor, and %s: it will set and %s", Either(even, say("made in %v even coils", d.Spring.FreeCoils), "that never set"),
		d.Spring.PeakStress/mega, steel, Either(even, "show more coils", "give less; give mainspring.yield_mpa, or free_coils when it has set already"))
}

// Faults are what does not fit or is unsafe, each with its figure.
func Faults(d *sim.Digest) []string {
	says := []string{}
	for _, f := range d.Faults.List() {
		says = append(says, Fault(d, f))
	}
	return says
}

// Cautions are what to mind before any spring of a clock is touched: that for the strongest.
func Cautions(c *sim.Clock) []string {
	if len(c.Trains) == 0 {
		return []string{}
	}
	most, _ := c.MostStored()
	return []string{cautionOf(Either(len(c.Trains) > 1, "the strongest of these springs", "this spring"), most)}
}

// Caution tells what to mind before a spring is let down, taken out, fitted or
// wound, with the energy (J) that is let loose when something slips; NaN when it
// is not known.
func Caution(stored float64) string { return cautionOf("this spring", stored) }

// cautionOf is Caution of a spring that is called so.
func cautionOf(who string, stored float64) string {
	const gravity = 9.80665 // m/s²: how high that energy throws a weight of one kilogram
	return cmp.Or(
		where(!math.IsNaN(stored), "Wound, %s holds %v J, enough to throw 1 kg %v m high.", who, stored, stored/gravity),
		"A wound mainspring lets tens of joules go at once.") +
		" Let it down fully with a let-down key first; use a mainspring winder; wear eye protection and gloves; never stand in its way. Local safety rules and a qualified clockmaker's judgement come before this."
}

// Notes are what is worth knowing beside the verdict, in plain words: what is to be minded
// first.
func Notes(d *sim.Digest) []string { return append(Minds(d), remarks(d)...) }

// Minds are the notes on what may be wrong, or asks for something to be done.
func Minds(d *sim.Digest) []string {
	n, s, k := d.Need, d.Swing, d.Spring.Packing
	notes := told{}
	few, differ := fewTurnsLeft(d), needsDiffer(d)
	notes.when(few != "", "%s", few)
	notes.when(d.Counted && k == 1, "the turns counted from rest to solid are as many as coils without gaps make, or more: they are taken to have none")
	notes.when(d.Counted && k > rules.LoosePacking, "so few turns from rest to solid mean coils that take up %v times their thickness each, more than %v: count again, and look at thickness and length", k, rules.LoosePacking)
	notes.when(n.Measured < n.Loads, "the need measured, %v N·m, is less than the %v N·m that the drags and loads of the scenario take alone; the train is judged by these", n.Measured, n.Loads)
	notes.when(d.Timed && (d.Drag < rules.FliesFrom || d.Drag > rules.FliesTo), "the timed strike tells of a drag coefficient of %v for the fly, and flies have %v to %v: was the torque that at the fusee arbor, and are hammers, lifts and the fly's size right?", d.Drag, rules.FliesFrom, rules.FliesTo)
	notes.when(d.Slowing[0] != "", "the arbor %q turns more slowly than %q, which drives it: are wheel and pinion swapped?", d.Slowing[0], d.Slowing[1])
	notes.when(differ != "", "%s", differ)
	notes.when(s.LetOff == 0, letOff+"train does not keep the pendulum going: it is carried by its own swing until they are off, or stops")
	notes.when(d.Spring.OffTable, "this spring, or its friction, is beyond the table of coil friction: what its coils lose may be some per cent off; \"evenpull coils\" solves this one, and an efficiency may stand in place of the friction_coefficient")
	notes.when(d.ConeDoubt > 0, "between its few points the cone is that of an even pull through them, and its radius may be %.0f %% off there (our own trials): measure it at six places or more", 100*d.ConeDoubt)
	return notes
}

const letOff = "while the loads that come and go are on, at the weakest turn, the "

// remarks are the notes that only tell more.
func remarks(d *sim.Digest) []string {
	s, notes := d.Swing, told{}
	beyond := d.Advice.NoteBeyondHandbook && !d.Counted && d.Spring.SetUp+d.Spring.Used > d.Spring.Handbook()
	notes.when(beyond, "set-up and run take %v turns of the spring, and handbooks count %v of it (from memory): count its turns from rest to solid (mainspring.solid_turns) before relying on them",
		d.Spring.SetUp+d.Spring.Used, d.Spring.Handbook())
	off, less := d.Need.LoadsOff, d.Verdict.LoadsOff
	notes.when(less != rules.Unjudged && off > 0, "the loads take %v N·m of the need; with all of them off the least reserve would be %v and the verdict%s",
		d.Need.Used-off, d.Torque.Min/off, Either(less == d.Verdict.Code, " the same", ": "+less.String()))
	arc, least := s.LetOff, s.Amplitude.Min
	notes.when(arc != 0 && !math.IsNaN(arc), letOff+"pendulum would settle at a semi-arc of %.2f°%s", Degrees(arc), where(least > arc, " instead of %.2f°", Degrees(least)))
	moves := rateMoves(d)
	notes.when(moves != "", "over the run %s; regulated to its mean, the clock is never more than about %s s wrong in this run because the pull is uneven", moves, About(s.Wander))
	notes.when(d.Escapes && d.Quality < rules.RoughQuality, "with a Q of %v the arcs and rates here, averages over a period, are rough: \"evenpull beat\" follows the swing itself", d.Quality)
	notes.when(d.Computed, "the cone is computed, even for this very spring; one that is cut is less so")
	return notes
}

// rateMoves tells how far the drive moves the rate; "" where it does not, to speak of.
func rateMoves(d *sim.Digest) string {
	const tiny = 0.05 // s a day: less is nothing to tell of
	moves := (d.Swing.Rate.Max - d.Swing.Rate.Min) * escapement.SecondsPerDay
	return where(moves >= tiny, "the rate moves by about %s s a day", About(moves))
}

func fewTurnsLeft(d *sim.Digest) string {
	left := d.Spare()
	return where(!d.Faults.Has(sim.Binds) && !math.IsNaN(left) && !d.Advice.Spares(left), "%s", Spare(d))
}

// Spare tells that too few turns are left, with the rule.
func Spare(d *sim.Digest) string {
	return say("only %v turns are to spare when wound%s; %v are wanted (common practice, no source)",
		d.Spare(), where(!d.Counted, ", even were its coils ideally packed"), d.Advice.TurnsToSpare)
}

// needsDiffer speaks when bench and prediction disagree, and of what usually
// explains it (common practice, no source).
func needsDiffer(d *sim.Digest) string {
	more := "worn or dry pivots, dirt, worn pallets or a bent tooth take torque that the scenario does not know; or the decay was measured too well, with the pendulum on another stand"
	less := "the decay may have been measured with the escapement engaged, which makes the pendulum look worse than it is; or margin, drop or efficiencies are too pessimistic; or the trial was too short for the train to stop"
	if d.Strikes {
		more = "worn or dry pivots, dirt, stiff hammer tails or a hammer spring set too strong take torque that the scenario does not know"
		less = "hammers, lift or springs may be less than the scenario says, or the trial was made with the train already going; blows and stalls here are predictions"
	}
	n := d.Need
	ratio := n.Measured / n.Predicted
	why := cmp.Or(where(ratio > 1+rules.NeedsApart, "%s", more), where(ratio < 1/(1+rules.NeedsApart), "%s", less))
	said := n.Measured < n.Loads // that it is less than these take was said already
	return where(why != "" && !said, "the need measured, %v N·m, is %v times the %v N·m predicted: %s", n.Measured, ratio, n.Predicted, why)
}
