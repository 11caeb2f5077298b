package words

import (
	"cmp"
	"math"

	"evenpull/escapement"
	"evenpull/sim"
	"evenpull/sim/rules"
)

// Notes are what is worth knowing beside the verdict, in plain words.
func Notes(d *sim.Digest) []string {
	n, s, swinging := d.Need, d.Swing, !math.IsNaN(d.Swing.Rate.Mean)
	notes := told{}
	add := func(note string) { notes.when(note != "", "%s", note) }
	add(fewTurnsLeft(d))
	notes.when(n.Measured < n.Loads, "the need measured, %v N·m, is less than the %v N·m that the drags and loads of the scenario take alone; the train is judged by these", n.Measured, n.Loads)
	notes.when(d.Slowing[0] != "", "the arbor %q turns more slowly than %q, which drives it: are wheel and pinion swapped?", d.Slowing[0], d.Slowing[1])
	add(needsDiffer(d))
	add(loadsMatter(d))
	add(letOffTells(d))
	notes.when(swinging, "over the run the drive moves the rate by %v s a day; regulated to its mean, the clock is never more than %v s out in this run for want of an even drive",
		(s.Rate.Max-s.Rate.Min)*escapement.SecondsPerDay, s.Wander)
	notes.when(d.Escapes && d.Quality < rules.RoughQuality, "with a Q of %v the arcs and rates here, averages over a period, are rough: \"evenpull beat\" follows the swing itself", d.Quality)
	notes.when(d.Computed, "the cone is computed, even for this very spring; one that is cut is less so")
	return notes
}

// fewTurnsLeft speaks of a spring that is wound too near to home.
func fewTurnsLeft(d *sim.Digest) string {
	left := d.Spare()
	return where(!d.Faults.Has(sim.Binds) && !math.IsNaN(left) && !d.Advice.Spares(left), "%s", Spare(left, &d.Advice))
}

// Spare tells that too few turns are left, with the rule.
func Spare(left float64, a *rules.Advice) string {
	return say("only %v turns of the spring are to spare when the fusee is wound, and %v are wanted of those that it has ideally packed or counted (advice.turns_to_spare; common practice, no source)",
		left, a.TurnsToSpare)
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

func loadsMatter(d *sim.Digest) string {
	off, verdict := d.Need.LoadsOff, d.Verdict.LoadsOff
	then := either(verdict == d.Verdict.Code, " the same", ": "+verdict.String())
	return where(verdict != rules.Unjudged && off > 0, "the loads take %v N·m of the need; with all of them off the least reserve would be %v and the verdict%s",
		d.Need.Used-off, d.Torque.Min/off, then)
}

func letOffTells(d *sim.Digest) string {
	const when = "while the loads that come and go are on, at the weakest turn, the "
	arc, least := d.Swing.LetOff, d.Swing.Amplitude.Min
	if arc == 0 {
		return when + "train does not keep the pendulum going: it is carried by its own swing until they are off, or stops"
	}
	return where(!math.IsNaN(arc), when+"pendulum would settle at a semi-arc of %.2f°%s", Degrees(arc), where(least > arc, " instead of %.2f°", Degrees(least)))
}
