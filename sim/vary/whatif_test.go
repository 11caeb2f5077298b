package vary

import (
	"fmt"
	"math"
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
)

// What would be is the same whichever way it is asked: with a value set, and with it
// varied; what was seen of the spring and of the fly tells what it told before.
func TestApplyIsAWhatIf(t *testing.T) {
	coils, _ := trial.Compile(t, "eight-day", "yield_mpa    = 1620.0", "free_coils = 6.9\nsolid_turns = 8.7")
	timed, _ := trial.Compile(t, "strike-pleasant", "# timed       =", "timed =")
	tried := 0
	half, _ := trial.Compile(t, "eight-day", "length_mm    = 1650.0", "")
	counted, _ := trial.Compile(t, "eight-day", "length_mm    = 1650.0", "solid_turns = 8.4")
	for _, s := range []*scenario.Scenario{coils, timed, half, counted} {
		for _, q := range s.Quantities() {
			if !Concerns(s, 0, q.Key) || s == counted && q.Key == "going.mainspring.length_mm" {
				continue // set, it is given, and the count tells the packing
			}
			m := model(t, s, Length, q.Key)
			x := 1.01 * m.Nominal()[0]
			want, err := m.Run([]float64{x})
			c := s.Clone()
			if err != nil || Apply(c, []string{fmt.Sprint(q.Key, "=", x)}) != nil {
				continue
			}
			got, err := sim.CompileTrain(c, 0)
			var r sim.Result
			if err != nil || got.RunInto(&r, sim.Options{}) != nil {
				t.Fatal(q.Key, err)
			}
			tried++
			for _, pair := range [][2]float64{{r.Torque.Mean, want.Torque.Mean}, {r.Spring.Available, want.Spring.Available}, {r.Spring.FreeCoils, want.Spring.FreeCoils}, {r.Cadence.Interval.Mean, want.Cadence.Interval.Mean}} {
				if !(math.Abs(pair[0]-pair[1]) <= 1e-9*math.Abs(pair[1])) && !math.IsNaN(pair[1]) {
					t.Errorf("%s: set %v, varied %v", q.Key, pair[0], pair[1])
				}
			}
		}
	}
	if tried < 50 {
		t.Errorf("only %d tried", tried)
	}
}

// What a change has nothing to do with stays as it was seen, and so does what is changed
// itself; nothing is kept where nothing was seen, or the whole is refused.
func TestApplyLeavesWhatWasSeen(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day", "yield_mpa    = 1620.0", "free_coils = 6.9\nsolid_turns = 8.7")
	for _, c := range []struct {
		set          string
		coils, turns float64 // NaN: what they told stands for them
	}{
		{"going.fusee.pitch_mm=2.3", 6.9, 8.7},
		{"going.mainspring.thickness_mm=0.4", math.NaN(), math.NaN()},
		{"going.mainspring.modulus_gpa=200", math.NaN(), math.NaN()},
		{"going.mainspring.free_coils=6.5", 6.5, math.NaN()},
		{"going.mainspring.solid_turns=8.6", math.NaN(), 8.6},
		{"going.mainspring.packing=1.1", math.NaN(), math.NaN()},
		{"going.barrel.inside_diameter_mm=45.5", math.NaN(), math.NaN()},
	} {
		v := s.Clone()
		if err := Apply(v, []string{c.set}); err != nil {
			t.Fatal(err)
		}
		m := &v.Trains[0].Mainspring
		if !same(&m.FreeCoils, &c.coils) || !same(&m.SolidTurns, &c.turns) {
			t.Errorf("%s: %v coils, %v turns", c.set, m.FreeCoils, m.SolidTurns)
		}
	}
	s, _ = trial.Compile(t, "eight-day", "length_mm    = 1650.0", "solid_turns = 8.3")
	was := s.Trains[0].Mainspring.LengthMM
	for set, kept := range map[string]bool{"going.mainspring.thickness_mm=0.4": true, "going.fusee.pitch_mm=2.3": true, "going.mainspring.solid_turns=8.2": false, "going.mainspring.length_mm=1600": false} {
		v := s.Clone()
		if err := Apply(v, []string{set}); err != nil {
			t.Fatal(err)
		}
		if m := &v.Trains[0].Mainspring; (m.LengthMM == was) != kept {
			t.Errorf("%s: %v mm, %v before", set, m.LengthMM, was)
		}
	}
	v := s.Clone()
	if err := Apply(v, []string{"going.mainspring.thickness_mm=0.4", "going.none=1"}); err == nil || v.Trains[0].Mainspring.ThicknessMM != 0.38 {
		t.Errorf("%v: %+v", err, v.Trains[0].Mainspring)
	}
}
