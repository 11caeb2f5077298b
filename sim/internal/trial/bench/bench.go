// Package bench works the sample bench file out, for the tests of what is written
// about it.
package bench

import (
	"testing"

	"evenpull/sim"
	"evenpull/sim/bench/assign"
	"evenpull/sim/bench/book"
	"evenpull/sim/bench/found"
	"evenpull/sim/bench/readings"
	"evenpull/sim/internal/trial"
	"evenpull/sim/internal/trial/books"
	"evenpull/sim/scenario"
	"evenpull/sim/study/beat"
	"evenpull/sim/study/coils"
)

// Book is the sample bench file.
func Book(t testing.TB) *book.Book { return books.Sample(t) }

// Read reads the text of a bench file.
func Read(t testing.TB, text string) *book.Book { return books.Read(t, text) }

// Clock is a scenario with a bench file put into it; nil without one.
func Clock(t testing.TB, b *book.Book, s *scenario.Scenario) *found.Clock {
	t.Helper()
	if s == nil {
		return nil
	}
	c, err := found.Of(t.Context(), b, s)
	if err != nil {
		t.Fatal(err)
	}
	return c
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
	st, err := assign.Of(t.Context(), b, Clock(t, b, s))
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

// CoilsSolved winds the mainspring of a sample coil by coil, with few nodes and at few windings.
func CoilsSolved(t testing.TB, o coils.Options) *coils.Result {
	t.Helper()
	_, trains := trial.Compile(t, "eight-day")
	o.Turns, o.Nodes = []float64{1, 3, 5}, 24
	r, err := coils.Follow(t.Context(), &trains[0], o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}
