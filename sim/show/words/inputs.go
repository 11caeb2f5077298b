package words

import (
	"cmp"
	"math"

	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/study/rank"
	"evenpull/sim/study/shares"
	"evenpull/sim/study/spread"
	"evenpull/sim/vary"
)

// SpreadHead tells in what share of the runs the verdict stands.
func SpreadHead(st *spread.Study, shown func(rules.Code) string) string {
	s, own := st.Own.Name+" train, "+Count(st.Runs, "run")+": ", st.Own.Verdict.Code
	if st.Built() == 0 {
		return s + "none of them can be built"
	}
	return say("%s%s in %s of them, as it does with every value as it is", s, shown(own), ofRuns(st.Share(own)))
}

// SpreadSays lists the other verdicts, each with its share of the runs.
func SpreadSays(st *spread.Study) []string {
	var says told
	for c := range rules.Overdriven + 1 {
		says.when(st.Verdicts[c] > 0 && c != st.Own.Verdict.Code, "it %s in %s", Does(c), ofRuns(st.Share(c)))
	}
	return says
}

// ofRuns is a share of the runs in percent, rare ones not rounded to nothing.
func ofRuns(share float64) string {
	return cmp.Or(
		where(share == 1, "all"),
		where(share > 0.999, "more than 99.9 %%"),
		where(share > 0 && share < 0.001, "less than 0.1 %%"),
		say("%.1f %%", 100*share))
}

// SpreadWarns tells of a study that was stopped, of runs that cannot be built, and of
// inputs that act together on the first result.
func SpreadWarns(st *spread.Study) []string {
	var says told
	says.when(st.Stopped(), "stopped early: %d of the %d runs were done; these figures are theirs", st.Runs, st.Asked)
	says.when(st.Failed > 0, "%s (%s) cannot be built and are left out of every figure",
		Count(st.Failed, "run"), ofRuns(float64(st.Failed)/float64(st.Runs)))
	for _, f := range st.Failures {
		says.add("%d of them, such as: %s", f.Runs, f.Why)
	}
	if len(st.Results) > 0 {
		says = append(says, Together(st.Own.Name, &st.Results[0].Of.Quantity, st.Shares)...)
	}
	return says
}

// Together warns where the inputs of a train act together on a result, naming the one that
// has most of its variance only so, and of pairs of runs left out; nothing without shares.
func Together(train string, q *outcome.Quantity, r *shares.Result) (says told) {
	if r == nil {
		return nil
	}
	var most shares.Input
	for _, in := range r.Inputs {
		if rules.ActTogether(in.Joint.Value, in.Joint.Error) && in.Joint.Value > most.Joint.Value {
			most = in
		}
	}
	all := rules.ActTogether(r.Joint.Value, r.Joint.Error)
	one := most.Words != ""
	says.when(all || one, "inputs act together: of how far the %s may be off%s%s%s%s; go by what each has in all", q.Words,
		where(all, ", %s is no input's doing alone", OfVariance(r.Joint)), where(all && one, ", and"), where(one && !all, ","),
		where(one, " the %s makes %s alone and %s in all, together with others", Input(most.Words, train), OfVariance(most.First), OfVariance(most.Total)))
	says.when(r.Failed > 0, "%s of the pairs of runs compared for the shares cannot be built and are left out of them", ofRuns(float64(r.Failed)/float64(r.Pairs)))
	return says
}

// OfVariance is a share of a variance with its standard error, where that shows.
func OfVariance(e shares.Estimate) string {
	shows := e.Error > 0.005
	return cmp.Or(
		where(math.IsNaN(e.Value), "–"),
		where(e.Value < 0.005 && !shows, "< 1 %%"),
		say("%.0f", 100*max(e.Value, 0))+where(shows, " ± %.0f", 100*e.Error)+" %")
}

// ShareAndError is a share of a variance with its standard error, which is rounded up to a
// tenth of a percent, or a whole one (JCGM 100, 7.2.6, allows for that).
func ShareAndError(e shares.Estimate) string {
	if math.IsNaN(e.Value) || e.Value < 0.005 && e.Error <= 0.005 {
		return OfVariance(e)
	}
	decimals := 1
	if e.Error > 0.009 {
		decimals = 0
	}
	tens := math.Pow10(decimals)
	return say("%.*f ± %.*f %%", decimals, 100*max(e.Value, 0), decimals, max(math.Ceil(100*e.Error*tens-1e-9), 1)/tens)
}

// sharesMethod tells what the shares are.
const sharesMethod = " Alone and in all are shares of the variance of the result: what is an input's own doing (first-order share), and with what it does together with others (total-order share), each with its standard error from 0.5 %% up; by the estimators of Saltelli and of Jansen over eight scrambles of 512 Sobol' points, or of 2048 for an input whose standard error is else above 0.3 %%."

// Off is how far a value may be off.
func Off(e scenario.ReadingError, unit string) string {
	return cmp.Or(
		where(e.Hi > e.Lo, "%.4g to %.4g", e.Lo, e.Hi),
		where(e.Times > 1, "a factor of %.3g", e.Times),
		Either(e.Percent > 0, say("± %.4g %%", e.Percent), united(say("± %.4g", e.PlusMinus), unit))) +
		where(e.Uniform, " at most")
}

// Drawn is the value of an input that was drawn; of several how many they are.
func Drawn(in *spread.Input) string {
	return Either(len(in.Parts) == 1, say("%.6g", in.Parts[0].Value), Count(len(in.Parts), "value"))
}

// DrawnBy tells where the error of an input is from.
func DrawnBy(in *spread.Input) string {
	return Either(in.Tolerated, "tolerance", Either(in.Assumed, "assumed", "usual error"))
}

// SpreadMethod tells how the figures came about, and how good they are.
func SpreadMethod(st *spread.Study) string {
	s := "Each input is drawn within its tolerance or, where it has none, the usual error of such a reading or of what is assumed (common practice, no source): plus or minus is two standard deviations, where at most is said nothing lies beyond, and all within is as likely; from one value to another all between are as likely. What was observed stays: of coils lying free, turns counted or a timed strike, what they tell is inferred anew." +
		where(st.Hold == vary.Fill, " The strip is cut each time so that it fills the barrel as before.") +
		where(st.Shares != nil, sharesMethod)
	if len(st.Results) > 0 && st.Results[0].N() > 1 {
		d := &st.Results[0]
		s += where(d.Fineness() > 0, " The values below which so many runs lie are good to %s.", Valued(&d.Of.Quantity, d.Fineness()))
	}
	return s + say(" With --seed %d all is drawn the same again.", st.Seed)
}

// RankHead is what the result is that inputs are ranked by.
func RankHead(st *rank.Study, r *rank.Ranking) string {
	return say("%s train: the %s is %s", st.Own.Name, r.Of.Words, Valued(&r.Of.Quantity, r.Value))
}

// RankBy is what the inputs are ranked by, to follow RankHead.
func RankBy(st *rank.Study) string {
	return "; what " + Either(st.Total, "makes most of how far it may be off", "moves it most")
}

// RankMethod tells what the columns of a ranking are.
func RankMethod(st *rank.Study) string {
	return "The inputs stand in the order of " + Either(st.Total, "what each makes in all of how far the result may be off. Each is moved by ", "what moving them does: each by ") + Either(st.Alike, say("%.4g %%", 100*st.Change),
		say("its tolerance or, where it has none, its usual reading error, what is taken as exact by %.4g %%; what was observed stays", 100*st.Change)) +
		". By 1 %: how many % the result changes for 1 % more of the input. Whole numbers, such as teeth, are left out." +
		where(st.Rankings[0].Shares != nil, sharesMethod)
}

// RankMoved is by how much an input is moved.
func RankMoved(in *rank.Input) string {
	e := in.Error
	e.Uniform = false // to its ends, whatever its shape
	return Off(e, in.Quantity.Unit)
}

// RankElasticity is the power with which the result goes, with its error if that shows.
func RankElasticity(in *rank.Input) string {
	e := in.Elasticity
	return Either(math.IsNaN(e.Value), "–", Signed(e.Value, 3)+where(e.Error > 0.0005, " ± %v", e.Error))
}

// RankBrief tells in short what the columns of a ranking are.
func RankBrief(st *rank.Study) string {
	return "Each input is moved " + Either(st.Alike, say("by %.4g %%", 100*st.Change), "as far as it may be off") +
		Either(st.Rankings[0].Shares != nil, "; in all: how much of what the result may be off is its doing, alone and together with others", "") + Either(st.Total, ", with its standard error", "") + "; --full tells all"
}

// SpreadBrief tells in short how the figures came about.
func SpreadBrief(st *spread.Study) string {
	return "In each run every input is a little off, within its tolerance or, where it has none, as it is usually read. Strays: how far off the mean a run typically is; half of the runs lie below the figure so headed, and 95 % between the last two" +
		where(st.Shares != nil, "; in all: how much of what the %s may be off is its doing", st.Results[0].Of.Words) + "; --full tells all"
}
