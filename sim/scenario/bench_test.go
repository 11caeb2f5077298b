package scenario

import (
	"strings"
	"testing"
)

// threeTrains is the full scenario with its striking train twice.
func threeTrains(t testing.TB) string {
	text := fullText(t)
	again, _, _ := strings.Cut(text[strings.LastIndex(text, "[[train]]"):], "[[tolerance]]")
	return text + strings.Replace(again, `name = "striking"`, `name = "chiming"`, 1)
}

func BenchmarkRead(b *testing.B) {
	text := threeTrains(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := read(text); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCheck(b *testing.B) {
	s := mustRead(b, fullText(b))
	s.Trains, s.Tolerances = s.Trains[:1], nil
	b.ReportAllocs()
	for b.Loop() {
		if err := s.Check(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCheckTrain(b *testing.B) {
	s := mustRead(b, fullText(b))
	b.ReportAllocs()
	for b.Loop() {
		if err := s.CheckTrain(0); err != nil {
			b.Fatal(err)
		}
	}
}

func TestCheckAllocatesNothing(t *testing.T) {
	s := mustRead(t, fullText(t))
	if n := testing.AllocsPerRun(100, func() { _ = s.CheckTrain(1) }); n != 0 {
		t.Errorf("%v allocations for a train", n)
	}
	s.Tolerances = nil
	if n := testing.AllocsPerRun(100, func() { _ = s.Check() }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}
