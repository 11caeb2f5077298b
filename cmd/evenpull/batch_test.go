package main

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"

	"evenpull/scenarios"
)

// springsTable is a table of so many strips.
func springsTable(n int) string {
	var b strings.Builder
	b.WriteString("id,going.mainspring.thickness_mm,going.barrel.set_up_turns,note\n")
	for i := range n {
		fmt.Fprintf(&b, "%d,%.4f,%.3f,\"drawer %d, left\"\n", i, 0.34+float64(i)*1e-4, 1+float64(i%4)/8, i)
	}
	return b.String()
}

// A table comes out row for row: whole, in parts, on one core or many, interrupted anywhere
// and gone on with, the bytes are the same.
func TestBatch(t *testing.T) {
	t.Chdir(t.TempDir())
	writeText(t, "table.csv", springsTable(900))
	call := func(args string) string {
		t.Helper()
		code, out, errs := call(t, "", strings.Fields(args)...)
		if code != exitDone {
			t.Fatalf("%s: exit %d %s", args, code, errs)
		}
		return out
	}
	whole := call("batch table.csv --of reserve.min --of runtime_h")
	if parts := call("batch table.csv --of reserve.min --of runtime_h --rows :300") + call("batch table.csv --of reserve.min --of runtime_h --rows 301:301") + call("batch table.csv --of reserve.min --of runtime_h --rows 302:"); parts != whole {
		t.Error("parts are not the whole")
	}
	c := csv.NewReader(strings.NewReader(whole))
	c.Comment = '#'
	rows, err := c.ReadAll()
	if err != nil || len(rows) != 901 || strings.Join(rows[0], " ") != "id going.mainspring.thickness_mm going.barrel.set_up_turns note train verdict faults fault reserve.min runtime_h" || rows[900][3] != "drawer 899, left" {
		t.Fatalf("%d rows %v %v", len(rows), rows[0], err)
	}
	for _, format := range []string{"csv", "json"} {
		args := "batch table.csv --of reserve.min --out out --format " + format
		call(args + " --force")
		text := fileOf(t, "out")
		for _, left := range []int{0, 5, 200, len(text) / 2, len(text) - 3, len(text)} {
			writeText(t, "out", text[:left])
			call(args + " --resume")
			if fileOf(t, "out") != text {
				t.Errorf("%s, gone on with after %d bytes, is another", format, left)
			}
		}
	}
	for i, line := range strings.Split(strings.TrimSpace(fileOf(t, "out")), "\n") {
		var row map[string]any
		if err := json.Unmarshal([]byte(line), &row); err != nil {
			t.Fatalf("line %d: %v", i+1, err)
		}
		if i == 0 && row["evenpull"].(map[string]any)["command"] != "batch" || i > 0 && row["id"] != fmt.Sprint(i-1) {
			t.Errorf("line %d: %s", i+1, line)
		}
	}
	code, _, errs := withInput(t, springsTable(3), "batch - --of reserve.min")
	if code != exitDone || errs != "of 3 rows run it stops in 3\nleast reserve: 0.887 to 0.956\n" {
		t.Error(errs)
	}
	if design := call("batch --design grid --runs 32"); strings.Count(design, "\ngoing.") != 1 || strings.Count(design, ",going,") != 32 { // two levels of five tolerances
		t.Errorf("%.400s", design)
	}
}

// withInput calls the program with a text on standard input.
func withInput(t *testing.T, in, args string) (int, string, string) {
	t.Helper()
	return call(t, in, strings.Fields(args)...)
}

func TestBatchExitStatus(t *testing.T) {
	t.Chdir(t.TempDir())
	writeText(t, "table.csv", springsTable(3))
	writeText(t, "odd.csv", "id,going.mainspring.thickness_mm\n1,0.4,5\n")
	writeText(t, "key.csv", "going.mainspring.thicknes_mm\n0.4\n")
	writeText(t, "empty.csv", "")
	writeText(t, "case.csv", "Going.mainspring.thickness_mm\n0.4\n")
	writeText(t, "other.csv", "striking.mainspring.thickness_mm\n0.4\n")
	writeText(t, "both.csv", "going.mainspring.thickness_mm,going.mainspring.thickness_in\n0.4,0.015\n")
	writeText(t, "semi.csv", "a;b\n1;2\n")
	clock, _ := scenarios.Text("too-weak")
	book, _ := scenarios.BenchText(scenarios.DefaultBench)
	writeText(t, "clock.toml", clock)
	writeText(t, "book.toml", book)
	writeText(t, "there.csv", "mine")
	for _, c := range []struct {
		args string
		code int
		says string
	}{
		{"batch", exitUsage, "want a table"},
		{"batch none.csv", exitInput, "none.csv"},
		{"batch odd.csv", exitInput, "odd.csv:2"},
		{"batch key.csv", exitInput, "thickness_mm"},
		{"batch empty.csv", exitInput, "no header"},
		{"batch case.csv", exitInput, "column \"Going.mainspring.thickness_mm\" looks like a KEY and is none of this scenario's"},
		{"batch other.csv", exitInput, "column \"striking.mainspring.thickness_mm\" looks like a KEY"},
		{"batch both.csv", exitInput, "columns \"going.mainspring.thickness_mm\" and \"going.mainspring.thickness_in\" set the same"},
		{"batch semi.csv", exitInput, "semi.csv: found semicolons"},
		{"batch table.csv --data=", exitUsage, "--data \"\": want the name of what is to be written"},
		{"batch clock.toml", exitInput, "this looks like a scenario, which run reads; want a table: comma-separated values below a line of KEYs"},
		{"batch book.toml eight-day", exitInput, "this looks like a bench file, which record and assign read; want a table"},
		{"batch eight-day", exitInput, "eight-day is a sample scenario; want a table"},
		{"batch sample:shop-drawer", exitInput, "is a sample stock list; want a table"},
		{"batch table.csv --rows 3:1", exitUsage, "want FROM:TO"},
		{"batch table.csv --rows x:1", exitUsage, "want FROM:TO"},
		{"batch table.csv --format text", exitUsage, "want csv or json"},
		{"batch table.csv --resume", exitUsage, "--resume goes with --out"},
		{"batch table.csv --resume --force --out a.csv", exitUsage, "want one of them"},
		{"batch table.csv --out there.csv", exitInput, "exists"},
		{"batch table.csv --out there.csv --resume", exitInput, "does not begin as these rows do"},
		{"batch table.csv --out table.csv --force", exitUsage, "would take the place"},
		{"batch --design star", exitUsage, "want grid, latin or sobol"},
		{"batch --design grid --runs 3", exitUsage, "3 runs are too few for two levels of each of 5 tolerances, which take 32"},
		{"batch --design latin strike-quick eight-day", exitUsage, "want the scenario alone"},
		{"batch table.csv --of none", exitUsage, "--of"},
	} {
		code, out, errs := call(t, "", strings.Fields(c.args)...)
		if code != c.code || !strings.Contains(errs, c.says) || out != "" {
			t.Errorf("%s: %d %q %s", c.args, code, out, errs)
		}
	}
	if text, err := os.ReadFile("there.csv"); err != nil || string(text) != "mine" {
		t.Errorf("%s %v", text, err)
	}
}
