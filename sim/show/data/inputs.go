package data

import (
	"cmp"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/show/words"
	"evenpull/sim/study/rank"
	"evenpull/sim/study/shares"
	"evenpull/sim/study/spread"
)

// Rank is the document of a ranking: the first result at the top, others below
// "others". Its rows are every input of every ranking.
func Rank() Document[rank.Study] {
	own := func(st *rank.Study) *sim.Digest { return &st.Own }
	ranked := Object[rank.Ranking]{
		Text("of", "the result", func(r *rank.Ranking) string { return r.Of.Name }),
		Number("result", "its value in the scenario as it is", "", func(r *rank.Ranking) float64 { return r.Value }),
	}
	inputs := func(r *rank.Ranking) []rank.Input { return r.Inputs }
	ranking := append(ranked[:2:2], List("inputs", "every input, in that order", rankInput(), inputs), interaction(func(r *rank.Ranking) *shares.Result { return r.Shares }))
	o := Object[rank.Study]{
		trainOf(own),
		Number("change", "by which inputs are moved whose own error is not taken, as a share", "", func(st *rank.Study) float64 { return st.Change }),
		Flag("alike", "whether all inputs are moved so", func(st *rank.Study) bool { return st.Alike }),
		Text("order", "what the inputs are put in order by, the greatest first: effect or total_order_share", func(st *rank.Study) string { return words.Either(st.Total, "total_order_share", "effect") }),
	}
	o = append(o, Within(ranking, func(st *rank.Study) *rank.Ranking { return &st.Rankings[0] })...)
	o = append(o, List("others", "the results asked for beside the first", ranking, func(st *rank.Study) []rank.Ranking { return st.Rankings[1:] }), cautionsOf(own))
	type line = part[rank.Ranking, rank.Input]
	lines := append(Within(ranked, func(l *line) *rank.Ranking { return l.of }), Within(rankInput(), func(l *line) *rank.Input { return l.it })...)
	return Document[rank.Study]{o, rows(lines, func(st *rank.Study) []line { return partsOf(st.Rankings, inputs) })}
}

func rankInput() Object[rank.Input] {
	return append(Object[rank.Input]{
		Text("key", "the input", func(in *rank.Input) string { return in.Quantity.Key }),
		Text("unit", "its unit", func(in *rank.Input) string { return in.Quantity.Unit }),
		Number("value", "that the scenario has of it", "", func(in *rank.Input) float64 { return in.Value }),
		Number("elasticity", "power of the input with which the result goes", "", func(in *rank.Input) float64 { return in.Elasticity.Value }),
		Number("elasticity_error", "error that the elasticity may have", "", func(in *rank.Input) float64 { return in.Elasticity.Error }),
		Number("by", "by how much the input is moved, in its unit: half of what lies between from and to", "", func(in *rank.Input) float64 { return (in.To - in.From) / 2 }),
		Number("from", "the least that it is moved to", "", func(in *rank.Input) float64 { return in.From }),
		Number("to", "the most", "", func(in *rank.Input) float64 { return in.To }),
		Flag("tolerance", "whether that is its tolerance", func(in *rank.Input) bool { return in.Moved == rank.ByTolerance }),
		Flag("usual_error", "whether that is its usual reading error", func(in *rank.Input) bool { return in.Moved == rank.ByReading }),
		Number("minus", "change of the result with less of the input; null when it cannot be built", "", func(in *rank.Input) float64 { return in.Minus }),
		Number("plus", "change of the result with more of the input; null when it cannot be built", "", func(in *rank.Input) float64 { return in.Plus }),
	}, Within(share(), func(in *rank.Input) *shares.Input { return &in.Share })...)
}

// share is the shares of an input in the variance of a result; null where they were not
// estimated.
func share() Object[shares.Input] {
	return Object[shares.Input]{
		Number("first_order_share", "its share in the variance of the result alone", "", func(in *shares.Input) float64 { return in.First.Value }),
		Number("first_order_error", "standard error of that", "", func(in *shares.Input) float64 { return in.First.Error }),
		Number("total_order_share", "its share in all, with what it does together with others", "", func(in *shares.Input) float64 { return in.Total.Value }),
		Number("total_order_error", "standard error of that", "", func(in *shares.Input) float64 { return in.Total.Error }),
	}
}

// interaction is what inputs have of a variance only together.
func interaction[T any](of func(*T) *shares.Result) Member[T] {
	return Sub("interaction", "what inputs have of the variance only together; null where no shares were estimated", Object[shares.Result]{
		Number("share", "share of the variance that no input has alone", "", func(r *shares.Result) float64 { return r.Joint.Value }),
		Number("error", "standard error of that", "", func(r *shares.Result) float64 { return r.Joint.Error }),
		Whole("pairs", "pairs of runs to be compared for the shares", func(r *shares.Result) int { return r.Pairs }),
		Whole("pairs_failed", "of them left out, as one of the runs cannot be built", func(r *shares.Result) int { return r.Failed }),
	}, of)
}

// Spread is the document of what the errors of the inputs do; its rows are the results.
func Spread() Document[spread.Study] {
	own := func(st *spread.Study) *sim.Digest { return &st.Own }
	results := func(st *spread.Study) []spread.Distribution { return st.Results }
	name := func(d *spread.Distribution) string { return d.Of.Name }
	var verdicts Object[spread.Study]
	for _, c := range rules.BestFirst() {
		code := cmp.Or(c.String(), "unjudged")
		verdicts = append(verdicts, Number(code, "share of them in which it "+words.Does(c), "", func(st *spread.Study) float64 { return st.Share(c) }))
	}
	return Document[spread.Study]{Object[spread.Study]{
		trainOf(own),
		Whole("runs", "run-downs carried out", func(st *spread.Study) int { return st.Runs }),
		Whole("runs_asked", "run-downs asked for", func(st *spread.Study) int { return st.Asked }),
		Flag("stopped", "whether fewer were carried out", (*spread.Study).Stopped),
		Whole("seed", "number that the random draws begin from", func(st *spread.Study) int { return int(st.Seed) }),
		Text("hold", "what of the strip stays: length or fill", func(st *spread.Study) string { return st.Hold.String() }),
		Whole("failed", "runs that cannot be built; they are in none of the figures", func(st *spread.Study) int { return st.Failed }),
		List("failures", "why, the most frequent first", Object[spread.Failure]{
			Text("key", "the input at fault", func(f *spread.Failure) string { return f.Key }),
			Text("why", "of the first of them", func(f *spread.Failure) string { return f.Why }),
			Whole("runs", "how many", func(f *spread.Failure) int { return f.Runs }),
		}, func(st *spread.Study) []spread.Failure { return st.Failures }),
		List("inputs", "what was drawn, the greatest total-order share first", spreadInput(), func(st *spread.Study) []spread.Input { return st.Inputs }),
		interaction(func(st *spread.Study) *shares.Result { return st.Shares }),
		Sub("own", "the scenario as it is", Digest(), own),
		Keyed("results", "the results, by their names", distribution(), results, name),
		Sub("verdicts", "shares of the runs that can be built; null when none can", verdicts, self),
		cautionsOf(own),
	}, rows(append(Object[spread.Distribution]{Text("result", "the result", name)}, distribution()...), results)}
}

func spreadInput() Object[spread.Input] {
	around := func(in *spread.Input) (lo, hi float64) { return in.Parts[0].Error.Around(in.Parts[0].Value) }
	return append(Object[spread.Input]{
		Text("key", "the input, or a list of values that were read alike", func(in *spread.Input) string { return in.Key }),
		Text("unit", "its unit", func(in *spread.Input) string { return in.Unit }),
		Whole("values", "how many it is, each with an error of its own", func(in *spread.Input) int { return len(in.Parts) }),
		Number("value", "that the scenario has of it, of the first of several", "", func(in *spread.Input) float64 { return in.Parts[0].Value }),
		Number("from", "the least that it may be", "", func(in *spread.Input) float64 { lo, _ := around(in); return lo }),
		Number("to", "the most", "", func(in *spread.Input) float64 { _, hi := around(in); return hi }),
		Number("plus_minus", "half of what lies between, in its unit", "", func(in *spread.Input) float64 { lo, hi := around(in); return (hi - lo) / 2 }),
		Text("shape", "normal: from and to are two standard deviations off, of the logarithm where it may be off by a factor; uniform: all between are as likely", func(in *spread.Input) string {
			return words.Either(in.Parts[0].Error.Even(), scenario.Uniform, scenario.Normal)
		}),
		Flag("tolerance", "whether that is its tolerance; else its usual error", func(in *spread.Input) bool { return in.Tolerated }),
		Flag("assumed", "whether nobody gave the value", func(in *spread.Input) bool { return in.Assumed }),
	}, Within(share(), func(in *spread.Input) *shares.Input { return &in.Share })...)
}

// distribution is what one result came to, in its unit.
func distribution() Object[spread.Distribution] {
	quantile := func(name, words string, p float64) Member[spread.Distribution] {
		return Number(name, words, "", func(d *spread.Distribution) float64 { return d.Quantile(p) })
	}
	return Object[spread.Distribution]{
		Number("own", "in the scenario as it is", "", func(d *spread.Distribution) float64 { return d.Own }),
		Whole("n", "runs that have the result", (*spread.Distribution).N),
		Number("mean", "mean", "", (*spread.Distribution).Mean),
		Number("sd", "standard deviation", "", (*spread.Distribution).SD),
		Number("min", "least", "", func(d *spread.Distribution) float64 { lo, _ := d.Range(); return lo }),
		quantile("p05", "5 % of the runs are below it", 0.05),
		quantile("p25", "25 % of the runs are below it", 0.25),
		quantile("p50", "half of the runs are below it", 0.5),
		quantile("p75", "75 % of the runs are below it", 0.75),
		quantile("p95", "95 % of the runs are below it", 0.95),
		Number("max", "greatest", "", func(d *spread.Distribution) float64 { _, hi := d.Range(); return hi }),
		Number("percentile_error", "most by which a percentile may be out", "", (*spread.Distribution).Fineness),
		quantile("p025", "2.5 % of the runs are below it: 95 % lie between it and p975", 0.025),
		quantile("p975", "97.5 % of the runs are below it", 0.975),
	}
}
