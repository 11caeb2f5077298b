package main

import (
	"bytes"
	"encoding/json"
	"strconv"
	"strings"
	"testing"

	"evenpull/scenarios"
)

// FuzzRun runs any text as a scenario: it is either refused with a reason or
// gives valid JSON, text, CSV and a picture, and nothing panics.
func FuzzRun(f *testing.F) {
	for _, name := range scenarios.Names() {
		text, _ := scenarios.Text(name)
		f.Add(text, "going.mainspring.thickness_mm=0.4", "striking.barrel.set_up_turns=3")
		f.Add(text, "going.mainspring.free_coils=3", "going.fusee.turns=0.5")
		f.Add(text, "quarters.fusee.small_diameter_mm=9", "quarters.mainspring.bending=plate")
	}
	f.Fuzz(func(t *testing.T, text, set1, set2 string) {
		for _, format := range []string{"json", "text", "csv"} {
			var out, errs bytes.Buffer
			code := Main(few([]string{"run", "-", "--format", format, "--set", set1, "--set", set2}), strings.NewReader(text), &out, &errs)
			switch {
			case code != exitDone && errs.Len() == 0:
				t.Fatalf("exit %d without a word", code)
			case code != exitDone && out.Len() > 0:
				t.Fatalf("exit %d after half a result", code)
			case code == exitDone && format == "json" && !json.Valid(out.Bytes()):
				t.Fatalf("not JSON: %s", out.String())
			case code == exitDone && strings.Contains(out.String(), "NaN"):
				t.Fatalf("NaN in %s", format)
			}
		}
	})
}

// FuzzStudies takes any text through every study, small ones: none panics, and
// what is not refused is whole.
func FuzzStudies(f *testing.F) {
	for _, name := range scenarios.Names() {
		text, _ := scenarios.Text(name)
		f.Add(text, "going.mainspring.thickness_mm", 0.1, 0.9)
		f.Add(text, "striking.barrel.set_up_turns", -1.0, 4.0)
		f.Add(text, "place.gravity_m_s2", 1e-300, 1e300)
	}
	f.Fuzz(func(t *testing.T, text, key string, from, to float64) {
		number := func(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }
		for _, args := range [][]string{
			{"sweep", "-", "--over", key, "--from", number(from), "--to", number(to), "--steps", "5"},
			{"sweep", "-", "--steps", "3", "--against", key, "--from2", number(from), "--to2", number(to), "--steps2", "3", "--hold", "fill"},
			{"rank", "-", "--shares=false"}, {"setup", "-"}, {"plan", "-"}, {"spread", "-", "--runs", "20", "--shares=false"},
		} {
			var out, errs bytes.Buffer
			switch code := Main(few(append(args, "--format", "json")), strings.NewReader(text), &out, &errs); {
			case code != exitDone && errs.Len() == 0:
				t.Fatalf("%s: exit %d without a word", args, code)
			case code != exitDone && out.Len() > 0:
				t.Fatalf("%s: exit %d after half a result", args, code)
			case code == exitDone && !json.Valid(out.Bytes()):
				t.Fatalf("%s: not JSON: %s", args, out.String())
			}
		}
	})
}

// FuzzRecord takes any text as a bench file: refused with a reason, or whole.
func FuzzRecord(f *testing.F) {
	for _, name := range scenarios.BenchNames() {
		text, _ := scenarios.BenchText(name)
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, args := range [][]string{
			{"record", "-"}, {"record", "-", "--scenario", "three-trains"}, {"assign", "-"}, {"assign", "-", "--scenario", "three-trains"},
		} {
			var out, errs bytes.Buffer
			switch code := Main(few(append(args, "--format", "json")), strings.NewReader(text), &out, &errs); {
			case code != exitDone && errs.Len() == 0:
				t.Fatalf("%s: exit %d without a word", args, code)
			case code == exitDone && !json.Valid(out.Bytes()):
				t.Fatalf("%s: not JSON: %s", args, out.String())
			}
		}
	})
}
