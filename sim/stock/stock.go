// Package stock reads a list of mainsprings that can be had, from TOML or CSV,
// and checks it.
//
// Quantities keep the units of the file: each field name ends in its unit just as
// its key does. A number that was not given is NaN.
package stock

import (
	"fmt"
	"math"

	"evenpull/sim/internal/entry"
	"evenpull/sim/scenario"
)

// MaxSprings is the greatest number of springs in a list.
const MaxSprings = 5000

// EndShakeMM is the room (mm) left between spring and spacers together and the
// caps of the barrel when a list says nothing else (common practice, no source).
const EndShakeMM = 1.0

const (
	maxTitle = 200 // characters
	maxLabel = 64
)

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
}

// The keys of a spring, in the order in which messages list them.
const (
	labelKey = iota
	widthKey
	thicknessKey
	lengthKey
	yieldKey
	modulusKey
	cutKey
	keys
)

var names = [keys]string{"label", "width_mm", "thickness_mm", "length_mm", "yield_mpa", "modulus_gpa", "may_be_cut"}

// ranges are those of the same quantities in a scenario.
var ranges = [keys]entry.Within{
	widthKey: entry.Range(0.5, 500, "mm"), thicknessKey: entry.Range(0.02, 10, "mm"), lengthKey: entry.Range(20, 1e5, "mm"),
	yieldKey: entry.Range(50, 5000, "MPa"), modulusKey: entry.Range(10, 500, "GPa"),
}

// ShakeRange is the end shake (mm) that is accepted, its ends included.
func ShakeRange() (lo, hi float64) { return shakeRange.Lo, shakeRange.Hi }

var shakeRange = entry.Range(0, 20, "mm")

// optional tells whether a number may be left out.
func optional(key int) bool { return key == yieldKey || key == modulusKey }

// at is where the number of a key stands in a spring.
func (s *Spring) at(key int) *float64 {
	switch key {
	case widthKey:
		return &s.WidthMM
	case thicknessKey:
		return &s.ThicknessMM
	case lengthKey:
		return &s.LengthMM
	case yieldKey:
		return &s.YieldMPa
	}
	return &s.ModulusGPa
}

// wanted is what an empty list lacks.
const wanted = "want at least one spring: its label, width_mm, thickness_mm and length_mm"

// again is the fault of a label that an earlier spring has.
func again(label string, first int) (found, want string) {
	return fmt.Sprintf("found %q a second time, after line %d", label, first), "want a label of its own for each spring"
}

// blank is a spring of which nothing is known yet.
func blank() Spring {
	nan := math.NaN()
	return Spring{WidthMM: nan, ThicknessMM: nan, LengthMM: nan, YieldMPa: nan, ModulusGPa: nan, MayBeCut: true}
}

// wrongLabel tells what is wrong with a label, "" when nothing is.
func wrongLabel(s string) string {
	switch n := len([]rune(s)); {
	case n > maxLabel:
		return fmt.Sprintf("found %d characters", n)
	case scenario.Unprintable(s) != 0:
		return fmt.Sprintf("found the control character %q", scenario.Unprintable(s))
	}
	return ""
}

var wantLabel = fmt.Sprintf("want a text of 1 to %d characters", maxLabel)
