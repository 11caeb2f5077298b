package rules

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// Advice are the figures of the rules by which something is advised.
type Advice struct {
	TurnsToSpare       float64 // turns of the spring that are to be left when the fusee is wound
	NoteBeyondHandbook bool    // whether it is noted that a run needs more turns than handbooks count
	SetUpGain          float64 // share by which another set-up must lower the unevenness
	SetUpGainPoints    float64 // and by how much of the mean, as a share
	ShortenGain        float64 // by which cutting a spring shorter must raise the share of draws that suit
	EqualWithin        float64 // springs whose shares of draws that suit differ by no more are equal in that
	CutAtMost          float64 // share of the groove's diameter that may come off at any turn
	CutGain            float64 // share of the present unevenness that must not be passed after cutting
	Historic           bool    // a cone that is not to be cut
}

// DefaultAdvice are those that hold where a scenario says nothing else: a turn to spare, set-up
// gains of 0.2 and 0.02, cuts shorter from 0.05 on, springs equal within 0.03, at most 0.1 of
// the diameter cut off, and that to leave at most 0.5 of the unevenness (common practice, no source).
func DefaultAdvice() Advice {
	return Advice{TurnsToSpare: 1, NoteBeyondHandbook: true, SetUpGain: 0.2, SetUpGainPoints: 0.02, ShortenGain: 0.05, EqualWithin: 0.03, CutAtMost: 0.1, CutGain: 0.5}
}

// Standing is what advice is given on: a drive as it is, or as it would be.
type Standing struct {
	Code       Code
	Faults     int     // things that do not fit or are unsafe
	Unevenness float64 // (greatest − least)/mean of the torque
	Spare      float64 // turns of the spring to spare when the fusee is wound
	Clicks     float64 // set-up, in clicks of the ratchet
	Class      int     // among springs, of how large a share of their draws suits: see Classes
}

// Sound tells whether nothing is wrong: the drive suits and has no fault.
func (s *Standing) Sound() bool { return s.Code == Suits && s.Faults == 0 }

// Worthwhile tells whether nothing is known to be wrong: sound, or without a fault
// and not judged.
func (s *Standing) Worthwhile() bool { return s.Faults == 0 && (s.Code == Suits || s.Code == Unjudged) }

// compare is above 0 when s is better than t by verdict, or by having fewer faults
// with the same verdict; below 0 when it is worse.
func (s *Standing) compare(t *Standing) int {
	switch {
	case s.Code.Better(t.Code):
		return 1
	case t.Code.Better(s.Code):
		return -1
	}
	return t.Faults - s.Faults
}

// Beats tells whether s is better than t by verdict, or by having fewer faults with
// the same verdict.
func (s *Standing) Beats(t *Standing) bool { return s.compare(t) > 0 }

// Rule is one rule of advice.
type Rule uint8

const (
	NoRule        Rule = iota // none was asked
	TurnsToSpare              // turns left when the fusee is wound
	BetterVerdict             // what changes the verdict for the better, or takes faults away
	SetUpGain                 // what another set-up takes off the unevenness
	SetUpPoints               // and by how much of the mean
	NothingFirst              // what suits is left alone
	SetUpFirst                // another set-up comes before a spring
	HistoricCone              // a historic cone is not cut
	CutAtMost                 // what comes off a cone
	CutGain                   // what cutting leaves of the unevenness
	SurestToSuit              // of springs the one that suits in the largest share of draws
	LeastChange               // then the one with the least change of the present set-up
	LeastUneven               // then the least uneven
)

// Finding is what the rules say of a proposal: whether it is advised, and the rule
// that decided with its figure and limit.
type Finding struct {
	Advised       bool    // whether the proposal is
	Rule          Rule    // that decided
	Figure, Limit float64 // in the unit of the rule's figure: see Advice
}

// rounding is what turns may fall short of those to spare, and clicks differ: less is
// the last digit of a search.
const rounding = 1e-6

// Spares tells whether enough turns are left when the fusee is wound.
func (a *Advice) Spares(left float64) bool { return left >= a.TurnsToSpare-rounding }

// AnotherSetUp tells whether a set-up is to be changed. Nothing that leaves too few
// turns is advised.
func (a *Advice) AnotherSetUp(now, then *Standing) Finding {
	gain := now.Unevenness - then.Unevenness
	verdict := Finding{Rule: BetterVerdict, Figure: float64(now.Faults - then.Faults)}
	switch better := then.compare(now); {
	case !a.Spares(then.Spare):
		return Finding{Rule: TurnsToSpare, Figure: then.Spare, Limit: a.TurnsToSpare}
	case then.Clicks == now.Clicks:
		return Finding{Rule: NothingFirst}
	case better != 0:
		verdict.Advised = better > 0
		return verdict
	case !a.Spares(now.Spare):
		return Finding{Advised: true, Rule: TurnsToSpare, Figure: then.Spare, Limit: a.TurnsToSpare}
	case !(gain >= a.SetUpGainPoints):
		return Finding{Rule: SetUpPoints, Figure: gain, Limit: a.SetUpGainPoints}
	}
	share := gain / now.Unevenness
	return Finding{Advised: share >= a.SetUpGain, Rule: SetUpGain, Figure: share, Limit: a.SetUpGain}
}

// Step is what is to be done first for a train.
type Step uint8

const (
	Nothing       Step = iota // it is well as it is
	AnotherSetUp              // which costs nothing
	AnotherSpring             // which comes before a cone is cut
)

var stepNames = [...]string{"nothing", "another set-up", "another spring"}

// String is the step in a word or two.
func (s Step) String() string {
	if int(s) < len(stepNames) {
		return stepNames[s]
	}
	return fmt.Sprintf("step %d", uint8(s))
}

// First tells what is tried first: nothing where the drive suits without a fault,
// then another set-up where that is advised and cures, then another spring. Of a
// train that is not judged only its faults are known.
func (a *Advice) First(now, setUp *Standing) Step {
	advised := a.AnotherSetUp(now, setUp).Advised
	switch {
	case advised && setUp.Worthwhile():
		return AnotherSetUp
	case now.Worthwhile():
		return Nothing
	}
	return AnotherSpring
}

// Order tells whether a spring can be ordered: what suits, without a fault, with
// the turns to spare.
func (a *Advice) Order(s *Standing) Finding {
	switch {
	case s.Code != Suits:
		return Finding{Rule: BetterVerdict}
	case s.Faults > 0:
		return Finding{Rule: BetterVerdict, Figure: float64(s.Faults)}
	case !a.Spares(s.Spare):
		return Finding{Rule: TurnsToSpare, Figure: s.Spare, Limit: a.TurnsToSpare}
	}
	return Finding{Advised: true, Rule: TurnsToSpare, Figure: s.Spare, Limit: a.TurnsToSpare}
}

// Cutting tells whether a cone is to be cut: from the drive as it is, with the best
// set-up and nothing cut, and after cutting, and the greatest share of the groove's
// diameter that comes off.
func (a *Advice) Cutting(now, setUp, after *Standing, off float64) Finding {
	first := a.First(now, setUp)
	switch {
	case a.Historic:
		return Finding{Rule: HistoricCone}
	case first == AnotherSetUp:
		return Finding{Rule: SetUpFirst}
	case first == Nothing && now.Code != Unjudged:
		return Finding{Rule: NothingFirst}
	case !after.Worthwhile():
		return Finding{Rule: BetterVerdict, Figure: float64(after.Faults)}
	case !a.Spares(after.Spare):
		return Finding{Rule: TurnsToSpare, Figure: after.Spare, Limit: a.TurnsToSpare}
	case off > a.CutAtMost:
		return Finding{Rule: CutAtMost, Figure: off, Limit: a.CutAtMost}
	}
	share := after.Unevenness / now.Unevenness
	return Finding{Advised: share <= a.CutGain, Rule: CutGain, Figure: share, Limit: a.CutGain}
}

// Shorten tells whether a spring is to be cut shorter that is judged so whole and so cut, where
// these shares of the draws suit.
func (a *Advice) Shorten(whole, cut *Standing, share, shareCut float64) bool {
	return !whole.Beats(cut) && (a.Spares(cut.Spare) || !a.Spares(whole.Spare)) && shareCut-share >= a.ShortenGain-rounding
}

// Classes put the shares of draws that suit into classes, from 0: the greatest share and
// what equals it within the rule, then the greatest of the others and what equals that.
func (a *Advice) Classes(shares []float64) []int {
	classes := make([]int, len(shares))
	order := make([]int, len(shares))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(shares[j], shares[i]) })
	class, greatest := -1, math.Inf(1) // of the class
	for _, i := range order {
		if greatest-shares[i] > a.EqualWithin+rounding {
			class, greatest = class+1, shares[i]
		}
		classes[i] = class
	}
	return classes
}

// Compare orders springs for a train, below 0 when s comes before t: those that suit
// first, those without a fault first, those with turns to spare first, those that suit
// in a larger share of draws, by the verdict, the least change of the present set-up (in
// clicks), then the least uneven.
func (a *Advice) Compare(present float64, s, t *Standing) int {
	order, _ := a.Decide(present, s, t)
	return order
}

// Decide is Compare with the rule that decided; NoRule where none did.
func (a *Advice) Decide(present float64, s, t *Standing) (order int, by Rule) {
	rank := func(s *Standing) [7]float64 {
		change := math.Round(math.Abs(s.Clicks-present)/rounding) * rounding
		return [...]float64{flag(s.Code != Suits), flag(s.Faults > 0), flag(!a.Spares(s.Spare)), float64(s.Class), float64(s.Code.Place()), change, s.Unevenness}
	}
	x, y := rank(s), rank(t)
	for i, rule := range [...]Rule{BetterVerdict, BetterVerdict, TurnsToSpare, SurestToSuit, BetterVerdict, LeastChange, LeastUneven} {
		if order := cmp.Compare(x[i], y[i]); order != 0 {
			return order, rule
		}
	}
	return 0, NoRule
}

func flag(b bool) float64 {
	if b {
		return 1
	}
	return 0
}
