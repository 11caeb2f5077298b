package book

import (
	"errors"
	"io"
	"math"
	"strings"
	"testing"

	"evenpull/sim/internal/document"
	"evenpull/sim/scenario"
)

// wantLists wants readings that were accepted to be within bounds.
func wantLists(t *testing.T, lists [][]float64) {
	t.Helper()
	if len(lists) > MaxRepeats {
		t.Fatalf("%d repeats", len(lists))
	}
	for _, list := range lists {
		taken := 0
		for _, v := range list {
			if !math.IsNaN(v) {
				taken++
			}
			if v < 0 || v > 10000 {
				t.Fatalf("accepted %v", v)
			}
		}
		if taken == 0 || len(list) > MaxTurns {
			t.Fatalf("a repeat of %d readings, %d taken", len(list), taken)
		}
	}
}

// wantFaults wants what is refused to say where, in lines that a text has.
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
		if f.Source == "fuzz" && (f.Line < 0 || f.Line > lines) || f.Found == "" {
			t.Fatalf("of %d lines: %v", lines, f)
		}
	}
}

// FuzzRead: nothing panics; what is accepted is within bounds; what is refused
// says where.
func FuzzRead(f *testing.F) {
	for _, text := range []string{full(f), "", "[[weights]]\n", "weights = [ 1 ]", "[[torque]]\nrunning_down = [[1, '-'], 2]\nfile = 'a'",
		"[[torque]]\nrunning_down = [[0,5400, 0,5300]]", "[[torque]]\nfile = \"\\u001b\"", "title = \"\\u0000\\uffff\"", "title = “x”",
		"[[weights]]\ntrain = 'a'\npulley_radius_mm = 1\ntrials = [ { mass_g = 1, runs = true } ]\n", Right,
		"[[spring]]\nlabel = 'A'\nthickness_in = 0.016\nnatural_form = 'x'\nsolid_at_turn = 70\n[[torque]]\ntrain = 'a'\nspring = 'A'\nfirst_turn = 1.5\nrunning_down_cnm = [[50, 510, 50]]",
		"[letter]\ndate = 2024-05-31\n[[weights]]\ndate = 'x'\nby = 1\ntrials = [ { judged = 'slow' }, { twelve_s = 13 }, { runs = 'yes' } ]"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		b, err := Read(strings.NewReader(text), "fuzz", func(name string) (io.ReadCloser, error) {
			return io.NopCloser(strings.NewReader(sheetB)), nil
		})
		if err != nil {
			wantFaults(t, err, text)
			return
		}
		if len(b.Weights)+len(b.Torques) == 0 || len(b.Weights) > MaxTables || len(b.Torques) > MaxTables {
			t.Fatalf("%d weights, %d torques", len(b.Weights), len(b.Torques))
		}
		for _, w := range b.Weights {
			wantTrials(t, &w)
		}
		wantBeside(t, b, text)
		for _, sp := range b.Springs {
			if sp.Label == "" || len(sp.Strip) > len(scenario.StripKeys()) || sp.SolidAtTurn < 0 || sp.SolidAtTurn > scenario.MaxTurns {
				t.Fatalf("accepted %+v", sp)
			}
		}
		for _, q := range b.Torques {
			if q.FirstTurn < 0 || q.FirstTurn > scenario.MaxTurns {
				t.Fatalf("accepted %+v", q)
			}
			wantLists(t, q.RunningDown)
			wantLists(t, q.WindingUp)
			if len(q.RunningDown) == 0 || !(q.MeterRelative >= 0 && q.MeterRelative <= 0.5) || !(q.MeterResolutionNM >= 0) || q.Spring == "" || q.Train == "" {
				t.Fatalf("accepted %+v", q)
			}
		}
	})
}

// wantBeside wants a book beside a scenario to be sound, or its faults to say where.
func wantBeside(t *testing.T, b *Book, text string) {
	t.Helper()
	if err := b.Beside(&scenario.Scenario{Trains: []scenario.Train{{Name: "a", Fusee: scenario.Fusee{Turns: 3.5}}}}); err != nil {
		wantFaults(t, err, text)
	}
}

func wantTrials(t *testing.T, w *Weights) {
	t.Helper()
	if len(w.Trials) == 0 || len(w.Trials) > MaxTrials || !(w.PulleyRadiusMM >= 1) || !(w.CordThicknessMM >= 0) {
		t.Fatalf("accepted %+v", w)
	}
	for _, trial := range w.Trials {
		said := 0
		for _, is := range []bool{trial.Runs != nil, trial.BlowIntervalS > 0, trial.TwelveS > 0, trial.Judged != NotJudged} {
			if is {
				said++
			}
		}
		if !(trial.MassG >= 1) || said != 1 || w.Struck() && trial.Runs != nil && *trial.Runs {
			t.Fatalf("accepted %+v", trial)
		}
	}
}

// FuzzReadCSV: likewise.
func FuzzReadCSV(f *testing.F) {
	for _, text := range []string{sheetB, "", "turn;repeat;torque_nm", "turn,repeat,torque_nm\n1,1,\"2", "a\n\n\"b\"\"\"\n", "torque_nm,turn,repeat\n-,1,1\r\n1e3,64,2\r\n",
		"turn,repeat,torque_nm\n0,1,0,5400\n", "\xfe\xff\x00t", "turn,repeat,torque_nm\n0,1,“0.5”\n", "turn,repeat,torque_nm\n0,1,\x00\n"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		lists, err := ReadCSV(strings.NewReader(text), "fuzz")
		if err != nil {
			wantFaults(t, err, text)
			return
		}
		if len(lists) == 0 {
			t.Fatal("accepted without a reading")
		}
		wantLists(t, lists)
	})
}
