package main

import (
	"encoding/json"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim/study/sure"
)

// protocolFigures are the figures that the protocol prints, by the lines before them.
func protocolFigures(t *testing.T) map[string]string {
	t.Helper()
	text, ok := scenarios.PageText("protocol")
	if !ok {
		t.Fatal("no protocol")
	}
	rows := map[string]string{}
	of := ""
	for line := range strings.Lines(text) {
		cells := strings.Split(strings.Trim(strings.TrimSpace(line), "|"), "|")
		if len(cells) != 2 {
			continue
		}
		what, figure := strings.TrimSpace(cells[0]), strings.TrimSpace(cells[1])
		if figure == "sure to" || figure == "within" {
			of, _, _ = strings.Cut(what, " ")
			continue
		}
		if regexp.MustCompile(`^[0-9.]+( %)?$`).MatchString(figure) {
			rows[of+": "+what] = figure
		}
	}
	return rows
}

// off is a tolerance of a quantity, in its unit or (percent) as a share.
func off(key, how string, by float64) string {
	return fmt.Sprintf("\n[[tolerance]]\nkey = %q\n%s = %g\n", key, how, by)
}

// TestProtocolSureness measures again what the protocol says of how sure a verdict is. What it
// takes as counted or timed is what a run of the sample itself tells, so that only the
// knowledge of it changes.
func TestProtocolSureness(t *testing.T) {
	printed := protocolFigures(t)
	eight, _ := scenarios.Text("eight-day")
	eight, _, _ = strings.Cut(eight, "# How well each value is known")
	three, _ := scenarios.Text("three-trains")
	spring := jsonOf(t, eight, "run", "-", "--draws", "0")["trains"].([]any)[0].(map[string]any)["spring"].(map[string]any)
	coils, solid := fmt.Sprintf("\nfree_coils = %.2f #", spring["free_coils"]), fmt.Sprintf("\nsolid_turns = %.2f", spring["turns_available"])
	const steel = "\nyield_mpa "
	// Of the striking train alone.
	_, rest, _ := strings.Cut(three, "# The hour striking train.")
	hours, _, _ := strings.Cut(rest, "# The quarter train")
	hours = "title = \"hours\"\n" + hours
	timed := ""
	for _, r := range jsonOf(t, hours, "run", "-", "--draws", "0", "--step", "1")["trains"].([]any)[0].(map[string]any)["turns"].([]any) {
		if row := r.(map[string]any); row["fusee_turn"] == 8.0 {
			timed = fmt.Sprintf("timed = { torque_nm = %g, blow_interval_s = %g }\nlift_share ", row["fusee_torque_nm"], row["blow_interval_s"])
		}
	}
	const thickness, need = "going.mainspring.thickness_mm", "going.demand.least_torque_nm"
	for what, text := range map[string]string{
		"going: all as usually read, its steel known":            eight,
		"going: thickness off a label, ± 0.05 mm":                eight + off(thickness, "plus_minus", 0.05),
		"going: thickness by calliper, ± 0.02 mm":                eight + off(thickness, "plus_minus", 0.02),
		"going: thickness at ten places, ± 0.005 mm":             eight + off(thickness, "plus_minus", 0.005),
		"going: steel not known, free coils not counted":         replaced(t, eight, steel, "\n# "),
		"going: free coils counted":                              replaced(t, eight, steel, coils),
		"going: turns to solid counted":                          replaced(t, eight, steel, solid+steel),
		"going: set-up guessed to half a turn":                   eight + off("going.barrel.set_up_turns", "plus_minus", 0.5),
		"going: no weights: the need predicted":                  replaced(t, eight, "\nleast_torque_nm", "\n# "),
		"going: need by weights in steps, ± 10 %":                eight + off(need, "percent", 10),
		"going: need by weights up and down, ± 2 %":              eight + off(need, "percent", 2),
		"going: ten places, coils and turns counted, need ± 2 %": replaced(t, eight, steel, solid+coils) + off(thickness, "plus_minus", 0.005) + off(need, "percent", 2),
		"striking: all as usually read, the fly not timed":       hours,
		"striking: one strike timed, 0.2 s over twelve blows":    replaced(t, hours, "lift_share ", timed),
		"striking: thickness off a label, ± 0.05 mm":             hours + off("striking.mainspring.thickness_mm", "plus_minus", 0.05),
		"striking: steel not known, free coils not counted":      replaced(t, hours, steel, "\n# "),
	} {
		sc, err := parse(what, text)
		if err != nil {
			t.Fatal(err)
		}
		verdict, err := sure.Of(t.Context(), sc, 0, sure.Options{Draws: sure.Draws, Seed: firstSeed, Brief: true}) // as run draws
		if err != nil {
			t.Fatal(err)
		}
		within(t, printed, what, 100*verdict.Same)
	}
	book, _ := scenarios.BenchText("mixed-barrels")
	within(t, printed, "run-downs: two", relative(t, book, 2, 1))
	within(t, printed, "run-downs: three", relative(t, book, 3, 1))
	within(t, printed, "run-downs: two, and as many of two other springs with the same meter", relative(t, book, 2, 3))
	if len(printed) > 0 {
		t.Errorf("printed and not measured: %v", printed)
	}
}

// within compares a figure with the one that is printed, within its rounding, and takes that
// off the list.
func within(t *testing.T, printed map[string]string, what string, is float64) {
	t.Helper()
	number := strings.TrimSuffix(printed[what], " %")
	_, decimals, _ := strings.Cut(number, ".")
	says, err := strconv.ParseFloat(number, 64)
	if err != nil || !(math.Abs(says-is) <= 0.5000001*math.Pow10(-len(decimals))) {
		t.Errorf("%s: the protocol says %q, and it is %.4g", what, printed[what], is)
	}
	delete(printed, what)
}

// relative is the 95 % interval of the mean of the first spring of a bench file in percent of
// it, with so many run-downs of each of so many springs, read while running down.
func relative(t *testing.T, book string, runs, springs int) float64 {
	t.Helper()
	text := "title = \"cut\"\n"
	tables := strings.Split(book, "[[torque]]")[1:]
	for _, table := range tables[:springs] {
		down, _, _ := strings.Cut(table, "winding_up")
		head, lists, _ := strings.Cut(down, "[\n")
		text += "[[torque]]" + head + "[\n" + strings.Join(strings.SplitAfter(lists, "],\n")[:runs], "") + "]\nmeter_relative = 0.01\nmeter_resolution_nm = 0.005\n"
	}
	supply := jsonOf(t, text, "record", "-")["supplies"].([]any)[0].(map[string]any)
	return 100 * supply["half_width_95_nm"].(float64) / supply["fusee_torque_nm"].(map[string]any)["mean"].(float64)
}

// replaced is a text with a part of it replaced, which has to be in it.
func replaced(t *testing.T, text, part, by string) string {
	t.Helper()
	if !strings.Contains(text, part) {
		t.Fatalf("there is no %q", part)
	}
	return strings.Replace(text, part, by, 1)
}

// jsonOf is the JSON of a command that reads a text.
func jsonOf(t *testing.T, text string, args ...string) (doc map[string]any) {
	t.Helper()
	code, out, errs := call(t, text, append(args, "--format", "json")...)
	if code != exitDone {
		t.Fatalf("%s: exit %d, %s", args, code, errs)
	}
	if err := json.Unmarshal([]byte(out), &doc); err != nil {
		t.Fatal(err)
	}
	return doc
}

// The protocol is listed and printed, fits a terminal and a sheet, has the cautions before
// anything else, and is refused where a scenario is wanted.
func TestProtocol(t *testing.T) {
	_, list, _ := call(t, "", "samples")
	if !strings.Contains(list, "\nprotocol ") {
		t.Error(list)
	}
	_, text, _ := call(t, "", "samples", "protocol")
	for line := range strings.Lines(text) {
		if n := len([]rune(strings.TrimRight(line, "\n"))); n > 80 {
			t.Errorf("%d characters: %s", n, line)
		}
	}
	handling, rest, _ := strings.Cut(text, "## What to measure")
	for _, say := range []string{"let-down key", "winder", "eye protection", "Never stand in line", "Local codes", "licensed"} {
		if !strings.Contains(handling, say) {
			t.Errorf("the handling lacks %q", say)
		}
	}
	for _, table := range strings.Split(rest, "\n### ")[1:] {
		if n := strings.Count(table, "\n"); n > 60 {
			t.Errorf("%d lines are more than a page: %.40s", n, table)
		}
	}
	t.Chdir(t.TempDir())
	wantExit(t, "run protocol", exitInput, "protocol is a sample page to print; want a scenario")
	wantExit(t, "record protocol", exitInput, "protocol is a sample page to print; want a bench file")
	wantExit(t, "init --from protocol x.toml", exitUsage, "this is a page to print")
	wantExit(t, "init protocol", exitUsage, "this is the name of a sample")
}
