package words

import (
	"cmp"
	"math"

	"evenpull/sim/rules"
	"evenpull/sim/study/rank"
	"evenpull/sim/study/spread"
	"evenpull/sim/vary"
)

// SpreadHead tells in what share of the runs the verdict stands.
func SpreadHead(st *spread.Study, shown func(rules.Code) string) string {
	s, own := st.Own.Name+" train, "+Count(st.Runs, "run")+": ", st.Own.Verdict.Code
	if st.Built() == 0 {
		return s + "none of them can be built"
	}
	return say("%s%s in %s of them, as it does without tolerances", s, shown(own), ofRuns(st.Share(own)))
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

// SpreadWarns tells of a study that was stopped, and of runs that cannot be built.
func SpreadWarns(st *spread.Study) []string {
	var says told
	says.when(st.Stopped(), "stopped early: %d of the %d runs were done; these figures are theirs", st.Runs, st.Asked)
	says.when(st.Failed > 0, "%s (%s) cannot be built and are left out of every figure",
		Count(st.Failed, "run"), ofRuns(float64(st.Failed)/float64(st.Runs)))
	for _, f := range st.Failures {
		says.add("%d of them, such as: %s", f.Runs, f.Why)
	}
	return says
}

// SpreadShare is the share of an input in the variance.
func SpreadShare(in *spread.Input) string {
	return either(math.IsNaN(in.Share), "–", say("%.0f %%", 100*in.Share))
}

// SpreadMethod tells how the figures came about, and how good they are.
func SpreadMethod(st *spread.Study) string {
	s := say("Seed %d. Of a normal tolerance plus or minus is two standard deviations, of a uniform one the half width. What has no tolerance is taken as exact: how sure the verdict is with every input as well known as it is usually read, run tells.", st.Seed) +
		where(st.Hold == vary.Fill, " The strip is cut each time so that it fills the barrel as before.")
	if len(st.Results) == 0 || st.Results[0].N() < 2 {
		return s
	}
	d := &st.Results[0]
	q, fine := &d.Of.Quantity, d.Fineness()
	return s + say(" Of the variance: the share of each input in that of the %s, by slopes; together they make a standard deviation of %s, the runs %s.",
		q.Words, Valued(q, st.DeltaSD), Valued(q, d.SD())) +
		where(fine > 0, " Percentiles are counted in bins, good to %s.", Valued(q, fine))
}

// RankHead is what the result is that inputs are ranked by.
func RankHead(st *rank.Study, r *rank.Ranking) string {
	return say("%s train: the %s is %s", st.Own.Name, r.Of.Words, Valued(&r.Of.Quantity, r.Value))
}

// RankMethod tells what the columns of a ranking are.
func RankMethod(st *rank.Study) string {
	return say("The inputs stand in the order of what moving them does: each by %.4g %%, or by its own tolerance, which stands in its unit. Elasticity: how many %% the result changes for 1 %% more of the input. Whole numbers, such as teeth, are left out.", 100*st.Change)
}

// RankMoved is by how much an input is moved: its tolerance with its unit, or a share.
func RankMoved(st *rank.Study, in *rank.Input) string {
	return either(in.Tolerated, united(say("± %.4g", in.By), in.Quantity.Unit), say("± %.4g %%", 100*st.Change))
}

// RankElasticity is the power with which the result goes, with its error if that shows.
func RankElasticity(in *rank.Input) string {
	e := in.Elasticity
	if math.IsNaN(e.Value) {
		return "–"
	}
	return signed(e.Value, 3) + where(e.Error > 0.0005, " ± %v", e.Error)
}
