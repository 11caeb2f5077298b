package scenario

import (
	"math"
	"testing"

	"evenpull/sim/internal/document"
)

func TestSuggest(t *testing.T) {
	keys := []string{"width_mm", "thickness_mm", "length_mm", "kind"}
	for word, want := range map[string]string{
		"widht_mm": "width_mm", "Width_MM": "width_mm", "width": "width_mm", "thicknes_mm": "thickness_mm", "lenght_mm": "length_mm",
		"kin": "kind", "length_cm": "length_mm", "colour": "", "x": "", "": "", "mm": "",
	} {
		if got := suggest(word, keys); got != want {
			t.Errorf("%q: %q, want %q", word, got, want)
		}
	}
}

// TestDistance: the usual examples of the distance with adjacent swaps
// (optimal string alignment), from memory.
func TestDistance(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{{"kitten", "sitting", 3}, {"ca", "abc", 3}, {"ab", "ba", 1}, {"", "abc", 3}, {"same", "same", 0}, {"UP", "up", 0}} {
		if got := distance(c.a, c.b, 10); got != c.want {
			t.Errorf("%q %q: %d, want %d", c.a, c.b, got, c.want)
		}
		if got := distance(c.a, c.b, 1); got != min(1, c.want) {
			t.Errorf("%q %q beyond enough: %d", c.a, c.b, got)
		}
	}
}

func TestFigures(t *testing.T) {
	for v, want := range map[float64]string{0: "0", -3: "-3", 0.1: "0.1", 1e6: "1000000", 1e-9: "1e-09", 2.5e14: "2.5e+14", math.Inf(1): "inf", math.Inf(-1): "-inf"} {
		if got := document.Figure(v); got != want {
			t.Errorf("%v: %s, want %s", v, got, want)
		}
	}
	if document.Figure(math.NaN()) != "nan" || rounded(3.14159) != "3.142" || rounded(123456) != "123500" || rounded(math.Inf(1)) != "inf" {
		t.Error("rounded or not a number:", document.Figure(math.NaN()), rounded(3.14159), rounded(123456), rounded(math.Inf(1)))
	}
	for s, want := range map[span]string{
		{lo: 1, hi: 2, above: true, below: true}: "above 1 and below 2", from(1, 2): "from 1 to 2", fromBelow(1, 2): "from 1 to below 2", aboveUpTo(1, 2): "above 1 and up to 2",
	} {
		if s.String() != want || s.holds(1) == s.above || s.holds(2) == s.below || !s.holds(1.5) || s.holds(math.NaN()) {
			t.Error(s.String(), want)
		}
	}
}
