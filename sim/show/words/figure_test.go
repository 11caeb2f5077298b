package words

import (
	"math"
	"testing"
)

func TestFigure(t *testing.T) {
	for v, want := range map[float64]string{
		0: "0", -3e-14: "0", 1234.5: "1234", 999.96: "1000", 99.96: "100", 12.345: "12.3", 9.996: "10.0", 1.2345: "1.23", 0.99951: "1.00",
		0.12345: "0.123", 0.099951: "0.100", 0.012345: "0.0123", 0.0012345: "0.00123", 5.7e-5: "0.0000570", 9.9996e-4: "0.00100", -0.5: "-0.500", math.NaN(): "–", math.Inf(1): "–",
	} {
		if got := Figure(v); got != want {
			t.Errorf("Figure(%v) = %q, want %q", v, got, want)
		}
	}
}

// One figure, two where the first is 1, and no less of a whole number.
// TestSigned: what rounds to nothing has no minus.
func TestSigned(t *testing.T) {
	for _, c := range []struct {
		v    float64
		want string
	}{{-2.1e-15, "+0.00"}, {-0.004, "+0.00"}, {-0.006, "−0.01"}, {0.126, "+0.13"}, {math.Copysign(0, -1), "+0.00"}} {
		if got := Signed(c.v, 2); got != c.want {
			t.Errorf("%v: %s, want %s", c.v, got, c.want)
		}
	}
}

// A part of an error that would not show in it is none.
func TestPart(t *testing.T) {
	same(t, []string{PartOf(0.5, 1), PartOf(0.0101, 1), PartOf(0.0099, 1), PartOf(0, 0), PartOf(math.NaN(), 1), PartOf(0.2, math.NaN())}, "0.500", "0.0101", "0", "0", "–", "0.200")
}

func TestAbout(t *testing.T) {
	for v, want := range map[float64]string{
		0: "0", 7.26: "7", 2.46: "2", 1.16: "1.2", 46.1: "50", 0.00532: "0.005", 0.0168: "0.017", 0.0196: "0.02", 1.94: "1.9", 0.97: "1.0", 0.94: "0.9", 144: "140", 951: "1000", -2.6: "-3", math.NaN(): "–",
	} {
		if got := About(v); got != want {
			t.Errorf("About(%v) = %q, want %q", v, got, want)
		}
	}
}

// In a sentence a number is a figure unless its verb says otherwise; where nothing
// holds nothing is said.
func TestSay(t *testing.T) {
	list := told{}
	list.when(false, "%v", 1.0)
	list.when(true, "%v of %.1f, %5.2f and %d %s (%v %%)", 1234.56, 2.25, -1.0, 3, "s", math.NaN())
	list.add("%v %v %v", 7, "text", []int{1})
	same(t, list, "1235 of 2.2, -1.00 and 3 s (– %)", "7 text [1]")
	same(t, []string{where(false, "%v", 1.0), where(true, "%v", 1.0), numbers(nil, 1), numbers([]int{4}, 0), numbers([]int{1, 2, 5}, 1)},
		"", "1.00", "", "4", "2, 3 and 6")
}
