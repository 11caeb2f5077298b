package main

import (
	"encoding/csv"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/spf13/cobra"
)

// Every command that computes keeps what it comes to, which comes out again in an empty
// folder, from there alone; a digit that was changed is told.
func TestSupplements(t *testing.T) {
	dir, _ := shop(t)
	writeText(t, filepath.Join(dir, "table.csv"), "drawer,going.mainspring.thickness_mm,scenario\n7,0.38,\n8,0.40,"+filepath.Join(dir, "three.toml")+"\n9,3,\n10,0.4,nowhere.toml\n")
	seen := map[string]bool{}
	for _, line := range []string{
		"run @clock.toml --set going.mainspring.thickness_in=0.0150",
		"run @three.toml --bench @barrels.toml --spring going=C --draws 50 --format csv",
		"sweep - --hold fill --over going.mainspring.thickness_mm --steps 5",
		"sweep --against going.mainspring.width_mm --to2 33 --of fusee_torque_nm.unevenness --steps 5 --steps2 4 --width 84mm --grey",
		"rank @clock.toml --of reserve.min --of runtime_h --seed 9",
		"spread @clock.toml --runs 300 --seed 7 --shares=false",
		"setup @three.toml --train going --draws 50",
		"plan @clock.toml --repeats 3",
		"plan @clock.toml --against too-weak",
		"beat --plot beat.png --no-title",
		"coils @clock.toml --end braced --turns 2,2.5 --nodes 24",
		"cut too-strong --draws 50 --drawing cone.svg",
		"cut --draws 50",
		"choose @clock.toml --stock @list.csv --draws 50",
		"choose three-trains --all --draws 20",
		"record @book.toml --scenario @clock.toml --fit going.mainspring.thickness_mm,going.mainspring.efficiency --draws 20",
		"record",
		"assign --draws 20",
		"batch @table.csv @clock.toml --of reserve.min --sure --draws 20 --rows 1:3",
		"batch @table.csv",
		"batch @table.csv --rows 2:",
		"batch --design sobol --runs 64 --seed 3",
	} {
		t.Run(strings.ReplaceAll(line, "@", ""), func(t *testing.T) {
			t.Chdir(t.TempDir())
			args := strings.Fields(strings.ReplaceAll(line, "@", dir+"/"))
			seen[args[0]] = true
			in := fileOf(t, filepath.Join(dir, "clock.toml"))
			if code, _, errs := call(t, in, append(slices.Clone(args), "--data", "kept")...); code != exitDone || !strings.Contains(errs, "data written to kept") {
				t.Fatal(errs)
			}
			elsewhere := t.TempDir()
			if err := os.Rename("kept", filepath.Join(elsewhere, "kept")); err != nil {
				t.Fatal(err)
			}
			t.Chdir(elsewhere)
			verifies(t, "whole", "")
			described(t, "kept")
			table := "kept/" + args[0] + ".csv"
			text := fileOf(t, table)
			head := strings.LastIndex(text, "\n# ") + 3
			head += strings.Index(text[head:], "\n")
			digit := figureInRow.FindStringSubmatchIndex(text[head:])
			at, other := head+digit[2], "1"
			if text[at] == '1' {
				other = "2"
			}
			writeText(t, table, text[:at]+other+text[at+1:])
			verifies(t, "a digit", args[0]+".csv was changed")
			sealed(t, nil)
			verifies(t, "a digit, with check sums made again", args[0]+".csv: line ")
		})
	}
	everyCommand(newRoot(streams{}), func(c *cobra.Command) {
		if c.Flags().Lookup("data") != nil && c.Name() != "report" && !seen[c.Name()] {
			t.Errorf("%s is not tried", c.Name())
		}
	})
}

// figureInRow is the first digit of a figure in a row, in a cell or in words.
var figureInRow = regexp.MustCompile(`[ ,](?:0\.0*)?([1-9])[0-9]*(?:\.[0-9]+)?[ ,\n]`)

// described wants of a folder that its description tells of every file, with check sum and
// size, and of every column of its tables.
func described(t *testing.T, dir string) {
	t.Helper()
	var about struct {
		Resources []struct {
			Path, Hash string
			Bytes      int
			Schema     *struct {
				Fields []struct{ Name, Type, Description, Unit string }
			}
		}
	}
	if err := json.Unmarshal([]byte(fileOf(t, dir+"/datapackage.json")), &about); err != nil {
		t.Fatal(err)
	}
	told := map[string]bool{manifestName: true, "datapackage.json": true}
	for _, r := range about.Resources {
		text := fileOf(t, filepath.Join(dir, r.Path))
		told[r.Path] = true
		if r.Bytes != len(text) || r.Hash != "sha256:"+checksum([]byte(text)) {
			t.Errorf("%s: %+v", r.Path, r)
		}
		if (r.Schema == nil) != (!strings.HasSuffix(r.Path, ".csv") || strings.HasPrefix(r.Path, inputsFolder)) {
			t.Errorf("%s: a table, or none? %v", r.Path, r.Schema)
		}
		if r.Schema == nil {
			continue
		}
		in := csv.NewReader(strings.NewReader(text))
		in.Comment = '#'
		header, err := in.Read()
		if err != nil || len(header) != len(r.Schema.Fields) {
			t.Fatalf("%s: %v, %d columns, %d told", r.Path, err, len(header), len(r.Schema.Fields))
		}
		for i, f := range r.Schema.Fields {
			if f.Name != header[i] || f.Type == "" || f.Description == "" {
				t.Errorf("%s: column %s is told as %+v", r.Path, header[i], f)
			}
			if inNm.MatchString(f.Name) != (f.Unit == "N·m") {
				t.Errorf("%s: %+v", r.Path, f)
			}
		}
	}
	m, err := readManifest(os.DirFS(dir))
	if err != nil {
		t.Fatal(err)
	}
	for name := range m.SHA256 {
		if !told[name] {
			t.Errorf("%s is not described", name)
		}
	}
}

var inNm = regexp.MustCompile(`_nm(\.[^uc].*|\.used)?$`)

// What cannot be kept is refused before anything is computed, or not written.
func TestSupplementFaults(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.Mkdir("mine", 0o755); err != nil {
		t.Fatal(err)
	}
	writeText(t, "mine/notes.txt", "")
	for line, want := range map[string]string{
		"sweep --data mine":                                      "mine exists",
		"sweep --data mine --force":                              "holds notes.txt, which is not of the study",
		"sweep --data kept --plot kept/plot.svg":                 "want two places",
		"batch --design grid --data kept --out rows.csv":         "it goes neither with --out nor with --format json",
		"batch --design grid --data kept --format json":          "it goes neither with --out nor with --format json",
		"run --width 84mm":                                       "--width goes with --plot",
		"report --study mine --data kept":                        "mine: this is no folder of a study's data",
		"report --study none --out page.html":                    "none cannot be read",
		"report --verify kept --study mine":                      "--verify stands by itself",
		"report --out p.html" + strings.Repeat(" --study a", 25): "found 25 times --study",
	} {
		code, _, errs := call(t, "", strings.Fields(line)...)
		if code == exitDone || !strings.Contains(errs, want) {
			t.Errorf("%s: %d, %s", line, code, errs)
		}
	}
	if _, err := os.Stat("kept"); err == nil {
		t.Error("kept is there")
	}
}

// What other commands kept is put into a page, and comes out again with it from the data of
// the report alone.
func TestStudiesInReport(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.Mkdir("parts", 0o755); err != nil {
		t.Fatal(err)
	}
	for _, line := range []string{
		"sweep --steps 5 --data parts/thickness-of-the-strip",
		"batch --design latin --runs 9 --data parts/all",
		"report --draws 20 --study parts/thickness-of-the-strip --study parts/all --out page.html --data kept --date today",
	} {
		if code, _, errs := call(t, "", strings.Fields(line)...); code != exitDone {
			t.Fatalf("%s: %s", line, errs)
		}
	}
	page := fileOf(t, "page.html")
	for _, want := range []string{">Thickness of the strip</h2>", "SUITS; swept: thickness", "evenpull sweep --steps 5 --data parts/thickness-of-the-strip", `<svg id="study-1-picture"`, ">All</h2>", "evenpull batch --design latin"} {
		if !strings.Contains(page, want) {
			t.Errorf("no %q in the page", want)
		}
	}
	os.RemoveAll("parts")
	verifies(t, "whole", "")
	again := restored(t)
	edit(t, "kept/studies/all/batch.csv", "suits", "thin")
	verifies(t, "a row", "studies/all/batch.csv was changed")
	again()
	edit(t, "kept/studies/all/batch.csv", "suits", "thin")
	sealedIn(t, "kept/studies/all", nil)
	sealed(t, nil)
	verifies(t, "a row, with check sums made again", "studies/all/batch.csv: line ")
	again()
	edit(t, "kept/studies/all/inputs/eight-day.toml", "thickness_mm = 0.38", "thickness_mm = 0.39")
	sealedIn(t, "kept/studies/all", nil)
	sealed(t, nil)
	verifies(t, "a scenario, with check sums made again", "studies/all/batch.csv: line ")
	again()
	if code, _, errs := call(t, "", "report", "--study", "kept", "--out", "b.html"); code != exitInput || !strings.Contains(errs, "kept is the data of a report") {
		t.Error(errs)
	}
	edit(t, "kept/studies/all/batch.csv", "suits", "thin")
	if code, _, errs := call(t, "", "report", "--study", "kept/studies/all", "--out", "b.html"); code != exitInput || !strings.Contains(errs, "batch.csv was changed") {
		t.Error(errs)
	}
	// What somebody else drew is not taken into a page, however well it is sealed.
	again()
	const drawn = "kept/studies/thickness-of-the-strip"
	edit(t, drawn+"/pictures/sweep.svg", "</svg>", "<script>alert(1)</script></svg>")
	sealedIn(t, drawn, nil)
	if code, _, errs := call(t, "", "report", "--study", drawn, "--out", "b.html"); code != exitInput || !strings.Contains(errs, "comes out otherwise now:\n  pictures/sweep.svg: line ") {
		t.Error(errs)
	}
	if _, err := os.Stat("b.html"); err == nil {
		t.Error("a page was written")
	}
}
