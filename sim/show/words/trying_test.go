package words

import (
	"strings"
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
	"evenpull/sim/study/trying"
)

// A KEY that begins as another does is told as what it is, and no KEY is left.
func TestTryingFault(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	err := &sim.Error{Fault: scenario.Fault{Key: "going.fusee.diameters_mm.10", Found: "found 3", Want: "want at most barrel.inside_height_mm"}}
	got := TryingFault(s, "going", err)
	q, _ := s.Quantity("going.fusee.diameters_mm.10")
	if want := "the " + Input(q.Words, "going") + ": found 3; want at most the inside height of the barrel"; got != want || strings.Contains(got, "_mm") {
		t.Errorf("%q, want %q", got, want)
	}
	if got := TryingFault(s, "going", nil); got != "" {
		t.Errorf("%q", got)
	}
}

// What is told of a trial goes by its verdict: the need, or what is liked, or why it stops;
// a spring that binds has nothing to spare, and short of what is wanted it says so.
func TestTrying(t *testing.T) {
	for sample, want := range map[string][3]string{
		"eight-day":       {"Suits.", "Least pull 1.26 times the need, at the last turn; 1.85 turns to spare.", "1.85 turns to spare, ideally packed; the last one, hatched, to be kept."},
		"too-weak":        {"Stops.", "The least torque, 0.233 N·m at turn 16 of 16", "turns to spare"},
		"too-strong":      {"Overdriven.", "The spring binds solid before the fusee is wound", "The spring binds: no turns to spare."},
		"strike-pleasant": {"Suits.", "Pull 0.376 to 0.384 N·m, with 0.310 to 0.482 N·m liked: a blow every 1.38 to 1.41 s; 2.33 turns to spare.", "2.33 turns to spare"},
	} {
		s, _ := trial.Compile(t, sample)
		r := trial.RunOf(t, s, 0)
		verdict, fact := Trying(&r.Digest)
		_, spare := TryingSpare(&r.Digest)
		if verdict != want[0] || !strings.HasPrefix(fact, want[1]) || !strings.Contains(spare, want[2]) {
			t.Errorf("%s: %q %q %q", sample, verdict, fact, spare)
		}
		order, not := TryingOrder(r)
		if (order == "") == (not == "") || (verdict == "Suits.") != (order == "mainspring 32 wide, 0.38 thick, 1650 long (mm); set up by 1.25 turns (15 clicks), it suits") {
			t.Errorf("%s: %q %q", sample, order, not)
		}
	}
	s, _ := trial.Compile(t, "eight-day", "set_up_turns        = 1.25", "set_up_turns        = 2.5")
	if _, spare := TryingSpare(&trial.RunOf(t, s, 0).Digest); spare != "only 0.602 turns to spare, ideally packed; 1.00 wanted." { // 1.852 less 1.25
		t.Error(spare)
	}
	if got := TryingEven(nil); got != "with any set-up the spring binds" {
		t.Error(got)
	}
	if TryingClosed(trying.TooWide) == "" || TryingClosed(trying.TooFull) == "" {
		t.Error("a closed part without a word")
	}
}
