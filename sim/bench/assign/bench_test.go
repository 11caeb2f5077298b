package assign

import (
	"fmt"
	"testing"

	"evenpull/sim/bench/book"
	"evenpull/sim/internal/trial"
	"evenpull/sim/internal/trial/books"
	"evenpull/sim/scenario"
)

// sample reads the sample bench file and the scenario that it goes with.
func sample(t testing.TB) (*book.Book, *scenario.Scenario) {
	t.Helper()
	s, _ := trial.Compile(t, "three-trains")
	return books.Sample(t), s
}

// twice is the sample with all trains and springs twice over: six of each, the
// springs each read in one train.
func twice(t testing.TB) (*book.Book, *scenario.Scenario) {
	b, s := sample(t)
	for i := range len(s.Trains) {
		copied := s.Clone().Trains[i]
		copied.Name += "-too"
		s.Trains = append(s.Trains, copied)
	}
	for i := range len(b.Weights) {
		w := b.Weights[i]
		w.Train += "-too"
		b.Weights = append(b.Weights, w)
	}
	for i := range len(b.Torques) {
		q := b.Torques[i]
		q.Spring, q.Train = fmt.Sprintf("%s too", q.Spring), q.Train+"-too"
		b.Torques = append(b.Torques, q)
	}
	if err := s.Check(); err != nil {
		t.Fatal(err)
	}
	return b, s
}

// BenchmarkAssign is six springs and six trains, 30 of the 36 pairs carried over.
func BenchmarkAssign(b *testing.B) {
	book, s := twice(b)
	b.ReportAllocs()
	for b.Loop() {
		study(b, book, s)
	}
}
