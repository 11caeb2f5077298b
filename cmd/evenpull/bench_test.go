package main

import (
	"strings"
	"testing"
)

// What a bench book says stands in the place of what the scenario says, in every command
// that takes it, and is told; a spring is asked for where several were read.
func TestAtBench(t *testing.T) {
	t.Chdir(t.TempDir())
	const needs, c = "by the bench book: going train: needs 0.348 N·m by weights, 0.341 to 0.355", "spring C as its readings have it: 0.380 mm thick"
	for _, line := range []string{"run three-trains --train going --draws 0", "setup three-trains --draws 0", "cut three-trains --draws 0", "report three-trains --draws 0 --out page.html"} {
		args := append(strings.Fields(line), "--bench", "mixed-barrels", "--spring", "going=C")
		code, _, errs := call(t, "", args...)
		if said := line[0] == 'r' && line[1] == 'e'; code != exitDone || !said && (!strings.Contains(errs, needs) || !strings.Contains(errs, c)) || strings.Contains(errs, "striking train") {
			t.Errorf("%s: exit %d, says %s", line, code, errs)
		}
	}
	if code, out, errs := call(t, "", "choose", "three-trains", "--draws", "0", "--bench", "mixed-barrels"); code != exitDone || !strings.Contains(errs, needs) || strings.Contains(errs, "spring") || !strings.Contains(out, "1.30 times the 0.348 N·m needed") {
		t.Errorf("choose: exit %d, says %s", code, errs)
	}
	for line, want := range map[string]string{
		"run three-trains --bench mixed-barrels":                                              "springs A, B, C were read in the going train: want which is in it: --spring going=A",
		"run three-trains --spring going=A":                                                   "--spring goes with --bench",
		"run three-trains --bench mixed-barrels --spring going":                               `--spring "going": want TRAIN=LABEL`,
		"run three-trains --bench mixed-barrels --spring goin=A":                              "--spring goin=A: ",
		"run eight-day --bench mixed-barrels":                                                 "a train that the scenario does not have",
		"run three-trains --bench mixed-barrels --spring going=X":                             `spring "X": no readings of it`,
		"letter three-trains --bench mixed-barrels":                                           "want a name ending in .html or .md",
		"letter --draws 0 --out a.md":                                                         "want at least 1",
		"letter three-trains --bench none.toml --out a.md":                                    "none.toml",
		"report three-trains --spring going=C --out b.html":                                   "--spring goes with --bench",
		"report three-trains --bench mixed-barrels --spring going=C,A --out c.html --draws 0": `no readings of it`,
	} {
		if code, _, errs := call(t, "", strings.Fields(line)...); code == exitDone || !strings.Contains(errs, want) {
			t.Errorf("%s: exit %d, says %s", line, code, errs)
		}
	}
}
