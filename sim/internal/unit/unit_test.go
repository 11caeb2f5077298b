package unit

import (
	"fmt"
	"math"
	"testing"
)

// NIST SP 811 (2008, B.8 and table 6; values from memory of the printed book): the inch is
// 25.4 mm, the pound 0.45359237 kg, the ounce a sixteenth of it and standard gravity
// 9.80665 m/s², all exactly; what is made of them follows, to the figures printed there.
func TestFactors(t *testing.T) {
	for _, c := range []struct {
		from, to string
		want     float64
		share    float64 // of it that the figures printed leave open
	}{
		{"a_in", "a_mm", 25.4, 0}, {"a_cm", "a_mm", 10, 0}, {"a_m", "a_mm", 1000, 0}, {"a_mm", "a_m", 1e-3, 0},
		{"a_lb", "a_g", 453.59237, 0}, {"a_lb", "a_kg", 0.45359237, 0}, {"a_oz", "a_g", 453.59237 / 16, 0}, {"a_lb", "a_oz", 16, 0},
		{"a_kgf", "a_n", 9.80665, 0}, {"a_lbf", "a_n", 4.4482216152605, 1e-15},
		{"a_cnm", "a_nm", 0.01, 0}, {"a_mnm", "a_nm", 1e-3, 0}, {"a_kgfcm", "a_nm", 9.80665e-2, 1e-15},
		{"a_ozin", "a_nm", 7.061552e-3, 5e-8}, {"a_lbin", "a_nm", 1.129848e-1, 5e-7}, {"a_lbin", "a_ozin", 16, 1e-15},
		{"a_ksi", "a_mpa", 6.894757, 5e-8}, {"a_gpa", "a_mpa", 1000, 0}, {"a_rad", "a_deg", 180 / math.Pi, 0},
		{"a_min", "a_s", 60, 0}, {"a_h", "a_min", 60, 0},
	} {
		if got := Factor(c.from, c.to); !(math.Abs(got-c.want) <= c.share*c.want) {
			t.Errorf("%s to %s: %.17g, want %.17g", c.from, c.to, got, c.want)
		}
	}
}

func TestNoFactor(t *testing.T) {
	for _, keys := range [][2]string{
		{"a_mm", "a_mm"}, {"a_mm", "b_mm"}, {"a_mm", "a_g"}, {"a", "a_mm"}, {"mm", "in"}, {"_mm", "_in"}, {"a_mm2", "a_in"},
		{"gravity_m_s2", "gravity_in_s2"}, {"inertia_g_mm2", "inertia_kg_mm2"},
	} {
		if got := Factor(keys[0], keys[1]); got != 0 {
			t.Errorf("%v: %g", keys, got)
		}
	}
}

// A number that was found goes with the key that it is one of, rounded or not.
func TestFound(t *testing.T) {
	for found, want := range map[string]string{
		"found 0.8; more": "found 0.8 (a_mm); more", "found about 61.5833": "found about 61.5833 (a_mm)", "found -1e-05, which": "found -1e-05 (a_mm), which",
		`found the string "3"`: `found the string "3"`, "missing": "missing",
	} {
		if got := Found(found, "a_mm"); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
}

func TestUnify(t *testing.T) {
	tree := map[string]any{"a_in": int64(2), "b_cm": []any{1.5, []any{int64(2)}, "x"}, "c_m": true, "d_mm": 1.0, "d_in": 1.0, "e": 3.0, "f_mm": 4.0}
	as := Unify(tree, []string{"a_mm", "b_mm", "c_mm", "d_mm", "e", "f_mm"})
	if got := fmt.Sprint(tree); got != "map[a_mm:50.8 b_mm:[15 [20] x] c_mm:true d_in:1 d_mm:1 e:3 f_mm:4]" {
		t.Error(got)
	}
	if got := fmt.Sprint(as); got != "map[a_mm:a_in b_mm:b_cm c_mm:c_m]" {
		t.Error(got)
	}
	if as := Unify(map[string]any{"a_mm": 1.0}, []string{"a_mm"}); as != nil {
		t.Error(as)
	}
}

// Two keys in other units than the one wanted: the first to be met stands, the other is
// left where it was, to be told of as unknown.
func TestUnifyTwice(t *testing.T) {
	tree := map[string]any{"a_in": 1.0, "a_cm": 2.54}
	Unify(tree, []string{"a_mm"})
	if len(tree) != 2 || tree["a_mm"] != 25.4 {
		t.Error(tree)
	}
}

// There and back again no value moves by more than a rounding.
func TestThereAndBack(t *testing.T) {
	for _, units := range kinds {
		for _, a := range units {
			for _, b := range units {
				from, to := "x_"+a.name, "x_"+b.name
				if a.name != b.name && math.Abs(Factor(from, to)*Factor(to, from)-1) > 3e-16 {
					t.Errorf("%s, %s: %g", from, to, Factor(from, to)*Factor(to, from)-1)
				}
			}
		}
	}
}
