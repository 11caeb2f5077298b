package main

import (
	"os"
	"strings"
	"testing"

	"evenpull/scenarios"
)

// A file that bears the name of a sample is never passed over for the sample, nor the
// other way round: whoever names it is asked, and both spellings compute what they say.
func TestFileNamedAsSample(t *testing.T) {
	t.Chdir(t.TempDir())
	clock, _ := scenarios.Text("too-weak")
	book, _ := scenarios.BenchText(scenarios.DefaultBench)
	list, _ := scenarios.StockText(scenarios.DefaultStock)
	writeText(t, "eight-day", clock)
	writeText(t, "mixed-barrels", strings.Replace(book, "title", "title = \"mine\" #", 1))
	writeText(t, "shop-drawer", list)
	if err := os.Mkdir("too-strong", 0o755); err != nil {
		t.Fatal(err)
	}
	const refused = "is a sample, and something of that name stands in this folder: say ./"
	cases := []struct {
		args string
		code int
		says string
	}{
		{"run eight-day", exitUsage, "eight-day " + refused + "eight-day for the file, or sample:eight-day for the sample"},
		{"run too-strong", exitUsage, "too-strong " + refused},
		{"run ./too-strong", exitInput, "too-strong cannot be read"},
		{"run sample:too-strong", exitDone, ""},
		{"record mixed-barrels", exitUsage, "mixed-barrels " + refused},
		{"record --scenario eight-day", exitUsage, "eight-day " + refused},
		{"assign sample:mixed-barrels --scenario sample:three-trains", exitDone, ""},
		{"choose --stock shop-drawer", exitUsage, "shop-drawer " + refused},
		{"choose --stock sample:shop-drawer", exitDone, ""},
		{"report eight-day --out a.html", exitUsage, "eight-day " + refused},
		{"run sample:nothing", exitUsage, `there is no sample scenario "nothing"; there are eight-day, strike`},
		{"run sample:../eight-day", exitUsage, "there is no sample scenario"},
		{"run mixed-barrels", exitInput, "this looks like a bench file"},
	}
	for _, c := range cases {
		wantExit(t, c.args, c.code, c.says)
	}
	_, sample, _ := call(t, "", "run", "sample:eight-day", "--draws", "0")
	_, file, _ := call(t, "", "run", "./eight-day", "--draws", "0")
	_, leftOut, _ := call(t, "", "run", "--draws", "0")
	if !strings.Contains(sample, "SUITS") || !strings.Contains(file, "STOPS") || leftOut != sample {
		t.Errorf("the sample:\n%s\nthe file:\n%s\nleft out:\n%s", sample, file, leftOut)
	}
	if _, out, _ := call(t, "", "record", "./mixed-barrels"); !strings.Contains(out, "mine") {
		t.Errorf("the bench file is not the one in the folder:\n%s", out)
	}
	for _, command := range []string{"record", "choose --draws 0", "report --data kept --draws 0"} { // what is left out is a sample
		if code, _, errs := call(t, "", strings.Fields(command)...); code != exitDone {
			t.Errorf("%s: exit %d, %s", command, code, errs)
		}
	}
	if text, err := fileText("eight-day"); err != nil || text != clock {
		t.Errorf("fileText gives a sample, or %v", err)
	}
	if _, err := fileText("strike-quick"); err == nil {
		t.Error("fileText gives a sample where there is no file")
	}
}
