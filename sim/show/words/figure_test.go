package words

import (
	"math"
	"strings"
	"testing"
)

func TestFigure(t *testing.T) {
	for v, want := range map[float64]string{
		0: "0", -3e-14: "0", 1234.5: "1234", 999.96: "1000", 99.96: "100", 12.345: "12.3", 9.996: "10.0", 1.2345: "1.23", 0.99951: "1.00",
		0.12345: "0.123", 0.099951: "0.100", 0.012345: "0.0123", 0.0012345: "0.00123", 5.7e-5: "0.0000570", -0.5: "-0.500", math.NaN(): "–", math.Inf(1): "–",
	} {
		if got := Figure(v); got != want {
			t.Errorf("Figure(%v) = %q, want %q", v, got, want)
		}
	}
}

func TestCaution(t *testing.T) {
	said := Caution(9.80665)
	for _, word := range []string{"9.81 J", "1.00 m", "let-down key", "winder", "eye protection", "never stand in line", "Local safety rules"} {
		if !strings.Contains(said, word) {
			t.Errorf("the caution lacks %q: %s", word, said)
		}
	}
}
