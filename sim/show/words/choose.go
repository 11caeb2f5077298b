package words

import (
	"cmp"
	"math"

	"evenpull/sim/rules"
	"evenpull/sim/study/choose"
)

// ChooseFirst tells what is to be tried first for the train of a choice.
func ChooseFirst(st *choose.Study, shown func(rules.Code) string) string {
	now := &st.Present.Digest
	does, faulty := DoesLoudly(now.Verdict.Code, shown)+surely(now), where(now.Faults != 0, "%s, and ", hasFaults(now))
	switch {
	case st.Lost:
		return say("%s train: its mainspring is broken or lost: one is to be ordered", now.Name)
	case st.First == rules.Nothing:
		return say("%s train: the present spring %s: nothing needs to be ordered", now.Name, does)
	case st.First == rules.AnotherSetUp:
		return say("%s train: before a spring is ordered, try the present one with another set-up, which costs nothing: %s", now.Name, setUpChange(st.SetUp))
	}
	return say("%s train: another spring is wanted: the present one %s, and %sno other set-up cures it", now.Name, does, faulty)
}

// ChooseGoal says what is aimed at.
func ChooseGoal(st *choose.Study) string {
	t := &st.Target
	return say("a mean of %v N·m, ", t.Mean) + cmp.Or(
		where(t.Basis == rules.ByBand, "the middle of the torques liked at the bench"),
		where(t.Basis == rules.ByCadence, "the middle of the torques that strike as fast as wanted"),
		say("%v times the %v N·m needed", t.Reserve, t.Need))
}

// ChooseHead names the best of the springs and counts those that suit.
func ChooseHead(st *choose.Study, shown func(rules.Code) string) string {
	best, n := st.Best(), len(st.Candidates)
	suit, order := st.Suits()
	does, all := DoesLoudly(best.Digest.Verdict.Code, shown)+surely(&best.Digest), Count(n, "spring")
	switch {
	case n == 0:
		return ChooseRefused(st, best)
	case suit > 0:
		but := where(order == 0, " by its torque, but: %s", ChooseNoOrder(&best.Digest))
		return say("%s %s%s; of %s %d %s and %d can be ordered", best.Label, does, but, all, suit, Either(suit > 1, "suit", "suits"), order)
	case n == 1 && !best.Fits():
		return say("the one spring, %s, cannot be fitted: %s", best.Label, ChooseRefused(st, best))
	case !best.Fits():
		return say("none of %s can be fitted; the nearest is %s: %s", all, best.Label, ChooseRefused(st, best))
	case n == 1:
		return say("the one spring, %s, does not suit: it %s", best.Label, does)
	}
	return say("none of %s suits; the nearest is %s, which %s", all, best.Label, does)
}

// ChooseNotes tell what is odd about what was asked for.
func ChooseNotes(st *choose.Study) []string {
	notes := told{}
	suits, mean, least := st.Present.Digest.Standard.Suiting(), st.Target.Mean, rules.LeastFloat*mm
	notes.when(!suits.Contains(mean), "the mean aimed at, %v N·m, lies outside the torques that suit, %v to %v N·m: a spring that meets it is too %s",
		mean, suits.Lo, suits.Hi, Either(mean < suits.Lo, "weak", "strong"))
	notes.when(st.EndShake < least, "an end shake of %s mm is less than %s mm: a spring that fills what is left will rub on the caps of the barrel; about 1 mm is wanted (common practice, no source)", typed(st.EndShake), typed(least))
	notes.when(st.Stopped(), "stopped early: %d of the %s of the list done", len(st.Candidates), Count(st.Asked, "spring"))
	return notes
}

// ChooseCautions are those of a change of springs.
func ChooseCautions(st *choose.Study) []string {
	stored, label := st.MostStored()
	who := cmp.Or(where(label != "", "the strongest of these springs, %s,", label), "the present spring")
	return []string{
		cautionOf(who, stored),
		"Line, gut or chain carries the whole pull of the spring: slacken it only once the spring is fully let down.",
		"The spring found may be part of the clock's history: keep it, labelled, with the clock; change nothing historic that cannot be undone, and ask a conservator where in doubt.",
	}
}

// ChooseFitted says how springs are fitted and in what order they stand.
func ChooseFitted(st *choose.Study) []string {
	d := &st.Present.Digest
	return []string{
		say("spacers leave %s mm of end shake; every spring is set up by whole clicks, %s in a turn, with at least %v turns to spare when the fusee is wound where it has them (advice.turns_to_spare): by the %s %s unless another set-up is advised; it is cut shorter only where that changes the verdict for the better or raises the share of draws that suit (advice.shorten_gain); a spring without a yield stress of its own is taken %s",
			typed(st.EndShake), Turns(d.Clicks), d.Advice.TurnsToSpare, TurnsAndClicks(d), Either(st.Lost, "that the barrel has", "of now"), cmp.Or(
				where(math.IsNaN(st.Steel), "never to set, as the scenario's: give mainspring.yield_mpa or free_coils there, or yield_mpa in the list, for a new spring sets and gives less"),
				say("to set from %.0f MPa on, %s%s", st.Steel/1e6, Either(st.Lost, "which is usual where mainspring.yield_mpa says nothing else", "as the scenario's spring"), where(st.ByCoils && !st.Lost, " must have to show its free coils")))),
		say("those stand first that suit, have no fault and leave the turns to spare; then the order is the share of draws that suit (%s or less apart is equal: advice.equal_within), verdict, least change of the present set-up, unevenness (common practice, no source)", Percent(d.Advice.EqualWithin)),
	}
}

// ChooseBrief says in short in what order springs stand, and of what steel they are.
func ChooseBrief(st *choose.Study) string {
	refused := 0
	for i := range st.Candidates {
		if !st.Candidates[i].Fits() {
			refused++
		}
	}
	return say("%sfirst what suits, the surest first; a steel that is not stated %s; --full tells why",
		where(refused > 0, "%s cannot be fitted; ", Count(refused, "spring")), cmp.Or(
			where(math.IsNaN(st.Steel), "never bends for good"),
			say("bends for good from %.0f MPa on", st.Steel/1e6)))
}

// ThumbBrief compares the rule of thumb with what was computed in one sentence.
func ThumbBrief(st *choose.Study) string {
	if st.Lost || len(st.Ideals) == 0 || !st.Ideals[0].Found() {
		says := ChooseThumb(st)
		return says[len(says)-1]
	}
	id := &st.Ideals[0]
	return say("the rule of thumb (torque as the width and the cube of the thickness; common practice, no source) asks for %.3f mm; computed, it is %.3f", id.Thumb, id.Thickness)
}

// ChooseMade says what the springs to have made are.
func ChooseMade(st *choose.Study) string {
	return cmp.Or(
		where(len(st.Ideals) == 0, "an end shake of %s mm leaves no width for a spring in a barrel %s mm high inside", typed(st.EndShake), typed(st.Height)),
		"a strip of the same steel whose mean torque is the target, as wide as the barrel takes and narrower, as long as fills the barrel to the share told, and set up as those above; a line to order has it in sizes that are sold, with its own set-up, and in the thickness that it names the spring still can be ordered, set up like this and each strip cut to that fill")
}

// IdealNote says why there is no line to order for a width; "" where there is one.
func IdealNote(st *choose.Study, id *choose.Ideal) string {
	why := noIdeal(st)
	if id.Found() {
		why = "no line to order: " + ChooseNoOrder(&id.Digest)
	}
	return where(!id.Ordered.Known(), "%.1f mm in width: %s", id.Width, why)
}

func noIdeal(st *choose.Study) string {
	return say("no thickness brings the mean torque to %v N·m: a spring thick enough has too few turns", st.Target.Mean)
}

// ChooseThumb compares the rule of thumb with what was computed.
func ChooseThumb(st *choose.Study) []string {
	p, mean := &st.Present, st.Present.Digest.Torque.Mean
	if st.Lost {
		return told{"the rule of thumb, strength as the width and as the cube of the thickness (common practice, no source), tells nothing here: it reckons from a spring that is there"}
	}
	says := told{say("the present spring, %.1f × %.3f × %.0f mm, gives a mean of %v N·m (%s of the target) and %s",
		p.Width, p.Thickness, p.Length, mean, Percent(mean/st.Target.Mean), Does(p.Digest.Verdict.Code))}
	if len(st.Ideals) == 0 {
		return says
	}
	id := &st.Ideals[0]
	rule := say("the rule of thumb, strength as the width and as the cube of the thickness (common practice, no source), asks for %.3f mm at %.1f mm of width; computed", id.Thumb, id.Width)
	if !id.Found() {
		return append(says, rule+": "+noIdeal(st))
	}
	by := id.Thumb/id.Thickness - 1
	says.add("%s, it is %.3f mm: %s", rule, id.Thickness, cmp.Or(
		where(math.Abs(by) < 1e-3, "the two agree here, since little has to change"),
		where(by > 0, "the rule's is %s thicker", Percent(by)),
		say("the rule's is %s thinner", Percent(-by))))
	const shorter = "a thicker strip, being shorter, has fewer turns"
	says.when(!math.IsNaN(p.Exponent), "here the mean torque grows as the power %.2f of the thickness, the strip cut to fill the barrel as before%s", p.Exponent, cmp.Or(
		where(math.Abs(p.Exponent-3) < 0.05, ": the rule's cube holds well"),
		where(math.IsNaN(p.Unset) || math.Abs(p.Unset-p.Exponent) < 0.05, ", not with the cube: %s, and the same turns of the fusee wind it nearer to home", shorter),
		say(", not with the cube: a thicker strip is bent further past its yield when it is first wound home, and its set takes back part of what the thickness gives; if it never set, the power would be %.2f, since %s and is wound nearer to home", p.Unset, shorter)))
	return says
}

// ChooseAssumed is what a choice takes where nothing else is asked for.
func ChooseAssumed() string {
	return say("a spring to order: a mean reserve of %s aimed at where nothing else is wanted, %s mm of end shake (common practice, no source)", typed(rules.TargetReserve), typed(rules.EndShake))
}
