package sim_test

import (
	"math"
	"testing"

	"evenpull/fusee"
	"evenpull/fusee/mainspring"
	"evenpull/scenarios"
	"evenpull/sim"
)

// EN 10132-4, C67S hardened and tempered, 0.3–0.5 mm, HV 485–535: 1550–1710 MPa
// by the hardness conversion of ISO 18265 (from memory). The samples' springs
// stay within it, so that what they teach is what steel does.
func TestSampleSteel(t *testing.T) {
	seen := 0
	for _, name := range scenarios.Names() {
		for _, tr := range sample(t, name) {
			s := tr.Drive.Spring
			if s.Form != mainspring.Set {
				continue
			}
			seen++
			if s.Yield < 1550e6 || s.Yield > 1710e6 || s.Thickness < 0.3e-3 || s.Thickness > 0.5e-3 {
				t.Errorf("%s %s: %.0f MPa at %.2f mm", name, tr.Name, s.Yield/1e6, s.Thickness*1e3)
			}
		}
	}
	if seen < 5 {
		t.Errorf("only %d springs with a yield stress", seen)
	}
}

// The line's default holds the pivots as well: it is, to its reading error of 0.02, what
// line and pivots of usual sizes pass when they are given. The line alone is then a
// hundredth above the 0.98 of a wire rope over a sheave with its bearing (common
// engineering handbook figure, from memory).
func TestDefaultLineEfficiency(t *testing.T) {
	for _, name := range []string{"eight-day", "too-strong", "too-weak"} {
		tr := sample(t, name)[0]
		given := tr
		given.Drive.Line.Efficiency = 0.99
		given.Drive.Pivots = fusee.Pivots{Friction: 0.15, Barrel: 4.5e-3, Fusee: 2e-3, Wheel: 24e-3, Pull: math.Pi / 2}
		ideal := tr
		ideal.Drive.Line.Efficiency = 1
		passed := run(t, given, sim.Options{}).Torque.Mean / run(t, ideal, sim.Options{}).Torque.Mean
		if e := tr.Drive.Line.Efficiency; e != 0.95 || math.Abs(passed-e) > 0.02 {
			t.Errorf("%s: line efficiency %g, computed %.4f", name, e, passed)
		}
	}
}
