package words

import (
	"math"
	"strconv"
	"strings"

	"evenpull/sim/study/plan"
)

// PlanHead is which readings to take, and what they tell; before it, where what was asked for
// is out of reach, what it takes.
func PlanHead(st *plan.Study) string {
	return st.Train + " train: " + planMissed(st) + PlanReads(st) + ": " + PlanTells(st, &st.Plan)
}

func planMissed(st *plan.Study) string {
	o, wanted := &st.Options, ""
	switch {
	case st.Reached():
	case !math.IsNaN(o.Error):
		wanted = say("to know %s to %.4g %%", planInput(st), 100*o.Error)
	case !math.IsNaN(o.Power):
		wanted = say("to tell the springs apart in %.4g of 100 experiments", 100*o.Power)
	}
	return where(wanted != "" && st.Needed > 0, "%s takes %s; ", wanted, runDowns(st.Needed)) +
		where(wanted != "" && st.Needed == 0, "no number of run-downs is enough %s; ", wanted)
}

// PlanReads is which readings to take.
func PlanReads(st *plan.Study) string {
	both := st.For == nil
	return "read " + where(both, "both springs at ") + planTurns(st.Plan.Turns) + " in " + runDowns(st.Plan.Repeats) + where(both, " of each")
}

// PlanTells is how well a plan tells what is asked.
func PlanTells(st *plan.Study, p *plan.Plan) string {
	if st.For == nil {
		return Either(math.IsNaN(p.Power), "that does not tell them apart, since nothing tells how run-downs differ", ofHundred(ofPower(p.Power))+" such experiments tell them apart")
	}
	return planInput(st) + " is then known to " + planError(st, p.StandardError) + where(st.Value != 0, " (%s)", united(About(p.StandardError), st.For.Unit)) + ", one standard error, were all else known exactly"
}

// ofPower is a share of experiments, of which nobody makes so many that all are sure.
func ofPower(power float64) float64 { return math.Min(power, 0.999) }

func planInput(st *plan.Study) string { return "the " + Input(st.For.Words, st.Train) }

// planError is a standard error as people read it: in percent where the input is not 0.
func planError(st *plan.Study, v float64) string {
	if st.Value == 0 {
		return united(About(v), st.For.Unit)
	}
	return Percent(v / math.Abs(st.Value))
}

func runDowns(n int) string { return Count(n, "run-down") }

// planTurns are turns in a sentence.
func planTurns(turns []int) string { return Either(len(turns) == 1, "turn ", "turns ") + PlanAt(turns) }

// PlanAt are turns, of which three and more in a row are told by the first and the last.
func PlanAt(turns []int) string {
	var things []string
	for i := 0; i < len(turns); {
		k := i
		for k+1 < len(turns) && turns[k+1] == turns[k]+1 {
			k++
		}
		if k < i+2 {
			k = i
		}
		things = append(things, strconv.Itoa(turns[i])+where(k > i, " to %d", turns[k]))
		i = k + 1
	}
	return listed(things)
}

// PlanSays are what else the plan comes to, and what it goes by.
func PlanSays(st *plan.Study) []string {
	says := told{"turns count from fully wound, 0; the square is read at each as it runs down"}
	if len(st.Plan.Turns) < len(st.Whole.Turns) {
		says.add("every turn, read as often: %s", planWhole(st))
	}
	if st.For == nil {
		says.add("the mean run-down of each is compared, by how this spring differs from the other turn by turn (%s), with Student's t at 5 %%", st.Against)
	} else {
		says = append(says, planFit(st)...)
	}
	says.add("%s", planLaw(st))
	return says
}

func planWhole(st *plan.Study) string {
	if st.For == nil {
		return PlanTells(st, &st.Whole)
	}
	return planError(st, st.Whole.StandardError)
}

// planFit tells what the fit makes of the readings.
func planFit(st *plan.Study) (says told) {
	p := &st.Plan
	says.when(st.Reached() && st.Needed < p.Repeats, "%s would do for that error, yet three at least are planned: fewer do not show how run-downs differ", runDowns(st.Needed))
	says.when(p.FromMeter > 0, "the meter's own error makes %s of it, which no repeat lessens", planError(st, p.FromMeter))
	says.add("it is the error of \"record --fit %s\", with every other input as the scenario has it; what those are off comes on top", st.For.Key)
	says.when(!math.IsNaN(p.HalfWidth), "the range that it then tells, nineteen times in twenty, is about ± %s%s", united(About(p.HalfWidth), st.For.Unit),
		where(p.Repeats < 5, ": so few run-downs hardly tell how they differ"))
	return says
}

// planLaw is how readings are taken to err.
func planLaw(st *plan.Study) string {
	law, usual := &st.Options.Law, plan.Usual()
	return say("taken for granted: readings scatter by %.4g %% of the torque within a run-down, run-downs differ as wholes by %.4g %%", 100*law.Scatter, 100*law.Offset) +
		where(law.Scatter == usual.Scatter && law.Offset == usual.Offset, " (common practice, no source)") + "; " +
		Either(st.For == nil, "one meter reads both, so that its bound drops out", say("the meter is off by %.4g %% at most", 100*law.MeterRelative)) +
		Either(law.MeterResolution > 0, say(", and reads in steps of %v N·m", law.MeterResolution), "; its step is left out")
}

// PlanWarns are what the plan does not tell.
func PlanWarns(st *plan.Study) []string {
	var says told
	p := &st.Plan
	says.when(p.Repeats == 1, "one run-down does not tell how run-downs differ: record then knows no honest range; make three")
	says.when(st.For != nil && len(p.Turns) == 1, "readings at one turn do not tell whether the rest is as predicted: read every turn once besides")
	says.when(p.Repeats > manyRepeats, "so many run-downs wear the clock and the reader: a better meter, or another way to measure it, costs less")
	return says
}

// manyRepeats is the number of run-downs above which that is said (common practice, no source).
const manyRepeats = 10

// PlanBook tells how the readings are written down.
func PlanBook(st *plan.Study) string {
	fewer := len(st.Plan.Turns) < len(st.Whole.Turns)
	return "In the bench file each run-down is one list of running_down" + where(fewer, ", from turn 0 (first_turn = 0) on, with \"-\" for a turn that is not read") + "; see evenpull help bench."
}

// PlanTable tells what the table below the plan is.
func PlanTable(st *plan.Study) string {
	what := "Told apart, of 100 experiments"
	if st.For != nil {
		what = "Standard error, " + Either(st.Value == 0, st.For.Unit, "%")
	}
	return what + ", by turns read and run-downs:"
}

// PlanCell is what a plan comes to, in the table that PlanTable tells of.
func PlanCell(st *plan.Study, p *plan.Plan) string {
	switch {
	case st.For == nil && math.IsNaN(p.Power):
		return "–"
	case st.For == nil:
		return strings.TrimSuffix(inHundred(ofPower(p.Power)), " in 100")
	case st.Value == 0:
		return Figure(p.StandardError)
	}
	return Share(p.StandardError / math.Abs(st.Value))
}

// PlanCautions are what to mind where springs are wound and let down so often.
func PlanCautions(st *plan.Study) []string {
	return []string{Caution(st.Own.Spring.Stored) + " Each run-down is wound and let down by hand at the square: look at click and line first; the spring drives the meter's arm, so never let it go."}
}

// FoundPlan is the sentence above its picture.
func FoundPlan(st *plan.Study) string { return PlanHead(st) }

// PlanSlope is what PlanMoves is.
func PlanSlope(st *plan.Study) string {
	return Either(st.For == nil, "more than the other", Either(st.Value == 0, "more for 1 of it", "more for 1 % of it"))
}

// PlanMoves is how far the torque at a turn moves (N·m): with 1 % more of the input, or with
// the other spring.
func PlanMoves(st *plan.Study, t *plan.Turn) float64 {
	if st.For == nil || st.Value == 0 {
		return t.Slope
	}
	return t.Slope * math.Abs(st.Value) / 100
}
