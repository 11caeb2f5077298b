package scenario

import (
	"errors"
	"math"
	"slices"
	"testing"
)

func TestTrain(t *testing.T) {
	s := mustRead(t, fullText(t))
	for name, want := range map[string]int{"going": 0, "striking": 1} {
		if n, err := s.Train(name); n != want || err != nil {
			t.Errorf("%s: %d, %v", name, n, err)
		}
	}
	for name, want := range map[string]string{
		"":       `the scenario has no train ""; it has going, striking`,
		"strike": `the scenario has no train "strike"; it has going, striking`,
		"goin":   `the scenario has no train "goin"; did you mean going?`,
		"Going":  `the scenario has no train "Going"; did you mean going?`,
	} {
		n, err := s.Train(name)
		var none *NoTrainError
		if n != -1 || !errors.As(err, &none) || none.Train != name || !slices.Equal(none.Has, []string{"going", "striking"}) || err.Error() != want {
			t.Errorf("%q: %d, %v, want %s", name, n, err, want)
		}
	}
}

// TestSetNumber: a number is set as Set would set its text, what was assumed from it
// follows, and what is no number is refused and changes nothing.
func TestSetNumber(t *testing.T) {
	for key, v := range map[string]float64{
		"going.mainspring.thickness_mm": 0.41, "going.mesh.centre.wheel": 90, "going.mesh.centre.friction_coefficient": 0.1, "going.fusee.diameters_mm.3": 20,
		"striking.demand.torque_band_nm.0": 0.3, "advice.turns_to_spare": 0.5, "tolerance.1.percent": 1, "striking.barrel.inside_height_mm": 43.5,
		"place.air_density_kg_m3": 1.2e-2, "going.mainspring.free_coils": 6, "striking.fly.inertia_g_mm2": 1e12,
	} {
		a, b := mustRead(t, fullText(t)), mustRead(t, fullText(t))
		if err := a.SetNumber(key, v); err != nil {
			t.Errorf("%s: %v", key, err)
		}
		if err := b.Set(key, toml(&v)); err != nil {
			t.Errorf("%s: %v", key, err)
		}
		if snapshot(a) != snapshot(b) || snapshot(a) == snapshot(mustRead(t, fullText(t))) {
			t.Errorf("%s: not as its text", key)
		}
	}
	s := mustRead(t, fullText(t))
	before := snapshot(s)
	for _, c := range []struct {
		key  string
		v    float64
		want string
	}{
		{"going.mainspring.thickness_mm", math.NaN(), "found nan; want a number from 0.02 to 10 mm"},
		{"going.mainspring.thickness_mm", math.Inf(-1), "found -inf; want a number from 0.02 to 10 mm"},
		{"going.fusee.diameters_mm.3", math.Inf(1), "found inf; want a number from 0.5 to 2000 mm"},
		{"going.mesh.centre.wheel", 90.5, "found 90.5; want a whole number from 2 to 10000"},
		{"going.mesh.centre.wheel", 1e300, "found 1e+300; want a whole number from 2 to 10000"},
		{"going.fusee.diameters_mm", 3, "found 3; want a list of numbers from 0.5 to 2000 mm"},
		{"going.name", 3, "found 3; want a name of up to 64 letters, digits, - and _"},
		{"advice.historic", 1, "found 1; want true or false"},
		{"going.fly.vanes", math.NaN(), "found nan; want a whole number from 1 to 64"},
		{"going.mainspring", 1, "found the name of a table; want one of its keys: width_mm, thickness_mm, length_mm, modulus_gpa, natural_form, yield_mpa, free_coils, bending, poisson, solid_turns, packing, couple_ratio, efficiency, friction_coefficient, outer_end, present"},
	} {
		if err := s.SetNumber(c.key, c.v); message(err) != "--set "+c.key+": "+c.want {
			t.Errorf("%s: %v, want %s", c.key, err, c.want)
		}
	}
	if snapshot(s) != before || s.Trains[0].Fly != nil {
		t.Error("a refused number changed the scenario")
	}
}

// TestEmptyScenario: a scenario that was never read is judged like any other, and
// nothing panics.
func TestEmptyScenario(t *testing.T) {
	s := new(Scenario)
	if err := s.Check(); err == nil {
		t.Error("an empty scenario is sound")
	}
	if _, err := s.Train("going"); err == nil {
		t.Error("an empty scenario has a train")
	}
	for _, n := range []int{-1, 0, 1} {
		if err := s.CheckTrain(n); err == nil {
			t.Error("an empty scenario has a sound train", n)
		}
		if f := s.FaultAt(n, "barrel.clicks", "found 0", "want 1"); f.Error() != "barrel.clicks: found 0; want 1" {
			t.Errorf("train %d: %v", n, f)
		}
	}
	if len(s.Quantities()) == 0 || s.Clone() == nil || s.Set("title", "x") != nil || s.Title != "x" {
		t.Error("an empty scenario cannot be filled")
	}
	s.Trains = make([]Train, 1)
	if s.Check() == nil || s.CheckTrain(0) == nil || len(s.Quantities()) == 0 {
		t.Error("an empty train is sound")
	}
}
