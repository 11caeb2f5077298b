package entry

import (
	"math"
	"strings"
	"testing"
)

func TestLastDigit(t *testing.T) {
	for text, want := range map[string]float64{"0.46": 0.01, "0.550": 0.001, "12": 1, "0.5, 0.46, 1": 0.01, "4.6e-1": 0.01, "4.6E+2": 10, "1_000.2_5": 0.01, "5e3": 1000, "-": math.NaN(), "": math.NaN(), "1e99999999999999999999": math.NaN()} {
		if got := LastDigit(text); !(math.Abs(got-want) < 1e-15) && !(math.IsNaN(got) && math.IsNaN(want)) {
			t.Errorf("%q: %v, want %v", text, got, want)
		}
	}
}

// TestDigitsOfAList: of the lists of a key alone, without what comments say, in its unit.
func TestDigitsOfAList(t *testing.T) {
	for text, want := range map[string]float64{
		"a = 0.123\nx = [ [0.5, 0.55],\n [0.1] ]\nb = 0.001": 0.01,
		"x = [ [0.5], # 0.001 ]\n [1] ]":                     0.1,
		"x_cnm = [ [50, 51] ]":                               0.01,
		"x_nm = [ [50.5] ]":                                  0.1,
		"\"x\" = [ [0.550] ]":                                0.001,
		"# x = [0.1]\nx = [ [1] ]":                           1,
		"x = [ ['-'] ]":                                      math.NaN(),
		"x = [ [0.5], # open at the end\n [0.25] ]":          0.01,
		"y = [ [0.5] ]":                                      math.NaN(),
	} {
		top, err := Read(strings.NewReader(text), "t", "a list")
		if err != nil {
			t.Fatal(err)
		}
		top.Unit("x", "x_nm")
		if got := top.LastDigit("x", "x_nm"); !(math.Abs(got-want) < 1e-15) && !(math.IsNaN(got) && math.IsNaN(want)) {
			t.Errorf("%q: %v, want %v", text, got, want)
		}
	}
}
