// Package books reads bench files for tests.
package books

import (
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim/bench/book"
)

// Sample is the sample bench file.
func Sample(t testing.TB) *book.Book {
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
