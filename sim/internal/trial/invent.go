package trial

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/scenario"
)

// Invent draws a clock of one train about a sample: a spring, a barrel, a cone, a
// set-up and a need of its own. Every number gives another clock, always the same
// for the same number. It can be run, whatever its verdict.
func Invent(t testing.TB, number uint64) *scenario.Scenario {
	t.Helper()
	random := rand.New(rand.NewPCG(number, 1971))
	for range 200 {
		s, err := invented(random, number)
		if err != nil {
			t.Fatal(err)
		}
		if s == nil {
			continue
		}
		if _, err := sim.RunClock(s, sim.Options{}); err == nil {
			return s
		}
	}
	t.Fatalf("no clock of number %d can be run", number)
	return nil
}

// invented is a clock, or nil when it contradicts itself.
func invented(random *rand.Rand, number uint64) (*scenario.Scenario, error) {
	name := []string{"eight-day", "eight-day", "strike-pleasant"}[number%3]
	text, _ := scenarios.Text(name)
	s, err := scenario.Read(strings.NewReader(text), name)
	if err != nil {
		return nil, err
	}
	train := s.Trains[0].Name
	about := func(key string, share float64) string {
		v, err := s.Value(train + "." + key)
		if err != nil {
			return ""
		}
		return fmt.Sprintf("%s.%s=%.6g", train, key, *v*(1+share*(2*random.Float64()-1)))
	}
	sets := []string{
		about("mainspring.thickness_mm", 0.2), about("mainspring.length_mm", 0.25), about("mainspring.width_mm", 0.03), about("mainspring.yield_mpa", 0.1),
		about("mainspring.efficiency", 0.05), about("barrel.inside_diameter_mm", 0.05), about("barrel.arbor_diameter_mm", 0.1),
		fmt.Sprintf("%s.barrel.set_up_turns=%.6g", train, float64(random.IntN(30))/12),
	}
	if random.IntN(3) == 0 {
		sets = append(sets, about("demand.least_torque_nm", 0.25))
	}
	if random.IntN(4) == 0 && name == "strike-pleasant" {
		lo := 0.2 + 0.3*random.Float64()
		sets = append(sets, fmt.Sprintf("%s.demand.torque_band_nm=[%.3f, %.3f]", train, lo, lo*(1.1+random.Float64()/2)))
	}
	for i := len(sets) - 1; i >= 0; i-- {
		if sets[i] == "" {
			sets = append(sets[:i], sets[i+1:]...)
		}
	}
	if s.Apply(sets) != nil {
		return nil, nil
	}
	return s, nil
}
