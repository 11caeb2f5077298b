package main

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// TestSampleInInches: every length of a sample in inches gives the same results.
func TestSampleInInches(t *testing.T) {
	for _, name := range []string{"eight-day", "three-trains"} {
		_, text, _ := call(t, "", "samples", name)
		lengths := 0
		inches := regexp.MustCompile(`(?s)\b([a-z_]+)_mm( *= *)([0-9.]+|\[[^]{}]*\])`).ReplaceAllStringFunc(text, func(s string) string {
			lengths++
			key, value, _ := strings.Cut(s, "_mm")
			return key + "_in" + regexp.MustCompile(`[0-9]+(\.[0-9]+)?`).ReplaceAllStringFunc(value, func(s string) string {
				v, _ := strconv.ParseFloat(s, 64)
				return strconv.FormatFloat(v/25.4, 'g', -1, 64)
			})
		})
		file := filepath.Join(t.TempDir(), "inches.toml")
		if err := os.WriteFile(file, []byte(inches), 0o600); err != nil || lengths < 15 {
			t.Fatal(lengths, err)
		}
		_, want, _ := call(t, "", "run", name, "--format", "json", "--draws", "0")
		status, got, errs := call(t, "", "run", file, "--format", "json", "--draws", "0")
		if status != exitDone {
			t.Fatal(errs)
		}
		compared := 0
		sameTo(t, name, decoded(t, want), decoded(t, got), &compared)
		if compared < 800 {
			t.Errorf("%s: only %d figures", name, compared)
		}
	}
}

// decoded is a document without its origin, which tells of another file or value.
func decoded(t *testing.T, text string) any {
	t.Helper()
	var doc map[string]any
	if err := json.Unmarshal([]byte(text), &doc); err != nil {
		t.Fatal(err)
	}
	delete(doc, "evenpull")
	return doc
}

// belowOrigin is what stands below the origin of a document, to the letter.
func belowOrigin(document string) string {
	_, below, _ := strings.Cut(document, "\n  },\n")
	return below
}

// sameTo compares documents, their figures to 1e-12.
func sameTo(t *testing.T, path string, want, got any, compared *int) {
	t.Helper()
	switch want := want.(type) {
	case map[string]any:
		for key, v := range want {
			sameTo(t, path+"."+key, v, got.(map[string]any)[key], compared)
		}
	case []any:
		for i, v := range want {
			sameTo(t, fmt.Sprint(path, ".", i), v, got.([]any)[i], compared)
		}
	case float64:
		*compared++
		if v, ok := got.(float64); !ok || !(math.Abs(v-want) <= 1e-12*max(1, math.Abs(want))) {
			t.Errorf("%s: %v, want %v", path, got, want)
		}
	default:
		if got != want {
			t.Errorf("%s: %v, want %v", path, got, want)
		}
	}
}

// TestOverInInches: a sweep over a KEY in inches is that over it in millimetres.
func TestOverInInches(t *testing.T) {
	_, want, _ := call(t, "", "sweep", "eight-day", "--over", "going.mainspring.thickness_mm", "--from", "0.3556", "--to", "0.4064", "--steps", "5", "--format", "json")
	status, got, errs := call(t, "", "sweep", "eight-day", "--over", "going.mainspring.thickness_in", "--from", "0.014", "--to", "0.016", "--steps", "5", "--format", "json")
	if compared := 0; status != exitDone {
		t.Error(errs)
	} else {
		sameTo(t, "sweep", decoded(t, want), decoded(t, got), &compared)
	}
	status, got, errs = call(t, "", "run", "eight-day", "--set", "going.mainspring.thickness_in=0.0165", "--format", "json", "--draws", "0")
	if _, want, _ := call(t, "", "run", "eight-day", "--set", "going.mainspring.thickness_mm=0.4191", "--format", "json", "--draws", "0"); status != exitDone || belowOrigin(got) != belowOrigin(want) || belowOrigin(got) == "" {
		t.Error(errs)
	}
}
