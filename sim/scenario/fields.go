package scenario

// Field describes one key of the format, for documentation.
type Field struct {
	Table   string // as its header: [train.barrel], [[train.mesh]]; "" at the top
	Key     string
	Unit    string // "" for none
	Type    string // number, whole number, text, name, choice, list, pair, KEY or true or false
	Default string // "required", "optional" or what stands for it
	Accepts string // such as "a number from 0 to 60 turns"
	Meaning string
}

// typeNames spells the kinds for Field.Type.
var typeNames = [...]string{
	number: "number", whole: "whole number", text: "text", choice: "choice", name: "name", list: "list", pair: "pair",
	quantityKey: "KEY", flag: "true or false",
}

// Fields lists every key of the format in its order.
func Fields() []Field {
	return root.describe("", nil)
}

func (t *table) describe(header string, all []Field) []Field {
	for i := range t.fields {
		f := &t.fields[i]
		all = append(all, Field{Table: header, Key: f.key, Unit: f.unit, Type: typeNames[f.kind],
			Default: f.standIn(), Accepts: f.accepts(), Meaning: f.meaning})
	}
	for _, s := range t.subs {
		all = s.describe(s.header(), all)
	}
	return all
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
