package trying

import (
	"math"

	"evenpull/sim/rules"
	"evenpull/sim/scenario"
)

// Rule is what an input is moved along, in its unit.
type Rule struct {
	Quantity scenario.Quantity
	Value    float64 // where it stands
	From, To float64 // its ends
	Step     float64 // of the keyboard and the hand
	Closed   []Closed
}

// Closed is a part of a rule where nothing can be.
type Closed struct {
	From, To float64 // in the unit of the rule
	Why      Why
}

// Why is why a part of a rule is closed.
type Why uint8

const (
	TooWide Why = iota + 1 // for the barrel's height
	TooFull                // for the barrel's room
)

// rule gives the rule of an input, and its value. It depends on the scenario as found, not on
// where the other rules stand, so that nothing moves under the hand; what is closed follows.
func (b *Bench) rule(a *Answer, key string) {
	q, err := b.Found.Quantity(key)
	if err != nil {
		return
	}
	found, err := b.Found.Value(key)
	if err != nil {
		return
	}
	r := Rule{Quantity: q, Value: *found}
	if v, ok := a.Values[key]; ok {
		r.Value = v
	}
	t := &b.Found.Trains[b.Number]
	switch key {
	case b.Key(Thickness):
		r.span(*found, 0.3, 0.01)
	case b.Key(Width):
		r.span(*found, 0.3, 0.1)
		if high := t.Barrel.InsideHeightMM; high > 0 {
			r.To = max(r.To, math.Ceil(high*1.1))
			r.close(high, TooWide)
		}
	case b.Key(Length):
		r.span(*found, 0.6, 10)
		r.close(b.lengthAt(rules.Fullest, a.Values), TooFull)
	case b.Key(SetUp):
		r.From, r.Step = 0, 1/float64(t.Barrel.Clicks)
		r.To = math.Ceil(b.most)
	default:
		r.span(*found, 0.25, nice(math.Abs(*found)/100))
	}
	r.From, r.To = max(r.From, q.Lo), min(r.To, q.Hi)
	a.Rules[key], a.Values[key] = r, r.Value
}

// span takes a share of a value to both sides, in whole steps.
func (r *Rule) span(about, share, step float64) {
	r.Step = step
	if about == 0 { // nothing to take a share of: a little of what can be
		r.Step = nice(min(r.Quantity.Hi-r.Quantity.Lo, 1) / 100)
		r.From, r.To = r.Quantity.Lo, r.Quantity.Lo+100*r.Step
		return
	}
	by := share * math.Abs(about)
	r.From, r.To = tidy(math.Floor((about-by)/step+1e-9)*step), tidy(math.Ceil((about+by)/step-1e-9)*step)
}

// close closes the rule from a value on.
func (r *Rule) close(from float64, why Why) {
	if from < r.To {
		r.Closed = append(r.Closed, Closed{max(from, r.From), r.To, why})
	}
}

// nice is 1, 2 or 5 times a power of ten, not above v.
func nice(v float64) float64 {
	ten := math.Pow(10, math.Floor(math.Log10(v)))
	for _, by := range []float64{5, 2} {
		if by*ten <= v {
			return tidy(by * ten)
		}
	}
	return tidy(ten)
}

// tidy takes the rounding of binary fractions off.
func tidy(v float64) float64 { return math.Round(v*1e9) / 1e9 }
