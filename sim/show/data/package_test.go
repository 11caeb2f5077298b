package data

import (
	"encoding/json"
	"io"
	"reflect"
	"strings"
	"testing"

	"evenpull/sim"
	"evenpull/sim/outcome"
)

// A column is what its member is, with its unit, and what is in a part begins with what that is.
func TestFields(t *testing.T) {
	got := things().Fields(&thing{})
	want := []Field{
		{"x", "number", "mm", "a number"}, {"n", "integer", "", "a count"}, {"yes", "boolean", "", "a flag"}, {"name", "string", "", "a name"}, {"says", "string", "", "sentences"},
		{"part.x", "number", "mm", "a part: a number"}, {"part.n", "integer", "", "a part: a count"}, {"part.yes", "boolean", "", "a part: a flag"}, {"part.name", "string", "", "a part: a name"},
		{"part.says", "string", "", "a part: sentences"}, {"inner", "number", "", "of the part"},
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%+v", got)
	}
	own := things()
	own.table = own.table.with(func(t *thing) []Field { return []Field{{"inner", "number", t.name, "its own"}} })
	if got := own.Fields(&thing{name: "s"}); got[10] != (Field{"inner", "number", "s", "its own"}) || got[0].Unit != "mm" || things().Fields(&thing{})[10].Unit != "" {
		t.Errorf("%+v", got)
	}
	// Every figure of a run that stands in rows has the unit and the words of its table.
	fields := map[string]Field{}
	for _, f := range rows(Digest(), func(*sim.Digest) []sim.Digest { return nil }).columns {
		fields[f.Name] = f
	}
	for _, f := range outcome.All() {
		if got := fields[f.Name]; got.Unit != f.Unit || got.Words != f.Words || got.Type != "number" {
			t.Errorf("%s: %+v", f.Name, got)
		}
	}
}

// A package is as the standard has it: what does not apply is left out, a table has dialect and
// schema, anything else has neither. SHA-256 of "abc": FIPS 180-4, example.
func TestPackage(t *testing.T) {
	text := written(t, func(w io.Writer) error {
		return Package(w, "evenpull-x", "T", "made", []Resource{
			{Path: "inputs/My Clock.toml", Data: []byte("abc")},
			{Path: "x.csv", Data: []byte("a,b\n1,\n"), Fields: []Field{{"a", "number", "mm", "length"}, {"b", "any", "", "as it came in"}}},
		})
	})
	const want = `{"profile": "data-package", "name": "evenpull-x", "title": "T", "description": "made", "resources": [
		{"name": "inputs-my-clock.toml", "path": "inputs/My Clock.toml", "profile": "data-resource", "format": "toml", "mediatype": "application/toml", "encoding": "utf-8", "bytes": 3,
		 "hash": "sha256:ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"},
		{"name": "x", "path": "x.csv", "profile": "tabular-data-resource", "format": "csv", "mediatype": "text/csv", "encoding": "utf-8", "bytes": 7,
		 "hash": "sha256:HASH", "dialect": {"commentChar": "#", "lineTerminator": "\n", "header": true},
		 "schema": {"fields": [{"name": "a", "type": "number", "description": "length", "unit": "mm"}, {"name": "b", "type": "any", "description": "as it came in"}], "missingValues": [""]}}]}`
	var got, wanted any
	if err := json.Unmarshal([]byte(text), &got); err != nil {
		t.Fatal(err)
	}
	hash := got.(map[string]any)["resources"].([]any)[1].(map[string]any)["hash"].(string)
	if err := json.Unmarshal([]byte(strings.Replace(want, "sha256:HASH", hash, 1)), &wanted); err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(got, wanted) {
		t.Errorf("%s", text)
	}
}
