package words

import (
	"math"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/study/choose"
	"evenpull/sim/study/cut"
	"evenpull/sim/study/setup"
)

// Next is the command to go on with after a finding: what is to follow its scenario, and
// what it tells. The zero value is none.
type Next struct{ Command, With, Tells string }

// RunNext is what to do after a run, about the train that is worst off.
func RunNext(c *sim.Clock) Next {
	if len(c.Trains) == 0 {
		return Next{}
	}
	worst := &c.Trains[0].Digest
	for i := range c.Trains {
		if d := &c.Trains[i].Digest; off(d) > off(worst) {
			worst = d
		}
	}
	with := where(len(c.Trains) > 1, "--train %s", worst.Name)
	switch off(worst) {
	case astray:
		return Next{"choose", with, toOrder}
	case unsure:
		return Next{"rank", with, "which measurement would settle it"}
	}
	return Next{}
}

const toOrder = "what to do first, and what to order"

// SetUpNext is what to do after a search for a set-up.
func SetUpNext(st *setup.Study) Next {
	switch {
	case st.First() == rules.AnotherSpring:
		return Next{"choose", "", toOrder}
	case st.Advised != nil:
		return Next{"run", say("--set %s.barrel.set_up_turns=%s", st.Now.Name, typed(math.Round(st.Advised.Spring.SetUp*1e7)/1e7)), "what the train does then"}
	}
	return Next{}
}

// ChooseNext is what to do after a choice.
func ChooseNext(st *choose.Study) Next {
	if st.First == rules.AnotherSetUp && !st.Lost {
		return Next{"setup", "", "what each set-up gives"}
	}
	return Next{}
}

// CutNext is what to do after a cone was worked out.
func CutNext(st *cut.Study) Next {
	if st.Suits() == cut.WithSetUp || st.Suits() == cut.AsItIs || st.Suits() == cut.NotJudged {
		return Next{}
	}
	return Next{"choose", "", toOrder}
}

// How badly a train is off.
const (
	unsure = 1 + iota
	astray
)

func off(d *sim.Digest) int {
	switch {
	case d.Verdict.Code == rules.Unjudged:
		return 0
	case d.Verdict.Code != rules.Suits || d.Faults != 0:
		return astray
	case d.Verdict.Sureness.Decides.Inputs[0].Key != "":
		return unsure
	}
	return 0
}
