package words

import (
	"math"

	"evenpull/sim/study/rank"
)

// RankHead is what the result is that inputs are ranked by.
func RankHead(st *rank.Study, r *rank.Ranking) string {
	return say("%s train: the %s is %s", st.Own.Name, r.Of.Words, Valued(&r.Of.Quantity, r.Value))
}

// RankMethod tells what the columns of a ranking are.
func RankMethod(st *rank.Study) string {
	return say("The inputs stand in the order of what moving them does: each by %.4g %%, or by its own tolerance, which stands in its unit. Elasticity: how many %% the result changes for 1 %% more of the input. Whole numbers, such as teeth, are left out.", 100*st.Change)
}

// RankMoved is by how much an input is moved: its tolerance with its unit, or a
// share.
func RankMoved(st *rank.Study, in *rank.Input) string {
	if in.Tolerated {
		return united(say("± %.4g", in.By), in.Quantity.Unit)
	}
	return say("± %.4g %%", 100*st.Change)
}

// RankElasticity is the power with which the result goes, with its error where that
// shows.
func RankElasticity(in *rank.Input) string {
	e := in.Elasticity
	if math.IsNaN(e.Value) {
		return "–"
	}
	return signed(e.Value, 3) + where(e.Error > 0.0005, " ± %v", e.Error)
}
