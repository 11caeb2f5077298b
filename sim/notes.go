package sim

import (
	"fmt"
	"math"

	"evenpull/escapement"
	"evenpull/fusee"
)

// needsApart is the share by which measured and predicted need may differ
// before it is worth a word (common practice, no source).
const needsApart = 0.25

// Notes are what is worth knowing beside the verdict, in plain words.
func (r *Result) Notes() []string {
	notes := []string{}
	for _, look := range []func(*Result) string{
		(*Result).loadsAlone, (*Result).swappedWheels, (*Result).needsDiffer, (*Result).loadsMatter, (*Result).letOffTells, (*Result).swings, (*Result).roughAverages, (*Result).computedCone,
	} {
		if n := look(r); n != "" {
			notes = append(notes, n)
		}
	}
	return notes
}

// computedCone speaks of a cone that nobody has cut.
func (r *Result) computedCone() string {
	if r.Train.Drive.Cone.Shape == fusee.Cut {
		return ""
	}
	return "the cone is computed, even for this very spring; one that is cut is less so"
}

func (r *Result) loadsAlone() string {
	if n := r.Need; n.Measured < n.Loads {
		return fmt.Sprintf("the need measured, %s N·m, is less than the %s N·m that the drags and loads of the scenario take alone; the train is judged by these",
			Figure(n.Measured), Figure(n.Loads))
	}
	return ""
}

// swappedWheels speaks of a mesh that slows its train down.
func (r *Result) swappedWheels() string {
	for i := 1; i < len(r.Train.Arbors); i++ {
		if r.Train.Wheels.Speed(i) < r.Train.Wheels.Speed(i-1) {
			return fmt.Sprintf("the arbor %q turns more slowly than %q, which drives it: are wheel and pinion swapped?", r.Train.Arbors[i], r.Train.Arbors[i-1])
		}
	}
	return ""
}

// needsDiffer speaks when bench and prediction disagree, and of what usually
// explains it (common practice, no source).
func (r *Result) needsDiffer() string {
	more := "worn or dry pivots, dirt, worn pallets or a bent tooth take torque that the scenario does not know; or the decay was measured too well, with the pendulum on another stand"
	less := "the decay may have been measured with the escapement engaged, which makes the pendulum look worse than it is; or margin, drop or efficiencies are too pessimistic; or the trial was too short for the train to stop"
	if r.Train.Strikes {
		more = "worn or dry pivots, dirt, stiff hammer tails or a hammer spring set too strong take torque that the scenario does not know"
		less = "hammers, lift or springs may be less than the scenario says, or the trial was made with the train already going; blows and stalls here are predictions"
	}
	measured, predicted := r.Need.Measured, r.Need.Predicted
	text := fmt.Sprintf("the need measured, %s N·m, is %s times the %s N·m predicted: ", Figure(measured), Figure(measured/predicted), Figure(predicted))
	switch ratio := measured / predicted; {
	case measured < r.Need.Loads:
		return "" // said already
	case ratio > 1+needsApart:
		return text + more
	case ratio < 1/(1+needsApart):
		return text + less
	}
	return ""
}

func (r *Result) loadsMatter() string {
	if r.Verdict.LoadsOff == Unjudged || r.Need.LoadsOff <= 0 {
		return ""
	}
	what := "the loads take"
	if r.Verdict.LoadsOff == r.Verdict.Code {
		return fmt.Sprintf("%s %s N·m of the need; with all of them off the least reserve would be %s and the verdict the same",
			what, Figure(r.Need.Used-r.Need.LoadsOff), Figure(r.Torque.Min/r.Need.LoadsOff))
	}
	return fmt.Sprintf("%s %s N·m of the need; with all of them off the least reserve would be %s and the verdict: %s",
		what, Figure(r.Need.Used-r.Need.LoadsOff), Figure(r.Torque.Min/r.Need.LoadsOff), r.Verdict.LoadsOff)
}

func (r *Result) letOffTells() string {
	arc := r.Swing.LetOff
	switch {
	case math.IsNaN(arc):
		return ""
	case arc == 0:
		return "while the loads that come and go are on, at the weakest turn, the train does not keep the pendulum going: it lives on its swing until they are off, or stops"
	}
	text := fmt.Sprintf("while the loads that come and go are on, at the weakest turn, the pendulum would settle at a semi-arc of %.2f°", Degrees(arc))
	if least := r.Swing.Amplitude.Min; least > arc {
		text += fmt.Sprintf(" instead of %.2f°", Degrees(least))
	}
	return text
}

func (r *Result) swings() string {
	s := r.Swing
	if math.IsNaN(s.Rate.Mean) {
		return ""
	}
	return fmt.Sprintf("over the run the drive moves the rate by %s s a day; regulated to its mean, the clock is never more than %s s out in this run for want of an even drive",
		Figure((s.Rate.Max-s.Rate.Min)*escapement.SecondsPerDay), Figure(s.Wander))
}

// roughQuality is the quality below which the averages are out by more than a
// hundredth.
const roughQuality = 40

func (r *Result) roughAverages() string {
	if q := r.Train.Pendulum.Quality; r.Train.Escapes && q < roughQuality {
		return fmt.Sprintf("with a Q of %s the arcs and rates here, averages over a period, are rough: \"evenpull beat\" follows the swing itself", Figure(q))
	}
	return ""
}
