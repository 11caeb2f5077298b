// Package words makes the sentences that people read: the reasons of a verdict,
// what does not fit, what is worth knowing, what a study found and what is
// advised. It takes codes and figures and decides nothing.
package words

import (
	"fmt"
	"math"
	"strconv"
)

// Figure writes a number with three significant figures, whole parts whole,
// and never an exponent.
func Figure(v float64) string {
	a := math.Abs(v)
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return "–"
	case a < 1e-9: // rounding, for anything a clock has
		return "0"
	case a >= 99.95:
		return fmt.Sprintf("%.0f", v)
	case a >= 9.995:
		return fmt.Sprintf("%.1f", v)
	case a >= 0.9995:
		return fmt.Sprintf("%.2f", v)
	case a >= 0.09995:
		return fmt.Sprintf("%.3f", v)
	case a >= 0.009995:
		return fmt.Sprintf("%.4f", v)
	}
	decimals := 2 - int(math.Floor(math.Log10(a)))
	return strconv.FormatFloat(v, 'f', decimals, 64)
}

// Turns writes a number of turns to the hundredth, whole ones whole.
func Turns(turn float64) string {
	return strconv.FormatFloat(math.Round(turn*100)/100, 'f', -1, 64)
}
