package cut

import (
	"fmt"
	"math"

	"evenpull/sim"
)

// evenEnough is the evenness up to which a cone is said to suit its spring (common
// practice, no source).
const evenEnough = 0.05

// Answer tells whether a cone suits a spring.
type Answer uint8

const (
	AsItIs      Answer = iota // as it is
	ByTheSetUp                // with another set-up, nothing cut
	ByTheCutter               // only when it is cut
	Never                     // not even then: cut for this spring, the train would stop
)

// String is the answer as results write it.
func (a Answer) String() string {
	return [...]string{"as it is", "with another set-up", "when cut", "no"}[a]
}

// Suits answers whether the cone suits the spring: the evenness within 5 % of the
// mean and every fusee turn wound, with as little done as may be. How strong the
// train then is, its verdict tells.
func (st *Study) Suits() Answer {
	fits := func(w *Way) bool { return w.Fault == "" && w.Lost == 0 && w.Torque.Evenness <= evenEnough }
	switch {
	case fits(&st.AsItIs):
		return AsItIs
	case fits(&st.SetUp):
		return ByTheSetUp
	case st.After.Verdict == sim.Stops:
		return Never
	}
	return ByTheCutter
}

// Warnings are what is to be minded before the cone is cut.
func (st *Study) Warnings() []string {
	list := []string{}
	add := func(format string, args ...any) { list = append(list, fmt.Sprintf(format, args...)) }
	if st.Nothing {
		return append(list, st.Faults...)
	}
	if st.Missing > leastCount {
		add("metal is missing: the new cone is up to %s mm thicker than the present one, at fusee turn %s; it takes a new blank", sim.Figure(st.Missing*1e3), sim.Turns(st.MissingAt))
	}
	if st.After.Spare < spare-1e-3 {
		add("wound fully, the spring has only %s turns left before it binds, and coils that do not pack perfectly take about one (common practice, no source)", turns(st.After.Spare))
	}
	switch was, is := st.AsItIs.Verdict, st.After.Verdict; {
	case is == sim.Stops && was == sim.Stops:
		add("with this cone the train stops, as it does now")
	case worse(was, is):
		add("with this cone the train %s, where it now %s: the evenness costs torque", says(is), says(was))
	}
	if st.Groove.Land < leastLand {
		add("the land between two turns of the groove is %s mm; less than %s breaks out (common practice, no source)", sim.Figure(math.Max(st.Groove.Land*1e3, 0)), sim.Figure(leastLand*1e3))
	}
	if st.Suits() <= ByTheSetUp && !st.FromBlank {
		add("the cone need not be cut for this spring: %s it is even to %s", by(st.Suits()), percent(st.least()))
	}
	return append(list, st.Faults...)
}

// least is the evenness that is had with nothing cut.
func (st *Study) least() float64 {
	if st.Suits() == AsItIs {
		return st.AsItIs.Torque.Evenness
	}
	return st.SetUp.Torque.Evenness
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

// says is a verdict as a verb.
func says(c sim.Code) string {
	switch c {
	case sim.Stops, sim.Suits:
		return c.String()
	case sim.Unjudged:
		return "is not judged"
	}
	return "is " + c.String()
}

// Cautions are what is to be minded with the spring and at the lathe.
func (st *Study) Cautions() []string {
	return []string{st.Caution,
		"Cutting a fusee cannot be undone. On a historic clock leave the cone as it is and fit a spring that suits it.",
		"Take the line and the spring off before anything is cut. Turn the fusee on a lathe with its arbor supported at both ends, never in the clock; guard against chips and the running work, and wear eye protection. Local safety rules and a qualified maker's judgement come before anything printed here.",
	}
}

// turns writes a number of spring turns.
func turns(v float64) string { return fmt.Sprintf("%.2f", v) }

// percent is an evenness in percent; what is level but for rounding is that.
func percent(v float64) string {
	if v < 5e-5 {
		return "0.01 % or better"
	}
	return sim.Figure(100*v) + " %"
}
