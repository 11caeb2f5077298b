package sim_test

import (
	"math"
	"testing"

	"evenpull/fusee/mainspring"
	"evenpull/scenarios"
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

// A line over a sheave passes on about 0.98 of the work (common engineering
// handbook figure); the default for gut, stiffer than wire rope, is a hundredth
// below.
func TestDefaultLineEfficiency(t *testing.T) {
	for _, tr := range sample(t, "three-trains") {
		if e := tr.Drive.Line.Efficiency; math.Abs(e-0.98) > 0.0101 {
			t.Errorf("%s: line efficiency %g", tr.Name, e)
		}
	}
}
