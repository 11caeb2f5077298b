package words

import (
	"fmt"
	"math"

	"evenpull/sim/rules"
	"evenpull/sim/study/spread"
	"evenpull/sim/vary"
)

// SpreadHead tells in what share of the runs the verdict stands; shown writes the
// verdict.
func SpreadHead(st *spread.Study, shown func(rules.Code) string) string {
	s := st.Own.Name + " train, " + Count(st.Runs, "run")
	if st.Built() == 0 {
		return s + ": none of them can be built"
	}
	own := st.Own.Verdict.Code
	return fmt.Sprintf("%s: %s in %s of them, as it does without tolerances", s, shown(own), ofRuns(st.Share(own)))
}

// SpreadSays lists the other verdicts, each with its share of the runs.
func SpreadSays(st *spread.Study) []string {
	var list []string
	for c := rules.Unjudged; c <= rules.Overdriven; c++ {
		if st.Verdicts[c] > 0 && c != st.Own.Verdict.Code {
			list = append(list, fmt.Sprintf("it %s in %s", Does(c), ofRuns(st.Share(c))))
		}
	}
	return list
}

// ofRuns is a share of the runs in percent, rare ones not rounded to nothing.
func ofRuns(share float64) string {
	switch {
	case share == 1:
		return "all"
	case share > 0.999:
		return "more than 99.9 %"
	case share > 0 && share < 0.001:
		return "less than 0.1 %"
	}
	return fmt.Sprintf("%.1f %%", 100*share)
}

// SpreadWarns tells of a study that was stopped, and of runs that cannot be built.
func SpreadWarns(st *spread.Study) []string {
	var list []string
	if st.Stopped() {
		list = append(list, fmt.Sprintf("stopped early: %d of the %d runs were done; these figures are theirs", st.Runs, st.Asked))
	}
	if st.Failed > 0 {
		list = append(list, fmt.Sprintf("%s (%s) cannot be built and are left out of every figure", Count(st.Failed, "run"), ofRuns(float64(st.Failed)/float64(st.Runs))))
	}
	for _, f := range st.Failures {
		list = append(list, fmt.Sprintf("%d of them, such as: %s", f.Runs, f.Why))
	}
	return list
}

// SpreadShare is the share of an input in the variance.
func SpreadShare(in *spread.Input) string {
	if math.IsNaN(in.Share) {
		return "–"
	}
	return fmt.Sprintf("%.0f %%", 100*in.Share)
}

// SpreadMethod tells how the figures came about, and how good they are.
func SpreadMethod(st *spread.Study) string {
	s := fmt.Sprintf("Seed %d. Of a normal tolerance plus or minus is two standard deviations, of a uniform one the half width.", st.Seed)
	if st.Hold == vary.Fill {
		s += " The strip is cut each time so that it fills the barrel as before."
	}
	if len(st.Results) == 0 || st.Results[0].N() < 2 {
		return s
	}
	d := &st.Results[0]
	q := &d.Of.Quantity
	s += fmt.Sprintf(" Of the variance: the share of each input in that of the %s, by slopes; together they make a standard deviation of %s, the runs %s.",
		q.Words, Valued(q, st.DeltaSD), Valued(q, d.SD()))
	if e := d.Fineness(); e > 0 {
		s += " Percentiles are counted in bins, good to " + Valued(q, e) + "."
	}
	return s
}
