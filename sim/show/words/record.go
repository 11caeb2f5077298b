package words

import (
	"fmt"
	"math"
	"strings"

	"evenpull/sim/bench/fit"
	"evenpull/sim/bench/measure"
	"evenpull/sim/bench/readings"
	"evenpull/sim/rules"
	"evenpull/sim/vary"
)

// HalfWidths tells what ± means beside what was measured.
const HalfWidths = "± is half the 95 % interval: scatter by Student's t, the meter's bound and step by rectangular distributions (JCGM 100)."

// RecordCautions are what to mind with the springs that were measured.
func RecordCautions(st *readings.Study) []string { return []string{Caution(st.Stored())} }

func newtons(v float64) string { return Figure(v) + " N·m" }

// NeedHead is what a train was found to need, in a line.
func NeedHead(n *measure.Need) string {
	b := &n.Bracket
	switch {
	case math.IsNaN(b.Least):
		return n.Train + " train needs more than " + newtons(b.Between.Lo)
	case !b.HasLower():
		return n.Train + " train needs at most " + newtons(b.Least)
	}
	return fmt.Sprintf("%s train needs %s at the winding square, between %s and %s", n.Train, newtons(b.Least), Figure(b.Between.Lo), Figure(b.Between.Hi))
}

// Trial is what a train did under a weight.
func Trial(n *measure.Need, t *measure.Trial) string {
	switch {
	case n.Cadence != nil && !t.Runs:
		return "does not strike"
	case !math.IsNaN(t.Interval):
		return Figure(t.Interval) + " s from blow to blow"
	case t.Runs:
		return "runs"
	}
	return "stops"
}

// Paces tell what torque strikes at each interval that is wanted.
func Paces(list []readings.Pace) []string {
	says := make([]string, len(list))
	for i, p := range list {
		how := "between trials"
		switch p.How {
		case measure.Extrapolated:
			how = "beyond the trials, on the fitted line"
		case measure.StopsBefore:
			how = "the least that strikes at all, and it strikes faster"
		}
		says[i] = fmt.Sprintf("to strike every %s s takes %s (%s)", Figure(p.Interval), newtons(p.Torque), how)
		if p.How == measure.Unknown {
			says[i] = fmt.Sprintf("what strikes every %s s the trials do not tell", Figure(p.Interval))
		}
	}
	return says
}

// SupplyHead is what a spring was found to give, in a line.
func SupplyHead(s *measure.Supply) string {
	half := ""
	if !math.IsNaN(s.Mean.HalfWidth) {
		half = " ± " + Figure(s.Mean.HalfWidth)
	}
	return fmt.Sprintf("spring %s in the %s train gives %s in the mean%s; unevenness %s", s.Spring, s.Train, newtons(s.Mean.Value), half, Percent(s.Unevenness))
}

// SupplySays tells of a spring, by its place in the study, what passes through
// line and fusee, and how the readings compare with the prediction.
func SupplySays(st *readings.Study, i int) []string {
	var list []string
	s, c := &st.Springs[i], st.Compared[i]
	if e := s.Efficiency; !math.IsNaN(e.Mean) {
		list = append(list, fmt.Sprintf("running down over winding up: %s of the torque passes one way", Percent(e.Mean)))
	}
	if c == nil {
		return list
	}
	line := fmt.Sprintf("against the prediction: %s of it in the mean; residuals %s", Percent(c.Ratio), left(c.RMS, c.ChiSquarePerDOF))
	if c.Meter > 0 {
		line += fmt.Sprintf("; of the meter's bound %s may be its standard part", Percent(c.Meter))
	}
	list = append(list, line)
	if r := c.Reserve; !math.IsNaN(r.Mean) {
		list = append(list, fmt.Sprintf("measured over the %s that the %s train needs by the scenario: mean %s, least %s", newtons(r.Need), s.Train, Two(r.Mean), Two(r.Min)))
	}
	return list
}

// left are residuals and χ², where that is known.
func left(rms, chi float64) string {
	s := newtons(rms) + " rms"
	if !math.IsNaN(chi) {
		s += ", χ² per degree of freedom " + Figure(chi)
	}
	return s
}

// NotPredicted tells why a spring is not compared with a prediction; "" where it
// is, or without a scenario.
func NotPredicted(st *readings.Study, i int) string { return why(st.Refused[i]) }

// why is vary.Why of an error; "" without one.
func why(err error) string {
	if err == nil {
		return ""
	}
	return vary.Why(err)
}

// ReadNotes are what is worth knowing of a spring's readings and of how they
// compare.
func ReadNotes(st *readings.Study, i int) []string {
	notes := told{}
	weighed := st.Differs(i)
	notes.when(!math.IsNaN(weighed), "the weights tell another need, %s; assign goes by that; to run with it, put it in the scenario as [train.demand] least_torque_nm", newtons(weighed))
	if c := st.Compared[i]; c != nil {
		lost := 0
		for k := range c.Points {
			if math.IsNaN(c.Points[k].Predicted) {
				lost++
			}
		}
		r := c.Ratio
		notes.when(math.IsNaN(r), "none of the readings is at a turn of the predicted run: nothing can be compared")
		notes.when(r > rules.WildRatio || r < 1/rules.WildRatio, "the readings are %s times what is predicted: look for a unit mistaken%s, another spring, or another train", Figure(r), unitMistaken(r))
		notes.when(lost > 0 && !math.IsNaN(r), "%d readings are at turns that the predicted run does not have: by prediction the spring binds before the fusee is wound, or the fusee has fewer turns", lost)
	}
	return append(notes, SupplyNotes(st.Springs[i].Supply)...)
}

// unitMistaken guesses the unit behind a wild ratio.
func unitMistaken(r float64) string {
	for _, k := range []struct {
		ratio float64
		says  string
	}{
		{1000, " (N·mm for N·m?)"}, {1e-3, " (kN·m, or a shift of the decimal point?)"}, {100, " (N·cm for N·m?)"},
		{10.197, " (kgf·cm for N·m, or a decimal point one place off?)"}, {0.10197, " (kgf·m for N·m, or a decimal point one place off?)"},
	} {
		if q := r / k.ratio; q > 0.6 && q < 1.6 {
			return k.says
		}
	}
	return ""
}

// FitHead is how the fit to the readings ended.
func FitHead(e *readings.Explanation) string {
	return fmt.Sprintf("what explains spring %s in the %s train: %s", e.Spring, e.Train, e.Status)
}

// FittedInput names a fitted input.
func FittedInput(e *readings.Explanation, i int) string {
	return Input(&e.Inputs[i].Quantity, e.Train)
}

// FitSays tells of the correlations of the inputs fitted, and what is left.
func FitSays(e *readings.Explanation) []string {
	var list []string
	for i := range e.Inputs {
		for j := range i {
			list = append(list, fmt.Sprintf("correlation of %s and %s: %s", FittedInput(e, j), FittedInput(e, i), Minus(fmt.Sprintf("%+.3f", e.Correlation[i][j]))))
		}
	}
	if !math.IsNaN(e.RMS) {
		list = append(list, "residuals left: "+left(e.RMS, e.ChiSquarePerDOF))
	}
	return list
}

// FitNotes are what is worth knowing about a fit.
func FitNotes(e *readings.Explanation) []string {
	notes := told{}
	// While winding the efficiencies divide the torque and the width does not.
	var scales []string
	for i := range e.Inputs {
		_, key, _ := strings.Cut(e.Inputs[i].Key, ".")
		if key == "mainspring.efficiency" || key == "line.efficiency" || key == "mainspring.width_mm" && !e.Winding {
			scales = append(scales, FittedInput(e, i))
		}
	}
	notes.when(e.Fault != nil, "the train cannot be run as the readings have it: %s", why(e.Fault))
	notes.when(len(scales) > 1, "%s only scale the torque: these readings cannot tell them apart; fit one of them at a time", strings.Join(scales, " and "))
	for _, p := range e.Apart {
		notes.when(true, "%s and %s can hardly be told apart from these readings: their correlation is %s", FittedInput(e, p.I), FittedInput(e, p.J), Minus(fmt.Sprintf("%+.3f", p.Correlation)))
	}
	for i := range e.Inputs {
		notes.when(e.Status == fit.AtBound && math.IsNaN(e.Inputs[i].StandardError), "%s ended at the end of its range: something else must explain the readings", FittedInput(e, i))
	}
	notes.when(e.ChiSquarePerDOF > rules.PoorFit, "what is left is %.1f times what scatter explains: the inputs fitted do not explain all", math.Sqrt(e.ChiSquarePerDOF))
	return notes
}
