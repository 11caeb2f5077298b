package main

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"evenpull/scenarios"
)

// origin is what a document says of where it came from.
type origin struct {
	Command, Version, Commit, Title string
	Files                           []struct{ Name, SHA256 string }
	Set                             []string
	Seed                            *int64
}

// originOf reads it off a JSON document, in which it has to stand first and with every key.
func originOf(t *testing.T, document string) origin {
	t.Helper()
	const first = "{\n  \"evenpull\": {\n    \"command\": \""
	var doc struct{ Evenpull json.RawMessage }
	if err := json.Unmarshal([]byte(document), &doc); err != nil || !strings.HasPrefix(document, first) {
		t.Fatalf("%v: %.80s", err, document)
	}
	var keys map[string]any
	var o origin
	if err := json.Unmarshal(doc.Evenpull, &keys); err != nil {
		t.Fatal(err)
	}
	if got := slices.Sorted(maps.Keys(keys)); !slices.Equal(got, []string{"command", "commit", "files", "seed", "set", "title", "version"}) {
		t.Errorf("the keys are %q", got)
	}
	if err := json.Unmarshal(doc.Evenpull, &o); err != nil {
		t.Fatal(err)
	}
	return o
}

// remarks are the lines above the header of a CSV that say the same.
func (o *origin) remarks() string {
	var b strings.Builder
	fmt.Fprintf(&b, "# command: %s\n# version: %s\n# commit: %s\n# title: %s\n", o.Command, o.Version, o.Commit, o.Title)
	for _, f := range o.Files {
		fmt.Fprintf(&b, "# files.name: %s\n# files.sha256: %s\n", f.Name, f.SHA256)
	}
	for _, set := range o.Set {
		fmt.Fprintf(&b, "# set: %s\n", set)
	}
	if o.Seed != nil {
		fmt.Fprintf(&b, "# seed: %d\n", *o.Seed)
	}
	return b.String()
}

// shop is a folder with an own file of every kind that is read. What is below is by the
// names of the files, as an origin has them; standard input is what a hyphen stands for.
func shop(t *testing.T) (dir string, files map[string]string) {
	t.Helper()
	dir = t.TempDir()
	clock, _ := scenarios.Text(scenarios.Default)
	three, _ := scenarios.Text("three-trains")
	barrels, _ := scenarios.BenchText("mixed-barrels")
	drawer, _ := scenarios.StockText("shop-drawer")
	files = map[string]string{
		"clock.toml": "# mine\r\n" + clock, "drawer.toml": "# mine\n" + drawer, "standard input": "\ufeff" + clock,
		"three.toml": "# mine\n" + three, "barrels.toml": "# mine\n" + barrels,
		"list.csv": "# title: mine\nlabel,width_mm,thickness_mm,length_mm\nA,36,0.38,1650\n",
		"book.toml": `title = "Read from a file"
[[weights]]
train = "going"
pulley_radius_mm = 75.0
trials = [ { mass_g = 400.0, runs = false }, { mass_g = 450.0, runs = true } ]
[[torque]]
train = "going"
spring = "A"
first_turn = 0.0
file = "far.csv"
meter_relative = 0.01
meter_resolution_nm = 0.01
`,
		"far.csv": "# command: none\nturn,repeat,torque_nm\n0,1,0.55\n1,1,0.54\n2,1,0.55\n0,2,0.55\n1,2,0.56\n2,2,0.54\n",
	}
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return dir, files
}

// Every document says where it came from, as JSON and as CSV alike, and as its schema has it.
func TestOrigin(t *testing.T) {
	dir, files := shop(t)
	t.Chdir(t.TempDir()) // away from the files, so that each has a folder
	one, zero, nine := new(int64(1)), (*int64)(nil), new(int64(9))
	set := "going.mainspring.thickness_in=0.0150"
	seen := map[string]bool{}
	for _, c := range []struct {
		line  string // @ stands for the folder
		files string
		set   []string
		seed  *int64
		csv   *int64 // in CSV, where it has not the same draws
	}{
		{"run", "eight-day", nil, one, zero},
		{"run @clock.toml --set " + set + " --set place.gravity_m_s2=9.81", "clock.toml", []string{set, "place.gravity_m_s2=9.81"}, one, zero},
		{"run - --draws 0", "standard input", nil, zero, zero},
		{"run @three.toml --bench @barrels.toml --spring going=C --train going", "three.toml, barrels.toml", nil, one, zero},
		{"sweep @clock.toml --steps 3 --set " + set, "clock.toml", []string{set}, zero, zero},
		{"rank @clock.toml", "clock.toml", nil, one, one},
		{"rank @clock.toml --seed 9", "clock.toml", nil, nine, nine},
		{"rank @clock.toml --shares=false", "clock.toml", nil, zero, zero},
		{"rank @clock.toml --change 1%", "clock.toml", nil, zero, zero},
		{"spread @clock.toml --runs 20 --seed 9 --shares=false", "clock.toml", nil, nine, nine},
		{"setup @clock.toml", "clock.toml", nil, one, one},
		{"setup @clock.toml --draws 0", "clock.toml", nil, zero, zero},
		{"record @barrels.toml", "barrels.toml", nil, one, one},
		{"record @book.toml", "book.toml, far.csv", nil, one, one},
		{"record @barrels.toml --scenario three-trains --set place.gravity_m_s2=9.8", "barrels.toml, three-trains", []string{"place.gravity_m_s2=9.8"}, one, one},
		{"assign @barrels.toml --scenario @three.toml", "barrels.toml, three.toml", nil, one, one},
		{"choose @clock.toml --stock @drawer.toml", "clock.toml, drawer.toml", nil, one, one},
		{"choose - --stock @list.csv --draws 0", "standard input, list.csv", nil, zero, zero},
		{"choose @three.toml --all --bench @barrels.toml --stock @list.csv", "three.toml, barrels.toml, list.csv", nil, one, one},
		{"cut sample:eight-day", "eight-day", nil, one, one},
		{"beat @clock.toml --periods 5", "clock.toml", nil, zero, zero},
		{"coils @clock.toml --turns 2 --nodes 24 --friction 0", "clock.toml", nil, zero, zero},
		{"plan @clock.toml --against too-weak", "clock.toml, too-weak", nil, zero, zero},
	} {
		line := strings.Fields(strings.ReplaceAll(c.line, "@", dir+string(filepath.Separator)))
		command := line[0]
		if command == "record" || command == "assign" {
			line = append(line, "--draws", "20")
		}
		line = few(line)
		code, out, errs := call(t, files["standard input"], append(line, "--format", "json")...)
		if code != exitDone {
			t.Fatalf("%s: %s", c.line, errs)
		}
		schema := command
		if slices.Contains(line, "--all") {
			schema = "choose-all"
		}
		seen[schema] = true
		holdsSchema(t, c.line, schema, out)
		o := originOf(t, out)
		this := thisBuild()
		if o.Command != command || o.Version != this.version || o.Commit != this.commit || o.Title == "" || strings.Contains(out, dir) {
			t.Errorf("%s: %+v", c.line, o)
		}
		if !slices.Equal(o.Set, c.set) || (o.Seed == nil) != (c.seed == nil) || o.Seed != nil && *o.Seed != *c.seed {
			t.Errorf("%s: set %q, seed %v", c.line, o.Set, o.Seed)
		}
		want := strings.Split(c.files, ", ")
		for i, name := range want {
			text, own := files[name]
			if !own {
				text, _ = scenarios.Text(name)
			}
			sum := sha256.Sum256([]byte(text))
			if i >= len(o.Files) || o.Files[i].Name != name || o.Files[i].SHA256 != hex.EncodeToString(sum[:]) {
				t.Errorf("%s: the files are %q; want %s with %x", c.line, o.Files, name, sum)
			}
		}
		if len(o.Files) != len(want) {
			t.Errorf("%s: the files are %q", c.line, o.Files)
		}
		code, out, errs = call(t, files["standard input"], append(line, "--format", "csv")...)
		if o.Seed = c.csv; code != exitDone || !strings.HasPrefix(out, o.remarks()) || strings.HasPrefix(out[len(o.remarks()):], "#") {
			t.Errorf("%s: %s the CSV begins\n%.600s\nwant\n%s", c.line, errs, out, o.remarks())
		}
	}
	for _, name := range documented() {
		if !seen[name] {
			t.Errorf("no origin of %s is looked at", name)
		}
	}
}

// The title is that of the first file, which is the command's own.
func TestOriginTitle(t *testing.T) {
	dir, _ := shop(t)
	book := filepath.Join(dir, "book.toml")
	for line, want := range map[string]string{"record " + book: "Read from a file", "assign " + book + " --draws 0": "Read from a file", "run too-weak --draws 0": ""} {
		_, out, errs := call(t, "", append(strings.Fields(line), "--format", "json")...)
		if want == "" {
			sc, err := scenarios.Load("too-weak")
			if err != nil {
				t.Fatal(err)
			}
			want = sc.Title
		}
		if o := originOf(t, out); o.Title != want {
			t.Errorf("%s: %q, want %q (%s)", line, o.Title, want, errs)
		}
	}
}

// A name has no folder, of whatever system it is.
func TestInputFile(t *testing.T) {
	for name, want := range map[string]string{"a.toml": "a.toml", "/x/y/a.toml": "a.toml", `C:\x\a.toml`: "a.toml", "../a b.toml": "a b.toml", "standard input": "standard input"} {
		var r reads
		r.add("given", name, "abc")
		r.add("given", name, "abc")
		if got := r.files[0]; len(r.files) != 1 || got.Name != want || got.SHA256 != "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad" { // FIPS 180-4, example
			t.Errorf("%q: %+v", name, got)
		}
	}
}

// What a report keeps says where it came from, and comes out the same again: by the name that
// the bench book had, and by the readings it has in a file.
func TestOriginKept(t *testing.T) {
	dir, files := shop(t)
	data := filepath.Join(dir, "kept")
	code, _, errs := call(t, "", "report", filepath.Join(dir, "clock.toml"), "--bench", filepath.Join(dir, "book.toml"), "--data", data, "--draws", "20", "--set", "place.gravity_m_s2=9.81")
	if code != exitDone {
		t.Fatal(errs)
	}
	for name, seed := range map[string]bool{"result-1": true, "clock-1-train-1-thickness": false, "clock-1-train-1-setup": true, "bench-record": false} {
		o := originOf(t, fileOf(t, filepath.Join(data, name+".json")))
		if o.Command != "report" || !slices.Equal(o.Set, []string{"place.gravity_m_s2=9.81"}) || (o.Seed != nil) != seed || len(o.Files) != 3 {
			t.Fatalf("%s: %+v", name, o)
		}
		for i, file := range []string{"clock.toml", "book.toml", "far.csv"} {
			if o.Files[i].Name != file || o.Files[i].SHA256 != checksum([]byte(files[file])) {
				t.Errorf("%s: %+v, want %s", name, o.Files[i], file)
			}
		}
		rows := filepath.Join(data, name+".csv")
		if name == "result-1" {
			rows = filepath.Join(data, "rows-1.csv")
		}
		if text := fileOf(t, rows); !strings.HasPrefix(text, o.remarks()) {
			t.Errorf("%s: %.300s", rows, text)
		}
	}
	if code, out, errs := call(t, "", "report", "--verify", data); code != exitDone {
		t.Errorf("%s%s", out, errs)
	}
}

// A fault leaves nothing of a document, its origin neither.
func TestNoOriginOfAFault(t *testing.T) {
	for _, format := range []string{"json", "csv"} {
		if code, out, _ := call(t, "", "run", "--set", "going.mainspring.length_mm=90000", "--format", format); code != exitUsage || out != "" {
			t.Errorf("%s: exit %d, %q", format, code, out)
		}
	}
}
