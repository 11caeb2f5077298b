package cut

import (
	"fmt"

	"evenpull/sim/rules"
	"evenpull/sim/show/words"
)

// evenEnough is the unevenness up to which a cone is said to suit its spring (common
// practice, no source).
const evenEnough = 0.05

// Answer tells whether a cone suits a spring.
type Answer uint8

const (
	AsItIs        Answer = iota // as it is
	ByTheSetUp                  // with another set-up, nothing cut
	ByTheCutter                 // only when it is cut
	SpringAtFault               // even with nothing cut, but the train is too weak or driven too hard
	Never                       // not even when it is cut
)

// String is the answer as results write it.
func (a Answer) String() string {
	return [...]string{"as it is", "with another set-up", "when cut", "even, but not the spring for the train", "no"}[a]
}

// even tells whether a way is even to 5 % of the mean over every fusee turn.
func (w *Way) even() bool { return w.Fault == "" && w.Lost == 0 && w.Torque.Unevenness <= evenEnough }

// good tells whether a way is even and the train suits, or is not judged.
func (w *Way) good() bool {
	return w.even() && (w.Verdict == rules.Suits || w.Verdict == rules.Unjudged)
}

// Suits answers whether the cone suits the spring, even and with the train's
// verdict, with as little done as may be.
func (st *Study) Suits() Answer {
	switch {
	case st.AsItIs.good():
		return AsItIs
	case st.SetUp.good():
		return ByTheSetUp
	case st.Present.good() || st.Least.good():
		return ByTheCutter
	case st.AsItIs.even() || st.SetUp.even():
		return SpringAtFault
	}
	return Never
}

// Advised tells whether the cone to cut is advised at all: something is to be cut,
// and the train then suits.
func (st *Study) Advised() bool { return !st.Nothing && st.After.good() }

// headline is the answer in words.
func (st *Study) headline() string {
	return fmt.Sprintf("%s train: does this cone suit this spring? %s", st.Train.Name, st.Answered())
}

// Answered is the answer in words.
func (st *Study) Answered() string {
	switch st.Suits() {
	case AsItIs:
		if st.Nothing && st.Refused == "" {
			return "YES, as it is: it is cut for it, and there is nothing to cut"
		}
		return "YES, as it is"
	case ByTheSetUp:
		return "YES, with another set-up and nothing cut"
	case ByTheCutter:
		if st.FromBlank {
			return "NOT AS IT IS, only a new cone does"
		}
		return "NOT AS IT IS, only when it is cut"
	case SpringAtFault:
		way, with := &st.AsItIs, ""
		if !way.even() {
			way, with = &st.SetUp, " with the best set-up"
		}
		return fmt.Sprintf("EVEN ENOUGH%s, but the train %s: the spring, not the cone, is at fault; fit another spring (evenpull choose)", with, says(way.Verdict))
	}
	switch {
	case st.Refused != "":
		return "NO: fit another spring (evenpull choose); no even cone can be cut within this one"
	case st.FromBlank:
		return fmt.Sprintf("NO, and with this new cone the train %s: fit another spring (evenpull choose), or try another end", says(st.After.Verdict))
	}
	return fmt.Sprintf("NO: fit another spring (evenpull choose); cut until it is even, the train still %s", says(st.After.Verdict))
}

// says is a verdict as a verb.
func says(c rules.Code) string {
	switch c {
	case rules.Stops, rules.Suits:
		return c.String()
	case rules.Unjudged:
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

// percent is an unevenness in percent; what is level but for rounding is that.
func percent(v float64) string {
	if v < 5e-5 {
		return "0.01 % or better"
	}
	return words.Figure(100*v) + " %"
}
