package words

import (
	"fmt"
	"math"
	"strings"
)

// Two is a number with two decimals; what does not apply is a dash.
func Two(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "–"
	}
	if math.Abs(v) < 0.005 {
		v = 0 // and not −0
	}
	return fmt.Sprintf("%.2f", v)
}

// Percent is a share in percent, to three figures.
func Percent(share float64) string { return Share(share) + " %" }

// Share is a share in percent without the sign. What is less than 0.01 % is only
// called that: no clock knows it better.
func Share(share float64) string {
	if a := math.Abs(share); a > 0 && a < 1e-4 {
		return "< 0.01"
	}
	return Figure(100 * share)
}

// Minus writes the sign of a negative number as wide as a plus.
func Minus(s string) string { return strings.Replace(s, "-", "−", 1) }

// Count is a number of things, which take an s when there are several.
func Count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}
