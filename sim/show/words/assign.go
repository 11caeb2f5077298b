package words

import (
	"fmt"
	"strings"

	"evenpull/sim/bench/assign"
	"evenpull/sim/rules"
	"evenpull/sim/vary"
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
	var notes []string
	if st.NearTie {
		notes = append(notes, "another choice is nearly as good: "+choice(st, st.Second))
	} else if st.Second != nil {
		notes = append(notes, "the next best would be "+choice(st, st.Second))
	}
	if st.Unsure {
		notes = append(notes, "a verdict marked as not sure changes within the 95 % interval of the readings, or with what the weights leave open: measure these again")
	}
	for _, at := range st.Best {
		p := &st.Pairs[at]
		if s := fewTurnsLeft(&p.Digest); s != "" {
			notes = append(notes, inTrain(p)+s)
		}
	}
	if n, m := len(st.Springs), len(st.Needs); n != m {
		notes = append(notes, fmt.Sprintf("%s and %s: some are left over", Count(n, "spring"), Count(m, "train")))
	}
	for _, err := range st.Refused {
		notes = append(notes, "a train is left out: "+vary.Why(err))
	}
	if s := carriedNote(st); s != "" {
		notes = append(notes, s)
	}
	return notes
}

// carriedNote tells what readings are that were taken in another train.
func carriedNote(st *assign.Study) string {
	elsewhere := false
	for i := range st.Pairs {
		p := &st.Pairs[i]
		if p.Why != nil {
			return "where readings could not be carried over they stand as they were read; " + inTrain(p) + vary.Why(p.Why)
		}
		elsewhere = elsewhere || p.ReadIn != p.Train
	}
	switch {
	case st.Scenario:
		return "readings are carried over to another train's fusee in the barrel of that train and with the set-up that the scenario gives it"
	case elsewhere:
		return "a spring read in another train stands as it was read there: its torque depends on that train's fusee; with --scenario it is carried over to each train's own"
	}
	return ""
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
func NotCarried(p *assign.Pair) string {
	if p.Why == nil {
		return ""
	}
	return vary.Why(p.Why)
}

// AssignCautions are what to mind before barrels are moved.
func AssignCautions(st *assign.Study) []string {
	return []string{"Barrels are moved with their springs let down. " + Caution(st.Stored())}
}
