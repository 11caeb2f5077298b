package words

import (
	"fmt"
	"math"

	"evenpull/sim/rules"
	"evenpull/sim/study/choose"
)

// ChooseMade says what the springs to have made are.
func ChooseMade(st *choose.Study) string {
	if len(st.Ideals) == 0 {
		return fmt.Sprintf("an end shake of %s mm leaves no width for a spring in a barrel %s mm high inside", typed(st.EndShake), typed(st.Height))
	}
	return "a strip of the same steel whose mean torque is the target, as wide as the barrel takes and narrower, as long as fills the barrel to the share told, and set up as those above; a line to order has it in sizes that are sold, with its own set-up, and in the thickness that it names the spring still can be ordered, set up like this and each strip cut to that fill"
}

// IdealOrder is a spring to have made as it can be ordered, with the thickness that is
// to be kept; "" when it is not to be.
func IdealOrder(id *choose.Ideal) string {
	o := &id.Ordered
	if !o.Known() {
		return ""
	}
	return fmt.Sprintf("%.1f × %.*f × %.0f mm%s", id.Width, o.Decimals, o.Thickness, o.Length, within(o.Tolerance))
}

// IdealSetUp is the set-up of a spring to have made, as it is ordered.
func IdealSetUp(id *choose.Ideal) string { return TurnsAndClicks(&id.Ordered.Digest) }

// IdealNote says why there is no line to order for a width; "" where there is one.
func IdealNote(st *choose.Study, id *choose.Ideal) string {
	switch {
	case !id.Found():
		return fmt.Sprintf("%.1f mm wide: %s", id.Width, noIdeal(st))
	case !id.Ordered.Known():
		return fmt.Sprintf("%.1f mm wide: no line to order: %s", id.Width, ChooseNoOrder(&id.Digest))
	}
	return ""
}

func noIdeal(st *choose.Study) string {
	return fmt.Sprintf("no thickness brings the mean torque to %s N·m: a spring thick enough has too few turns", Figure(st.Target.Mean))
}

// ChooseThumb compares the rule of thumb with what was computed.
func ChooseThumb(st *choose.Study) []string {
	p := &st.Present
	list := []string{fmt.Sprintf("the present spring, %.1f × %.3f × %.0f mm, gives a mean of %s N·m (%s of the target) and %s",
		p.Width, p.Thickness, p.Length, Figure(p.Digest.Torque.Mean), Percent(p.Digest.Torque.Mean/st.Target.Mean), Does(p.Digest.Verdict.Code))}
	if len(st.Ideals) == 0 {
		return list
	}
	id := &st.Ideals[0]
	rule := fmt.Sprintf("the rule of thumb, strength as the width and as the cube of the thickness (common practice, no source), asks for %.3f mm at %.1f mm of width; computed", id.Thumb, id.Width)
	if !id.Found() {
		return append(list, rule+": "+noIdeal(st))
	}
	list = append(list, fmt.Sprintf("%s, it is %.3f mm: %s", rule, id.Thickness, apart(id)))
	if math.IsNaN(p.Exponent) {
		return list
	}
	why := fmt.Sprintf("here the mean torque goes with the power %.2f of the thickness, the strip cut to fill the barrel as before", p.Exponent)
	switch {
	case math.Abs(p.Exponent-3) < 0.05:
		why += ": the rule's cube holds well"
	case math.IsNaN(p.Unset) || math.Abs(p.Unset-p.Exponent) < 0.05:
		why += ", not with the cube: a thicker strip, being shorter, has fewer turns, and the same turns of the fusee wind it nearer to home"
	default:
		why += fmt.Sprintf(", not with the cube: a thicker strip is bent further past its yield when it is first wound home, and its set takes back part of what the thickness gives; if it never set, the power would be %.2f, since a thicker strip, being shorter, has fewer turns and is wound nearer to home", p.Unset)
	}
	return append(list, why)
}

// apart says how the rule's thickness differs from the computed one.
func apart(id *choose.Ideal) string {
	by := id.Thumb/id.Thickness - 1
	switch {
	case math.Abs(by) < 1e-3:
		return "the two agree here, since little has to change"
	case by > 0:
		return fmt.Sprintf("the rule's is %s thicker", Percent(by))
	}
	return fmt.Sprintf("the rule's is %s thinner", Percent(-by))
}

// ToOrders are the springs to have made that can be ordered, with their set-ups.
func ToOrders(st *choose.Study) []string {
	var list []string
	for i := range st.Ideals {
		if order := IdealOrder(&st.Ideals[i]); order != "" {
			list = append(list, order+", to be set up by "+IdealSetUp(&st.Ideals[i]))
		}
	}
	return list
}

// ToOrder tells what to order for a train, if anything, as the rules have it: nothing
// where it suits, another set-up before another spring.
func ToOrder(st *choose.Study) string {
	spring := "no spring of any width brings " + ChooseGoal(st) + ", through this cone and can be ordered"
	if list := ToOrders(st); len(list) > 0 {
		spring = "width × thickness × length " + list[0] + "; for the same barrel, a mainspring of the same steel, with ends as the present one has them (aimed at: " + ChooseGoal(st) + ")"
	}
	switch st.First {
	case rules.Nothing:
		return "nothing; if it has to be replaced: " + spring
	case rules.AnotherSetUp:
		return "nothing before the set-up above was tried, with which the present spring does; else: " + spring
	}
	return "in place of the spring it has: " + spring
}

// ChooseAssumed is what a choice takes where nothing else is asked for.
func ChooseAssumed() string {
	return fmt.Sprintf("a spring to order: a mean reserve of %s aimed at where nothing else is wanted, %s mm of end shake (common practice, no source)", typed(rules.TargetReserve), typed(rules.EndShake))
}
