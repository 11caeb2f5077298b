package scenario

import (
	"os"
	"strings"
	"testing"
)

// edit replaces the first Old from the start of a train (1, 2; 0: of the file)
// in the full scenario. Old may be "A…B": all from A up to the next B.
type edit struct {
	train    int
	old, new string
}

// broken is a scenario that must be refused. Want begins each line with the
// line number.
type broken struct {
	name  string
	edits []edit
	want  string
}

func fullText(t testing.TB) string {
	t.Helper()
	data, err := os.ReadFile("testdata/full-format.toml")
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func (e edit) apply(t testing.TB, text string) string {
	t.Helper()
	start := []int{0, strings.Index(text, "[[train]]"), strings.LastIndex(text, "[[train]]")}[e.train]
	from, to, cut := strings.Cut(e.old, "…")
	i := strings.Index(text[start:], from)
	if i < 0 {
		t.Fatalf("%q is not in train %d", from, e.train)
	}
	i += start
	end := i + len(from)
	if cut {
		j := strings.Index(text[end:], to)
		if j < 0 {
			t.Fatalf("%q does not follow %q in train %d", to, from, e.train)
		}
		end += j
	}
	return text[:i] + e.new + text[end:]
}

func edited(t testing.TB, edits ...edit) string {
	t.Helper()
	text := fullText(t)
	for _, e := range edits {
		text = e.apply(t, text)
	}
	return text
}

func read(text string) (*Scenario, error) {
	return Read(strings.NewReader(text), "clock.toml")
}

func mustRead(t testing.TB, text string) *Scenario {
	t.Helper()
	s, err := read(text)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func message(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}

func TestBroken(t *testing.T) {
	n := 0
	for _, group := range [][]broken{brokenInClock, brokenInDrive, brokenInTrain, brokenInWork} {
		n += len(group)
		for _, c := range group {
			t.Run(c.name, func(t *testing.T) {
				want := "clock.toml" + strings.ReplaceAll(c.want, "\n", "\nclock.toml")
				s, err := read(edited(t, c.edits...))
				if got := message(err); got != want {
					t.Errorf("got\n%s\nwant\n%s", got, want)
				}
				if s != nil {
					t.Error("a broken scenario was handed out")
				}
			})
		}
	}
	if n < 100 {
		t.Errorf("only %d broken scenarios", n)
	}
}
