package scenario

import "strings"

// Field describes one key of the format.
type Field struct {
	Table   string       // as its header: [train.barrel], [[train.mesh]]; "" at the top
	Key     string       // in its table
	Words   string       // what it is in any train, to follow "the": thickness of the mainspring
	Symbol  string       // of the trade or the model; "" for none
	Unit    string       // "" for none
	Type    string       // number, whole number, text, name, choice, list, pair, pairs, KEY or true or false
	Default string       // "required", "optional" or what stands for it
	Accepts string       // such as "a number from 0 to 60 turns"
	Lo, Hi  float64      // the range of its numbers, 0 and 0 where there are none
	Usual   ReadingError // how far its numbers may be off as they are usually read
	Meaning string
}

// typeNames spells the kinds for Field.Type.
var typeNames = [...]string{
	number: "number", whole: "whole number", text: "text", choice: "choice", name: "name", list: "list", pair: "pair", places: "pairs",
	quantityKey: "KEY", flag: "true or false",
}

// Fields lists every key of the format in its order.
func Fields() []Field {
	return root.describe("", nil)
}

func (t *table) describe(header string, all []Field) []Field {
	for i := range t.fields {
		all = append(all, t.describeField(header, &t.fields[i]))
	}
	for _, s := range t.subs {
		all = s.describe(s.header(), all)
	}
	return all
}

func (t *table) describeField(header string, f *field) Field {
	d := Field{Table: header, Key: f.key, Words: t.generally(f), Symbol: f.symbol, Unit: f.unit, Type: typeNames[f.kind],
		Default: f.standIn(), Accepts: f.accepts(), Usual: f.readingError(nil, true), Meaning: f.meaning}
	switch f.kind {
	case number, whole, list, pair, places:
		d.Lo, d.Hi = f.span.lo, f.span.hi
	}
	return d
}

// Input describes the key of the format that has this name below a train or in the
// whole clock: mainspring.thickness_mm, mesh.efficiency, place.gravity_m_s2. It also
// tells whether there is such a key.
func Input(name string) (Field, bool) {
	for _, t := range []*table{root, trains} {
		parts := strings.Split(name, ".")
		for t != nil && len(parts) > 1 {
			t, parts = t.sub(parts[0]), parts[1:]
		}
		if t == nil {
			continue
		}
		if f := t.field(parts[0]); f != nil {
			header := ""
			if t != root {
				header = t.header()
			}
			return t.describeField(header, f), true
		}
	}
	return Field{}, false
}

// standIn says what happens when the key is left out.
func (f *field) standIn() string {
	switch {
	case f.need == required:
		return "required"
	case f.need == optional:
		return "optional"
	case f.prose != "":
		return f.prose
	case f.derive != nil:
		return f.derived
	}
	return toml(f.preset)
}
