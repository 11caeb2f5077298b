package main

import (
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// withPandas is a Python of the system that has pandas.
func withPandas(t *testing.T) string {
	t.Helper()
	for _, name := range []string{"python3", "/usr/bin/python3"} {
		if python, err := exec.LookPath(name); err == nil && exec.Command(python, "-c", "import pandas").Run() == nil {
			return python
		}
	}
	t.Skip("there is no Python with pandas: Debian has it as python3-pandas")
	return ""
}

// Other programs read what was kept by the standard alone: pandas, and a reader that goes by
// dialect and schema, come to the same cells, with their units.
func TestPackagesAreRead(t *testing.T) {
	python := withPandas(t)
	script, err := filepath.Abs("testdata/read_package.py")
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	writeText(t, "table.csv", "drawer,going.mainspring.thickness_mm,going.barrel.set_up_turns,note\n7,0.38,,\"a # b, c\"\n8,3,1,\n")
	folders := []string{script}
	for folder, line := range map[string]string{
		"swept": "sweep --steps 9", "mapped": "sweep --against going.mainspring.width_mm --to2 33 --steps 4 --steps2 4", "ranked": "rank --of reserve.min --of runtime_h --shares=false", "spread": "spread --runs 200 --shares=false",
		"tried": "batch table.csv --sure --draws 20", "fitted": "record --scenario three-trains --spring C --fit going.mainspring.thickness_mm --draws 20", "run": "run three-trains --draws 20", "whole": "report three-trains --bench mixed-barrels --draws 20",
		"cut": "cut --draws 20", "chosen": "choose --draws 20", "set": "setup --draws 20", "beaten": "beat", "planned": "plan", "wound": "coils --turns 2 --nodes 24 --friction 0", "assigned": "assign --draws 20",
	} {
		if code, _, errs := call(t, "", append(strings.Fields(line), "--data", folder)...); code != exitDone {
			t.Fatalf("%s: %s", line, errs)
		}
		folders = append(folders, folder)
	}
	out, err := exec.Command(python, folders...).CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	for _, want := range []string{"sweep.csv 9 rows", "batch.csv 2 rows 13 columns N·m; mm; turns\n", "rows-1.csv", "bench-record.csv", "cut.csv", "plan.csv"} {
		if !strings.Contains(string(out), want) {
			t.Errorf("no %q in %s", want, out)
		}
	}
	edit(t, "swept/sweep.csv", "0.2", "0.3")
	if out, err := exec.Command(python, script, "swept").CombinedOutput(); err == nil || !strings.Contains(string(out), "sweep.csv") {
		t.Errorf("a digit: %s", out)
	}
}
