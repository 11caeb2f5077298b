package sim_test

import (
	"math"
	"testing"

	"evenpull/sim/internal/trial"
)

// A pendulum given by its beats is that of the length that beats so: one of 0.994 m beats
// seconds (the seconds pendulum, 60 beats a minute, where gravity is standard: l = g/π²).
func TestBeatsPerMinute(t *testing.T) {
	_, trains := trial.Compile(t, "eight-day", "length_mm = 200.1", "beats_per_minute = 60")
	if l := trains[0].Pendulum.Length; math.Abs(l-9.80665/(math.Pi*math.Pi)) > 1e-12 || math.Abs(l-0.994) > 0.0005 {
		t.Errorf("%v m", l)
	}
	s, trains := trial.Compile(t, "eight-day")
	was := trains[0].Pendulum.Length
	beats := 120 / (2 * math.Pi * math.Sqrt(was/s.Place.GravityMS2))
	if err := s.SetNumber(s.Trains[0].Name+".pendulum.beats_per_minute", beats); err != nil {
		t.Fatal(err)
	}
	if got := s.Trains[0].Pendulum.Metres(s.Place.GravityMS2); math.Abs(got/was-1) > 1e-14 || s.Check() != nil {
		t.Errorf("%v m, was %v; %v", got, was, s.Check())
	}
}
