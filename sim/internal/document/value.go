package document

import (
	"math"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"evenpull/sim/internal/keyline"
)

// Describe names a TOML value after the word "found", cut short when it is long.
func Describe(v any) string {
	switch v := v.(type) {
	case string:
		return "the string " + strconv.Quote(keyline.Clip(v))
	case bool:
		return strconv.FormatBool(v)
	case int64:
		return strconv.FormatInt(v, 10)
	case float64:
		if v == math.Trunc(v) && math.Abs(v) < 1e9 {
			return strconv.FormatFloat(v, 'f', 1, 64)
		}
		return Figure(v)
	case time.Time:
		return "a date or time"
	case map[string]any:
		return "a table"
	case []map[string]any:
		return "an array of tables"
	}
	return "an array"
}

// Number takes a TOML integer or finite float; of anything else it gives NaN or
// what is not finite, and false.
func Number(v any) (float64, bool) {
	switch v := v.(type) {
	case int64:
		return float64(v), true
	case float64:
		return v, !math.IsNaN(v) && !math.IsInf(v, 0)
	}
	return math.NaN(), false
}

// Figure writes a number as one would type it, exactly.
func Figure(v float64) string {
	if a := math.Abs(v); a != 0 && (a < 1e-7 || a >= 1e12) || math.IsNaN(v) || math.IsInf(v, 0) {
		return strings.ToLower(strings.TrimPrefix(strconv.FormatFloat(v, 'g', -1, 64), "+"))
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// Unprintable gives the first character of a text that would upset a terminal
// or a page, or 0. A note may have lines, a title is one line.
func Unprintable(s string, lines bool) rune {
	for _, r := range s {
		if r >= ' ' && r < 0x7f || lines && (r == '\n' || r == '\r' || r == '\t') {
			continue
		}
		if unicode.IsControl(r) || r == utf8.RuneError {
			return r
		}
	}
	return 0
}

// DecimalComma tells whether a text is a number once its comma is a point.
func DecimalComma(text string) bool {
	_, err := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
	return err == nil && strings.Count(text, ",") == 1
}
