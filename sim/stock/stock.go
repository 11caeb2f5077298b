// Package stock reads a list of mainsprings that can be had, from TOML or CSV (RFC 4180), and
// checks it: labels that stand twice, sizes out of their range, and text that cannot be
// printed are faults, which come back all at once.
//
// Each field name ends in its unit just as its key does, also where the file has another unit
// of the kind (thickness_in), and the comment has its range, ends included. A number that was
// not given is NaN. End shake is the room beside the strip between the caps of the barrel, some
// of which spacers may take up.
package stock

import (
	"fmt"
	"math"

	"evenpull/sim/internal/entry"
)

// MaxSprings is the greatest number of springs in a list.
const MaxSprings = 5000

// EndShakeMM is the room (mm) left between spring and spacers together and the
// caps of the barrel when a list says nothing else (common practice, no source).
const EndShakeMM = 1.0

// Stock is a list of springs.
type Stock struct {
	Title      string  // "" when there is none
	EndShakeMM float64 // 0 to 20; EndShakeMM when not given
	Springs    []Spring
	Source     string // names the file in messages
}

// Spring is a strip as it is sold.
type Spring struct {
	Label       string  // no other has it
	WidthMM     float64 // 0.5 to 500
	ThicknessMM float64 // 0.02 to 10
	LengthMM    float64 // 20 to 100 000
	YieldMPa    float64 // 50 to 5000; NaN unless given
	ModulusGPa  float64 // 10 to 500; NaN unless given
	MayBeCut    bool
	Quantity    int    // how many there are, 1 to 100 000; 0 unless given
	Price       string // of one, with its currency, as the list has it; "" unless given
}

// MostOf is the greatest quantity of one spring.
const MostOf = 100000

// number is a quantity of a spring: an input of scenarios, with its range and words.
type number struct {
	key      string
	within   entry.Within
	optional bool
	at       func(*Spring) *float64
}

func of(key string, at func(*Spring) *float64) number {
	return number{key: key, within: entry.Input("mainspring." + key), at: at}
}

func (n number) orNone() number { n.optional = true; return n }

var numbers = []number{
	of("width_mm", func(s *Spring) *float64 { return &s.WidthMM }),
	of("thickness_mm", func(s *Spring) *float64 { return &s.ThicknessMM }),
	of("length_mm", func(s *Spring) *float64 { return &s.LengthMM }),
	of("yield_mpa", func(s *Spring) *float64 { return &s.YieldMPa }).orNone(),
	of("modulus_gpa", func(s *Spring) *float64 { return &s.ModulusGPa }).orNone(),
}

// names are the keys of a spring in the order in which messages list them.
var names = keys()

const (
	labelKey = 0
	least    = 4 // names that have to be given, the first of them
)

// The last are these, after the numbers.
var (
	cutKey      = 1 + len(numbers)
	quantityKey = cutKey + 1
	priceKey    = cutKey + 2
)

func keys() []string {
	all := []string{"label"}
	for _, n := range numbers {
		all = append(all, n.key)
	}
	return append(all, "may_be_cut", "quantity", "price")
}

// ShakeRange is the end shake (mm) that is accepted, its ends included.
func ShakeRange() (lo, hi float64) { return shakeRange.Lo, shakeRange.Hi }

var shakeRange = entry.Range(0, 20, "mm")

// wanted is what an empty list lacks.
const wanted = "want at least one spring: its label, width_mm, thickness_mm and length_mm"

// labels tells on which line each label stands.
type labels map[string]int

// again notes a label and gives the fault of one that an earlier spring has; "" for
// none, and for a label that is at fault itself.
func (l labels) again(label string, line int) (found, want string) {
	before, twice := l[label]
	switch {
	case label == "":
		return "", ""
	case twice:
		return fmt.Sprintf("found %q a second time, after line %d", label, before), "want a label of its own for each spring"
	}
	l[label] = line
	return "", ""
}

// blank is a spring of which nothing is known yet.
func blank() Spring {
	nan := math.NaN()
	return Spring{WidthMM: nan, ThicknessMM: nan, LengthMM: nan, YieldMPa: nan, ModulusGPa: nan, MayBeCut: true}
}
