package sim_test

import (
	"math"
	"strings"
	"testing"

	. "evenpull/sim"
	. "evenpull/sim/rules"
	"evenpull/sim/show/words"
)

// Where driving the wheel back takes all that the pendulum is given before it has its
// margin, no torque does: none is predicted, the reserve is over what escapes, and the
// train is at best thin, however strong.
func TestMarginBeyondReach(t *testing.T) {
	far := unmeasured(t, "escaping_arc_deg = 5.0 ", "margin_deg = 3.4\nrecoil_ratio = 2.5\nescaping_arc_deg = 5.0 ")
	near := unmeasured(t, "escaping_arc_deg = 5.0 ", "margin_deg = 0.0\nrecoil_ratio = 2.5\nescaping_arc_deg = 5.0 ")
	r, want := run(t, far, Options{}), run(t, near, Options{})
	if !r.Need.Beyond || !math.IsNaN(r.Need.Predicted) || want.Need.Beyond {
		t.Errorf("%+v, without a margin %+v", r.Need, want.Need)
	}
	closeTo(t, "need", r.Need.Used, want.Need.Predicted, 1e-12)
	// 2γ (f+1)/(f−1)/2 with γ of 2.5°.
	closeTo(t, "widest", r.Widest.Degrees(), 2.5*3.5/1.5, 1e-12)
	if r.Swing.Amplitude.Max > r.Widest.Radians() {
		t.Errorf("it swings %v rad", r.Swing.Amplitude.Max)
	}
	if why := words.Reasons(&r.Digest); r.Verdict.Code != Thin || !strings.Contains(why[0], "with its margin of 3.40°: at 5.8° driving the wheel back") {
		t.Errorf("%v: %q", r.Verdict.Code, why)
	}
	// A spring far too strong is none the better for it, one too weak stops.
	strong := far
	strong.Drive.Spring.Width *= 3
	weak := far
	weak.Drive.Spring.Width /= 5
	if a, b := run(t, strong, Options{}).Verdict.Code, run(t, weak, Options{}).Verdict.Code; a != Overdriven || b != Stops {
		t.Errorf("%v, %v", a, b)
	}
}

// Dead faces that rub raise the need and narrow the swing, and where they rub away all
// before the margin it is said so.
func TestDeadFacesRub(t *testing.T) {
	dead := func(more string) Train {
		return unmeasured(t, `kind             = "recoil"`, `kind = "deadbeat"`, "escaping_arc_deg = 5.0 ", more+"\nescaping_arc_deg = 5.0 ")
	}
	smooth := run(t, dead(""), Options{})
	rubs := run(t, dead("dead_friction = 0.12\npallet_radius_mm = 24\nwheel_radius_mm = 15"), Options{})
	// At the margin they take μ Rp/rw over the couple per torque, along 0.5° of 2.5°.
	e := rubs.Train.Escapement
	d := 0.12 * 24 / 15 / e.Couple(1)
	closeTo(t, "need", rubs.Need.Predicted, smooth.Need.Predicted/(1-d*0.5/2.5), 1e-12)
	if !(rubs.Swing.Amplitude.Mean < 0.99*smooth.Swing.Amplitude.Mean) || rubs.Need.Beyond || !rubs.Rubs || smooth.Rubs {
		t.Errorf("%v rad, smooth %v", rubs.Swing.Amplitude.Mean, smooth.Swing.Amplitude.Mean)
	}
	stuck := run(t, dead("margin_deg = 3.4\ndead_friction = 1.2\npallet_radius_mm = 24\nwheel_radius_mm = 15"), Options{})
	if why := words.Reasons(&stuck.Digest); stuck.Verdict.Code != Thin || !strings.Contains(why[0], "the dead faces rub away all") || !strings.Contains(why[1], "the mean torque") {
		t.Errorf("%v: %q", stuck.Verdict.Code, why)
	}
}
