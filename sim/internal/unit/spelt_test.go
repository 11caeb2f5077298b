package unit

import (
	"fmt"
	"testing"
)

// TestSpelt: each unit is read as it is told, and as people write it otherwise.
func TestSpelt(t *testing.T) {
	for _, c := range []struct {
		key, word, as string
		by            float64
	}{
		{"a_mm", "in", "a_in", 25.4}, {"a_mm", "Inches", "a_in", 25.4}, {"a_mm", `"`, "a_in", 25.4}, {"a_mm", "mm", "a_mm", 1}, {"a_in", "mm", "a_mm", 1 / 25.4},
		{"a_g", "kg", "a_kg", 1000}, {"a_nm", "cN·m", "a_cnm", 0.01}, {"a_nm", "Ncm", "", 0}, {"a_nm", "oz-in", "a_ozin", force / 16 * inch / 1000},
		{"a_deg", "°", "a_deg", 1}, {"a_s", "min", "a_min", 60}, {"a_mpa", "GPa", "a_gpa", 1000}, {"a_mm", "g", "", 0}, {"turns", "mm", "", 0}, {"a_mm", "", "", 0},
	} {
		if as, by := Spelt(c.key, c.word); as != c.as || by != c.by {
			t.Errorf("%s, %q: %s, %g", c.key, c.word, as, by)
		}
	}
	for _, units := range kinds {
		for _, u := range units {
			for _, word := range Words("x_" + u.name) {
				if as, _ := Spelt("x_"+u.name, word); as == "" {
					t.Errorf("%s: %s is not read", u.name, word)
				}
			}
		}
	}
	if got := fmt.Sprint(Words("a_nm"), Words("turns")); got != "[N·m mN·m cN·m kgf·cm oz·in lb·in] []" {
		t.Error(got)
	}
}
