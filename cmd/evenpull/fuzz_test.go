package main

import (
	"bytes"
	"encoding/json"
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
			code := Main([]string{"run", "-", "--format", format, "--set", set1, "--set", set2}, strings.NewReader(text), &out, &errs)
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
