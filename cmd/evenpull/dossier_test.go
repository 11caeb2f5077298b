package main

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// hidden are the springs of the dossier, which the readings were made from with scatter of
// 0.6 % a reading and 0.4 % a run-down, a meter 0.4 % off, a line that passes 94.5 % and a
// set-up half a click more than was noted: thickness (mm) and the train that each was made for.
var hidden = map[string]struct {
	thickness float64
	train     string
}{"A": {0.0187 * 25.4, "quarters"}, "B": {0.0153 * 25.4, "going"}, "C": {0.0166 * 25.4, "striking"}}

// TestDossier goes from notes to letter as a restorer would: one scenario, one bench book,
// four commands, and no number converted. One spring went solid, two are of unknown length.
func TestDossier(t *testing.T) {
	dir, err := filepath.Abs("testdata/dossier")
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	for _, name := range []string{"clock.toml", "bench.toml"} {
		text, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, text, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	// What does each train need, and what does each spring give?
	var record struct {
		Fitted []struct {
			Spring string
			Values []struct {
				Key      string
				Interval [2]float64 `json:"interval_95"`
			}
		}
	}
	answer(t, &record, "record", "bench.toml", "--scenario", "clock.toml", "--draws", "200")
	if len(record.Fitted) != len(hidden) {
		t.Fatalf("%d springs fitted", len(record.Fitted))
	}
	for _, sp := range record.Fitted {
		for _, v := range sp.Values {
			if h := hidden[sp.Spring].thickness; v.Key == "mainspring.thickness_mm" && !(v.Interval[0] < h && h < v.Interval[1] && v.Interval[1]-v.Interval[0] < 0.025) {
				t.Errorf("spring %s is %.4f mm thick, fitted %v", sp.Spring, h, v.Interval)
			}
		}
	}
	// Which spring goes where?
	var assign struct {
		Best []struct {
			Spring, Train string
			Suits         bool
		}
		Sure  float64
		Pairs []struct {
			Spring, Train string
			TurnsLost     float64 `json:"turns_lost"`
			Best          bool
		}
	}
	answer(t, &assign, "assign", "bench.toml", "--scenario", "clock.toml", "--draws", "500")
	if len(assign.Best) != len(hidden) || assign.Sure < 0.9 {
		t.Errorf("%+v, sure to %v", assign.Best, assign.Sure)
	}
	for _, p := range assign.Best {
		if hidden[p.Spring].train != p.Train {
			t.Errorf("spring %s goes into the %s train", p.Spring, p.Train)
		}
	}
	for _, p := range assign.Pairs {
		if binds := p.Spring == "A" && p.Train == "going"; binds != (p.TurnsLost > 1) || binds && p.Best {
			t.Errorf("%+v", p)
		}
	}
	// What do they come to?
	var run struct {
		Trains []struct {
			Name    string
			Verdict struct{ Code string }
			Torque  struct{ Mean float64 } `json:"fusee_torque_nm"`
		}
	}
	answer(t, &run, "run", "clock.toml", "--bench", "bench.toml", "--spring", "going=B", "--spring", "striking=C", "--spring", "quarters=A", "--draws", "100")
	for i, want := range []float64{0.439, 0.480, 0.672} { // of runs with the hidden springs
		if got := run.Trains[i]; got.Verdict.Code != "suits" || math.Abs(got.Torque.Mean/want-1) > 0.02 {
			t.Errorf("%s: %+v, want %v", got.Name, got, want)
		}
	}
	if code, _, errs := call(t, "", "letter", "clock.toml", "--bench", "bench.toml", "--out", "letter.md", "--draws", "100"); code != exitDone {
		t.Fatal(errs)
	}
	text, err := os.ReadFile("letter.md")
	if err != nil {
		t.Fatal(err)
	}
	letter := string(text)
	for _, want := range []string{"# Bracket clock of three trains", "The bench by the window", "2026-11-26", "Spring B goes into the going train", "Spring C goes into the striking train", "Spring A goes into the quarters train", "## With care", "let-down key"} {
		if !strings.Contains(letter, want) {
			t.Errorf("the letter lacks %q:\n%s", want, letter)
		}
	}
	if words := []string{"mainspring.", "_mm", "χ²", "95 %", "standard"}; len(letter) > 4500 {
		t.Errorf("the letter has %d bytes", len(letter))
	} else {
		for _, w := range words {
			if strings.Contains(letter, w) {
				t.Errorf("the letter has %q", w)
			}
		}
	}
}

// answer is the JSON of a command.
func answer(t *testing.T, into any, args ...string) {
	t.Helper()
	code, out, errs := call(t, "", append(args, "--format", "json")...)
	if code != exitDone {
		t.Fatalf("%v: %s", args, errs)
	}
	if err := json.Unmarshal([]byte(out), into); err != nil {
		t.Fatal(err)
	}
}
