package stock

import (
	"errors"
	"math"
	"strings"
	"testing"

	"evenpull/sim/internal/document"
	"evenpull/sim/scenario"
)

// wantSound wants a list that was accepted to be within bounds.
func wantSound(t *testing.T, st *Stock) {
	t.Helper()
	if len(st.Springs) == 0 || len(st.Springs) > MaxSprings || !shakeRange.Holds(st.EndShakeMM) {
		t.Fatalf("accepted %d springs, an end shake of %v", len(st.Springs), st.EndShakeMM)
	}
	labels := map[string]bool{}
	for i := range st.Springs {
		s := &st.Springs[i]
		if strings.TrimSpace(s.Label) == "" || len([]rune(s.Label)) > scenario.MaxName || labels[s.Label] {
			t.Fatalf("accepted the label %q", s.Label)
		}
		labels[s.Label] = true
		for _, n := range numbers {
			if v := *n.at(s); !n.within.Holds(v) && !(n.optional && math.IsNaN(v)) {
				t.Fatalf("accepted %s = %v", n.key, v)
			}
		}
	}
}

// wantFaults wants what is refused to say where, in lines that the text has.
func wantFaults(t *testing.T, err error, text string) {
	t.Helper()
	var faults scenario.Faults
	if !errors.As(err, &faults) || len(faults) == 0 {
		t.Fatalf("%T %v", err, err)
	}
	if what := document.Unprintable(strings.ReplaceAll(err.Error(), "\ufffd", "?"), true); what != "" {
		t.Fatalf("%s in %q", what, err)
	}
	lines := strings.Count(text, "\n") + 1
	for _, f := range faults {
		if f.Line < 0 || f.Line > lines || f.Found == "" || f.Source != "fuzz" {
			t.Fatalf("of %d lines: %v", lines, f)
		}
	}
}

// FuzzRead: nothing panics; what is accepted is within bounds; what is refused
// says where.
func FuzzRead(f *testing.F) {
	for _, text := range []string{full, "", "[[spring]]\n", "spring = [ 1 ]", "spring = [ { label = 'x', width_mm = 1, thickness_mm = 1, length_mm = 20 } ]", "end_shake_mm = nan",
		"title = “x”", "title = \"\\u0000\\u001b\\uffff\"", "end_shake_mm =\u00a01", "{\\rtf1", "\"\\u009b\" = 1\n\"\\u009b\" = 2"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		st, err := Read(strings.NewReader(text), "fuzz")
		if err != nil {
			wantFaults(t, err, text)
			return
		}
		wantSound(t, st)
	})
}

// FuzzReadCSV: likewise.
func FuzzReadCSV(f *testing.F) {
	for _, text := range []string{sheetFull + "A,36,0.38,1650,,,\n", "", "label;width_mm", sheetFull + "A,1,1,\"2", "a\n\n\"b\"\"\"\n", "length_mm,label,width_mm,thickness_mm\r\n20,x,1,1\r\n", sheetFull + "A,36,1,2500,1650,,\n", sheetFull + "A,36,0,38,1650\n",
		sheetFull + "“A”,−1,\"1\u00a0650\",0,5,,\n", "\xff\xfel\x00", "PK\x03\x04", sheetFull + "\x00,1,\u202e,=1,,,\n"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		st, err := ReadCSV(strings.NewReader(text), "fuzz")
		if err != nil {
			wantFaults(t, err, text)
			return
		}
		wantSound(t, st)
	})
}
