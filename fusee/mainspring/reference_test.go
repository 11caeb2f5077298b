package mainspring

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
)

// SciPy integrates the same springs by brute force, from the definition alone:
// testdata/spring_reference.py made the figures.
func TestAgainstSciPy(t *testing.T) {
	f, err := os.Open("../../testdata/spring_reference.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	if err != nil || len(lines) < 30 {
		t.Fatalf("%d lines, %v", len(lines), err)
	}
	for _, line := range lines[1:] {
		v := make([]float64, len(line))
		for i := range line {
			v[i], _ = strconv.ParseFloat(line[i], 64) // NaN and 0 for the two texts
		}
		s := Strip{Width: v[1], Thickness: v[2], Length: v[3], Modulus: 206 * GPa, Bending: Narrow}
		switch line[6] {
		case "coils":
			s.Form, s.FreeCoils = Even, v[7]
		case "set":
			s.Form, s.Yield = Set, v[7]
		}
		c := mustCurve(t, s, Housing{Arbor: v[4], Inside: v[5]})
		couple, turns, energy := v[8], v[9], v[10]
		if math.Abs(c.Wound(couple)-turns) > 1e-9*c.Turns() {
			t.Errorf("%s: %g N·m at %.12g turns, SciPy has %.12g", line[0], couple, c.Wound(couple), turns)
		}
		if turns == 0 {
			continue // pressed to the wall: any couple up to this one
		}
		closeTo(t, line[0]+": couple", c.Couple(turns), couple, 1e-8)
		closeTo(t, line[0]+": energy", c.Energy(turns), energy, 1e-8)
	}
}
