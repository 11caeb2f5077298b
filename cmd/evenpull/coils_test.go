package main

import (
	"bytes"
	"encoding/json"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"evenpull/scenarios"
	"evenpull/sim/scenario"
)

// littleOfIt has windings and points so few that a test does not wait.
const littleOfIt = " --turns 2,2.5 --nodes 24"

// steady is a text whose numbers have no digits that a solver does not bear, and whose
// residuals, which are rounding, are 0.
func steady(said string) string {
	return regexp.MustCompile(`-?[0-9]+\.[0-9]{4,}(e-[0-9]+)?|[0-9]+e-[0-9]+`).ReplaceAllStringFunc(said, func(n string) string {
		v, err := strconv.ParseFloat(n, 64)
		if err != nil {
			return n
		}
		return strconv.FormatFloat(math.Round(v*1e4)/1e4, 'f', -1, 64)
	})
}

func TestGoldenCoils(t *testing.T) {
	for name, args := range map[string]string{
		"coils.txt": "coils" + littleOfIt, "coils-braced.txt": "coils --end braced" + littleOfIt, "coils-bare.txt": "coils --friction 0" + littleOfIt,
		"coils.csv": "coils --format csv" + littleOfIt, "coils.json": "coils --format json" + littleOfIt,
	} {
		code, out, errs := call(t, "", strings.Fields(args)...)
		if code != exitDone || strings.Contains(errs, "evenpull:") || strings.HasSuffix(name, ".txt") && errs != "" || strings.HasSuffix(name, ".csv") != strings.Contains(errs, "Caution: Wound") {
			t.Errorf("%s: exit %d, %s", args, code, errs)
		}
		if strings.HasSuffix(name, ".json") { // how the coils lie takes thousands of lines
			out = regexp.MustCompile(`(?s)"shape": \{.*?\}`).ReplaceAllString(out, `"shape": {}`)
		}
		if !strings.HasSuffix(name, ".txt") {
			out = steady(out)
		}
		golden(t, name, out)
	}
}

func TestCoilsExitStatus(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, c := range []struct {
		args string
		code int
		says string
	}{
		{"--nodes 15", exitUsage, "--nodes 15: want 24 to 192 to a turn"},
		{"--turns 3,2", exitUsage, "--turns: found \"3,2\"; want turns that rise, such as 0.5,1,2\n"},
		{"--nodes 193", exitUsage, "--nodes 193: want 24 to 192"},
		{"--nodes 24.5", exitUsage, `--nodes: found "24.5"; want a whole number`},
		{"--friction -0.1", exitUsage, "--friction -0.1: want a coefficient from 0 to 0.5"},
		{"--friction 0.51", exitUsage, "--friction 0.51: want"},
		{"--friction NaN", exitUsage, "--friction NaN: want"},
		{"--friction x", exitUsage, `--friction: found "x"; want a number`},
		{"--end loose", exitUsage, `--end "loose": want hooked or braced`},
		{"--end=", exitUsage, `--end "": want hooked or braced`},
		{"--turns 2,1", exitUsage, `--turns: found "2,1"; want turns that rise, such as 0.5,1,2`},
		{"--turns 2,2", exitUsage, "want turns that rise"},
		{"--turns 2,,3", exitUsage, "want turns that rise"},
		{"--turns NaN", exitUsage, "want turns that rise"},
		{"--turns=", exitUsage, "want turns that rise"},
		{"--turns 0 --nodes 24", exitUsage, "--turns: windings that cannot be: 0 turns; want 0.18 to 8.43, from where the strip rests to where it is solid"},
		{"--turns 2,30 --nodes 24", exitUsage, "--turns: windings that cannot be: 30 turns; want"},
		{"--train nothing", exitUsage, "the scenario has: going"},
		{"--format xml", exitUsage, "want text, json or csv"},
		{"nothing.toml", exitInput, "nothing.toml"},
		{"--set going.mainspring.friction_coefficient=0.6", exitInput, "going.mainspring.friction_coefficient: found 0.6; want 0 to 0.5 here, or another by --friction"},
		{"--set going.mainspring.length_mm=150", exitInput, "it must turn three times at least"},
		{"--set going.mainspring.friction_coefficient=0.6 --friction 0 --turns 2 --nodes 24", exitDone, ""},
	} {
		wantExit(t, "coils "+c.args, c.code, c.says)
	}
}

// What the flags leave out the scenario has and, where that has nothing, what is usual.
func TestCoilsOptions(t *testing.T) {
	for _, c := range []struct {
		set, flags string
		friction   float64
		end        string
	}{
		{"", "", 0.1, scenario.Hooked},
		{"going.mainspring.friction_coefficient=0.02", "", 0.02, scenario.Hooked},
		{"going.mainspring.friction_coefficient=0.02 --set going.mainspring.outer_end=braced", "", 0.02, scenario.Braced},
		{"going.mainspring.friction_coefficient=0.02 --set going.mainspring.outer_end=braced", " --end hooked --friction 0.03", 0.03, scenario.Hooked},
	} {
		args := "coils --format json --turns 2 --nodes 24" + c.flags
		if c.set != "" {
			args += " --set " + c.set
		}
		_, out, errs := call(t, "", strings.Fields(args)...)
		var doc struct {
			Friction float64 `json:"friction_coefficient"`
			End      string  `json:"outer_end"`
		}
		if err := json.Unmarshal([]byte(out), &doc); err != nil || doc.Friction != c.friction || doc.End != c.end {
			t.Errorf("%s: %v %s, %v %+v", args, err, errs, c, doc)
		}
	}
}

// Every train of every sample has a strip that is solved, in a document that holds its schema.
func TestCoilsOfEverySample(t *testing.T) {
	seen := map[scenario.Mainspring]bool{}
	for _, name := range scenarios.Names() {
		sc, err := scenarios.Load(name)
		if err != nil {
			t.Fatal(err)
		}
		for i := range sc.Trains {
			spring := sc.Trains[i].Mainspring
			if seen[spring] {
				continue
			}
			seen[spring] = true
			line := "coils " + name + " --train " + sc.Trains[i].Name + " --turns 2 --nodes 24 --friction 0"
			code, out, errs := call(t, "", append(strings.Fields(line), "--format", "json")...)
			if code != exitDone {
				t.Fatalf("%s: %s", line, errs)
			}
			holdsSchema(t, line, "coils", out)
		}
	}
}

// At a terminal time is reckoned from the first shape on, since nobody knows before how many
// there will be.
func TestProgressOfCoils(t *testing.T) {
	var b bytes.Buffer
	clock := time.Unix(0, 0)
	m := meter{w: &b, what: "shapes", now: func() time.Time { return clock }}
	clock = clock.Add(5 * time.Second) // of seeking
	m.found(1, 41)
	clock = clock.Add(time.Second)
	m.found(11, 41)
	if b.String() != "\r11 of 41 shapes (26 %), 3s left" {
		t.Errorf("%q", b.String())
	}
	if told, finished := seeking(streams{err: &b}); told != nil {
		t.Error("told where there is no terminal")
	} else {
		finished()
	}
}
