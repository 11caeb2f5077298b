package scenario

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"evenpull/sim/internal/document"
)

func seeds(f *testing.F) []string {
	texts := []string{"", "title = 1", "[[train]]\n[train.mesh]\n", "a.b = [ { c = 1 }, [2] ]", "x = \"\"\"\n\\\"\"\"\"\"", "'a' . \"\\u0041\" = 1_0e3",
		"train = [ { name = 'a', kind = 'going', mesh = [ 3 ] } ]", "[[train]]\nfusee.diameters_mm = [1, nan, 'x']\n",
		"title = \"\\u0000\\u001b\\uffff\"", "title = “x”", "title =\u00a0'x'", "\"\\u009b\" = 1\n\"\\u009b\" = 2", "t\x00i\x00", "fusee.diameters_mm = [36,5, 37,1]",
		"[[train]]\nname = 'a'\n[[tolerance]]\nkey = 'a.mesh.b.drag_nm'\npercent = 1\n[[tolerance]]\nkey = 'tolerance.1.percent'\nplus_minus = 1"}
	files, err := filepath.Glob("testdata/*.toml")
	if err != nil || len(files) == 0 {
		f.Fatal("no files in testdata:", err)
	}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		texts = append(texts, string(data))
	}
	return texts
}

// wantSound wants a scenario that was accepted to be so throughout.
func wantSound(t *testing.T, s *Scenario) {
	t.Helper()
	if err := s.Check(); err != nil {
		t.Fatalf("accepted, and yet: %v", err)
	}
	tr := &trail{s: s}
	tr.visit(root, s, func(tb *table, item any) {
		for i := range tb.fields {
			if v, ok := tb.fields[i].ref(item).(*float64); ok && math.IsInf(*v, 0) {
				t.Fatalf("%s is infinite", tr.key(0, tb.fields[i].key))
			}
		}
	})
	for i := range s.Trains {
		if err := s.CheckTrain(i); err != nil {
			t.Fatalf("accepted, and yet in train %d: %v", i, err)
		}
	}
	for i := range s.Tolerances {
		e := s.Tolerances[i].Error()
		if v, err := s.Value(s.Tolerances[i].Key); err != nil || !(e.half(*v) >= 0) || math.IsInf(e.half(*v), 0) {
			t.Fatalf("tolerance %+v: %v", s.Tolerances[i], err)
		}
	}
	for i, q := range s.Quantities() {
		if of, err := s.Quantity(q.Key); err != nil || of != q {
			t.Fatalf("%+v, want %+v: %v", of, q, err)
		}
		v, err := s.Value(q.Key)
		if err != nil {
			t.Fatal(err)
		}
		if !(*v >= q.Lo && *v <= q.Hi) {
			t.Fatalf("%s = %v", q.Key, *v)
		}
		if i%16 == 0 {
			if err := s.Clone().Set(q.Key, document.Exact(*v)); err != nil {
				t.Fatalf("its own value refused: %v", err)
			}
		}
	}
}

// FuzzRead: nothing panics; what is accepted is sound; what is refused says
// where, in lines that the text has.
func FuzzRead(f *testing.F) {
	for _, text := range seeds(f) {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := read(text)
		if err == nil {
			wantSound(t, s)
			return
		}
		faults, ok := err.(Faults)
		if !ok || len(faults) == 0 {
			t.Fatalf("%T %v", err, err)
		}
		wantPrintable(t, err)
		lines := strings.Count(text, "\n") + 1
		for _, fault := range faults {
			if fault.Line < 0 || fault.Line > lines {
				t.Fatalf("line %d of %d: %v", fault.Line, lines, fault)
			}
		}
	})
}

// wantPrintable wants a message of words that upset no terminal.
func wantPrintable(t *testing.T, err error) {
	t.Helper()
	if what := document.Unprintable(strings.ReplaceAll(err.Error(), "\ufffd", "?"), true); what != "" || err.Error() == "" {
		t.Fatalf("%s in %q", what, err)
	}
}

// FuzzSet: no KEY and no value panics; what is refused changes nothing; what
// is accepted is sound.
func FuzzSet(f *testing.F) {
	full, err := ReadFile("testdata/full-format.toml")
	if err != nil {
		f.Fatal(err)
	}
	for _, q := range full.Quantities() {
		f.Add(q.Key, "1")
	}
	for _, s := range []string{"title", "going.name", "going.kind", "going.mesh.centre.drives", "going.fusee.profile", "striking.strike.pin_arbor",
		"going.fly.vanes", "going.mesh", "..", "going.", "#1", "going#2.kind", "going.fusee.diameters_mm", "going.mesh.centre.wheel", "tolerance.1.key", "tolerance.2.plus_minus"} {
		f.Add(s, "even")
		f.Add(s, "[ 1, 2 ]")
		f.Add(s+"\x00\x1b", "\u202e−5")
		f.Add(s, `"\u0000\u001b[31m\uffff"`)
	}
	f.Add("0000000000000000000000000000000000000000\xf00", "1")
	f.Fuzz(func(t *testing.T, key, value string) {
		s := full.Clone()
		before := snapshot(s)
		if err := s.Set(key, value); err != nil {
			if snapshot(s) != before {
				t.Fatalf("refused (%v), and yet changed", err)
			}
			wantPrintable(t, err)
			return
		}
		if err := s.Check(); err == nil {
			wantSound(t, s)
		} else {
			wantPrintable(t, err)
		}
		again := s.Clone()
		again.Complete()
		if fmt.Sprint(again.Assumed) != fmt.Sprint(s.Assumed) {
			t.Fatal("assumptions do not settle")
		}
	})
}
