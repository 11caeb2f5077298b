package text

import (
	"evenpull/sim/rules"
	"math"
	"strconv"
)

// Number is a JSON number; what is not finite does not apply and is null.
type Number float64

// MarshalJSON writes the shortest digits that give the number back.
func (n Number) MarshalJSON() ([]byte, error) {
	v := float64(n)
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return []byte("null"), nil
	}
	return strconv.AppendFloat(nil, v, 'g', -1, 64), nil
}

// Null is a quantity that does not apply.
var Null = Number(math.NaN())

// Code is a verdict for JSON: nil, which is null, when nothing was judged.
func Code(c rules.Code) *string {
	if c == rules.Unjudged {
		return nil
	}
	code := c.String()
	return &code
}

// Cell is a number for CSV; what does not apply is empty.
func Cell(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return ""
	}
	return strconv.FormatFloat(v, 'g', -1, 64)
}
