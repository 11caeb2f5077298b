package main

import (
	"maps"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"evenpull/sim/scenario"
	"evenpull/sim/show/page"
)

// keptOf is a document of samples with what it was made from.
func keptOf(t *testing.T, samples ...string) *made {
	t.Helper()
	f := reportFlags{}
	from, err := f.gather(streams{}, samples)
	if err != nil {
		t.Fatal(err)
	}
	m, err := f.build(t.Context(), from, page.Origin{Version: "v1", Date: "today", Command: "evenpull report a & <b>"})
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// held are the files of a document as they are read of a folder.
func held(t *testing.T, d *made, m manifest) map[string][]byte {
	t.Helper()
	files, err := d.files(m)
	if err != nil {
		t.Fatal(err)
	}
	all := map[string][]byte{}
	for _, f := range files {
		all[f.Name] = f.Data
	}
	return all
}

// Kept data are as they were made; a changed file, a missing one, one too many and other
// figures are told.
func TestKeptData(t *testing.T) {
	d := keptOf(t, "eight-day")
	all := held(t, d, manifest{Draws: 7, Set: []string{"a=1"}, Page: keptPage{"a b.md", "12"}})
	m, err := parseManifest(all[manifestName])
	if err != nil || len(m.changed(all)) > 0 || len(m.SHA256) != len(all)-1 {
		t.Fatalf("%+v, %v, %v", m, err, m.changed(all))
	}
	if m.Origin != d.document.Origin || m.Draws != 7 || !slices.Equal(m.Set, []string{"a=1"}) || m.Page != (keptPage{"a b.md", "12"}) || !slices.Equal(m.Names, []string{"eight-day"}) || m.Bench != "" {
		t.Errorf("%+v", m)
	}
	if got := strings.Join(slices.Sorted(maps.Keys(all)), " "); got != "clock-1-train-1-made.csv clock-1-train-1-made.json clock-1-train-1-rank.csv clock-1-train-1-rank.json clock-1-train-1-setup.csv clock-1-train-1-setup.json clock-1-train-1-thickness.csv clock-1-train-1-thickness.json manifest.json pictures/clock-1-train-1-drawing.svg pictures/clock-1-train-1-run.svg pictures/clock-1-train-1-thickness.svg pictures/train-1-torque.svg result-1.json rows-1.csv scenario-1.toml" {
		t.Error(got)
	}
	if !strings.Contains(string(all[manifestName]), "\n  \"command\": \"evenpull report a & <b>\",\n") {
		t.Errorf("%s", all[manifestName])
	}
	if list, err := d.differs(m, all); err != nil || len(list) > 0 {
		t.Errorf("%v, %v", list, err)
	}
	other := keptOf(t, "eight-day")
	title := other.clocks[0].Run.Title
	other.clocks = keptOf(t, "too-strong").clocks
	other.clocks[0].Run.Title = title
	list, err := other.differs(m, all)
	if err != nil || !slices.ContainsFunc(list, func(s string) bool {
		return strings.HasPrefix(s, "clock-1-train-1-rank.csv: line 8: 0.42254") && strings.Contains(s, " was kept, and it is 0.74890")
	}) {
		t.Errorf("%v, %v", list, err)
	}
	all["rows-1.csv"] = append(slices.Clone(all["rows-1.csv"]), 'x')
	delete(all, "scenario-1.toml")
	all["a\x1bb"] = nil
	if list := m.changed(all); !slices.Equal(list, []string{`"a\x1bb" is not in the list of manifest.json`, "rows-1.csv was changed", "scenario-1.toml is missing"}) {
		t.Errorf("%v", list)
	}
	// SHA-256 of "abc": FIPS 180-4, example.
	if got := checksum([]byte("abc")); got != "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad" {
		t.Error(got)
	}
}

// A study that could not be read again is not kept.
func TestTooMuchToKeep(t *testing.T) {
	d := keptOf(t, "eight-day")
	for what, spoil := range map[string]func(){
		"at most 4096 of 64 MB": func() { d.from.scenarios[0].text = strings.Repeat("x", mostBytes) },
		"1 to 12": func() {
			d.from.scenarios = slices.Repeat([]named{{"a", "b"}}, 13)
		},
		`found "a\x1b"`: func() { d.from.scenarios = []named{{"a\x1b", "b"}} },
	} {
		before := *d.from
		before.scenarios = slices.Clone(before.scenarios)
		spoil()
		if _, err := d.files(manifest{}); err == nil || !strings.Contains(err.Error(), what) {
			t.Errorf("%s: %v", what, err)
		}
		*d.from = before
	}
}

// Files of readings keep their names where every system has them for one file, and none of
// ours is like them.
func TestReadingsNames(t *testing.T) {
	for name, want := range map[string]string{
		"spring-b.csv": "spring-b.csv", "a_1.csv": "a_1.csv", "conrad.csv": "conrad.csv",
		"../b.csv": "readings-3.csv", "/etc/passwd": "readings-3.csv", "B.csv": "readings-3.csv", "rows-1.csv": "readings-3.csv", "readings-1.csv": "readings-3.csv",
		"bench-x.csv": "readings-3.csv", "clock-1.csv": "readings-3.csv", "con.csv": "readings-3.csv", "lpt1.csv": "readings-3.csv", "a.txt": "readings-3.csv", "ä.csv": "readings-3.csv", "": "readings-3.csv",
	} {
		if got := readingsName(name, 3); got != want {
			t.Errorf("%q is kept as %s", name, got)
		}
	}
}

// whole is a manifest that is sound.
func whole() manifest {
	return manifest{Scenarios: []string{"s"}, Names: []string{"a"}, Set: []string{}, Bench: "b", Readings: map[string]string{"r.csv": "r"}, SHA256: map[string]string{"s": "", "b": "", "r": ""}}
}

// What is no manifest of ours is refused, and nothing of it is told that could change a
// terminal; how it was spelt does not matter.
func TestManifestFaults(t *testing.T) {
	for want, spoil := range map[string]func(m *manifest){
		"":                                 func(*manifest) {},
		"found 0 scenarios of 1 names":     func(m *manifest) { m.Scenarios = nil },
		"found 1 scenarios of 2 names":     func(m *manifest) { m.Names = []string{"a", "b"} },
		"found 3000 scenarios":             func(m *manifest) { m.Scenarios = make([]string, 3000) },
		"found 13 scenarios":               func(m *manifest) { m.Scenarios = make([]string, 13) },
		"s is named as what":               func(m *manifest) { m.Bench = "s" },
		"t is named as what":               func(m *manifest) { m.Scenarios[0] = "t" },
		`../x is named as`:                 func(m *manifest) { m.Readings["r.csv"] = "../x" },
		"/etc/passwd is named":             func(m *manifest) { m.Bench = "/etc/passwd" },
		`"C:\\x" is named`:                 func(m *manifest) { m.Bench = `C:\x` },
		"draws: found -1":                  func(m *manifest) { m.Draws = -1 },
		"draws: found 1000001":             func(m *manifest) { m.Draws = 1000001 },
		"page: found ../../etc/x.html":     func(m *manifest) { m.Page.Name = "../../etc/x.html" },
		`page: found "..\\x.html"`:         func(m *manifest) { m.Page.Name = `..\x.html` },
		`page: found "c:x.html"`:           func(m *manifest) { m.Page.Name = `c:x.html` },
		`page: found shadow`:               func(m *manifest) { m.Page.Name = `shadow` },
		`found "\u202ex.html"`:             func(m *manifest) { m.Page.Name = "\u202ex.html" },
		`found "\x1b[2J"`:                  func(m *manifest) { m.Version = "\x1b[2J" },
		`found "a\nb"`:                     func(m *manifest) { m.Date = "a\nb" },
		`found "\x00"`:                     func(m *manifest) { m.Command = "\x00" },
		`found "a\u2028"`:                  func(m *manifest) { m.Set = []string{"a\u2028"} },
		`found "\x7f"`:                     func(m *manifest) { m.Names = []string{"\x7f"} },
		`found "\r"`:                       func(m *manifest) { m.Readings = map[string]string{"\r": "r"} },
		"found " + strings.Repeat("x", 60): func(m *manifest) { m.Command = strings.Repeat("x", 4097) },
	} {
		m := whole()
		spoil(&m)
		got, err := parseManifest(m.text())
		if want == "" && (err != nil || got == nil) || want != "" && (err == nil || !strings.Contains(err.Error(), want) || len(err.Error()) > 300) {
			t.Errorf("want %q: %v", want, err)
		}
	}
	m := whole()
	text := string(m.text())
	for what, spoilt := range map[string]string{
		"empty": "", "no JSON": "root:x:0:0:root:/root:/bin/sh\n", "a list": "[]\n", "cut off": text[:len(text)-3], "more after it": text + "{}\n", "without its last line end": text[:len(text)-1],
		"a key twice":            strings.Replace(text, "\n  \"names\"", "\n  \"scenarios\": [\n    \"s\"\n  ],\n  \"names\"", 1),
		"a key of another case":  strings.Replace(text, `"bench"`, `"Bench"`, 1),
		"an unknown key":         strings.Replace(text, "{\n", "{\n  \"more\": 1,\n", 1),
		"a file twice":           strings.Replace(text, "\"s\": \"\"", "\"s\": \"\",\n    \"s\": \"\"", 1),
		"deeply nested":          strings.Repeat("[", 1<<19),
		"another kind":           strings.Replace(text, `"draws": 0`, `"draws": "0"`, 1),
		"a number of many":       strings.Replace(text, `"draws": 0`, `"draws": 0e0`, 1),
		"no UTF-8":               strings.Replace(text, `"bench": "b"`, "\"bench\": \"\xff\"", 1),
		"spelt with an escape":   strings.Replace(text, `"bench": "b"`, `"bench": "\u0062"`, 1),
		"a surrogate by itself":  strings.Replace(text, `"bench": "b"`, `"bench": "\ud800"`, 1),
		"a key left out":         strings.Replace(text, "  \"draws\": 0,\n", "", 1),
		"a mark before the text": "\ufeff" + text,
	} {
		if _, err := parseManifest([]byte(spoilt)); err == nil || err.Error() != "manifest.json is not as evenpull writes it: it was edited or cut off, or is of another version or program" {
			t.Errorf("%s: %v", what, err)
		}
	}
	if _, err := readManifest(fstest.MapFS{}); err == nil || !strings.HasPrefix(err.Error(), "this is no folder of a study's data: ") {
		t.Error(err)
	}
	if m, err := readManifest(fstest.MapFS{manifestName: &fstest.MapFile{Data: []byte(text)}}); err != nil || len(m.SHA256) != 3 {
		t.Error(err)
	}
}

// Figures are the same within 1e-9, of them or in their unit; what is shown rounded may be
// off by one in its last digit, three times. Only numbers are told.
func TestOtherwise(t *testing.T) {
	for _, c := range []struct{ kept, now, exact, rounded string }{
		{"a 1.5", "a 1.5", "", ""},
		{"1.0000000000", "1.0000000009", "", ""},
		{"1.0000000000", "1.0000000011", "line 1: 1.0000000000 was kept, and it is 1.0000000011 now", "line 1: 1.0000000000 was kept, and it is 1.0000000011 now"},
		{"5000000000", "5000000004", "", ""},
		{"5000000000", "5000000006", "line 1: 5000000000 was kept, and it is 5000000006 now", "line 1: 5000000000 was kept, and it is 5000000006 now"},
		{"2e-10", "-7e-10", "", ""},
		{"0", "−1.1e-9", "line 1: 0 was kept, and it is −1.1e-9 now", "line 1: 0 was kept, and it is −1.1e-9 now"},
		{"\n\nx=0.42,1", "\n\nx=0.43,1", "line 3: 0.42 was kept, and it is 0.43 now", ""},
		{"1 2 3 4", "2 3 4 5", "line 1: 1 was kept, and it is 2 now", "line 1: 4 was kept, and it is 5 now"},
		{"12.5", "12.501", "line 1: 12.5 was kept, and it is 12.501 now", ""},
		{"12.5", "12.502", "line 1: 12.5 was kept, and it is 12.502 now", "line 1: 12.5 was kept, and it is 12.502 now"},
		// What is told with its error is the same within that, and so is the error itself; not
		// as it is rounded.
		{"{\n  \"x\": 1.5,\n  \"x_error\": 2e-7,\n  \"y\": 2\n}", "{\n  \"x\": 1.5000001,\n  \"x_error\": 1.5e-7,\n  \"y\": 2\n}", "", "line 3: 2e-7 was kept, and it is 1.5e-7 now"},
		{"{\n  \"x\": 1.50000000,\n  \"x_error\": 2e-7\n}", "{\n  \"x\": 1.50000030,\n  \"x_error\": 2e-7\n}", "line 2: 1.50000000 was kept, and it is 1.50000030 now", "line 2: 1.50000000 was kept, and it is 1.50000030 now"},
		{"{\n  \"x\": 1.5,\n  \"x_error\": 5e-7\n}", "{\n  \"x\": 1.5,\n  \"x_error\": 2e-7\n}", "line 3: 5e-7 was kept, and it is 2e-7 now", "line 3: 5e-7 was kept, and it is 2e-7 now"},
		{"{\n  \"y\": 1.50000000,\n  \"x_error\": 2e-7\n}", "{\n  \"y\": 1.50000010,\n  \"x_error\": 2e-7\n}", "line 2: 1.50000000 was kept, and it is 1.50000010 now", "line 2: 1.50000000 was kept, and it is 1.50000010 now"},
		{"# a: b\nk,x,x_error,y\n\"a 1, b\",1.50000000,2e-7,3", "# a: b\nk,x,x_error,y\n\"a 1, b\",1.50000010,2e-7,3", "", "line 3: 1.50000000 was kept, and it is 1.50000010 now"},
		{"k,x,x_error,y\n1,1.5,2e-7,3.00000000", "k,x,x_error,y\n1,1.5,2e-7,3.00000010", "line 2: 3.00000000 was kept, and it is 3.00000010 now", "line 2: 3.00000000 was kept, and it is 3.00000010 now"},
		{"1e-3", "2e-3", "line 1: 1e-3 was kept, and it is 2e-3 now", ""},
		{"a", "b", "line 1 has other words now", "line 1 has other words now"},
		{"1", "null", "line 1 has other words now", "line 1 has other words now"},
		{"a 1", "a 1 1", "line 1 has other words now", "line 1 has other words now"},
		{"a", "a\nb", "it had 1 lines and has 2 now", "it had 1 lines and has 2 now"},
		{"1e999", "2e999", "line 1: 1e999 was kept, and it is 2e999 now", "line 1: 1e999 was kept, and it is 2e999 now"},
		{strings.Repeat("1", 60), "2", "line 1: 1111111111111111111111111… was kept, and it is 2 now", "line 1: 1111111111111111111111111… was kept, and it is 2 now"},
	} {
		exact, rounded := otherwise([]byte(c.kept), []byte(c.now), false), otherwise([]byte(c.kept), []byte(c.now), true)
		if exact != c.exact || rounded != c.rounded {
			t.Errorf("%.40q: %q, rounded %q", c.kept, exact, rounded)
		}
	}
}

// FuzzManifest: nothing panics, and what is taken is written as it was read.
func FuzzManifest(f *testing.F) {
	m := whole()
	for _, text := range []string{string(m.text()), "", "{}", "[]", "null", `{"sha256":{"..\\x":"0"}}`, strings.Repeat("[", 1000), "{\"set\":[\"\\u0000\"]}"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		m, err := parseManifest([]byte(text))
		if err != nil {
			if scenario.Unprintable(err.Error()) != "" {
				t.Fatalf("%q", err.Error())
			}
			return
		}
		if string(m.text()) != text || len(m.Scenarios) == 0 || len(m.Names) != len(m.Scenarios) {
			t.Fatalf("%+v", m)
		}
	})
}
