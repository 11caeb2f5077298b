package words

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"evenpull/sim/outcome"
	"evenpull/sim/scenario"
)

const mm = 1e3 // in a metre

// Figure writes three significant figures, whole parts whole, and never an exponent.
func Figure(v float64) string {
	a := math.Abs(v)
	switch {
	case unknown(v):
		return "–"
	case a < 1e-9: // rounding, for anything a clock has
		return "0"
	}
	// From 0.9995 of a power of ten on, three figures round to that power.
	decimals := 2 - int(math.Floor(math.Log10(a/0.9995)))
	return strconv.FormatFloat(v, 'f', max(decimals, 0), 64)
}

// About writes one significant figure, or two where the first is 1: for an error, and for
// what its spread leaves known no better.
func About(v float64) string {
	if unknown(v) || math.Abs(v) < 1e-9 {
		return Figure(v)
	}
	decimals := -int(math.Floor(math.Log10(math.Abs(v) / 0.95)))
	if unit := math.Pow10(-decimals); math.Abs(v) < 1.95*unit {
		decimals++
	}
	scale := math.Pow10(decimals)
	return strconv.FormatFloat(math.Round(v*scale)/scale, 'f', max(decimals, 0), 64)
}

// PartOf is what a cause makes of an error; 0 where that is less than a hundredth of it, which
// taken away would not show.
func PartOf(v, of float64) string {
	return Either(math.Abs(v) < 0.01*of, "0", Figure(v))
}

func unknown(v float64) bool { return math.IsNaN(v) || math.IsInf(v, 0) }

// Two is a number with two decimals; what does not apply is a dash.
func Two(v float64) string {
	if math.Abs(v) < 0.005 {
		v = 0 // and not −0
	}
	return Either(unknown(v), "–", fmt.Sprintf("%.2f", v))
}

// Turns writes a number of turns to the hundredth, whole ones whole.
func Turns(turn float64) string { return typed(math.Round(turn*100) / 100) }

// typed is a number as one would type it.
func typed(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// Percent is a share in percent, to three figures.
func Percent(share float64) string { return Share(share) + " %" }

// Share is a share in percent without the sign. What is less than 0.01 % is only
// called that: no clock knows it better.
func Share(share float64) string {
	a := math.Abs(share)
	return Either(a > 0 && a < 1e-4, "< 0.01", Figure(100*share))
}

// Minus writes the sign of a negative number as wide as a plus.
func Minus(s string) string { return strings.Replace(s, "-", "−", 1) }

// Signed is a number with its sign, even a plus, and so many decimals; what rounds to 0 has a plus.
func Signed(v float64, decimals int) string {
	if math.Abs(v) < math.Pow10(-decimals)/2 {
		v = 0 // and not −0
	}
	return Minus(fmt.Sprintf("%+.*f", decimals, v))
}

// united is a number with its unit, if it has one.
func united(number, unit string) string { return strings.TrimSpace(number + " " + unit) }

// Degrees is an angle in rad as degrees.
func Degrees(rad float64) float64 { return rad * 180 / math.Pi }

// Value is a result as people read it, without its unit: see ValueUnit.
func Value(q *outcome.Quantity, v float64) string { return Either(q.Share, Share(v), Figure(v)) }

// ValueUnit is the unit that goes with Value; "" for none.
func ValueUnit(q *outcome.Quantity) string { return Either(q.Share, "%", q.Unit) }

// Valued is a result with its unit.
func Valued(q *outcome.Quantity, v float64) string { return united(Value(q, v), ValueUnit(q)) }

// Changed is a change of a result, with its sign, and a share with its unit; without a value it is that
// of a train that cannot be built.
func Changed(q *outcome.Quantity, v float64) string {
	change := where(v > 0, "+") + Minus(Figure(q.Shown(v))) + where(q.Share, " %%")
	return Either(math.IsNaN(v), "not built", change)
}

// Input is the name of an input, in its words, without the train that is named already.
func Input(words, train string) string {
	s := strings.TrimSuffix(words, " of the "+train+" train")
	return strings.Replace(s, " the "+train+" ", " the ", 1)
}

// InputLabel is the name of an input with its unit, for axes and headings.
func InputLabel(q *scenario.Quantity) string { return q.Words + where(q.Unit != "", ", %s", q.Unit) }
