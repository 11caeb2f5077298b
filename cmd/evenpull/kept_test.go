package main

import (
	"bytes"
	"maps"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

// keptOf is a document of scenarios with what it was made from.
func keptOf(t *testing.T, names ...string) *made {
	t.Helper()
	f := reportFlags{}
	m, err := f.build(t.Context(), streams{}, names)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// inFolder are the files of a document as a folder holds them.
func inFolder(t *testing.T, d *made, set ...string) fstest.MapFS {
	t.Helper()
	files, err := d.files(set, 0)
	if err != nil {
		t.Fatal(err)
	}
	dir := fstest.MapFS{}
	for _, f := range files {
		dir[f.name] = &fstest.MapFile{Data: f.data}
	}
	return dir
}

// Kept data verifies; a changed file, a missing one and other figures are told.
func TestKeptData(t *testing.T) {
	d := keptOf(t, "eight-day")
	d.bench = "title = \"x\""
	dir := inFolder(t, d)
	m, err := readManifest(dir)
	if err != nil || len(m.changed(dir)) > 0 || len(m.SHA256) != len(dir)-1 || m.Bench != "bench.toml" {
		t.Fatalf("%+v, %v, %v", m, err, m.changed(dir))
	}
	if list, err := d.differs(dir); err != nil || len(list) > 0 {
		t.Errorf("%v, %v", list, err)
	}
	if list, err := keptOf(t, "too-strong").differs(dir); err != nil || len(list) != 2 || !strings.Contains(list[0], "line ") {
		t.Errorf("%v, %v", list, err)
	}
	dir["rows-1.csv"].Data = append(slices.Clone(dir["rows-1.csv"].Data), 'x')
	delete(dir, "scenario-1.toml")
	if list := m.changed(dir); !slices.Equal(list, []string{"rows-1.csv was changed", "scenario-1.toml is missing"}) {
		t.Errorf("%v", list)
	}
	for _, bad := range []string{"", "{}", `{"scenarios":["../x"],"sha256":{"../x":"0"}}`, `{"scenarios":["a"],"sha256":{"b":"0"}}`} {
		if _, err := readManifest(fstest.MapFS{manifestName: &fstest.MapFile{Data: []byte(bad)}}); err == nil {
			t.Errorf("%q was taken for a manifest", bad)
		}
	}
	if _, err := readManifest(fstest.MapFS{}); err == nil {
		t.Error("an empty folder was taken for data")
	}
}

// A manifest is told what is wrong with it; figures that are missing or end early are
// told.
func TestKeptFaults(t *testing.T) {
	for text, want := range map[string]string{
		`{`:                                      "manifest.json is none that evenpull wrote: unexpected end of JSON input",
		`{"sha256":{"a":"0"}}`:                   "manifest.json is none that evenpull wrote: <nil>",
		`{"scenarios":["a"]}`:                    "manifest.json is none that evenpull wrote: <nil>",
		`{"scenarios":["a"],"sha256":{"b":"0"}}`: `manifest.json names "a", which is outside the folder or has no checksum`,
		`{"scenarios":["a"],"bench":"c","sha256":{"a":"0"}}`:        `manifest.json names "c", which is outside the folder or has no checksum`,
		`{"scenarios":["a"],"sha256":{"a":"0","/b":"0"}}`:           `manifest.json names "/b", which is outside the folder or has no checksum`,
		`{"scenarios":["../a"],"sha256":{"../a":"0"}}`:              `manifest.json names "../a", which is outside the folder or has no checksum`,
		`{"scenarios":["a"],"bench":"b","sha256":{"a":"","b":""}}`:  "",
		`{"scenarios":["a"],"sha256":{"a":"0"},"version":"v1 <&>"}`: "",
	} {
		m, err := readManifest(fstest.MapFS{manifestName: &fstest.MapFile{Data: []byte(text)}})
		if want == "" && (err != nil || m == nil) || want != "" && (err == nil || err.Error() != want) {
			t.Errorf("%s: %v", text, err)
		}
	}
	for _, of := range []struct{ kept, now, want string }{
		{"a\nb", "a\nc", `line 2 was "b" and is "c" now`}, {"a", "a\nb", "it had 1 lines and has 2 now"}, {" x\n", "y\n", `line 1 was "x" and is "y" now`},
	} {
		if got := firstDifference(of.kept, of.now); got != of.want {
			t.Errorf("%s", got)
		}
	}
	d := keptOf(t, "eight-day")
	d.document.Command, d.sources = "evenpull report a & <b>", []string{"one", "two"}
	dir := inFolder(t, d, "a=1")
	names := slices.Sorted(maps.Keys(dir))
	if got := strings.Join(names, " "); got != "manifest.json pictures/clock-1-train-1-drawing.svg pictures/clock-1-train-1-rank.svg pictures/clock-1-train-1-thickness.svg pictures/clock-1-train-1-torque.svg result-1.json rows-1.csv scenario-1.toml scenario-2.toml" {
		t.Error(got)
	}
	m, err := readManifest(dir)
	if err != nil || m.Origin != d.document.Origin || m.Bench != "" || !slices.Equal(m.Scenarios, []string{"scenario-1.toml", "scenario-2.toml"}) || !slices.Equal(m.Set, []string{"a=1"}) {
		t.Errorf("%+v, %v", m, err)
	}
	if string(dir["scenario-2.toml"].Data) != "two" || !bytes.Contains(dir[manifestName].Data, []byte("\n  \"command\": \"evenpull report a & <b>\",\n")) {
		t.Errorf("%s", dir[manifestName].Data)
	}
	// SHA-256 of "abc": FIPS 180-4, example.
	if got := checksum([]byte("abc")); got != "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad" {
		t.Error(got)
	}
	delete(dir, "result-1.json")
	if list, err := d.differs(dir); err != nil || !slices.Equal(list, []string{"result-1.json is missing"}) {
		t.Errorf("%v, %v", list, err)
	}
}
