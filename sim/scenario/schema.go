package scenario

import "math"

// The schema is one table of keys for each TOML table: key, type, unit, range,
// need, meaning and where the value goes. Reading, checking, --set, the
// defaults and the list of keys all walk it, so there is one set of rules.

// unset is a whole number that was not given.
const unset = math.MinInt

// kind is the type of a key.
type kind int

const (
	number      kind = iota // *float64
	whole                   // *int
	text                    // *string
	choice                  // *string, one of a few words
	name                    // *string, a word that can stand in a KEY
	list                    // *[]float64
	pair                    // *Range
	places                  // *[]Point
	flag                    // *bool
	quantityKey             // *string, the KEY of a quantity
)

// need tells what happens when a key is left out.
type need int

const (
	required need = iota
	optional      // nothing stands for it
	assumed       // a default stands for it, and is listed
)

// field is one key of a table.
type field struct {
	// What each check of a value reads, side by side.
	access
	span span // of a number; the greatest length of a text in hi
	need need
	kind kind

	key     string
	unit    string
	choices []string // of a choice
	meaning string

	// What people read: see words.go.
	phrase   string                                  // such as "thickness", or the whole when it has a {
	each     [2]string                               // phrases of the numbers in a list (the first) or a pair
	symbol   string                                  // "" for none
	usual    ReadingError                            // as the value is usually read
	usualFor func(t *Train, given bool) ReadingError // in place of usual, where it follows the train, nil being any, or is another for what was assumed

	names bool // of a list: its numbers name things and are no quantities

	// What stands for a key left out: preset, or what derive computes, when
	// when (nil: always) allows; or prose alone, the value staying NaN.
	preset  any
	derive  func(*Train) float64
	derived string // what derive computes, in words
	why     func(*Train) string
	stays   bool              // studies leave alone what was derived
	spare   func(*Train) bool // where a required key may be left out; nil: nowhere
	unsaid  bool              // its default is not listed as assumed: it goes without saying

	likely span // of clocks; where lo and hi are 0, any that span has
	when   func(*Train, any) bool
	prose  string
}

// access reaches a value in its table's struct.
type access struct {
	of  any                // func(*T) *V, the pointer to the value in the struct
	ref func(item any) any // the same for whoever does not know T and V
}

// table is one TOML table, or an array of tables when many is set.
type table struct {
	key      string
	many     bool
	least    int // of many
	limit    int // of many
	required bool
	apart    bool // of the scenario, not of the clock: its numbers are no quantities
	rules    bool // its defaults are rules and not listed as assumed of the clock
	meaning  string
	part     string // what it is a table of, as the words of its values name it
	general  string // the same of any item of many
	fields   []field
	subs     []*table
	label    func(item any) string // what a KEY calls an item of many; nil: its position
	binding
}

// binding reaches a table's struct from the struct of the table around it.
type binding struct {
	count func(parent any) int
	item  func(parent any, i int) any
	grow  func(parent any, n int)                   // nil when the struct is always there
	odd   func(item any, fields []field, j int) int // see odd
}

func embedded[P, T any](f func(*P) *T) binding {
	return binding{
		count: func(any) int { return 1 },
		item:  func(p any, _ int) any { return f(p.(*P)) },
		odd:   odd[T],
	}
}

func pointed[P, T any](f func(*P) **T) binding {
	return binding{
		count: func(p any) int {
			if *f(p.(*P)) == nil {
				return 0
			}
			return 1
		},
		item: func(p any, _ int) any { return *f(p.(*P)) },
		grow: func(p any, n int) {
			*f(p.(*P)) = nil
			if n > 0 {
				*f(p.(*P)) = new(T)
			}
		},
		odd: odd[T],
	}
}

func listed[P, T any](f func(*P) *[]T) binding {
	return binding{
		count: func(p any) int { return len(*f(p.(*P))) },
		item:  func(p any, i int) any { return &(*f(p.(*P)))[i] },
		grow:  func(p any, n int) { *f(p.(*P)) = make([]T, n) },
		odd:   odd[T],
	}
}

func at[T, V any](f func(*T) *V) access {
	return access{of: f, ref: func(p any) any { return f(p.(*T)) }}
}

func num[T any](key, unit string, s span, f func(*T) *float64, phrase, meaning string) field {
	return field{key: key, kind: number, unit: unit, span: s, access: at(f), phrase: phrase, meaning: meaning}
}

func count[T any](key string, s span, f func(*T) *int, phrase, meaning string) field {
	return field{key: key, kind: whole, span: s, access: at(f), phrase: phrase, meaning: meaning}
}

func word[T any](key string, f func(*T) *string, phrase, meaning string, choices ...string) field {
	return field{key: key, kind: choice, choices: choices, access: at(f), phrase: phrase, meaning: meaning}
}

func named[T any](key string, f func(*T) *string, phrase, meaning string) field {
	return field{key: key, kind: name, span: upTo(MaxName), access: at(f), phrase: phrase, meaning: meaning}
}

func truth[T any](key string, f func(*T) *bool, phrase, meaning string) field {
	return field{key: key, kind: flag, need: assumed, preset: false, access: at(f), phrase: phrase, meaning: meaning}
}

func both[T any](key, unit string, s span, f func(*T) *Range, phrase string, each [2]string, meaning string) field {
	return field{key: key, kind: pair, unit: unit, span: s, need: optional, access: at(f), phrase: phrase, each: each, meaning: meaning}
}

func (f field) optional() field { f.need = optional; return f }

func (f field) or(preset any) field { f.need, f.preset = assumed, preset; return f }

func (f field) orFrom(words string, derive func(*Train) float64) field {
	f.need, f.derived, f.derive = assumed, words, derive
	return f.since("from " + words)
}

func (f field) mostly(lo, hi float64) field { f.likely = from(lo, hi); return f }

func (f field) asRead() field { f.stays = true; return f }

func (f field) unless(spare func(*Train) bool) field { f.spare = spare; return f }

func (f field) goesUnsaid() field { f.unsaid = true; return f }

// practice is what stands behind a default that the trade uses and no source gives.
const practice = "common practice"

// since tells what stands behind the default: a source, or that there is none.
func (f field) since(why string) field { return f.sinceOf(func(*Train) string { return why }) }

func (f field) sinceOf(why func(*Train) string) field { f.why = why; return f }

func (f field) orNothing(prose string) field { f.need, f.prose = assumed, prose; return f }

func (f field) only(when func(*Train, any) bool) field { f.when = when; return f }

func (f field) as(symbol string) field { f.symbol = symbol; return f }

func (f field) known(e ReadingError) field { f.usual = e; return f }

func (f field) knownBy(of func(t *Train, given bool) ReadingError) field { f.usualFor = of; return f }

// field gives the key of this table called k, or nil.
func (t *table) field(k string) *field {
	for i := range t.fields {
		if t.fields[i].key == k {
			return &t.fields[i]
		}
	}
	return nil
}

// sub gives the table inside this one called k, or nil.
func (t *table) sub(k string) *table {
	for _, s := range t.subs {
		if s.key == k {
			return s
		}
	}
	return nil
}

// keys lists what the table may hold, in the order of the format.
func (t *table) keys() []string {
	keys := make([]string, 0, len(t.fields)+len(t.subs))
	for _, f := range t.fields {
		keys = append(keys, f.key)
	}
	for _, s := range t.subs {
		keys = append(keys, s.key)
	}
	return keys
}
