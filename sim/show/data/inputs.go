package data

import (
	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/show/words"
	"evenpull/sim/study/rank"
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
	inputs := List("inputs", "every input, the one with the greatest effect first", rankInput(), func(r *rank.Ranking) []rank.Input { return r.Inputs })
	ranking := append(ranked[:2:2], inputs)
	o := Object[rank.Study]{
		trainOf(own),
		Number("change", "by which inputs without a tolerance are moved, as a share", "", func(st *rank.Study) float64 { return st.Change }),
	}
	o = append(o, Within(ranking, func(st *rank.Study) *rank.Ranking { return &st.Rankings[0] })...)
	o = append(o, List("others", "the results asked for beside the first", ranking, func(st *rank.Study) []rank.Ranking { return st.Rankings[1:] }), cautionsOf(own))
	type line = part[rank.Ranking, rank.Input]
	lines := append(Within(ranked, func(l *line) *rank.Ranking { return l.of }), Within(rankInput(), func(l *line) *rank.Input { return l.it })...)
	return Document[rank.Study]{o, rows(lines, func(st *rank.Study) (all []line) {
		for i := range st.Rankings {
			all = append(all, parts(&st.Rankings[i], st.Rankings[i].Inputs)...)
		}
		return all
	})}
}

func rankInput() Object[rank.Input] {
	return Object[rank.Input]{
		Text("key", "the input", func(in *rank.Input) string { return in.Quantity.Key }),
		Text("unit", "its unit", func(in *rank.Input) string { return in.Quantity.Unit }),
		Number("value", "that the scenario has of it", "", func(in *rank.Input) float64 { return in.Value }),
		Number("elasticity", "power of the input with which the result goes", "", func(in *rank.Input) float64 { return in.Elasticity.Value }),
		Number("elasticity_error", "error that the elasticity may have", "", func(in *rank.Input) float64 { return in.Elasticity.Error }),
		Number("by", "by how much the input is moved, in its unit", "", func(in *rank.Input) float64 { return in.By }),
		Flag("tolerance", "whether that is its own tolerance", func(in *rank.Input) bool { return in.Tolerated }),
		Number("minus", "change of the result with less of the input; null when it cannot be built", "", func(in *rank.Input) float64 { return in.Minus }),
		Number("plus", "change of the result with more of the input; null when it cannot be built", "", func(in *rank.Input) float64 { return in.Plus }),
	}
}

// Spread is the document of what tolerances do; its rows are the results.
func Spread() Document[spread.Study] {
	own := func(st *spread.Study) *sim.Digest { return &st.Own }
	results := func(st *spread.Study) []spread.Distribution { return st.Results }
	name := func(d *spread.Distribution) string { return d.Of.Name }
	var verdicts Object[spread.Study]
	for _, c := range rules.BestFirst() {
		code, says := c.String(), words.Does(c)
		if c == rules.Unjudged {
			code = "unjudged"
		}
		verdicts = append(verdicts, Number(code, "share of them in which it "+says, "", func(st *spread.Study) float64 { return st.Share(c) }))
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
		List("inputs", "what was drawn", spreadInput(), func(st *spread.Study) []spread.Input { return st.Inputs }),
		Number("delta_sd", "standard deviation of the first result by slopes", "", func(st *spread.Study) float64 { return st.DeltaSD }),
		Sub("own", "the scenario as it is, without tolerances", Digest(), own),
		Keyed("results", "the results, by their names", distribution(), results, name),
		Sub("verdicts", "shares of the runs that can be built; null when none can", verdicts, self),
		cautionsOf(own),
	}, rows(append(Object[spread.Distribution]{Text("result", "the result", name)}, distribution()...), results)}
}

func spreadInput() Object[spread.Input] {
	return Object[spread.Input]{
		Text("key", "the input", func(in *spread.Input) string { return in.Quantity.Key }),
		Text("unit", "its unit", func(in *spread.Input) string { return in.Quantity.Unit }),
		Number("value", "that the scenario has of it", "", func(in *spread.Input) float64 { return in.Value }),
		Number("plus_minus", "its tolerance, in its unit", "", func(in *spread.Input) float64 { return in.PlusMinus }),
		Text("shape", "normal: two standard deviations; uniform: the half width", func(in *spread.Input) string { return in.Shape }),
		Number("share_of_variance", "its share in the variance of the first result, by slopes", "", func(in *spread.Input) float64 { return in.Share }),
	}
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
	}
}
