package words

import (
	"strings"

	"evenpull/sim"
	"evenpull/sim/bench/assign"
	"evenpull/sim/rules"
	"evenpull/sim/study/choose"
	"evenpull/sim/study/setup"
)

// Meant tells what a number of draws in 100 means; "" where no draws were made.
func Meant(d *sim.Digest) string {
	s := &d.Verdict.Sureness
	return where(s.Draws > 0, "of 100 clocks that differ from the readings by their usual errors, %s would be judged so",
		strings.TrimSuffix(inHundred(max(s.Same, s.ElseIn)), " in 100"))
}

// SetUpToDo is what is to be done with the set-up, in short.
func SetUpToDo(st *setup.Study) string {
	now, to := &st.Now, st.Advised
	if to == nil {
		return say("leave it at %s", TurnsAndClicks(now))
	}
	return say("%s in place of %s%s: ", TurnsAndClicks(to), TurnsAndClicks(now), where(st.First() == rules.AnotherSpring, " until another spring is fitted")) +
		Either(st.Finding.Rule == rules.TurnsToSpare, say("it leaves %v turns to spare in place of %v", to.Spare(), now.Spare()), "the train then "+fares(to))
}

// OrderToDo is what is to be ordered for a train, in short; "" where its spring does.
func OrderToDo(st *choose.Study) string {
	is := st.Present.Digest.Standing()
	switch list := ToOrders(st); {
	case st.First == rules.Nothing, st.First == rules.AnotherSetUp && is.Sound():
		return ""
	case st.First == rules.AnotherSetUp:
		return "nothing before that set-up was tried"
	case len(list) == 0:
		return say("no spring of any width brings %s through this cone and can be ordered", ChooseGoal(st))
	default:
		return "a mainspring of the same steel and with the same ends, width × thickness × length " + list[0]
	}
}

// OthersToOrder are the springs to have made, with what they are made for; those told by
// OrderToDo are left out.
func OthersToOrder(st *choose.Study) []string {
	list := ToOrders(st)
	if st.First == rules.AnotherSpring && len(list) > 0 {
		list = list[1:]
	}
	return list
}

// StrikesBy tells where the work of a blow goes and what fly would strike as wanted; none of
// a train that does not strike.
func StrikesBy(r *sim.Result) (says []string) {
	if r.Strikes {
		for _, l := range strikeLines(r)[1:] {
			if l[1] != "" {
				says = append(says, l[1])
			}
		}
	}
	return says
}

// RunDown tells when each train of a clock has run down, or stops, the first of them first;
// "" where that is known of less than two.
func RunDown(c *sim.Clock) string {
	list := c.DownFirst()
	if len(list) < 2 {
		return ""
	}
	first, last := list[0].HoursGoing(), list[len(list)-1].HoursGoing()
	if last-first <= 0.05 {
		return say("all trains together, after %v h, %v days", first, first/24)
	}
	var says told
	for i := range list {
		h := list[i].HoursGoing()
		says.add("the %s train after %v h, %v days", list[i].Name, h, h/24)
	}
	return strings.Join(says, "; ")
}

// Assigned is the choice of a spring for each train; "" where there is no choice.
func Assigned(st *assign.Study) string {
	if len(st.Springs) < 2 || len(st.Needs) < 2 || len(st.Best) == 0 {
		return ""
	}
	var to told
	for _, p := range st.PairsOf(st.Best) {
		to.add("%s to the %s train", p.Label, p.Train)
	}
	return listed(to) + ". " + AssignHead(st) + ". Barrels are moved with their springs let down."
}
