package main

import (
	"os"
	"strings"
	"testing"

	"evenpull/scenarios"
)

func writeText(t *testing.T, name, text string) {
	t.Helper()
	if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

const csvBench = `title = "From a meter (invented)"
[[torque]]
train = "going"
spring = "A"
file = "readings.csv"
first_turn = 0
meter_relative = 0.01
`

func TestRecordExitStatus(t *testing.T) {
	t.Chdir(t.TempDir())
	writeText(t, "bad.toml", "[[weights]]\ntrain = \"going\"\npulley_radius_mm = -3\ntrials = []\n")
	writeText(t, "meter.toml", csvBench)
	writeText(t, "readings.csv", "turn,repeat,torque_nm\n0,1,0.43\n1,1,0.44\n0,2,0.42\n1,2,0.43\n")
	writeText(t, "comma.toml", strings.Replace(csvBench, "readings.csv", "comma.csv", 1))
	writeText(t, "comma.csv", "turn;repeat;torque_nm\n0;1;0,43\n")
	writeText(t, "lost.toml", strings.Replace(csvBench, "readings.csv", "nowhere.csv", 1))
	fit := "--scenario three-trains --fit "
	cases := []struct {
		args string
		code int
		says string
	}{
		{"record", exitDone, ""}, {"record mixed-barrels", exitDone, ""}, {"assign", exitDone, ""},
		{"record mixed-barels", exitInput, "did you mean mixed-barrels?"},
		{"record nowhere.toml", exitInput, "nowhere.toml cannot be read"},
		{"record bad.toml", exitInput, "bad.toml:3: weights.1.pulley_radius_mm: found -3"},
		{"record meter.toml", exitDone, ""}, {"assign meter.toml", exitInput, "no need is known"},
		{"assign meter.toml --scenario eight-day", exitDone, ""},
		{"record comma.toml", exitInput, "want commas between columns and a decimal point"},
		{"record lost.toml", exitInput, "nowhere.csv"},
		{"record --scenario nothing", exitInput, "the samples are: eight-day"},
		{"record --scenario three-trains --set going.mainspring.thickness_mm=0.39", exitDone, ""},
		{"record --set going.mainspring.thickness_mm=0.39", exitUsage, "goes with --scenario"},
		{"record - --scenario -", exitUsage, "not both"},
		{"record --fit going.mainspring.thickness_mm", exitUsage, "--fit goes with --scenario"},
		{"record --save x.toml", exitUsage, "go with --fit"},
		{"record --spring C " + fit + "going.mainspring.thicknes_mm", exitUsage, "did you mean going.mainspring.thickness_mm?"},
		{"record --spring C " + fit + "striking.mainspring.thickness_mm", exitUsage, "want one spring to fit"},
		{"record --spring C " + fit + "going.mesh.centre.wheel", exitUsage, "--fit going.mesh.centre.wheel: found"},
		{"record " + fit + "going.mainspring.thickness_mm", exitUsage, "there are: A in the going train, B in the going train, C in the going train"},
		{"record --spring C " + fit + "a,b,c,d,e", exitUsage, "want one to 4 inputs"},
		{"record --spring C " + fit + "going.line.efficiency --save x.toml --set place.gravity_m_s2=9.8", exitUsage, "neither with --set"},
		{"record --format yaml", exitUsage, "want text, json or csv"},
		{"record --plot x.gif", exitUsage, ".svg, .png or .pdf"},
		{"record --format csv", exitDone, ""}, {"assign --format csv", exitDone, ""},
	}
	for _, c := range cases {
		wantExit(t, c.args, c.code, c.says)
	}
	text, _ := scenarios.BenchText(scenarios.DefaultBench)
	_, sample, _ := call(t, "", "record")
	if _, piped, _ := call(t, text, "record", "-"); piped != sample {
		t.Error("standard input and sample differ")
	}
}

// A saved scenario has the fitted values, and runs; one that exists stays.
func TestSaveFitted(t *testing.T) {
	t.Chdir(t.TempDir())
	args := strings.Fields("record --scenario three-trains --spring C --fit going.mainspring.thickness_mm,going.mainspring.modulus_gpa --save fitted.toml")
	code, _, errs := call(t, "", args...)
	if code != exitDone || !strings.Contains(errs, "fitted values written to fitted.toml") {
		t.Fatalf("exit %d: %s", code, errs)
	}
	text, err := os.ReadFile("fitted.toml")
	if err != nil || strings.Count(string(text), "fitted to the readings of spring C in mixed-barrels; before ") != 2 {
		t.Errorf("%v: %s", err, text)
	}
	if code, _, errs := call(t, "", "run", "fitted.toml"); code != exitDone {
		t.Errorf("exit %d: %s", code, errs)
	}
	if code, _, errs := call(t, "", args...); code != exitInput || !strings.Contains(errs, "exists already") {
		t.Errorf("exit %d: %s", code, errs)
	}
}
