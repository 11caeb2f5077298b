package data

import (
	"encoding/csv"
	"encoding/json"
	"io"
	"slices"
	"strings"
	"testing"
)

// known is an origin with all that there can be.
func known() Origin {
	return Origin{"sweep", "v1.2.0", "0123abcd", "A clock", []File{{"a.toml", "00ff"}, {"b.csv", "11ee"}}, []string{"going.x=1", "place.y=2"}, new(int64(7))}
}

func TestOriginIsFirst(t *testing.T) {
	from := known()
	said := written(t, func(w io.Writer) error { return things().JSON(w, from, &thing{}) })
	const want = `{
  "evenpull": {
    "command": "sweep",
    "version": "v1.2.0",
    "commit": "0123abcd",
    "title": "A clock",
    "files": [
      {
        "name": "a.toml",
        "sha256": "00ff"
      },
      {
        "name": "b.csv",
        "sha256": "11ee"
      }
    ],
    "set": [
      "going.x=1",
      "place.y=2"
    ],
    "seed": 7
  },
`
	if !strings.HasPrefix(said, want) {
		t.Errorf("%s", said)
	}
	validate(t, written(t, func(w io.Writer) error { return things().Schema(w, "") }), said)
	const remarks = `# command: sweep
# version: v1.2.0
# commit: 0123abcd
# title: A clock
# files.name: a.toml
# files.sha256: 00ff
# files.name: b.csv
# files.sha256: 11ee
# set: going.x=1
# set: place.y=2
# seed: 7
x,n,`
	if said := written(t, func(w io.Writer) error { return things().CSV(w, from, &thing{}) }); !strings.HasPrefix(said, remarks) {
		t.Errorf("%s", said)
	}
	from.Seed = new(int64)
	if said := written(t, func(w io.Writer) error { return things().CSV(w, from, &thing{}) }); !strings.Contains(said, "# seed: 0\n") {
		t.Errorf("a seed of 0 is one too:\n%s", said)
	}
}

// The schema wants the origin, and every member of it.
func TestSchemaWantsOrigin(t *testing.T) {
	var s struct {
		Required   []string
		Properties struct {
			Evenpull struct{ Required []string }
		}
	}
	if err := json.Unmarshal([]byte(written(t, func(w io.Writer) error { return things().Schema(w, "") })), &s); err != nil {
		t.Fatal(err)
	}
	if s.Required[0] != "evenpull" || !slices.Equal(s.Properties.Evenpull.Required, []string{"command", "version", "commit", "title", "files", "set", "seed"}) {
		t.Errorf("%+v", s)
	}
}

// A program that passes over remarks gets every cell whole, whatever stands in it or above.
func TestRemarksAndCells(t *testing.T) {
	for _, text := range []string{"a#1", "#1", "# a: b", `"#"`, " a", "a,#b\nc", "a\r\n#b", "plain"} {
		from := known()
		from.Title = `one "title, of a clock`
		said := written(t, func(w io.Writer) error { return things().CSV(w, from, &thing{name: text}) })
		r := csv.NewReader(strings.NewReader(said))
		r.Comment = '#'
		lines, err := r.ReadAll()
		// Of \r\n within quotes encoding/csv makes \n.
		if err != nil || len(lines) != 2 || lines[1][3] != strings.ReplaceAll(text, "\r", "") {
			t.Errorf("%q: %v %q", text, err, lines)
		}
		// Programs that end a line at any # that is not quoted, as some do.
		_, below, _ := strings.Cut(said, "\nx,n,")
		bare := strings.Split(below, `"`)
		for i := 0; i < len(bare); i += 2 {
			for line := range strings.Lines(bare[i]) {
				if strings.Contains(line, "#") {
					t.Errorf("%q: a # stands bare in %q", text, line)
				}
			}
		}
	}
}

// A spreadsheet, which splits remarks like rows, computes nothing of them.
func TestRemarksComputeNothing(t *testing.T) {
	for title, want := range map[string]string{
		"a,=1+1":       "# title: a,'=1+1",
		"a;=1+1":       "# title: a;'=1+1",
		`a,"=1+1"`:     `# title: a,"'=1+1"`,
		"a, @sum":      "# title: a, '@sum",
		"a,-1":         "# title: a,'-1",
		"=1+1":         "# title: =1+1", // within the first cell, which begins with #
		"Clock, new":   "# title: Clock, new",
		"Clock – a=b;": "# title: Clock – a=b;",
	} {
		from := Origin{Title: title}
		if said := written(t, from.remarks); said != want+"\n" {
			t.Errorf("%q gives %q, want %q", title, said, want)
		}
	}
}
