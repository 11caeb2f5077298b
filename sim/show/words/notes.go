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
	few, differ := fewTurnsLeft(d), needsDiffer(d)
	notes.when(few != "", "%s", few)
	notes.when(n.Measured < n.Loads, "the need measured, %v N·m, is less than the %v N·m that the drags and loads of the scenario take alone; the train is judged by these", n.Measured, n.Loads)
	notes.when(d.Slowing[0] != "", "the arbor %q turns more slowly than %q, which drives it: are wheel and pinion swapped?", d.Slowing[0], d.Slowing[1])
	notes.when(differ != "", "%s", differ)
	off, less := n.LoadsOff, d.Verdict.LoadsOff
	notes.when(less != rules.Unjudged && off > 0, "the loads take %v N·m of the need; with all of them off the least reserve would be %v and the verdict%s",
		n.Used-off, d.Torque.Min/off, either(less == d.Verdict.Code, " the same", ": "+less.String()))
	const letOff = "while the loads that come and go are on, at the weakest turn, the "
	arc, least := s.LetOff, s.Amplitude.Min
	notes.when(arc == 0, letOff+"train does not keep the pendulum going: it is carried by its own swing until they are off, or stops")
	notes.when(arc != 0 && !math.IsNaN(arc), letOff+"pendulum would settle at a semi-arc of %.2f°%s", Degrees(arc), where(least > arc, " instead of %.2f°", Degrees(least)))
	notes.when(swinging, "over the run the drive moves the rate by %v s a day; regulated to its mean, the clock is never more than %v s out in this run for want of an even drive",
		(s.Rate.Max-s.Rate.Min)*escapement.SecondsPerDay, s.Wander)
	notes.when(d.Escapes && d.Quality < rules.RoughQuality, "with a Q of %v the arcs and rates here, averages over a period, are rough: \"evenpull beat\" follows the swing itself", d.Quality)
	notes.when(d.Computed, "the cone is computed, even for this very spring; one that is cut is less so")
	return notes
}

// fewTurnsLeft speaks of a spring that is wound too near to home.
func fewTurnsLeft(d *sim.Digest) string {
	left := d.Left()
	return where(!d.Faults.Has(sim.Binds) && !math.IsNaN(left) && !d.Advice.Spares(left), "%s", Spare(left, &d.Advice))
}

// Spare tells that too few turns are left, with the rule.
func Spare(left float64, a *rules.Advice) string {
	return say("only %v turns of the spring are to spare when the fusee is wound, and a real barrel gives up to a turn less than is computed, since coils do not pack perfectly: %v to spare are wanted (advice.turns_to_spare; common practice, no source)",
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
