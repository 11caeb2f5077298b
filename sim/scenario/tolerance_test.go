package scenario

import (
	"math"
	"slices"
	"strings"
	"testing"
)

// withTolerance is the full scenario with a third tolerance, whose header is in
// line 169.
func withTolerance(t testing.TB, text string) string {
	return fullText(t) + "\n[[tolerance]]\n" + text
}

func TestToleranceOf(t *testing.T) {
	for _, c := range []struct {
		t           Tolerance
		value, want float64
	}{
		{Tolerance{PlusMinus: 0.01, Percent: notGiven}, 0.4, 0.01},
		{Tolerance{PlusMinus: notGiven, Percent: 2}, 0.5, 0.01},
		{Tolerance{PlusMinus: notGiven, Percent: 2}, -0.5, 0.01}, // impulse_late_deg may be below 0
		{Tolerance{PlusMinus: notGiven, Percent: 1000}, 3, 30},
	} {
		if e := c.t.Error(); math.Abs(e.half(c.value)-c.want) > 1e-15*c.want {
			t.Errorf("%+v of %v: %v, want %v", c.t, c.value, e.half(c.value), c.want)
		}
	}
}

// TestTolerancesRefused: all that is said of a third tolerance.
func TestTolerancesRefused(t *testing.T) {
	const known = "key = \"going.line.efficiency\"\n"
	for _, c := range []struct{ text, want string }{
		{known, ":180: tolerance.3.plus_minus: missing; want plus_minus or percent"},
		{known + "plus_minus = 1\npercent = 2", ":183: tolerance.3.percent: found together with plus_minus; want one of the two"},
		{known + "plus_minus = -1", ":182: tolerance.3.plus_minus: found -1; want a number from 0 to 1000000"},
		{known + "percent = 1001", ":182: tolerance.3.percent: found 1001; want a number above 0 and up to 1000 percent"},
		{known + `percent = "2"`, `:182: tolerance.3.percent: found the string "2"; want a number of percent without quotes`},
		{known + "percent = 2\nshape = \"flat\"", `:183: tolerance.3.shape: found "flat"; want "normal" or "uniform"`},
		{known + "per_cent = 2", ":182: tolerance.3.per_cent: unknown key; did you mean percent?"},
		{"percent = 2", ":180: tolerance.3.key: missing; want the KEY of a quantity, such as going.mainspring.thickness_mm"},
		{"key = \"\"\npercent = 2", `:181: tolerance.3.key: found ""; want the KEY of a quantity, such as going.mainspring.thickness_mm`},
		{"key = \"" + strings.Repeat("k", 401) + "\"\npercent = 2", ":181: tolerance.3.key: found 401 characters; want the KEY of a quantity, such as going.mainspring.thickness_mm"},
		{"key = \"going.line.thickness\"\npercent = 2", `:181: tolerance.3.key: found "going.line.thickness": unknown key; did you mean going.line.thickness_mm?`},
		{"key = \"going.mesh.centre.wheel\"\npercent = 2", `:181: tolerance.3.key: found "going.mesh.centre.wheel": what is no real number; want the key of a quantity that can vary`},
		{"key = \"going.line\"\npercent = 2", `:181: tolerance.3.key: found "going.line": the name of a table; want one of its keys: kind, thickness_mm, width_mm, efficiency, breaking_n, fleet_angle_max_deg`},
		{"key = \"going.fusee.diameters_mm\"\npercent = 2", `:181: tolerance.3.key: found "going.fusee.diameters_mm": several numbers; want the place of one after it, such as going.fusee.diameters_mm.0`},
		{"key = \"going.fusee.diameters_mm.17\"\npercent = 2", `:181: tolerance.3.key: found "going.fusee.diameters_mm.17": "17"; want a place from 0 to 16`},
		{"key = \"striking.fusee.diameters_mm.0\"\npercent = 2", `:181: tolerance.3.key: found "striking.fusee.diameters_mm.0": no value; want the whole list set first: a list of numbers from 0.5 to 2000 mm`},
		{"key = \"going.mainspring.free_coils\"\npercent = 2", `:181: tolerance.3.key: found "going.mainspring.free_coils": no value; want one set first: a number from 0 to 200 coils`},
		{"key = \"going.mainspring.thickness_mm\"\npercent = 2", `:181: tolerance.3.key: found "going.mainspring.thickness_mm" again; want each quantity once`},
		{"key = \"tolerance.1.plus_minus\"\npercent = 2", `:181: tolerance.3.key: found "tolerance.1.plus_minus": no quantity of the clock; want the key of a quantity that can vary`},
		{"key = \"tolerance.4.key\"\npercent = 2", `:181: tolerance.3.key: found "tolerance.4.key": no quantity of the clock; want the key of a quantity that can vary`},
		{"key = \"going.mesh.centre.drag_nm\"\npercent = 2", ":182: tolerance.3.percent: found 2 of a value that is 0; want plus_minus: a percentage of 0 is nothing"},
	} {
		if _, err := read(withTolerance(t, c.text)); message(err) != "clock.toml"+c.want {
			t.Errorf("got\n%v\nwant\nclock.toml%s", err, c.want)
		}
	}
	for _, text := range []string{"key = \"going.mesh.centre.drag_nm\"\nplus_minus = 0.001", "key = \"place.gravity_m_s2\"\npercent = 0.3",
		"key = \"striking.demand.torque_band_nm.1\"\nplus_minus = 1e6\nshape = \"uniform\"", "key = \"striking.strike.hammers.1.spring_n\"\npercent = 1000"} {
		mustRead(t, withTolerance(t, text))
	}
}

// TestTolerancesAndOtherFaults: a fault is told once, not again for each
// tolerance that it leaves without a quantity.
func TestTolerancesAndOtherFaults(t *testing.T) {
	text := withTolerance(t, "key = \"going.mesh.centre.efficiency\"\npercent = 1")
	for _, c := range []struct{ old, with, want string }{
		{`name = "going"`, `name = ""`, `:17: train.#1.name: found ""; want a name of up to 64 letters, digits, - and _`},
		{"thickness_mm = 0.40", "", ":20: going.mainspring.thickness_mm: missing; want a number from 0.02 to 10 mm"},
		{`drives = "centre"`, `drives = "the centre"`, `:60: going.mesh.#1.drives: found "the centre"; want a name of up to 64 letters, digits, - and _`},
		{"pitch_mm = 2.4\n\n", "pitch_mm = 0\n\n", ":122: striking.fusee.pitch_mm: found 0; want a number from 0.1 to 100 mm"},
	} {
		if _, err := read(strings.Replace(text, c.old, c.with, 1)); message(err) != "clock.toml"+c.want {
			t.Errorf("got\n%v\nwant\nclock.toml%s", err, c.want)
		}
	}
	for _, wrong := range []string{"going.mesh.center", "gong.mesh.centre"} { // a fault of its own
		_, err := read(strings.Replace(strings.Replace(text, "lay_mm = 2.0", "lay_mm = 0", 1), "going.mesh.centre", wrong, 1))
		want := "clock.toml:37: going.barrel.lay_mm: found 0; want a number from 0.1 to 100 mm\n" +
			`clock.toml:181: tolerance.3.key: found "` + wrong + `.efficiency": unknown key; did you mean going.mesh.centre.efficiency?`
		if message(err) != want {
			t.Errorf("got\n%v\nwant\n%s", err, want)
		}
	}
	if _, err := read(strings.Repeat("[[tolerance]]\n", 257) + fullText(t)[:strings.LastIndex(fullText(t), "[[tolerance]]")]); err == nil ||
		!strings.Contains(err.Error(), "tolerance: found 258 tables; want at most 256") {
		t.Error(err)
	}
}

func TestTolerancesAreNoQuantities(t *testing.T) {
	s := mustRead(t, fullText(t))
	if i := slices.IndexFunc(s.Quantities(), func(q Quantity) bool { return strings.HasPrefix(q.Key, "tolerance") }); i >= 0 {
		t.Error(s.Quantities()[i])
	}
	if got := assumedOf(s, "tolerance"); got != `.1.shape = "normal"` {
		t.Error(got)
	}
	c := s.Clone()
	c.Tolerances[0].PlusMinus = 1
	if s.Tolerances[0].PlusMinus != 0.01 {
		t.Error("a clone shares its tolerances")
	}
	if _, err := read(strings.Replace(fullText(t), `name = "striking"`, `name = "tolerance"`, 1)); message(err) !=
		`clock.toml:96: train.#2.name: found "tolerance"; want another name: tolerance names something else in the scenario` {
		t.Error(err)
	}
}
