package choose

import (
	"testing"

	"evenpull/sim/rules"
	"evenpull/sim/stock"
)

// The first reason why a spring loses follows the order of the ranking.
func TestLoses(t *testing.T) {
	st := &Study{Target: Target{Mean: 1}}
	best := Candidate{Spring: stock.Spring{Label: "A"}, Verdict: rules.Suits, Mean: 1.01, Unevenness: 0.02}
	with := func(change func(*Candidate)) *Candidate {
		c := best
		c.Label = "B"
		change(&c)
		return &c
	}
	for _, c := range []struct {
		c    *Candidate
		want string
	}{
		{with(func(c *Candidate) { c.Refused = "too wide" }), "too wide"},
		{with(func(c *Candidate) { c.Verdict, c.Reasons = rules.Thin, []string{"too little"} }), "it is thin, and A suits: too little"},
		{with(func(c *Candidate) { c.Verdict, c.Mean = rules.Stops, 2 }), "it stops, and A suits: no reason is known"},
		{with(func(c *Candidate) { c.Faults = []string{"the line climbs out"} }), "A has no fault, and here the line climbs out"},
		{with(func(c *Candidate) { c.Mean, c.Unevenness = 0.95, 0.01 }), "its mean torque is 5.00 % below the target, that of A is 1.00 % above the target"},
		{with(func(c *Candidate) { c.Unevenness = 0.03 }), "its unevenness is 3.00 %, that of A 2.00 %"},
		{with(func(c *Candidate) { c.Mean = 1.0101 }), "it is about as good as A, only not quite as near the target or as even"},
		// Of the two parts the larger one is told, though the other may speak for it.
		{with(func(c *Candidate) { c.Mean, c.Unevenness = 1, 0.126 }), "its unevenness is 12.6 %, that of A 2.00 %"},
		{with(func(c *Candidate) { c.Mean, c.Unevenness = 1.06, 0.10 }), "its mean torque is 6.00 % above the target, that of A is 1.00 % above the target"},
		{with(func(c *Candidate) { c.Mean, c.Unevenness = 1.06, 0.14 }), "its unevenness is 14.0 %, that of A 2.00 %"},
		{with(func(c *Candidate) { c.Mean = 12.3 }), "its mean torque is 12.3 times the target, that of A is 1.00 % above the target"},
		{with(func(c *Candidate) { c.Mean, c.Unevenness = 1.2, 11 }), "its torque varies by 11.0 times its mean, that of A by 2.00 %"},
		{with(func(*Candidate) {}), "it is the same as A, which stands before it in the list"},
	} {
		if got := st.loses(c.c, &best); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// A best that is at the target to all figures shown is told to be there.
func TestAtTheTarget(t *testing.T) {
	st := &Study{Target: Target{Mean: 1}}
	best := Candidate{Spring: stock.Spring{Label: "A"}, Verdict: rules.Suits, Mean: 1.00001}
	if got := st.loses(&Candidate{Verdict: rules.Suits, Mean: 0.9}, &best); got != "its mean torque is 10.0 % below the target, that of A is at the target" {
		t.Error(got)
	}
}

// From ten times on, shares are told as times, not in per cent.
func TestTimes(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{of(0.5), "50 % of"}, {of(9.99), "999 % of"}, {of(12.3), "12.3 times"},
		{share(0.126), "12.6 %"}, {share(9.9), "990 %"}, {share(11), "11.0 times"},
		{beside(0), "at the target"}, {beside(8.9), "890 % above the target"}, {beside(9), "10.0 times the target"}, {beside(-0.98), "98.0 % below the target"},
		{apart(&Ideal{Thumb: 5, Thickness: 0.4}), "the rule's is 12.5 times as thick"}, {apart(&Ideal{Thumb: 0.5, Thickness: 0.4}), "the rule's is 25.0 % thicker"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}
