// Package trial compiles and runs samples for the tests of packages below sim.
package trial

import (
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/scenario"
)

// Compile reads a sample after replacing pieces of its text, given in pairs of
// old and new, and compiles its trains.
func Compile(t testing.TB, name string, replace ...string) (*scenario.Scenario, []sim.Train) {
	t.Helper()
	text, ok := scenarios.Text(name)
	if !ok {
		t.Fatalf("there is no sample %q", name)
	}
	for i := 0; i < len(replace); i += 2 {
		if !strings.Contains(text, replace[i]) {
			t.Fatalf("sample %s has no %q", name, replace[i])
		}
		text = strings.ReplaceAll(text, replace[i], replace[i+1])
	}
	s, err := scenario.Read(strings.NewReader(text), name)
	if err != nil {
		t.Fatal(err)
	}
	trains, err := sim.Compile(s)
	if err != nil {
		t.Fatal(err)
	}
	return s, trains
}

// Run runs trains down.
func Run(t testing.TB, trains []sim.Train) []sim.Result {
	t.Helper()
	results := make([]sim.Result, len(trains))
	for i := range trains {
		if err := trains[i].RunInto(&results[i], sim.Options{}); err != nil {
			t.Fatal(err)
		}
	}
	return results
}

// RunOf is the run of a train of a scenario.
func RunOf(t testing.TB, s *scenario.Scenario, number int) *sim.Result {
	t.Helper()
	r, err := sim.RunTrain(s, number, sim.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return r
}
