package words

import (
	"cmp"
	"math"
	"strings"

	"evenpull/sim/bench/fit"
	"evenpull/sim/bench/measure"
	"evenpull/sim/bench/readings"
	"evenpull/sim/rules"
)

// HalfWidths tells what ± means beside what was measured.
const HalfWidths = "Scatter: how far a reading typically is off the mean. Nineteen times in twenty the true figure lies within ± of the mean: scatter by Student's t, the meter's bound and step by rectangular distributions (JCGM 100). Run-downs differ as wholes: in the mean, and in what is fitted, it is they that scatter, as a share of the torque, over all that one meter read."

// RecordCautions are what to mind with the springs that were measured.
func RecordCautions(st *readings.Study) []string { return []string{Caution(st.Stored())} }

// Paces tell what torque strikes at each interval that is wanted.
func Paces(list []readings.Pace) []string {
	how := map[measure.How]string{
		measure.Interpolated: "between trials",
		measure.Extrapolated: "beyond the trials, on the fitted line",
		measure.StopsBefore:  "the least that strikes at all, and it strikes faster",
	}
	var says told
	for _, p := range list {
		says.when(p.How == measure.Unknown, "what strikes every %v s the trials do not tell", p.Interval)
		says.when(p.How != measure.Unknown, "to strike every %v s takes %v N·m (%s)", p.Interval, p.Torque, how[p.How])
	}
	return says
}

// SupplySays tells of a spring, by its place in the study, what unevenness scatter
// would show, what passes through line and fusee, and how the readings compare with the prediction.
func SupplySays(st *readings.Study, i int) []string {
	var says told
	s, c := &st.Springs[i], st.Compared[i]
	passes := s.Efficiency.Mean
	says.when(s.ByScatter > 0, "a perfectly even pull would read as uneven by about %s, by scatter alone", Percent(s.ByScatter))
	says.when(!math.IsNaN(passes), "running down over winding up: %s of the torque passes one way, if all losses go with the pull", Percent(passes))
	if c == nil {
		return says
	}
	says.add("against the prediction: %s of it in the mean, typically %s%s", Percent(c.Ratio), left(c.RMS, c.ChiSquarePerDOF),
		where(c.Meter > 0, "; the meter alone is typically off by %s", Percent(c.Meter)))
	r := c.Reserve
	says.when(!math.IsNaN(r.Mean), "measured over the %v N·m that the %s train needs: mean %s, least %s", r.Need, s.Train, Two(r.Mean), Two(r.Min))
	return says
}

// left are residuals, and how many times they are what scatter makes, where that is known.
func left(rms, chi float64) string {
	return About(rms) + " N·m apart" + where(!math.IsNaN(chi), ", %s times what scatter explains", About(math.Sqrt(chi)))
}

// ReadNotes are what is worth knowing of a spring's readings and how they compare.
func ReadNotes(st *readings.Study, i int) []string {
	notes := told{}
	if c := st.Compared[i]; c != nil {
		r, lost, mistaken := c.Ratio, c.Lost(), ""
		for ratio, unit := range map[float64]string{
			1000: " (N·mm for N·m?)", 1e-3: " (kN·m, or a shift of the decimal point?)", 100: " (N·cm for N·m?)",
			10.197: " (kgf·cm for N·m, or a decimal point one place off?)", 0.10197: " (kgf·m for N·m, or a decimal point one place off?)",
		} {
			mistaken += where(r/ratio > 0.6 && r/ratio < 1.6, "%s", unit)
		}
		notes.when(math.IsNaN(r), "none of the readings is at a turn of the predicted run: nothing can be compared")
		notes.when(r > rules.WildRatio || r < 1/rules.WildRatio, "the readings are %v times what is predicted: look for a unit mistaken%s, another spring, or another train", r, mistaken)
		notes.when(lost > 0 && !math.IsNaN(r), "%d readings are at turns that the predicted run does not have: by prediction the spring binds before the fusee is wound, or the fusee has fewer turns", lost)
	}
	t := &st.Book.Torques[i]
	notes.when(t.StepAssumed && t.MeterResolutionNM > 0, "the meter's step is not said (meter_resolution_nm): assumed to be the last digit that was written, %v N·m", t.MeterResolutionNM)
	return append(notes, SupplyNotes(st.Springs[i].Supply)...)
}

// FitHead is how the fit to the readings ended.
func FitHead(e *readings.Explanation) string {
	return say("what explains spring %s in the %s train: %s", e.Spring, e.Train, map[fit.Status]string{
		fit.Converged: "the figures that fit best", fit.AtBound: "the best fit lies at the end of a range", fit.NotConverged: "no best fit was found",
		fit.Singular: "these readings cannot tell the inputs apart", fit.Failed: "the train cannot be run so",
	}[e.Status])
}

// FittedInput names a fitted input.
func FittedInput(e *readings.Explanation, i int) string { return Input(e.Inputs[i].Words, e.Train) }

// FitSays tells how the errors of the inputs fitted go together, and what is left.
func FitSays(e *readings.Explanation) []string {
	var says told
	for i := range e.Inputs {
		for j := range i {
			says.add("an error of %s %s with one of %s: %s, where 0 is not at all and 1 wholly", FittedInput(e, j), goesWith(e.Correlation[i][j]), FittedInput(e, i), Signed(e.Correlation[i][j], 3))
		}
	}
	says.when(e.FromRuns, "errors by how far run-downs differ as wholes, of which there are %s, and by the meter", Count(e.Freedom, "repeat"))
	says.when(!math.IsNaN(e.RMS), "readings and fit are typically %s", left(e.RMS, e.ChiSquarePerDOF))
	return says
}

// goesWith tells in words how far two errors go together, by their correlation.
func goesWith(r float64) string {
	const little, much = 0.3, 0.7
	return cmp.Or(where(math.Abs(r) < little, "hardly goes"), where(math.Abs(r) < much, "partly goes"), "goes")
}

// FitNotes are what is worth knowing about a fit.
func FitNotes(e *readings.Explanation) []string {
	notes := told{}
	// While winding the efficiencies divide the torque and the width does not.
	var scales []string
	var ended told
	for i := range e.Inputs {
		atEnd := e.Status == fit.AtBound && math.IsNaN(e.Inputs[i].StandardError)
		ended.when(atEnd, "%s ended at the end of its range: something else must explain the readings", FittedInput(e, i))
		_, key, _ := strings.Cut(e.Inputs[i].Key, ".")
		if key == "mainspring.efficiency" || key == "line.efficiency" || key == "mainspring.width_mm" && !e.Winding {
			scales = append(scales, FittedInput(e, i))
		}
	}
	notes.when(e.Fault != nil, "the train cannot be run as the readings have it: %s", Why(e.Fault))
	notes.when(len(scales) > 1, "%s only scale the torque: these readings cannot tell them apart; fit one of them at a time", strings.Join(scales, " and "))
	for _, p := range e.Apart {
		notes.add("%s and %s can hardly be told apart from these readings: their errors go together to %s of 1", FittedInput(e, p.I), FittedInput(e, p.J), Signed(p.Correlation, 3))
	}
	notes = append(notes, ended...)
	notes.when(!e.FromRuns && e.Freedom > 0, "no run-down was repeated, or all read the same: the errors are by what the fit leaves, know nothing of how far run-downs differ as wholes, and are too small; repeat the readings at least twice more")
	notes.when(e.FromRuns && e.Freedom == 1, "with one repeat the ranges are wide: a third run-down would divide them by about three")
	notes.when(e.FromRuns && e.Freedom < len(e.Inputs), "so few run-downs do not tell how the errors go together")
	notes.when(e.ChiSquarePerDOF > rules.PoorFit, "what is left is %.1f times what scatter explains: the inputs fitted do not explain all", math.Sqrt(e.ChiSquarePerDOF))
	return notes
}
