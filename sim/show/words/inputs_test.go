package words

import (
	"context"
	"math"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/study/rank"
	"evenpull/sim/study/spread"
	"evenpull/sim/vary"
)

func TestSpreadHeadAndVerdicts(t *testing.T) {
	st := &spread.Study{Runs: 10_000, Asked: 10_000, Verdicts: map[rules.Code]int{rules.Suits: 9990, rules.Thin: 9, rules.Unjudged: 1}}
	st.Own.Name, st.Own.Verdict.Code = "going", rules.Suits
	same(t, append([]string{SpreadHead(st, Verdict)}, SpreadSays(st)...),
		"going train, 10000 runs: SUITS in 99.9 % of them, as it does without tolerances", "it is not judged in less than 0.1 %", "it is thin in less than 0.1 %")
	same(t, SpreadWarns(st))
	st.Verdicts = map[rules.Code]int{rules.Suits: 5000, rules.Stops: 2425, rules.Overdriven: 75}
	st.Failed, st.Failures = 2500, []spread.Failure{{Why: "too long", Runs: 2400}, {Why: "too thick", Runs: 100}}
	same(t, append([]string{SpreadHead(st, Small)}, SpreadSays(st)...),
		"going train, 10000 runs: suits in 66.7 % of them, as it does without tolerances", "it stops in 32.3 %", "it is overdriven in 1.0 %")
	same(t, SpreadWarns(st), "2500 runs (25.0 %) cannot be built and are left out of every figure", "2400 of them, such as: too long", "100 of them, such as: too thick")
	st.Runs, st.Failed, st.Failures = 1, 1, nil
	same(t, append([]string{SpreadHead(st, Verdict)}, SpreadWarns(st)...), "going train, 1 run: none of them can be built",
		"stopped early: 1 of the 10000 runs were done; these figures are theirs", "1 run (all) cannot be built and are left out of every figure")
}

func TestSharesOfRuns(t *testing.T) {
	for share, want := range map[float64]string{1: "all", 0.99901: "more than 99.9 %", 0.999: "99.9 %", 0.001: "0.1 %", 0.00099: "less than 0.1 %", 0: "0.0 %", 0.505: "50.5 %"} {
		if got := ofRuns(share); got != want {
			t.Errorf("%v: %s, want %s", share, got, want)
		}
	}
	same(t, []string{SpreadShare(&spread.Input{Share: 0.126}), SpreadShare(&spread.Input{Share: math.NaN()})}, "13 %", "–")
}

func TestSpreadMethod(t *testing.T) {
	st := &spread.Study{Seed: -3}
	const shapes = "Seed -3. Of a normal tolerance plus or minus is two standard deviations, of a uniform one the half width. What has no tolerance is taken as exact: how sure the verdict is with every input as well known as it is usually read, run tells."
	same(t, []string{SpreadMethod(st)}, shapes)
	st.Hold = vary.Fill
	same(t, []string{SpreadMethod(st)}, shapes+" The strip is cut each time so that it fills the barrel as before.")
	s, _ := trial.Compile(t, "eight-day")
	of, err := outcome.Several(outcome.Unevenness)
	if err != nil {
		t.Fatal(err)
	}
	says := func(runs int) string {
		st, err := spread.Run(context.Background(), s, 0, spread.Options{Runs: runs, Seed: 1, Of: of})
		if err != nil {
			t.Fatal(err)
		}
		st.DeltaSD = 0.0123
		return SpreadMethod(st)
	}
	if got := says(1); strings.Contains(got, "Of the variance") {
		t.Error(got)
	}
	if got := says(2); !strings.Contains(got, "Of the variance") {
		t.Error(got)
	}
	few := says(500)
	if !strings.Contains(few, " Of the variance: the share of each input in that of the unevenness, (greatest − least)/mean, by slopes; together they make a standard deviation of 1.23 %, the runs ") || strings.Contains(few, "bins") {
		t.Error(few)
	}
	if many := says(20_000); !strings.Contains(many, " %. Percentiles are counted in bins, good to < 0.01 %.") {
		t.Error(many)
	}
}

func TestRankWords(t *testing.T) {
	st := &rank.Study{Change: 0.015}
	st.Own.Name = "going"
	r := &rank.Ranking{Value: 0.4294}
	r.Of, _ = outcome.Named(outcome.MeanTorque)
	in := &rank.Input{Quantity: scenario.Quantity{Key: thickness, Words: "thickness of the going mainspring", Unit: "mm"}, By: 0.01, Elasticity: vary.Slope{Value: 2.5767, Error: 0.0005}}
	same(t, []string{RankHead(st, r), RankMoved(st, in), RankElasticity(in), RankMethod(st)},
		"going train: the mean torque at the fusee is 0.429 N·m", "± 1.5 %", "+2.577",
		"The inputs stand in the order of what moving them does: each by 1.5 %, or by its own tolerance, which stands in its unit. Elasticity: how many % the result changes for 1 % more of the input. Whole numbers, such as teeth, are left out.")
	in.Tolerated, in.Elasticity = true, vary.Slope{Value: -0.25, Error: 0.0012}
	same(t, []string{RankMoved(st, in), RankElasticity(in)}, "± 0.01 mm", "−0.250 ± 0.00120")
	in.Quantity.Unit, in.Elasticity.Value = "", math.NaN()
	same(t, []string{RankMoved(st, in), RankElasticity(in)}, "± 0.01", "–")
}
