package vary

import (
	"errors"
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
)

// TestWhatWasSeenIsBlamed: where the coils seen tell of a steel that no scenario can
// state, they are told of, and not the steel, which nobody gave.
func TestWhatWasSeenIsBlamed(t *testing.T) {
	s, _ := trial.Compile(t, "strike-quick")
	if err := s.Apply([]string{"striking.mainspring.free_coils=0.0186"}); err != nil {
		t.Fatal(err)
	}
	const want = "--set striking.mainspring.free_coils: found 0.0186, by which striking.mainspring.yield_mpa would be about 5267.51; want one that makes it a number from 50 to 5000 MPa"
	_, err := New(s, 0, Length, "striking.mainspring.width_mm")
	var apart *sim.Error
	var faults scenario.Faults
	if !errors.As(err, &apart) || !errors.As(err, &faults) || err.Error() != want || !apart.Fault.BySet() {
		t.Errorf("%T %v", err, err)
	}
	if _, err := New(s, 0, Length, "striking.mainspring.free_coils"); err != nil {
		t.Error("coils that vary are not inferred from:", err)
	}
}
