package words

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"evenpull/sim/rules"
	"evenpull/sim/study/choose"
)

// ChooseFirst tells what is to be tried first for the train of a choice.
func ChooseFirst(st *choose.Study, shown func(rules.Code) string) string {
	now := &st.Present.Digest
	switch st.First {
	case rules.Nothing:
		return fmt.Sprintf("%s train: the present spring %s: nothing needs to be ordered", now.Name, DoesLoudly(now.Verdict.Code, shown))
	case rules.AnotherSetUp:
		return fmt.Sprintf("%s train: before a spring is ordered, try the present one with another set-up, which costs nothing; %s", now.Name, SetUpAdvice(st.SetUp))
	}
	why := "no other set-up cures it"
	if n := now.Faults.Count(); n > 0 {
		why = fmt.Sprintf("has %s, and %s", Count(n, "fault"), why)
	}
	return fmt.Sprintf("%s train: another spring is wanted: the present one %s, and %s", now.Name, DoesLoudly(now.Verdict.Code, shown), why)
}

// ChooseGoal says what is aimed at.
func ChooseGoal(st *choose.Study) string {
	t := &st.Target
	s := fmt.Sprintf("a mean of %s N·m, ", Figure(t.Mean))
	switch t.Basis {
	case rules.ByBand:
		return s + "the middle of the torques liked at the bench"
	case rules.ByCadence:
		return s + "the middle of the torques that strike as fast as wanted"
	}
	return s + fmt.Sprintf("%s times the %s N·m needed", Figure(t.Reserve), Figure(t.Need))
}

// ChooseHead names the best of the springs and counts those that suit.
func ChooseHead(st *choose.Study, shown func(rules.Code) string) string {
	best, n := &st.Candidates[0], len(st.Candidates)
	suit, order := st.Suits()
	does := DoesLoudly(best.Digest.Verdict.Code, shown)
	switch {
	case suit > 0:
		s := fmt.Sprintf("%s %s", best.Label, does)
		if order == 0 {
			s += " by its torque, but: " + ChooseNoOrder(&best.Digest)
		}
		suits := "1 suits"
		if suit > 1 {
			suits = fmt.Sprintf("%d suit", suit)
		}
		return fmt.Sprintf("%s; of %s %s and %d can be ordered", s, Count(n, "spring"), suits, order)
	case n == 1 && !best.Fits():
		return fmt.Sprintf("the one spring, %s, cannot be fitted: %s", best.Label, ChooseRefused(st, best))
	case !best.Fits():
		return fmt.Sprintf("none of %s can be fitted; the nearest is %s: %s", Count(n, "spring"), best.Label, ChooseRefused(st, best))
	case n == 1:
		return fmt.Sprintf("the one spring, %s, does not suit: it %s", best.Label, does)
	}
	return fmt.Sprintf("none of %s suits; the nearest is %s, which %s", Count(n, "spring"), best.Label, does)
}

// ChooseNotes tell what is odd about what was asked for.
func ChooseNotes(st *choose.Study) []string {
	list := []string{}
	suits := st.Present.Digest.Standard.Suiting()
	if mean := st.Target.Mean; !suits.Contains(mean) {
		missed := "strong"
		if mean < suits.Lo {
			missed = "weak"
		}
		list = append(list, fmt.Sprintf("the mean aimed at, %s N·m, lies outside the torques that suit, %s to %s N·m: a spring that meets it is too %s", Figure(mean), Figure(suits.Lo), Figure(suits.Hi), missed))
	}
	if least := rules.LeastFloat * 1e3; st.EndShake < least {
		list = append(list, fmt.Sprintf("an end shake of %s mm is less than %s mm: a spring that fills what is left will rub on the caps of the barrel; about 1 mm is wanted (common practice, no source)", typed(st.EndShake), typed(least)))
	}
	if st.Stopped() {
		list = append(list, fmt.Sprintf("stopped early: %d of the %s of the list done", len(st.Candidates), Count(st.Asked, "spring")))
	}
	return list
}

// ChooseCautions are those of a change of springs.
func ChooseCautions(st *choose.Study) []string {
	who, stored := "the present spring", st.Present.Digest.Spring.Stored
	for i := range st.Candidates {
		if c := &st.Candidates[i]; c.Digest.Spring.Stored > stored {
			who, stored = "the strongest of these springs, "+c.Label+",", c.Digest.Spring.Stored
		}
	}
	return []string{
		strings.Replace(Caution(stored), "this spring", who, 1),
		"Line, gut or chain carries the whole pull of the spring: slacken it only once the spring is fully let down.",
		"The spring that was found may be part of the clock's history: keep it, labelled, with the clock, and change nothing else on a historic part that cannot be undone; ask a conservator where in doubt.",
	}
}

// ChooseFitted says how springs are fitted and in what order they stand.
func ChooseFitted(st *choose.Study) []string {
	a, d := &st.Present.Digest.Advice, &st.Present.Digest
	return []string{
		fmt.Sprintf("spacers leave %s mm of end shake; every spring is set up by whole clicks, %s in a turn, with at least %s turns to spare when the fusee is wound where it has them (advice.turns_to_spare): by the %s of now unless another set-up is advised; it is cut shorter only where that changes the verdict for the better; %s",
			typed(st.EndShake), Turns(d.Clicks), Figure(a.TurnsToSpare), TurnsAndClicks(d), chooseSteel(st)),
		"they stand in the order of verdict, freedom from faults, turns to spare, least change of the present set-up, unevenness (common practice, no source)",
	}
}

// chooseSteel says what a spring is taken to be made of whose yield stress is not told.
func chooseSteel(st *choose.Study) string {
	switch {
	case math.IsNaN(st.Steel):
		return "a spring without a yield stress of its own is taken never to set, as the scenario's: give mainspring.yield_mpa or free_coils there, or yield_mpa in the list, for a new spring sets and gives less"
	case st.ByCoils:
		return fmt.Sprintf("a spring without a yield stress of its own is taken to set from %.0f MPa on, as the scenario's spring must have to show its free coils", st.Steel/1e6)
	}
	return fmt.Sprintf("a spring without a yield stress of its own is taken to set from %.0f MPa on, as the scenario's spring", st.Steel/1e6)
}

// typed is a number as one would type it.
func typed(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
