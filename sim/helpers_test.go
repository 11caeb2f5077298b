package sim_test

import (
	. "evenpull/sim"
	"math"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim/scenario"
)

// sample compiles a sample scenario after replacing pieces of its text, given
// in pairs of old and new.
func sample(t testing.TB, name string, replace ...string) []Train {
	t.Helper()
	trains, err := Compile(readSample(t, name, replace...))
	if err != nil {
		t.Fatal(err)
	}
	return trains
}

func readSample(t testing.TB, name string, replace ...string) *scenario.Scenario {
	t.Helper()
	s, err := readText(readSampleText(t, name, replace...))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func readText(text string) (*scenario.Scenario, error) {
	return scenario.Read(strings.NewReader(text), "sample")
}

func readSampleText(t testing.TB, name string, replace ...string) string {
	t.Helper()
	text, ok := scenarios.Text(name)
	if !ok {
		t.Fatalf("no sample %q", name)
	}
	for i := 0; i < len(replace); i += 2 {
		if !strings.Contains(text, replace[i]) {
			t.Fatalf("sample %s has no %q", name, replace[i])
		}
		text = strings.ReplaceAll(text, replace[i], replace[i+1])
	}
	return text
}

func run(t testing.TB, tr Train, o Options) *Result {
	t.Helper()
	res := new(Result)
	if err := tr.RunInto(res, o); err != nil {
		t.Fatal(err)
	}
	return res
}

func closeTo(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol*math.Max(1e-300, math.Abs(want))) {
		t.Errorf("%s = %.12g, want %.12g", what, got, want)
	}
}
