package document

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

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
		return Figure(float64(v))
	case float64:
		if v == math.Trunc(v) && math.Abs(v) < 1e6 {
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

// Figure writes a number for a message: as one would type it, to six figures.
func Figure(v float64) string {
	short, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 6, 64), 64)
	if err != nil || short == v || math.IsNaN(v) {
		return Exact(v)
	}
	return "about " + Exact(short)
}

// Exact writes a number as one would type it, in full.
func Exact(v float64) string {
	if a := math.Abs(v); a != 0 && (a < 1e-7 || a >= 1e12) || math.IsNaN(v) || math.IsInf(v, 0) {
		return strings.ToLower(strings.TrimPrefix(strconv.FormatFloat(v, 'g', -1, 64), "+"))
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// Cure says how a text that is no number is to be typed to be one, such as "with a
// decimal point: 0.38"; "" when nothing makes it one.
func Cure(text string) string {
	plain := typedPlainly(text)
	how := "typed plainly: "
	if strings.Count(plain, ",") == 1 {
		plain, how = strings.Replace(plain, ",", ".", 1), "with a decimal point: "
	}
	if _, err := strconv.ParseFloat(plain, 64); err != nil || plain == text || len(plain) > keyline.MaxShown {
		return ""
	}
	return how + plain
}

// Swapped is a number as it was meant where two neighbouring digits of its text changed
// places: the first that fits; "" where none does.
func Swapped(text string, fits func(v float64) bool) string {
	for i := range text {
		k := i + 1
		if k < len(text) && text[k] == '.' {
			k++
		}
		if k >= len(text) || text[i] == '.' {
			continue
		}
		other := []byte(text)
		other[i], other[k] = other[k], other[i]
		if v, err := strconv.ParseFloat(string(other), 64); err == nil && fits(v) {
			return string(other)
		}
	}
	return ""
}

// CommaDecimals gives the first number of a list that was written with decimal commas,
// such as 0,54 in [ 0,54, 0,53 ], which TOML takes for 0, 54, 0 and 53; "" for a list
// that was not. Of whole numbers that are far apart in turn, but near each other taken two
// by two as decimals, it is nearly sure.
func CommaDecimals(items []any) string {
	lo, hi, low, high := math.Inf(1), 0.0, math.Inf(1), 0.0
	for i := 0; i+1 < len(items); i += 2 {
		a, b, ok := wholes(items[i], items[i+1])
		if !ok {
			return ""
		}
		lo, hi = min(lo, a, b), max(hi, a, b)
		joined, err := strconv.ParseFloat(fmt.Sprintf("%.0f.%.0f", a, b), 64)
		if err != nil {
			return ""
		}
		low, high = min(low, joined), max(high, joined)
	}
	if len(items) < 2 || len(items)%2 == 1 || len(items) == 2 && lo > 0 || hi < 3*lo || high > 2*low {
		return ""
	}
	return fmt.Sprintf("%d,%d", items[0], items[1])
}

func wholes(a, b any) (float64, float64, bool) {
	x, first := a.(int64)
	y, second := b.(int64)
	return float64(x), float64(y), first && second && x >= 0 && y >= 0
}
