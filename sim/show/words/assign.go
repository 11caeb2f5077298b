package words

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"evenpull/sim"
	"evenpull/sim/bench/assign"
	"evenpull/sim/rules"
)

// AssignHead is what was found, in a line.
func AssignHead(st *assign.Study) string {
	unsound := func(p assign.Pair) bool { return !p.Sound() }
	return Either(slices.ContainsFunc(st.PairsOf(st.Best), unsound),
		"The best choice there is; not every spring in it suits", "The choice that suits best") + where(!math.IsNaN(st.Sure), ", sure to %s", inHundred(st.Sure))
}

// AssignFaults are what does not fit in the choice, each with its spring and train.
func AssignFaults(st *assign.Study) []string {
	var list []string
	for _, p := range st.PairsOf(st.Best) {
		for _, s := range Faults(&p.Digest) {
			list = append(list, inTrain(&p)+s)
		}
	}
	return list
}

func inTrain(p *assign.Pair) string { return say("spring %s in the %s train: ", p.Label, p.Train) }

// PairDoes is the verdict on a pair as shown makes it, with what stands against it:
// what has a fault is not said to suit.
func PairDoes(p *assign.Pair, shown func(rules.Code) string) string {
	n := p.Faults.Count()
	return shown(p.Verdict.Code) + where(p.Faults != 0, " by its torque") + Sure(&p.Digest) +
		cmp.Or(where(p.TurnsLost > 0, ", but binds: %v turns lost", p.TurnsLost), where(n > 0, ", but has %s", Count(n, "fault")))
}

// AssignNotes are what is worth knowing beside the choice.
func AssignNotes(st *assign.Study) []string {
	notes := told{}
	next := Either(st.NearTie, "another choice is nearly as good:", "the next best would be")
	notes.when(st.Second != nil, "%s %s", next, choice(st.PairsOf(st.Second)))
	best := st.PairsOf(st.Best)
	unsure := slices.ContainsFunc(best, func(p assign.Pair) bool { s := &p.Verdict.Sureness; return s.Draws > 0 && s.Same < sim.SureEnough })
	notes.when(unsure, "a verdict is as sure as the readings and the weights make it: where it is not sure, read that spring or weigh that train again")
	for _, p := range best {
		few := fewTurnsLeft(&p.Digest)
		notes.when(few != "", "%s%s", inTrain(&p), few)
	}
	n, m := len(st.Springs), len(st.Needs)
	notes.when(n != m, "%s and %s: some are left over", Count(n, "spring"), Count(m, "train"))
	for _, err := range st.Refused {
		notes.add("a train is left out: %s", Why(err))
	}
	failed := slices.IndexFunc(st.Pairs, func(p assign.Pair) bool { return p.Why != nil })
	elsewhere := slices.ContainsFunc(st.Pairs, func(p assign.Pair) bool { return p.ReadIn != p.Train })
	switch {
	case failed >= 0:
		p := &st.Pairs[failed]
		notes.add("where readings could not be carried over they stand as they were read; %s%s", inTrain(p), Why(p.Why))
	case st.Scenario:
		notes.add("readings are carried over to another train's fusee in the barrel of that train and with the set-up that the scenario gives it")
	default:
		notes.when(elsewhere, "a spring read in another train stands as it was read there: its torque depends on that train's fusee; with --scenario it is carried over to each train's own")
	}
	return notes
}

func choice(pairs []assign.Pair) string {
	var list told
	for _, p := range pairs {
		list.add("%s to the %s train (%s)", p.Label, p.Train, PairDoes(&p, Small))
	}
	return strings.Join(list, ", ")
}

// AssignCautions are what to mind before barrels are moved.
func AssignCautions(st *assign.Study) []string {
	return []string{"Barrels are moved with their springs let down. " + Caution(st.Stored())}
}
