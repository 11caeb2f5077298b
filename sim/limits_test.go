package sim_test

import (
	"strings"
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/outcome"
)

// With narrow strips, ideally packed, pallets that are driven back without loss, no pivots
// and the line's efficiency as it then was, every figure is what it was before these were
// looked at: computed by the first version of this program.
// strike_twelve_s, which was then told from the release, is of today.
func TestWithoutTheNewerLosses(t *testing.T) {
	for _, c := range []struct {
		name, train, sets string
		want              map[string]float64
	}{
		{"eight-day", "going", "going.escapement.recoil_ratio=1 going.fusee.diameters_mm=[13.0,13.4,13.7,14.1,14.6,15.0,15.4,16.0,16.5,17.2,17.9,18.8,19.6,21.0,22.7,25.6,31.5]", map[string]float64{
			"fusee_torque_nm.mean": 0.42895779751158186, "fusee_torque_nm.min": 0.4229237767350648, "fusee_torque_nm.max": 0.4314167448093726,
			"fusee_torque_nm.cv": 0.0027995600008721053, "spring.turns_available": 9.036642026304834, "spring.turns_used": 6.1021903820816865,
			"spring.stored_energy_j": 52.927918496500226, "spring.free_coils": 7.503394305613195, "line.max_tension_n": 60.552262732530295,
			"line.max_winding_tension_n": 74.75587991670406, "line.max_fleet_angle_deg": 2.7460590462146435, "least_torque_nm.predicted": 0.31452628756759615,
			"amplitude_deg.mean": 3.503435160142589, "amplitude_deg.min": 3.47875490098357, "rate_s_per_day.mean": 213.42094808769883, "rate_s_per_day.max": 214.67395725866606,
		}},
		{"strike-pleasant", "striking", "striking.fusee.diameters_mm=[11.9,12.2,12.5,12.9,13.3,13.7,14.1,14.6,15.1,15.7,16.3,17.1,17.9,19.1,20.7,23.4,28.7]", map[string]float64{
			"fusee_torque_nm.mean": 0.38434351632656866, "fusee_torque_nm.min": 0.38106437201270593, "spring.stored_energy_j": 47.79032773302617,
			"least_torque_nm.predicted": 0.24017721125429917, "blow_interval_s.mean": 1.3836586658656937, "blow_interval_s.max": 1.395059085396313,
			"strike_twelve_s.mean": 15.342177327629521, "strike_twelve_s.max": 15.467910499836595, "fly_rev_per_s.mean": 46.2553402473444,
		}},
	} {
		s, _ := trial.Compile(t, c.name)
		sets := append(strings.Fields(c.sets), c.train+".mainspring.width_mm=36", c.train+".barrel.inside_height_mm=37.2", c.train+".mainspring.bending=strip",
			c.train+".mainspring.packing=1", c.train+".line.efficiency=0.97")
		if err := s.Apply(sets); err != nil {
			t.Fatal(err)
		}
		tr, err := sim.CompileTrain(s, 0)
		if err != nil {
			t.Fatal(err)
		}
		r := run(t, tr, sim.Options{})
		for name, want := range c.want {
			f, err := outcome.Several(name)
			if err != nil {
				t.Fatal(err)
			}
			tol := 1e-12
			if strings.HasPrefix(name, "fusee_torque_nm.") && want < 0.01 { // a small part of the torque, which is known to 1e-12
				tol /= want
			}
			closeTo(t, c.name+" "+name, f[0].Of(&r.Digest), want, tol)
		}
	}
}
