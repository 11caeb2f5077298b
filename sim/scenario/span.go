package scenario

import (
	"math"
	"strconv"
	"strings"

	"evenpull/sim/internal/document"
)

// span is the range of values that a key accepts. Every span is bounded, and
// every divisor's span keeps off zero, so that nothing computed from accepted
// values can overflow.
type span struct {
	lo, hi       float64
	above, below bool // lo, hi themselves are not accepted
}

func from(lo, hi float64) span       { return span{lo: lo, hi: hi} }
func fromBelow(lo, hi float64) span  { return span{lo: lo, hi: hi, below: true} }
func aboveUpTo(lo, hi float64) span  { return span{lo: lo, hi: hi, above: true} }
func upTo(characters int) span       { return span{lo: 1, hi: float64(characters)} }
func (s span) holds(v float64) bool  { return s.over(v) && s.under(v) }
func (s span) over(v float64) bool   { return v > s.lo || !s.above && v == s.lo }
func (s span) under(v float64) bool  { return v < s.hi || !s.below && v == s.hi }
func (s span) wholes(v float64) bool { return s.holds(v) && v == math.Trunc(v) }

// String is such as "from 0 to 60" or "above 0 and up to 45".
func (s span) String() string {
	lo, hi := document.Figure(s.lo), document.Figure(s.hi)
	switch {
	case s.above && s.below:
		return "above " + lo + " and below " + hi
	case s.above:
		return "above " + lo + " and up to " + hi
	case s.below:
		return "from " + lo + " to below " + hi
	}
	return "from " + lo + " to " + hi
}

// rounded writes a computed number to four figures.
func rounded(v float64) string {
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 4, 64), 64)
	if err != nil {
		return document.Figure(v)
	}
	return document.Figure(r)
}

// unitNames spells out the units that are not words already.
var unitNames = map[string]string{
	"mm": "millimetres", "g": "grams", "N": "newtons", "N·m": "newton metres",
	"deg": "degrees", "s": "seconds", "MPa": "megapascals", "GPa": "gigapascals",
	"m/s²": "metres per second squared", "kg/m³": "kilograms per cubic metre",
	"g·mm²": "gram square millimetres",
}

// ofUnit is " of millimetres", or nothing for a plain number.
func ofUnit(unit string) string {
	if long, ok := unitNames[unit]; ok {
		unit = long
	}
	if unit == "" {
		return ""
	}
	return " of " + unit
}

// accepts says what the key takes, after the word "want".
func (f *field) accepts() string {
	unit := ""
	if f.unit != "" {
		unit = " " + f.unit
	}
	switch f.kind {
	case number:
		return "a number " + f.span.String() + unit
	case whole:
		return "a whole number " + f.span.String() + unit
	case choice:
		return orList(quoted(f.choices))
	case name:
		return "a name of up to " + document.Figure(f.span.hi) + " letters, digits, - and _"
	case quantityKey:
		return "the KEY of a quantity, such as going.mainspring.thickness_mm"
	case flag:
		return "true or false"
	case list:
		return "a list of numbers " + f.span.String() + unit
	case places:
		return "three pairs or more of a turn and a number " + f.span.String() + unit + ", such as [[0, 18.0], [6.5, 22.6], [16, 36.0]]"
	case pair:
		return "two rising numbers " + f.span.String() + unit + ", such as " + f.example()
	}
	return "a text of 1 to " + document.Figure(f.span.hi) + " characters"
}

func (f *field) want() string { return "want " + f.accepts() }

// example is a pair that the key takes.
func (f *field) example() string {
	if r, ok := f.preset.(Range); ok {
		return r.toml()
	}
	return Range{0.4, 0.6}.toml()
}

func (r Range) toml() string {
	return "[ " + document.Exact(r.Lo) + ", " + document.Exact(r.Hi) + " ]"
}

func quoted(words []string) []string {
	q := make([]string, len(words))
	for i, w := range words {
		q[i] = strconv.Quote(w)
	}
	return q
}

// orList joins words as in "a, b or c".
func orList(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}
