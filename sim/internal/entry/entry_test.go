package entry

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"evenpull/sim/scenario"
)

// table reads a text that is sound TOML.
func table(t *testing.T, text string) *Table {
	t.Helper()
	top, err := Read(strings.NewReader(text), "t.toml", "a list")
	if err != nil {
		t.Fatal(err)
	}
	return top
}

// wantFaults wants these faults, a line each.
func wantFaults(t *testing.T, top *Table, want ...string) {
	t.Helper()
	if got := top.Faults(); got.Error() != strings.Join(want, "\n") || top.Sound() != (len(want) == 0) {
		t.Errorf("got %v\nwant %s", got, strings.Join(want, "\n"))
	}
}

func TestNumber(t *testing.T) {
	top := table(t, "a = 1\nb = 2.5\nc = 10\nd = 0.9\ne = 10.1\nf = nan\ng = '3'\nh = '3,5'\ni = true\nj = 'x'\n")
	w := Range(1, 10, "mm")
	for key, want := range map[string]float64{"a": 1, "b": 2.5, "c": 10, "none": 7} {
		if got := top.Number(key, w, 7); got != want {
			t.Errorf("%s = %v, want %v", key, got, want)
		}
	}
	wantFaults(t, top)
	for _, key := range []string{"d", "e", "f", "g", "h", "i", "j", "none"} {
		if got := top.Number(key, w, math.NaN()); !math.IsNaN(got) {
			t.Errorf("%s = %v", key, got)
		}
	}
	const want = "want a number from 1 to 10 mm"
	wantFaults(t, top, "t.toml:1: none: missing; "+want, "t.toml:4: d: found 0.9; "+want, "t.toml:5: e: found 10.1; "+want, "t.toml:6: f: found nan; "+want,
		`t.toml:7: g: found the string "3"; `+want+" without quotes", `t.toml:8: h: found the string "3,5"; `+want+" without quotes and with a decimal point: 3.5",
		"t.toml:9: i: found true; "+want, `t.toml:10: j: found the string "x"; `+want)
}

// TestInput: the range of an input of scenarios, and its words where one is missing.
func TestInput(t *testing.T) {
	w := Input("mainspring.width_mm")
	if w != (Within{0.5, 500, "mm", "width of the mainspring"}) {
		t.Errorf("%+v", w)
	}
	top := table(t, "")
	top.Number("width_mm", w, math.NaN())
	wantFaults(t, top, "t.toml:1: width_mm: missing; want the width of the mainspring, a number from 0.5 to 500 mm")
	if s := Range(0, 0.5, "").String(); s != "a number from 0 to 0.5" {
		t.Error(s)
	}
	defer func() {
		if recover() == nil {
			t.Error("an input that there is not was found")
		}
	}()
	Input("mainspring.colour")
}

func TestTextAndTruth(t *testing.T) {
	top := table(t, "a = 'abcde'\nb = true\nc = ' '\nd = 'abcdef'\ne = \"a\\u001b\"\nf = 3\ng = 'true'\nh = false\n")
	if top.Text("a", 5, true) != "abcde" || top.Text("none", 5, false) != "" || !top.Truth("b", false) || top.Truth("h", true) || !top.Truth("none", true) || top.Truth("none", false) {
		t.Error("what is sound is not read")
	}
	wantFaults(t, top)
	for _, key := range []string{"none", "c", "d", "e", "f"} {
		if got := top.Text(key, 5, true); got != "" {
			t.Errorf("%s = %q", key, got)
		}
	}
	if top.Truth("g", true) {
		t.Error("a text is true")
	}
	const want = "want a text of 1 to 5 characters"
	wantFaults(t, top, "t.toml:1: none: missing; "+want, `t.toml:3: c: found the string " "; `+want, "t.toml:4: d: found 6 characters; "+want,
		`t.toml:5: e: found the control character '\x1b'; want plain text`, "t.toml:6: f: found 3; "+want, `t.toml:7: g: found the string "true"; want true or false`)
}

func TestTables(t *testing.T) {
	top := table(t, "title = 'x'\nnumber = 3\nlist = [ { a = 1 }, { b = 2 } ]\nmixed = [ { a = 1 }, 2 ]\n[single]\na = 1\n[[item]]\na = 1\n[[item]]\ncolour = 'red'\n[[item.part]]\nx = 1\n")
	items := top.Tables("item", "tables [[item]]", "items", 2)
	if len(items) != 2 || items[1].Line("") != 9 || items[1].Line("colour") != 10 || items[0].Line("none") != 7 {
		t.Fatalf("%+v", items)
	}
	if got := top.Tables("none", "tables [[none]]", "items", 2); got != nil {
		t.Error(got)
	}
	if got := top.Tables("list", "tables [[list]]", "items", 2); len(got) != 2 || fmt.Sprint(got[1].Tree) != "map[b:2]" {
		t.Error(got)
	}
	wantFaults(t, top)
	parts := items[1].Tables("part", "tables [[item.part]]", "parts", 1)
	parts[0].Known("a", "b")
	items[1].Known("a", "part", "color")
	for _, key := range []string{"number", "mixed", "single"} {
		if got := top.Tables(key, "tables in double brackets", "items", 2); got != nil {
			t.Errorf("%s: %v", key, got)
		}
	}
	if got := top.Tables("item", "tables [[item]]", "items", 1); got != nil {
		t.Error("more than the most are read")
	}
	wantFaults(t, top, "t.toml:2: number: found 3; want tables in double brackets", "t.toml:4: mixed: found an array; want tables in double brackets",
		"t.toml:5: single: found a table; want tables in double brackets", "t.toml:7: item: found 2 items; want at most 1",
		"t.toml:10: item.2.colour: unknown key; did you mean color?", "t.toml:12: item.2.part.1.x: unknown key; the keys here are a, b")
}

// TestReport: a fault may be at the table itself, and its spot spelt otherwise.
func TestReport(t *testing.T) {
	top := table(t, "x = [ [1], [2,\n3] ]\n")
	top.ReportAt("x.1.1", "x.2.1", "found 3", "want 4")
	top.Report("", "found nothing", "want something")
	wantFaults(t, top, "t.toml:1: found nothing; want something", "t.toml:2: x.2.1: found 3; want 4")
}

func TestReadRefused(t *testing.T) {
	for text, want := range map[string]string{
		"x = ":                       "t.toml:1: not valid TOML: ",
		"x = 0,5":                    "t.toml:1: not valid TOML: ",
		strings.Repeat("#", 1<<20+1): "t.toml: found more than 1048576 bytes; want a list of at most 1048576 bytes",
	} {
		_, err := Read(strings.NewReader(text), "t.toml", "a list")
		var faults scenario.Faults
		if !errors.As(err, &faults) || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%.10q: %v", text, err)
		}
	}
}

// What stands in another unit is read in that of its key; its faults are told as the file
// has it.
func TestOtherUnits(t *testing.T) {
	top := table(t, "a_in = 2\nb_kg = 2\nc_mm = 1\nc_in = 1\nd_in = 'x'\n")
	top.Known("a_mm", "b_g", "c_mm", "d_mm")
	w := Range(1, 100, "mm")
	if got := top.Number("a_mm", w, math.NaN()); got != 50.8 {
		t.Error(got)
	}
	top.Number("b_g", Range(1, 1000, "g"), math.NaN())
	top.Number("d_mm", w, math.NaN())
	wantFaults(t, top, "t.toml:2: b_kg: found 2000.0 (b_g); want a number from 1 to 1000 g",
		"t.toml:4: c_in: found c_in beside c_mm, which it is in another unit; want one of them", `t.toml:5: d_in: found the string "x"; want a number from 1 to 100 mm`)
}
