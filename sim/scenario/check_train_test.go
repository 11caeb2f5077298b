package scenario

import (
	"math"
	"testing"
)

// TestCheckTrain: of a fault in a train, the place or the bands it says what
// Check says; of any other nothing.
func TestCheckTrain(t *testing.T) {
	for name, c := range map[string]struct {
		change func(s *Scenario)
		trains [2]bool // those that are at fault
	}{
		"nothing":      {func(*Scenario) {}, [2]bool{}},
		"a value":      {func(s *Scenario) { s.Trains[0].Line.Efficiency = 2 }, [2]bool{true, false}},
		"a pair":       {func(s *Scenario) { s.Trains[1].Mainspring.WidthMM = 41.5 }, [2]bool{false, true}},
		"a mesh":       {func(s *Scenario) { s.Trains[1].Meshes[1].Pinion = 1 }, [2]bool{false, true}},
		"a hammer":     {func(s *Scenario) { s.Trains[1].Strike.Hammers[0].LiftMM = math.NaN() }, [2]bool{false, true}},
		"the place":    {func(s *Scenario) { s.Place.GravityMS2 = 31 }, [2]bool{true, true}},
		"the bands":    {func(s *Scenario) { s.Verdict.ThinBelow = 0.9 }, [2]bool{true, true}},
		"the title":    {func(s *Scenario) { s.Title = "" }, [2]bool{}},
		"equal names":  {func(s *Scenario) { s.Trains[0].Name, s.Tolerances = "striking", nil }, [2]bool{}},
		"a tolerance":  {func(s *Scenario) { s.Tolerances[0].Key = "nothing" }, [2]bool{}},
		"several":      {func(s *Scenario) { s.Trains[0].Line.Efficiency, s.Trains[0].Fusee.PitchMM = 2, 1 }, [2]bool{true, false}},
		"an empty one": {func(s *Scenario) { s.Trains[0] = Train{Name: "going"}; s.Tolerances = nil }, [2]bool{true, false}},
	} {
		s := mustRead(t, fullText(t))
		c.change(s)
		for i, faulty := range c.trains {
			want := ""
			if faulty {
				want = message(s.Check())
			}
			if got := message(s.CheckTrain(i)); got != want || faulty != (got != "") {
				t.Errorf("%s: train %d: got\n%s\nwant\n%s", name, i, got, want)
			}
		}
	}
	s := mustRead(t, fullText(t))
	for _, n := range []int{-1, 2} {
		if err := s.CheckTrain(n); err == nil {
			t.Errorf("there is no train %d", n)
		}
	}
	if got := message(s.CheckTrain(2)); got != "clock.toml: train: found the number 2; want that of one of the 2 trains, from 0" {
		t.Error(got)
	}
}

// What values make together is judged as by CheckTrain; values on their own are not.
func TestCheckCombined(t *testing.T) {
	s := mustRead(t, fullText(t))
	for i := range s.Trains {
		if err := s.CheckCombined(i); err != nil {
			t.Error(err)
		}
	}
	s.Trains[1].Mainspring.WidthMM = 41.5 // beside the height of its barrel
	if got, want := message(s.CheckCombined(1)), message(s.CheckTrain(1)); got != want || got == "" || s.CheckCombined(0) != nil {
		t.Errorf("%s, want %s", got, want)
	}
	s = mustRead(t, fullText(t))
	s.Place.GravityMS2 = 31
	if err := s.CheckCombined(0); err != nil || s.CheckTrain(0) == nil {
		t.Error(err)
	}
	if s.CheckCombined(9) == nil {
		t.Error("there is no train 9")
	}
}
