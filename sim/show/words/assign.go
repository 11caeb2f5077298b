package words

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"evenpull/sim/bench/assign"
	"evenpull/sim/rules"
)

// AssignHead is what was found, in a line.
func AssignHead(st *assign.Study) string {
	unsound := func(p assign.Pair) bool { return !p.Sound() }
	sure := where(!math.IsNaN(st.Sure), ", sure to %s", inHundred(st.Sure))
	switch {
	case len(st.Best) == 0:
		return "None of the springs can be advised for any train"
	case slices.ContainsFunc(st.PairsOf(st.Best), unsound):
		return "The best choice there is; not every spring in it suits" + sure
	}
	return "The choice that suits best" + sure
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
	if p.Why != nil {
		return "not judged"
	}
	n := p.Faults.Count()
	return shown(p.Verdict.Code) + where(p.Faults != 0, " by its torque") + Sure(&p.Digest) +
		cmp.Or(where(p.TurnsLost > 0, ", but binds: %v turns lost", p.TurnsLost), where(n > 0, ", but has %s", Count(n, "fault")))
}

// PairIs is PairDoes in a word or two, for a table; faults show as !.
func PairIs(p *assign.Pair) string {
	if p.Why != nil {
		return "not judged"
	}
	return Small(p.Verdict.Code) + cmp.Or(where(p.TurnsLost > 0, ", binds"), where(p.Faults != 0, " !"))
}

// AssignNotes are what is worth knowing beside the choice.
func AssignNotes(st *assign.Study) []string {
	notes := told{}
	var without told
	for _, n := range st.Bare(st.Second) {
		if why := unfit(st, n.Train); len(st.Springs) >= len(st.Needs) && len(why) > 0 {
			without.add("; the %s train would have none: %s", n.Train, strings.Join(why, "; "))
		}
	}
	notes.when(len(st.Second) > 0, "the next best would be %s%s", choice(st.PairsOf(st.Second)), strings.Join(without, ""))
	r := st.Settles
	reading := map[assign.What]string{
		assign.Torque: "the torque of spring %s read again, with three repeats, in the %s train", assign.Weights: "weights hung on the%s %s train until it just runs, or strikes as liked",
		assign.TurnsToSolid: "the turns of spring %s from rest to solid counted by hand in its barrel (read in the %s train)",
	}[r.What]
	notes.when(r.What != assign.Nothing, "what would settle it best: "+reading+"; were it known exactly, the choice would be sure to %s", r.Spring, r.Train, inHundred(r.Sure))
	best := st.PairsOf(st.Best)
	for _, n := range st.Bare(st.Best) {
		why := strings.Join(unfit(st, n.Train), "; ")
		notes.when(len(st.Springs) >= len(st.Needs) || len(st.Best) == 0, "no spring is advised for the %s train%s", n.Train, where(why != "", ": %s", why))
	}
	for _, sp := range st.Found {
		notes.when(sp.Why != nil, "spring %s, read in the %s train, is not judged: %s", sp.Label, sp.Train, Why(sp.Why))
	}
	for _, p := range best {
		few := fewTurnsLeft(&p.Digest)
		notes.when(few != "", "%s%s", inTrain(&p), few)
	}
	n, m := len(st.Springs), len(st.Needs)
	notes.when(n != m, "%s and %s: some are left over", Count(n, "spring"), Count(m, "train"))
	for _, err := range st.Refused {
		notes.add("a train is left out: %s", Why(err))
	}
	elsewhere := slices.ContainsFunc(st.Pairs, func(p assign.Pair) bool { return p.ReadIn != p.Train })
	notes.when(st.Scenario, "a spring read in another train comes in its barrel, which is taken to be as large as the one that the scenario has in its place, and with the set-up that the scenario has there")
	notes.when(!st.Scenario && elsewhere, "a spring read in another train stands as it was read there: its torque depends on that train's fusee; with --scenario it is worked out anew for each train's own")
	return notes
}

// unfit tells why no spring goes into a train.
func unfit(st *assign.Study, train string) []string {
	var list told
	for i := range st.Pairs {
		p := &st.Pairs[i]
		list.when(p.Train == train && p.TurnsLost > 0, "%s binds there", p.Label)
		list.when(p.Train == train && p.TurnsLost == 0 && p.Risky, "%s might bind there: count its turns from rest to solid", p.Label)
		list.when(p.Train == train && p.Why != nil, "%s could not be judged", p.Label)
	}
	return list
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
	return []string{"Barrels are moved with their springs let down. " + cautionOf("the strongest of these springs", st.Stored())}
}
