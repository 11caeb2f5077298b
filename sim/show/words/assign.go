package words

import (
	"fmt"
	"slices"
	"strings"

	"evenpull/sim/bench/assign"
	"evenpull/sim/rules"
)

// AssignHead is what was found, in a line.
func AssignHead(st *assign.Study) string {
	for _, at := range st.Best {
		if !st.Pairs[at].Sound() {
			return "The best choice there is; not every spring in it suits"
		}
	}
	return "The choice that suits best"
}

// AssignFaults are what does not fit in the choice, each with its spring and train.
func AssignFaults(st *assign.Study) []string {
	var list []string
	for _, at := range st.Best {
		p := &st.Pairs[at]
		for _, s := range Faults(&p.Digest) {
			list = append(list, inTrain(p)+s)
		}
	}
	return list
}

func inTrain(p *assign.Pair) string {
	return fmt.Sprintf("spring %s in the %s train: ", p.Label, p.Train)
}

// PairDoes is the verdict on a pair as shown makes it, with what stands against it:
// what has a fault is not said to suit.
func PairDoes(p *assign.Pair, shown func(rules.Code) string) string {
	s := shown(p.Verdict.Code)
	if p.Faults != 0 {
		s += " by its torque"
	}
	if !p.Sure {
		s += ", not sure"
	}
	switch n := p.Faults.Count(); {
	case p.TurnsLost > 0:
		s += ", but binds: " + Figure(p.TurnsLost) + " turns lost"
	case n > 0:
		s += ", but has " + Count(n, "fault")
	}
	return s
}

// AssignNotes are what is worth knowing beside the choice.
func AssignNotes(st *assign.Study) []string {
	notes := told{}
	if st.Second != nil {
		next := "the next best would be"
		if st.NearTie {
			next = "another choice is nearly as good:"
		}
		notes.when(true, "%s %s", next, choice(st, st.Second))
	}
	notes.when(st.Unsure, "a verdict marked as not sure changes within the 95 %% interval of the readings, or with what the weights leave open: measure these again")
	for _, at := range st.Best {
		p := &st.Pairs[at]
		few := fewTurnsLeft(&p.Digest)
		notes.when(few != "", "%s%s", inTrain(p), few)
	}
	n, m := len(st.Springs), len(st.Needs)
	notes.when(n != m, "%s and %s: some are left over", Count(n, "spring"), Count(m, "train"))
	for _, err := range st.Refused {
		notes.when(true, "a train is left out: %s", why(err))
	}
	notes.carried(st)
	return notes
}

// carried tells what readings are that were taken in another train.
func (t *told) carried(st *assign.Study) {
	failed := slices.IndexFunc(st.Pairs, func(p assign.Pair) bool { return p.Why != nil })
	elsewhere := slices.ContainsFunc(st.Pairs, func(p assign.Pair) bool { return p.ReadIn != p.Train })
	switch {
	case failed >= 0:
		p := &st.Pairs[failed]
		t.when(true, "where readings could not be carried over they stand as they were read; %s%s", inTrain(p), why(p.Why))
	case st.Scenario:
		t.when(true, "readings are carried over to another train's fusee in the barrel of that train and with the set-up that the scenario gives it")
	default:
		t.when(elsewhere, "a spring read in another train stands as it was read there: its torque depends on that train's fusee; with --scenario it is carried over to each train's own")
	}
}

// choice is a choice in words.
func choice(st *assign.Study, pairs []int) string {
	list := make([]string, len(pairs))
	for i, at := range pairs {
		p := &st.Pairs[at]
		list[i] = fmt.Sprintf("%s to the %s train (%s)", p.Label, p.Train, PairDoes(p, Small))
	}
	return strings.Join(list, ", ")
}

// NotCarried tells why a pair's readings could not be carried over; "" where they
// were, or without a scenario.
func NotCarried(p *assign.Pair) string { return why(p.Why) }

// AssignCautions are what to mind before barrels are moved.
func AssignCautions(st *assign.Study) []string {
	return []string{"Barrels are moved with their springs let down. " + Caution(st.Stored())}
}
