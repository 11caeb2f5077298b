package scenario

import (
	"strings"
	"testing"
)

// threeTrains is the full scenario with its striking train twice.
func threeTrains(t testing.TB) string {
	text := fullText(t)
	again := text[strings.LastIndex(text, "[[train]]"):]
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
	s.Trains = s.Trains[:1]
	b.ReportAllocs()
	for b.Loop() {
		if err := s.Check(); err != nil {
			b.Fatal(err)
		}
	}
}

func TestCheckAllocatesNothing(t *testing.T) {
	s := mustRead(t, fullText(t))
	if n := testing.AllocsPerRun(100, func() { _ = s.Check() }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}
