package words

import (
	"cmp"
	"math"
	"strings"

	"evenpull/sim"
	"evenpull/sim/bench/assign"
	"evenpull/sim/rules"
	"evenpull/sim/study/choose"
	"evenpull/sim/study/letter"
)

// Part is a part of a letter: its heading, and paragraphs.
type Part struct {
	ID, Title string
	Says      []string
}

// LetterHead are the lines above a letter: who writes, to whom, of what, when.
func LetterHead(st *letter.Study) []string {
	h := &st.Head
	var head told
	head.when(h.Workshop != "", "%s", h.Workshop)
	head.when(h.Owner != "", "To %s", h.Owner)
	head.when(h.Date != "", "%s", h.Date)
	return head
}

// LetterTitle is what a letter is about.
func LetterTitle(st *letter.Study) string { return cmp.Or(st.Head.Clock, st.Title) }

// LetterParts are what a letter tells, in plain words: no key, no statistics.
func LetterParts(st *letter.Study) []Part {
	parts := []Part{
		{"found", "What was found", letterFound(st)},
		{"springs", "Which spring goes where", letterSprings(st)},
		{"order", "What to order", letterOrders(st)},
		{"left", "What was left as it is, and why", letterLeft(st)},
		{"next", "What to measure next", letterNext(st)},
		{"care", "With care", []string{strings.Replace(Caution(st.Stored()), "this spring", "the strongest spring of this clock", 1)}},
	}
	var all []Part
	for _, p := range parts {
		if len(p.Says) > 0 {
			all = append(all, p)
		}
	}
	return all
}

// plain is what a train does on a spring.
func plain(c rules.Code) string {
	return map[rules.Code]string{
		rules.Suits: "suits it", rules.Thin: "drives it with too little to spare for thick oil, dirt and cold", rules.Strong: "is stronger than it needs",
		rules.Overdriven: "is far stronger than it needs, which wears its pivots", rules.Stops: "is too weak: the train would stop before it has run down",
	}[c]
}

// certain is how sure something is, without a figure finer than anyone can use.
func certain(share float64) string {
	switch {
	case share >= 0.99:
		return "as good as certain"
	case share >= 0.95:
		return "very likely (better than 19 in 20)"
	case share >= 0.9:
		return "likely (better than 9 in 10)"
	case share >= 0.75:
		return "likely, but not more (about 3 in 4 or better)"
	}
	return "not certain: see what to measure next"
}

func letterFound(st *letter.Study) []string {
	var says told
	for i := range st.Trains {
		t := &st.Trains[i]
		need := where(!math.IsNaN(t.Now.Need.Used), "needs a pull of about %v N·m at the winding square", t.Now.Need.Used)
		switch {
		case t.In != nil || st.Assign != nil:
			says.when(need != "", "The %s train %s.", t.Name, need)
		case t.Now.Verdict.Code == rules.Unjudged:
			says.add("The %s train could not be judged: what it needs is not known.", t.Name)
		default:
			says.add("The %s train%s. The spring in it gives %v N·m on average, and %s%s.", t.Name, where(need != "", " %s", need), t.Now.Torque.Mean, plain(t.Now.Verdict.Code), howCertain(&t.Now))
			says.when(t.Now.TurnsLost > 0, "Its spring goes solid before the fusee is fully wound.")
		}
	}
	for _, err := range st.Refused {
		says.add("One train could not be worked out: %s.", Why(err))
	}
	return says
}

func howCertain(d *sim.Digest) string {
	s := &d.Verdict.Sureness
	return where(s.Draws > 0, "; this is %s", certain(s.Same))
}

func letterSprings(st *letter.Study) []string {
	var says told
	if st.Assign == nil {
		for i := range st.Trains {
			if t := &st.Trains[i]; t.SetUp != nil && t.SetUp.First() == rules.AnotherSetUp {
				says.add("The spring of the %s train stays; it is to be set up anew, with %s left in it when the fusee has run down.", t.Name, TurnsAndClicks(t.SetUp.Advised))
			}
		}
		return says
	}
	for i := range st.Trains {
		t := &st.Trains[i]
		if t.In == nil {
			why := strings.Join(unfit(st.Assign, t.Name), "; ")
			says.add("None of the springs is right for the %s train%s.", t.Name, where(why != "", ": %s", why))
			continue
		}
		if t.Wanted() {
			says.add("For the %s train spring %s is the least wrong of those there, and not right: it %s%s.", t.Name, t.In.Label, plain(t.Now.Verdict.Code), howCertain(&t.Now))
			continue
		}
		says.add("Spring %s goes into the %s train%s", t.In.Label, t.Name, doesSetUp(t))
	}
	says.when(!math.IsNaN(st.Assign.Sure) && len(st.Assign.Best) > 0, "That this is the best way to place them is %s.", certain(st.Assign.Sure))
	return says
}

// doesSetUp is what a train does on the spring that goes in, set up as is advised.
func doesSetUp(t *letter.Train) string {
	if t.SetUp == nil || t.SetUp.Advised == nil || t.SetUp.First() != rules.AnotherSetUp {
		return say("; it %s%s.", plain(t.Now.Verdict.Code), howCertain(&t.Now))
	}
	d := t.SetUp.Advised
	return say(", set up with %s; it %s%s.", TurnsAndClicks(d), plain(d.Verdict.Code), howCertain(d))
}

func letterOrders(st *letter.Study) []string {
	var says told
	for i := range st.Trains {
		t := &st.Trains[i]
		switch o := t.Order; {
		case o == nil && t.Wanted():
			says.add("For the %s train another spring is wanted; with a dealer's list we can say which.", t.Name)
		case o == nil:
		case t.Given != nil:
			best := t.Given
			says.add("For the %s train spring %s of the dealer's list, %s; it %s%s.", t.Name, best.Label, ChooseSize(best), plain(best.Digest.Verdict.Code), howCertain(&best.Digest))
		case o.Best().Orders():
			says.add("For the %s train nothing is left in the dealer's list: what is right for it goes into another train.%s", t.Name, toHaveMade(o))
		default:
			says.add("For the %s train nothing in the dealer's list is right.%s", t.Name, toHaveMade(o))
		}
	}
	if len(says) == 0 {
		says.add("Nothing.")
	}
	return says
}

// toHaveMade is the spring that would be right, where there is one.
func toHaveMade(o *choose.Study) string {
	if list := ToOrders(o); len(list) > 0 {
		return say(" One could be made, width × thickness × length: %s.", list[0])
	}
	return ""
}

func letterLeft(st *letter.Study) []string {
	says := told{Either(st.Historic, "No fusee was cut, nor will be: the clock is historic, and cutting cannot be undone.",
		"No fusee was cut: cutting cannot be undone, and another set-up or another spring comes first.")}
	var stay []string
	for i := range st.Trains {
		t := &st.Trains[i]
		if t.Order == nil && (t.In != nil || st.Assign == nil) && t.Now.Verdict.Code == rules.Suits && !t.Wanted() {
			stay = append(stay, t.Name)
		}
	}
	says.when(len(stay) > 0, "No new spring was looked for where one of those there suits: %s.", listed(stay))
	return says
}

func letterNext(st *letter.Study) []string {
	var says told
	if a := st.Assign; a != nil {
		if r := a.Settled(); r != nil {
			says.add("%s; it would make the choice of springs surer.", map[assign.What]string{
				assign.Torque:  say("The pull of spring %s once more, three times over, in the %s train", r.Spring, r.Train),
				assign.Weights: say("The least weight on which the %s train runs", r.Train), assign.TurnsToSolid: say("The turns of spring %s from rest to solid, counted by hand in its barrel", r.Spring),
			}[r.What])
		}
		var coils []string
		for _, sp := range a.Found {
			says.when(sp.Why != nil, "The pull of spring %s at more turns of the fusee: it could not be judged from what was read.", sp.Label)
			if len(sp.Apart) > 0 {
				coils = append(coils, sp.Label)
			}
		}
		says.when(len(coils) > 0, "The coils that %s lying free on the bench: they tell the steel.", Either(len(coils) > 1, "springs "+listed(coils)+" show", "spring "+listed(coils)+" shows"))
	}
	for i := range st.Trains {
		t := &st.Trains[i]
		first := &t.Now.Verdict.Sureness.Decides.Inputs[0]
		says.when(first.Key != "" && len(says) < 4, "For the %s train the %s, which decides how sure its verdict is.", t.Name, Input(first.Words, t.Name))
	}
	return says
}
