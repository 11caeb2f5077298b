package words

import (
	"math"
	"testing"

	"evenpull/sim/outcome"
	"evenpull/sim/scenario"
	"evenpull/sim/study/rank"
	"evenpull/sim/vary"
)

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
