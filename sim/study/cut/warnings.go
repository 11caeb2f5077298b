package cut

import (
	"fmt"
	"math"

	"evenpull/sim"
)

// muchOff is the share of the diameter above which cutting is no small change
// (common practice, no source).
const muchOff = 0.1

// Warnings are what is to be minded before the cone is cut.
func (st *Study) Warnings() []string {
	list := []string{}
	add := func(format string, args ...any) { list = append(list, fmt.Sprintf(format, args...)) }
	if st.Refused != "" {
		add("%s", st.Refused)
	}
	if st.Nothing {
		return append(list, st.Faults...)
	}
	st.warnOfStrength(add)
	if st.Missing > LeastCount {
		add("metal is missing: the new cone is up to %s mm thicker than the present one, at fusee turn %s; it takes a new blank", sim.Figure(st.Missing*1e3), sim.Turns(st.MissingAt))
	}
	if st.After.Spare < spare-1e-3 {
		add("wound fully, the spring has only %s turns left before it binds, and coils that do not pack perfectly take about one (common practice, no source)", turns(st.After.Spare))
	}
	if st.Groove.Land < leastLand {
		add("the land between two turns of the groove is %s mm; less than %s breaks out (common practice, no source)", sim.Figure(math.Max(st.Groove.Land*1e3, 0)), sim.Figure(leastLand*1e3))
	}
	if st.Suits() <= ByTheSetUp && !st.FromBlank {
		add("the cone need not be cut for this spring: %s it is even to %s", by(st.Suits()), percent(st.least()))
	}
	list = append(list, st.Faults...)
	if st.Suits() == ByTheCutter && !st.FromBlank {
		st.preferSpring(add)
	}
	return list
}

// warnOfStrength tells what the cut does to the verdict.
func (st *Study) warnOfStrength(add func(format string, args ...any)) {
	was, is := st.AsItIs.Verdict, st.After.Verdict
	switch {
	case is == sim.Stops && was == sim.Stops:
		add("with this cone the train stops, as it does now")
	case worse(was, is):
		add("with this cone the train %s, where it now %s: an even pull costs torque", says(is), says(was))
	case is == sim.Strong || is == sim.Overdriven:
		add("with this cone the train %s", says(is))
	}
	if st.KeepSetUp && !st.Present.good() && st.Least.good() {
		add("with the set-up kept the train %s; with %s turns, without --keep-set-up, it %s", says(is), turns(st.Least.SetUp), says(st.Least.Verdict))
	}
}

// preferSpring tells that a cut which makes the train suit has its price.
func (st *Study) preferSpring(add func(format string, args ...any)) {
	const rather = "rather fit a spring that suits the cone (evenpull choose)"
	switch {
	case st.Share > muchOff && len(st.Faults) > 0:
		add("more than a tenth of the diameter comes off, up to %s, and faults are left: %s", percent(st.Share), rather)
	case st.Share > muchOff:
		add("more than a tenth of the diameter comes off, up to %s: %s", percent(st.Share), rather)
	case len(st.Faults) > 0:
		add("once it is cut faults are left: %s", rather)
	}
}

// least is the unevenness that is had with nothing cut.
func (st *Study) least() float64 {
	if st.Suits() == AsItIs {
		return st.AsItIs.Torque.Unevenness
	}
	return st.SetUp.Torque.Unevenness
}

func by(a Answer) string {
	if a == AsItIs {
		return "as it is"
	}
	return "with another set-up alone"
}

// worse tells whether a verdict has moved from one that goes to one that is weak.
func worse(was, is sim.Code) bool {
	return is < was && (is == sim.Stops || is == sim.Thin)
}
