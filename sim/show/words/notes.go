package words

import (
	"fmt"
	"math"

	"evenpull/escapement"
	"evenpull/sim"
	"evenpull/sim/rules"
)

// Notes are what is worth knowing beside the verdict, in plain words.
func Notes(d *sim.Digest) []string {
	notes := []string{}
	for _, look := range []func(*sim.Digest) string{
		fewTurnsLeft, loadsAlone, swappedWheels, needsDiffer, loadsMatter, letOffTells, swings, roughAverages, computedCone,
	} {
		if n := look(d); n != "" {
			notes = append(notes, n)
		}
	}
	return notes
}

// computedCone speaks of a cone that nobody has cut.
func computedCone(d *sim.Digest) string {
	if !d.Computed {
		return ""
	}
	return "the cone is computed, even for this very spring; one that is cut is less so"
}

func loadsAlone(d *sim.Digest) string {
	if n := d.Need; n.Measured < n.Loads {
		return fmt.Sprintf("the need measured, %s N·m, is less than the %s N·m that the drags and loads of the scenario take alone; the train is judged by these",
			Figure(n.Measured), Figure(n.Loads))
	}
	return ""
}

// swappedWheels speaks of a mesh that slows its train down.
func swappedWheels(d *sim.Digest) string {
	if d.Slowing[0] == "" {
		return ""
	}
	return fmt.Sprintf("the arbor %q turns more slowly than %q, which drives it: are wheel and pinion swapped?", d.Slowing[0], d.Slowing[1])
}

// fewTurnsLeft speaks of a spring that is wound too near to home.
func fewTurnsLeft(d *sim.Digest) string {
	left := d.Spare()
	if math.IsNaN(left) || d.Faults.Has(sim.Binds) || d.Advice.Spares(left) {
		return ""
	}
	return Spare(left, &d.Advice)
}

// Spare tells that too few turns are left, with the rule.
func Spare(left float64, a *rules.Advice) string {
	return fmt.Sprintf("only %s turns of the spring are to spare when the fusee is wound, %s are wanted (advice.turns_to_spare; common practice, no source)",
		Figure(left), Figure(a.TurnsToSpare))
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
	measured, predicted := d.Need.Measured, d.Need.Predicted
	text := fmt.Sprintf("the need measured, %s N·m, is %s times the %s N·m predicted: ", Figure(measured), Figure(measured/predicted), Figure(predicted))
	switch ratio := measured / predicted; {
	case measured < d.Need.Loads:
		return "" // said already
	case ratio > 1+rules.NeedsApart:
		return text + more
	case ratio < 1/(1+rules.NeedsApart):
		return text + less
	}
	return ""
}

func loadsMatter(d *sim.Digest) string {
	if d.Verdict.LoadsOff == rules.Unjudged || d.Need.LoadsOff <= 0 {
		return ""
	}
	what := "the loads take"
	if d.Verdict.LoadsOff == d.Verdict.Code {
		return fmt.Sprintf("%s %s N·m of the need; with all of them off the least reserve would be %s and the verdict the same",
			what, Figure(d.Need.Used-d.Need.LoadsOff), Figure(d.Torque.Min/d.Need.LoadsOff))
	}
	return fmt.Sprintf("%s %s N·m of the need; with all of them off the least reserve would be %s and the verdict: %s",
		what, Figure(d.Need.Used-d.Need.LoadsOff), Figure(d.Torque.Min/d.Need.LoadsOff), d.Verdict.LoadsOff)
}

func letOffTells(d *sim.Digest) string {
	arc := d.Swing.LetOff
	switch {
	case math.IsNaN(arc):
		return ""
	case arc == 0:
		return "while the loads that come and go are on, at the weakest turn, the train does not keep the pendulum going: it is carried by its own swing until they are off, or stops"
	}
	text := fmt.Sprintf("while the loads that come and go are on, at the weakest turn, the pendulum would settle at a semi-arc of %.2f°", Degrees(arc))
	if least := d.Swing.Amplitude.Min; least > arc {
		text += fmt.Sprintf(" instead of %.2f°", Degrees(least))
	}
	return text
}

func swings(d *sim.Digest) string {
	s := d.Swing
	if math.IsNaN(s.Rate.Mean) {
		return ""
	}
	return fmt.Sprintf("over the run the drive moves the rate by %s s a day; regulated to its mean, the clock is never more than %s s out in this run for want of an even drive",
		Figure((s.Rate.Max-s.Rate.Min)*escapement.SecondsPerDay), Figure(s.Wander))
}

func roughAverages(d *sim.Digest) string {
	if q := d.Quality; d.Escapes && q < rules.RoughQuality {
		return fmt.Sprintf("with a Q of %s the arcs and rates here, averages over a period, are rough: \"evenpull beat\" follows the swing itself", Figure(q))
	}
	return ""
}

// Degrees is an angle in rad as degrees.
func Degrees(rad float64) float64 { return rad * 180 / math.Pi }
