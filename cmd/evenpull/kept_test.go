package main

import (
	"io"
	"maps"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"evenpull/scenarios"
	"evenpull/sim/scenario"
	"evenpull/sim/show/page"
)

// keptOf is what a report of samples comes to, with its evenpull and its date.
func keptOf(t *testing.T, args ...string) *supplement {
	t.Helper()
	a := &again{m: &manifest{Origin: page.Origin{Version: "v1", Date: "today", Command: "evenpull report a & <b>"}}, held: map[string][]byte{}}
	for _, name := range []string{"eight-day", "too-strong"} {
		text, _ := scenarios.Text(name)
		a.m.Inputs = append(a.m.Inputs, keptInput{name, name})
		a.held[name] = []byte(text)
	}
	root := newRoot(streams{in: strings.NewReader(""), out: io.Discard, err: io.Discard, again: a})
	root.SetArgs(append([]string{"report", "--draws=7"}, args...))
	if err := root.ExecuteContext(t.Context()); err != nil {
		t.Fatal(err)
	}
	return a.came
}

// held are the files of a supplement as they are read of a folder.
func held(t *testing.T, sup *supplement, m manifest) map[string][]byte {
	t.Helper()
	files, err := sup.files(m, nil)
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
	sup := keptOf(t, "eight-day")
	made := manifest{Origin: page.Origin{Version: "v1", Date: "today", Command: "evenpull report a & <b>"}, Args: []string{"report", "--set=a=1", "--", "eight-day"}, Page: keptPage{"a b.md", "12"}}
	all := held(t, sup, made)
	m, err := parseManifest(all[manifestName])
	if err != nil || len(m.changed(all)) > 0 || len(m.SHA256) != len(all)-1 {
		t.Fatalf("%+v, %v, %v", m, err, m.changed(all))
	}
	if m.Origin != made.Origin || !slices.Equal(m.Args, made.Args) || m.Page != made.Page || !slices.Equal(m.Inputs, []keptInput{{"eight-day", "inputs/eight-day.toml"}}) || len(m.Studies) != 0 {
		t.Errorf("%+v", m)
	}
	if got := strings.Join(slices.Sorted(maps.Keys(all)), " "); got != "clock-1-train-1-made.csv clock-1-train-1-made.json clock-1-train-1-rank.csv clock-1-train-1-rank.json clock-1-train-1-setup.csv clock-1-train-1-setup.json clock-1-train-1-thickness.csv clock-1-train-1-thickness.json datapackage.json inputs/eight-day.toml manifest.json pictures/clock-1-train-1-drawing.svg pictures/clock-1-train-1-run.svg pictures/clock-1-train-1-thickness.svg pictures/train-1-torque.svg result-1.json rows-1.csv" {
		t.Error(got)
	}
	if !strings.Contains(string(all[manifestName]), "\n  \"command\": \"evenpull report a & <b>\",\n") {
		t.Errorf("%s", all[manifestName])
	}
	if list, err := sup.differs(m, all); err != nil || len(list) > 0 {
		t.Errorf("%v, %v", list, err)
	}
	list, err := keptOf(t, "too-strong").differs(m, all)
	if err != nil || !slices.Contains(list, "inputs/eight-day.toml is none that the study has") || !slices.Contains(list, "inputs/too-strong.toml is missing") || !slices.ContainsFunc(list, func(s string) bool {
		return strings.HasPrefix(s, "clock-1-train-1-rank.csv: line ")
	}) {
		t.Errorf("%v, %v", list, err)
	}
	list, err = keptOf(t, "eight-day", "--set", "going.mainspring.width_mm=33").differs(m, all)
	if err != nil || !slices.ContainsFunc(list, func(s string) bool {
		return strings.HasPrefix(s, "clock-1-train-1-rank.json: ")
	}) {
		t.Errorf("%v, %v", list, err)
	}
	all["rows-1.csv"] = append(slices.Clone(all["rows-1.csv"]), 'x')
	delete(all, "inputs/eight-day.toml")
	all["a\x1bb"] = nil
	if list := m.changed(all); !slices.Equal(list, []string{`"a\x1bb" is not in the list of manifest.json`, "inputs/eight-day.toml is missing", "rows-1.csv was changed"}) {
		t.Errorf("%v", list)
	}
	// SHA-256 of "abc": FIPS 180-4, example.
	if got := checksum([]byte("abc")); got != "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad" {
		t.Error(got)
	}
}

// A study that could not be read again is not kept.
func TestTooMuchToKeep(t *testing.T) {
	for want, sup := range map[string]supplement{
		"at most 4096 of 64 MB":  {read: []named{{"a", "a", strings.Repeat("x", mostBytes)}}},
		"the data would be 4098": {parts: slices.Repeat([]part{{}}, 4096)},
		`found "a\x1b"`:          {read: []named{{"a\x1b", "b", ""}}},
		"found 25 studies":       {studies: slices.Repeat([]study{{given: "a"}}, 25)},
	} {
		if _, err := sup.files(manifest{Args: []string{"run"}}, nil); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", want, err)
		}
	}
}

// What was read keeps its name where every system has it for one file.
func TestInputNames(t *testing.T) {
	for name, want := range map[string]string{
		"spring-b.csv": "spring-b.csv", "A_1.csv": "A_1.csv", "conrad.csv": "conrad.csv", "eight-day": "eight-day.toml",
		"../b.csv": "b.csv", `C:\x\y.toml`: "y.toml", "/etc/passwd": "passwd", "taken.CSV": "input-3.csv", "input-1.csv": "input-3.csv", "two words.toml": "input-3.toml",
		"con.csv": "input-3.csv", "LPT1.toml": "input-3.toml", "a.txt": "input-3.txt", "ä.csv": "input-3.csv", "": "input-3.txt", "standard input": "input-3.txt", "..": "input-3.txt",
	} {
		if got := inputName(name, 3, []keptInput{{"x", "inputs/Taken.csv"}}); got != "inputs/"+want {
			t.Errorf("%q is kept as %s", name, got)
		}
	}
}

// whole is a manifest that is sound.
func whole() manifest {
	return manifest{Args: []string{"run", "--", "a"}, Inputs: []keptInput{{"a", "s"}, {"b", "b"}, {"r.csv", "r"}}, Studies: []keptInput{{"d", "studies/d"}}, SHA256: map[string]string{"s": "", "b": "", "r": ""}}
}

// What is no manifest of ours is refused, and nothing of it is told that could change a
// terminal; how it was spelt does not matter.
func TestManifestFaults(t *testing.T) {
	for want, spoil := range map[string]func(m *manifest){
		"":                                 func(*manifest) {},
		"found no args":                    func(m *manifest) { m.Args = []string{} },
		"s is named as what":               func(m *manifest) { m.Inputs[1].Kept = "s" },
		"b is named as what":               func(m *manifest) { m.Inputs[1].Given = "a" },
		"t is named as what":               func(m *manifest) { m.Inputs[0].Kept = "t" },
		`../x is named as what`:            func(m *manifest) { m.Inputs[2].Kept = "../x" },
		"/etc/passwd is named":             func(m *manifest) { m.Inputs[1].Kept = "/etc/passwd" },
		`"C:\\x" is named as what`:         func(m *manifest) { m.Inputs[1].Kept = `C:\x` },
		"found 25 studies":                 func(m *manifest) { m.Studies = make([]keptInput, 25) },
		`studies/../x is named`:            func(m *manifest) { m.Studies[0].Kept = "studies/../x" },
		"pictures is named":                func(m *manifest) { m.Studies[0].Kept = "pictures" },
		"or is there twice":                func(m *manifest) { m.Studies[0].Given = "b" },
		"page: found ../../etc/x.html":     func(m *manifest) { m.Page.Name = "../../etc/x.html" },
		`page: found "..\\x.html"`:         func(m *manifest) { m.Page.Name = `..\x.html` },
		`page: found "c:x.html"`:           func(m *manifest) { m.Page.Name = `c:x.html` },
		`page: found shadow`:               func(m *manifest) { m.Page.Name = `shadow` },
		`found "\u202ex.html"`:             func(m *manifest) { m.Page.Name = "\u202ex.html" },
		`found "\x1b[2J"`:                  func(m *manifest) { m.Version = "\x1b[2J" },
		`found "a\nb"`:                     func(m *manifest) { m.Date = "a\nb" },
		`found "\x00"`:                     func(m *manifest) { m.Command = "\x00" },
		`found "a\u2028"`:                  func(m *manifest) { m.Args[0] = "a\u2028" },
		`found "\x7f"`:                     func(m *manifest) { m.Inputs[0].Given = "\x7f" },
		`found "\r"`:                       func(m *manifest) { m.Studies[0].Given = "\r" },
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
		"a key twice":            strings.Replace(text, "\n  \"inputs\"", "\n  \"args\": [\n    \"run\"\n  ],\n  \"inputs\"", 1),
		"a key of another case":  strings.Replace(text, `"studies"`, `"Studies"`, 1),
		"an unknown key":         strings.Replace(text, "{\n", "{\n  \"more\": 1,\n", 1),
		"a file twice":           strings.Replace(text, "\"s\": \"\"", "\"s\": \"\",\n    \"s\": \"\"", 1),
		"deeply nested":          strings.Repeat("[", 1<<19),
		"another kind":           strings.Replace(text, `"name": ""`, `"name": 0`, 1),
		"no UTF-8":               strings.Replace(text, `"given": "b"`, "\"given\": \"\xff\"", 1),
		"spelt with an escape":   strings.Replace(text, `"given": "b"`, `"given": "\u0062"`, 1),
		"a surrogate by itself":  strings.Replace(text, `"given": "b"`, `"given": "\ud800"`, 1),
		"a key left out":         strings.Replace(text, "  \"command\": \"\",\n", "", 1),
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
		if string(m.text()) != text || len(m.Args) == 0 {
			t.Fatalf("%+v", m)
		}
	})
}
