package words

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"evenpull/sim"
	"evenpull/sim/bench/assign"
	"evenpull/sim/rules"
	"evenpull/sim/study/choose"
	"evenpull/sim/study/rank"
	"evenpull/sim/study/setup"
	"evenpull/sim/study/sweep"
)

// Found* are the sentences above pictures: what is read there in three seconds.

// Words that stand in pictures.
const (
	Stopped   = "stops"
	Unbuilt   = "cannot be built"
	Binds     = "the spring binds"
	TurnsLost = "turns lost"
)

// FoundRun is the verdict on a run with the figures that make it.
func FoundRun(d *sim.Digest) string {
	says := say("%s train: %s", d.Name, Judged(d, Verdict))
	stops := where(d.TurnsLost > 0, "; %s, and %s fusee turns are lost", Binds, Two(d.TurnsLost)) + where(!math.IsNaN(d.StopsAt), "; %s", whereItStops(d))
	if math.IsNaN(d.Need.Used) {
		return says + say(": mean %v, least %v N·m", d.Torque.Mean, d.Torque.Min)
	}
	return says + say(": mean %v and least %v times the need", d.Reserve(d.Torque.Mean), d.Reserve(d.Torque.Min)) + stops
}

// FoundSweep is the verdict on the train as it is, and where it suits; of a map over how
// much of the area.
func FoundSweep(st *sweep.Study) string {
	title := SweepTitle(st)
	if st.Own.Verdict.Code == rules.Unjudged {
		return title
	}
	if st.Against != nil {
		n := st.Verdicts()[rules.Suits]
		return title + cmp.Or(
			where(n == 0, "; as it is it %s; it suits nowhere here", Does(st.Own.Verdict.Code)),
			where(st.Own.Verdict.Code == rules.Suits, "; it suits as it is, and over %s of the area", ofArea(st, n)),
			say("; as it is it %s; it suits over %s of the area", Does(st.Own.Verdict.Code), ofArea(st, n)))
	}
	var suits []string
	for i, from, below := 0, math.Inf(-1), suitsFirst(st); i <= len(st.Changes); i++ {
		to, above := math.Inf(1), rules.Unjudged
		if i < len(st.Changes) {
			to, above = st.Changes[i].At, st.Changes[i].Above
		}
		if below {
			suits = append(suits, stretch(&st.Over, from, to))
		}
		from, below = to, above == rules.Suits
	}
	if len(suits) == 0 {
		return title + "; it suits nowhere here"
	}
	return title + "; it suits " + strings.Join(suits, " and ")
}

// suitsFirst tells whether the train suits at the lower end.
func suitsFirst(st *sweep.Study) bool {
	if len(st.Changes) > 0 {
		return st.Changes[0].Below == rules.Suits
	}
	return st.Verdicts()[rules.Suits] > 0
}

func stretch(a *sweep.Axis, from, to float64) string {
	switch {
	case math.IsInf(from, 0) && math.IsInf(to, 0):
		return "wherever in the range it can be built"
	case math.IsInf(from, 0):
		return "below " + borderAt(a, to)
	case math.IsInf(to, 0):
		return "above " + borderAt(a, from)
	}
	return "from " + borderAt(a, from) + " to " + borderAt(a, to)
}

// FoundRank is what moves a result most, or has most of its variance.
func FoundRank(st *rank.Study, r *rank.Ranking) string {
	head := RankHead(st, r)
	i := slices.IndexFunc(r.Inputs, func(in rank.Input) bool { return r.Moves(&in) })
	if i < 0 || st.Total && !(r.Inputs[i].Share.Total.Value > 0) {
		return head
	}
	in := &r.Inputs[i]
	return head + RankBy(st) + " is the " + Input(in.Quantity.Words, st.Own.Name) + where(st.Total, ", %s in all", ShareAndError(in.Share.Total))
}

// FoundSetUp is what is advised, and how even the best is.
func FoundSetUp(st *setup.Study) string { return SetUpHead(st) }

// FoundChoose is what is to be tried first, and the best of the springs.
func FoundChoose(st *choose.Study) string {
	return ChooseFirst(st, Verdict) + "; " + ChooseHead(st, Verdict)
}

// FoundAssign is the choice, train by train, as it is told of one.
func FoundAssign(st *assign.Study, train string) string {
	pairs := st.PairsOf(st.Best)
	i := slices.IndexFunc(pairs, func(p assign.Pair) bool { return p.Train == train })
	if i < 0 {
		return say("%s train: none of the springs is advised", train)
	}
	return say("%s train: spring %s, %s", train, pairs[i].Label, PairDoes(&pairs[i], Verdict))
}

// FoundReadings is what a spring that was read in a train gives, and whether it suits.
func FoundReadings(r *assign.Record, i int) string {
	var a Answer
	a.spring(r, i, new(ofSprings))
	gives, _, _ := strings.Cut(a.Gives[0], "; by its readings")
	return say("%s train: ", r.Springs[i].Train) + gives
}
