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
	"evenpull/sim/study/shares"
	"evenpull/sim/study/spread"
	"evenpull/sim/vary"
)

func TestSpreadHeadAndVerdicts(t *testing.T) {
	st := &spread.Study{Runs: 10_000, Asked: 10_000, Verdicts: map[rules.Code]int{rules.Suits: 9990, rules.Thin: 9, rules.Unjudged: 1}}
	st.Own.Name, st.Own.Verdict.Code = "going", rules.Suits
	same(t, append([]string{SpreadHead(st, Verdict)}, SpreadSays(st)...),
		"going train, 10000 runs: SUITS in 99.9 % of them, as it does with every value as it is", "it is not judged in less than 0.1 %", "it is thin in less than 0.1 %")
	same(t, SpreadWarns(st))
	st.Verdicts = map[rules.Code]int{rules.Suits: 5000, rules.Stops: 2425, rules.Overdriven: 75}
	st.Failed, st.Failures = 2500, []spread.Failure{{Why: "too long", Runs: 2400}, {Why: "too thick", Runs: 100}}
	same(t, append([]string{SpreadHead(st, Small)}, SpreadSays(st)...),
		"going train, 10000 runs: suits in 66.7 % of them, as it does with every value as it is", "it stops in 32.3 %", "it is overdriven in 1.0 %")
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
	for want, e := range map[string]shares.Estimate{
		"13 %": {Value: 0.126, Error: 0.0049}, "13 ± 1 %": {Value: 0.126, Error: 0.0051}, "–": shares.Unknown().Total, "< 1 %": {Value: -0.02, Error: 0.004}, "0 ± 2 %": {Value: -0.02, Error: 0.02}, "100 %": {Value: 1.001},
	} {
		if got := OfVariance(e); got != want {
			t.Errorf("%+v: %s, want %s", e, got, want)
		}
	}
}

func TestSpreadMethod(t *testing.T) {
	st := &spread.Study{Seed: -3}
	shapes := SpreadMethod(st)
	if !strings.HasPrefix(shapes, "Each input is drawn within its tolerance or, where it has none, the usual error of such a reading") || !strings.HasSuffix(shapes, " is inferred anew. With --seed -3 all is drawn the same again.") {
		t.Error(shapes)
	}
	st.Hold = vary.Fill
	same(t, []string{SpreadMethod(st)}, strings.Replace(shapes, " With", " The strip is cut each time so that it fills the barrel as before. With", 1))
	st.Shares = &shares.Result{}
	if got := SpreadMethod(st); !strings.Contains(got, " (total-order share), each with its standard error from 0.5 % up; ") {
		t.Error(got)
	}
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
		return SpreadMethod(st)
	}
	if few := says(500); strings.Contains(few, "so many runs lie") || strings.Contains(few, "of the variance") {
		t.Error(few)
	}
	if many := says(20_000); !strings.Contains(many, " The values below which so many runs lie are good to < 0.01 %.") {
		t.Error(many)
	}
}

// Inputs that act together are warned of, with the one that has most of it; below the
// limits of the rules nothing is said, and without shares neither.
func TestTogether(t *testing.T) {
	of, _ := outcome.Named(outcome.MeanTorque)
	input := func(words string, first, total, off float64) shares.Input {
		e := func(v float64) shares.Estimate { return shares.Estimate{Value: v, Error: off} }
		return shares.Input{Words: words, First: e(first), Total: e(total), Joint: e(total - first)}
	}
	r := &shares.Result{Joint: shares.Estimate{Value: 0.2, Error: 0.01}, Pairs: 1000, Inputs: []shares.Input{
		input("thickness of the going mainspring", 0.5, 0.65, 0.01), input("set-up of the going mainspring", 0.1, 0.3, 0.01), input("width of the going line", 0, 0.9, 0.4)}}
	const begins, ends, one = "inputs act together: of how far the mean torque at the fusee may be off, ", "; go by what each has in all", "the set-up of the mainspring makes 10 ± 1 % alone and 30 ± 1 % in all, together with others"
	says := func(want ...string) {
		t.Helper()
		same(t, Together("going", &of.Quantity, r), want...)
	}
	says(begins + "20 ± 1 % is no input's doing alone, and " + one + ends)
	r.Failed = 15
	says(begins+"20 ± 1 % is no input's doing alone, and "+one+ends, "1.5 % of the pairs of runs compared for the shares cannot be built and are left out of them")
	st := &spread.Study{Results: []spread.Distribution{{Of: of}}, Shares: r}
	st.Own.Name = "going"
	same(t, SpreadWarns(st), Together("going", &of.Quantity, r)...)
	r.Failed, r.Joint.Error = 0, 0.1
	says(begins + one + ends)
	r.Inputs, r.Joint.Error = r.Inputs[2:], 0.01
	says(begins + "20 ± 1 % is no input's doing alone" + ends)
	r.Joint.Value = 0.05
	says()
	r = nil
	says()
}

func TestDrawnWords(t *testing.T) {
	for want, e := range map[string]scenario.ReadingError{
		"± 0.01 mm": {PlusMinus: 0.01}, "± 0.01 mm at most": {PlusMinus: 0.01, Uniform: true}, "± 8 %": {Percent: 8}, "± 1.5 % at most": {Percent: 1.5, Uniform: true}, "1 to 1.13": {Lo: 1, Hi: 1.13}, "a factor of 1.4": {Times: 1.4},
	} {
		if got := Off(e, "mm"); got != want {
			t.Errorf("%+v: %s, want %s", e, got, want)
		}
	}
	in := &spread.Input{Input: vary.Input{Parts: []vary.Part{{Value: 1620}}}}
	several := &spread.Input{Input: vary.Input{Parts: make([]vary.Part, 17), Assumed: true}}
	same(t, []string{Drawn(in), DrawnBy(in), Drawn(several), DrawnBy(several), DrawnBy(&spread.Input{Input: vary.Input{Tolerated: true}})}, "1620", "usual error", "17 values", "assumed", "tolerance")
}

// A share stands with its standard error, to a tenth of a percent that is not less than it.
func TestShareAndError(t *testing.T) {
	for want, e := range map[string]shares.Estimate{
		"83.4 ± 0.5 %": {Value: 0.83412, Error: 0.00437}, "2.1 ± 0.1 %": {Value: 0.02101, Error: 0.00001}, "31.9 ± 0.1 %": {Value: 0.319, Error: 0.001}, "0.5 ± 0.9 %": {Value: 0.005, Error: 0.009},
		"45 ± 1 %": {Value: 0.4511, Error: 0.0092}, "12 ± 4 %": {Value: 0.12, Error: 0.031}, "0 ± 2 %": {Value: -0.01, Error: 0.02}, "0.0 ± 0.6 %": {Value: -0.01, Error: 0.006}, "< 1 %": {Value: 0.0049, Error: 0.005}, "–": {Value: math.NaN(), Error: math.NaN()},
	} {
		if got := ShareAndError(e); got != want {
			t.Errorf("%+v: %s, want %s", e, got, want)
		}
	}
}

// The finding above a picture names what stands first, and its share where they stand by it.
func TestFoundRank(t *testing.T) {
	of, _ := outcome.Named(outcome.MeanTorque)
	r := &rank.Ranking{Of: of, Value: 0.4294, Inputs: []rank.Input{{Quantity: scenario.Quantity{Words: "thickness of the going mainspring"}, Plus: 0.1, Share: shares.Input{Total: shares.Estimate{Value: 0.5, Error: 0.002}}}}}
	st := &rank.Study{}
	st.Own.Name = "going"
	const head = "going train: the mean torque at the fusee is 0.429 N·m"
	effect := FoundRank(st, r)
	st.Total = true
	share := FoundRank(st, r)
	r.Inputs[0].Share = shares.Unknown()
	none := FoundRank(st, r)
	r.Inputs = nil
	same(t, []string{effect, share, none, FoundRank(st, r)}, head+"; what moves it most is the thickness of the mainspring",
		head+"; what makes most of how far it may be off is the thickness of the mainspring, 50.0 ± 0.2 % in all", head, head)
}

func TestRankWords(t *testing.T) {
	st := &rank.Study{Change: 0.015}
	st.Own.Name = "going"
	r := &rank.Ranking{Value: 0.4294}
	r.Of, _ = outcome.Named(outcome.MeanTorque)
	st.Rankings = []rank.Ranking{*r}
	in := &rank.Input{Quantity: scenario.Quantity{Key: thickness, Words: "thickness of the going mainspring", Unit: "mm"}, Error: scenario.ReadingError{Percent: 1.5, Uniform: true}, Elasticity: vary.Slope{Value: 2.5767, Error: 0.0005}}
	own := RankMethod(st)
	st.Alike = true
	same(t, []string{RankHead(st, r), RankMoved(in), RankElasticity(in), RankMethod(st), own},
		"going train: the mean torque at the fusee is 0.429 N·m", "± 1.5 %", "+2.577",
		"The inputs stand in the order of what moving them does: each by 1.5 %. By 1 %: how many % the result changes for 1 % more of the input. Whole numbers, such as teeth, are left out.",
		"The inputs stand in the order of what moving them does: each by its tolerance or, where it has none, its usual reading error, what is taken as exact by 1.5 %; what was observed stays. By 1 %: how many % the result changes for 1 % more of the input. Whole numbers, such as teeth, are left out.")
	if st.Rankings[0].Shares = new(shares.Result); !strings.HasPrefix(RankMethod(st), "The inputs") || !strings.HasSuffix(RankMethod(st), " above 0.3 %.") {
		t.Error(RankMethod(st))
	}
	brief := RankBrief(st)
	if st.Alike, st.Total = false, true; RankBy(st) != "; what makes most of how far it may be off" || !strings.HasPrefix(RankMethod(st), "The inputs stand in the order of what each makes in all of how far the result may be off. Each is moved by its tolerance or") || !strings.HasSuffix(RankBrief(st), "together with others, with its standard error; --full tells all") || strings.Contains(brief, "standard error") {
		t.Error(RankBy(st), RankMethod(st), RankBrief(st), brief)
	}
	in.Error, in.Elasticity = scenario.ReadingError{PlusMinus: 0.01}, vary.Slope{Value: -0.25, Error: 0.0012}
	same(t, []string{RankMoved(in), RankElasticity(in)}, "± 0.01 mm", "−0.250 ± 0.00120")
	in.Quantity.Unit, in.Elasticity.Value = "", math.NaN()
	same(t, []string{RankMoved(in), RankElasticity(in)}, "± 0.01", "–")
}
