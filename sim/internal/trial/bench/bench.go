// Package bench works the sample bench file out, for the tests of what is written
// about it.
package bench

import (
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/bench/assign"
	"evenpull/sim/bench/book"
	"evenpull/sim/bench/readings"
	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
	"evenpull/sim/study/beat"
)

// Book is the sample bench file.
func Book(t testing.TB) *book.Book {
	t.Helper()
	text, ok := scenarios.BenchText(scenarios.DefaultBench)
	if !ok {
		t.Fatal("there is no sample bench file")
	}
	return Read(t, text)
}

// Read reads the text of a bench file.
func Read(t testing.TB, text string) *book.Book {
	t.Helper()
	b, err := book.Read(strings.NewReader(text), "bench", nil)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// Scenario is the one that the sample goes with.
func Scenario(t testing.TB) *scenario.Scenario {
	t.Helper()
	s, _ := trial.Compile(t, "three-trains")
	return s
}

// Record is the sample beside its scenario, with thickness and coil efficiency
// fitted to the readings of one spring.
func Record(t testing.TB) *readings.Study {
	t.Helper()
	s := Scenario(t)
	st := readings.Of(Book(t), s)
	var err error
	if st.Explained, err = readings.Explain(t.Context(), *st.Find("C", "going"), s, []string{"going.mainspring.thickness_mm", "going.mainspring.efficiency"}); err != nil {
		t.Fatal(err)
	}
	return st
}

// Assign is which spring of a bench file goes to which train.
func Assign(t testing.TB, b *book.Book, s *scenario.Scenario) *assign.Study {
	t.Helper()
	st, err := assign.Of(t.Context(), b, s)
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// Beat follows the pendulum of a sample with some values set.
func Beat(t testing.TB, o beat.Options, sets ...string) *beat.Result {
	t.Helper()
	s, _ := trial.Compile(t, "eight-day")
	if err := s.Apply(sets); err != nil {
		t.Fatal(err)
	}
	trains, err := sim.Compile(s)
	if err != nil {
		t.Fatal(err)
	}
	if o.Periods == 0 {
		o.Periods = beat.MaxPeriods
	}
	r, err := beat.Follow(t.Context(), &trains[0], o)
	if err != nil {
		t.Fatal(err)
	}
	return &r
}
