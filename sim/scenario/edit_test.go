package scenario

import (
	"errors"
	"math"
	"os"
	"strings"
	"testing"
)

// Every quantity of a full scenario can be written: the text reads again with
// that value, and only its own line has changed.
func TestEditEveryQuantity(t *testing.T) {
	data, err := os.ReadFile("testdata/full-format.toml")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	s := mustRead(t, text)
	written := 0
	for _, q := range s.Quantities() {
		v, err := s.Value(q.Key)
		if err != nil {
			t.Fatal(err)
		}
		want := *v * (1 - 1e-3)
		edited, err := Edit(text, []Change{{q.Key, want, "from the bench"}})
		if err != nil {
			// A value beside which the scenario would not be sound.
			changed := s.Clone()
			p, _ := changed.Value(q.Key)
			if *p = want; changed.Check() == nil && want != *v {
				t.Errorf("%s: %v", q.Key, err)
			}
			continue
		}
		written++
		if got, err := mustRead(t, edited).Value(q.Key); err != nil || *got != want {
			t.Errorf("%s: %v, %v", q.Key, got, err)
		}
		before, after := strings.Split(text, "\n"), strings.Split(edited, "\n")
		differ := 0
		for i := range min(len(before), len(after)) {
			if before[i] != after[i+len(after)-len(before)] && before[i] != after[i] {
				differ++
			}
		}
		if differ > 1 || len(after)-len(before) > 1 || !strings.Contains(edited, "# from the bench") {
			t.Errorf("%s: %d lines differ", q.Key, differ)
		}
	}
	if written < 60 {
		t.Errorf("only %d written", written)
	}
}

func TestEditKeepsComments(t *testing.T) {
	text := withTolerance(t, "key = \"going.line.efficiency\"\npercent = 1 # of what # was hung")
	edited, err := Edit(text, []Change{{"going.mainspring.thickness_mm", 0.41, "fitted, before 0.38"}, {"going.mainspring.modulus_gpa", 207, ""}})
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"thickness_mm = 0.41  # fitted, before 0.38", "modulus_gpa = 207.0", "# of what # was hung"} {
		if !strings.Contains(edited, want) {
			t.Errorf("no %q in\n%s", want, edited)
		}
	}
}

func TestEditRefuses(t *testing.T) {
	text := withTolerance(t, "key = \"going.line.efficiency\"\npercent = 1")
	for _, c := range []Change{
		{Key: "going.mainspring.thicknes_mm", Value: 1}, {Key: "going.mainspring.thickness_mm", Value: -1}, {Key: "going.mainspring.thickness_mm", Value: math.NaN()},
	} {
		if _, err := Edit(text, []Change{c}); err == nil {
			t.Errorf("%+v was written", c)
		}
	}
	if _, err := Edit(text, []Change{{Key: "going.mainspring.thickness_mm", Value: 99}}); !errors.Is(err, ErrEdit) {
		t.Errorf("%v", err)
	}
	if _, err := Edit("title = 3", nil); err != nil {
		t.Errorf("nothing to change: %v", err)
	}
}

// What was counted of the spring before makes way for the steel that it told.
func TestEditInPlaceOfWhatWasCounted(t *testing.T) {
	text := withTolerance(t, "key = \"going.line.efficiency\"\npercent = 1")
	before, after, _ := strings.Cut(text, "\nyield_mpa = ")
	_, after, _ = strings.Cut(after, "\n")
	text = before + "\n  free_coils   = 6.9 # counted twice\n" + after
	edited, err := Edit(text, []Change{{"going.mainspring.yield_mpa", 1500, "told before"}})
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(edited, "\n  yield_mpa = 1500.0  # told before; counted twice\n") || strings.Contains(edited, "free_coils   = 6.9") {
		t.Error(edited)
	}
}
