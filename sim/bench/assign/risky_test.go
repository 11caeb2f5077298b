package assign

import (
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
)

// A spring may bind whose turns at three standard deviations of its packing do not reach, and
// none that would take more than that.
func TestMayBind(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	const key = "going.mainspring.packing"
	if mayBind(s, 0) {
		t.Error("a packing that is known")
	}
	if err := s.SetNumber(key, 1.0); err != nil {
		t.Fatal(err)
	}
	lo, hi := 1.0, 1.5
	for hi-lo > 1e-6 {
		mid := (lo + hi) / 2
		c := s.Clone()
		c.Trains[0].Mainspring.Packing = mid
		if d, err := sim.RunTrain(c, 0, sim.Options{TorqueOnly: true}); err != nil || d.TurnsLost > 0 {
			hi = mid
		} else {
			lo = mid
		}
	}
	for deviations, binds := range map[float64]bool{2.1: true, 2.9: true, 3.1: false} {
		c := s.Clone()
		c.Tolerances = append(c.Tolerances, scenario.Tolerance{Key: key, PlusMinus: 2 * (hi - 1) / deviations})
		if mayBind(c, 0) != binds {
			t.Errorf("binds at packing %v, %v standard deviations off: %v", hi, deviations, !binds)
		}
	}
}
