package sim_test

import (
	. "evenpull/sim"
	"evenpull/sim/rules"
	"testing"
)

// The shares are of all draws, those that cannot be built included; of two verdicts that
// come up as often the better is the next.
func TestSharesOfDraws(t *testing.T) {
	v := Verdicts{rules.Suits: 60, rules.Thin: 15, rules.Strong: 15}
	if got := v.Sureness(rules.Suits, 100); got != (Sureness{Draws: 100, Same: 0.6, Suits: 0.6, Else: rules.Strong, ElseIn: 0.15}) || got.Rather() {
		t.Errorf("%+v", got)
	}
	if got := v.Sureness(rules.Thin, 100); got != (Sureness{Draws: 100, Same: 0.15, Suits: 0.6, Else: rules.Suits, ElseIn: 0.6}) || !got.Rather() {
		t.Errorf("%+v", got)
	}
	if got := (&Verdicts{rules.Stops: 10}).Sureness(rules.Stops, 10); got != (Sureness{Draws: 10, Same: 1}) {
		t.Errorf("%+v", got)
	}
	by := Decides{Inputs: [3]Decider{{Key: "a"}, {Key: "b"}, {Key: "c"}}}
	if with := by.With(); len(with) != 2 || with[0] != "b" || with[1] != "c" {
		t.Errorf("%v", with)
	}
}

// A run that there was not is nil, another stays the one it is.
func TestWhere(t *testing.T) {
	var d Digest
	if d.Where(true) != &d || d.Where(false) != nil {
		t.Error("the digest of a run that there was not")
	}
}
