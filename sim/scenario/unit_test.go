package scenario

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"evenpull/sim/internal/unit"
)

var (
	keyed  = regexp.MustCompile(`([a-z_]+_[a-z]+)( *= *)(-?[0-9.]+|\[[-0-9., \n]*\])`)
	figure = regexp.MustCompile(`-?[0-9]+(\.[0-9]+)?`)
)

// others are the units of one kind with a unit, as the format lists them.
func others(suffix string) []string {
	for _, kind := range []string{"mm cm m in", "g kg oz lb", "nm mnm cnm kgfcm ozin lbin", "n kgf lbf", "mpa gpa ksi", "deg rad", "s min h"} {
		if units := strings.Fields(kind); slices.Contains(units, suffix) {
			return slices.DeleteFunc(units, func(u string) bool { return u == suffix })
		}
	}
	return nil
}

// inOther writes one value of a text, or the numbers of its list, under another key of the
// same quantity.
func inOther(text string, at []int, key, other string) string {
	value := figure.ReplaceAllStringFunc(text[at[6]:at[7]], func(s string) string {
		v, _ := strconv.ParseFloat(s, 64)
		return strconv.FormatFloat(v*unit.Factor(key, other), 'g', -1, 64)
	})
	return text[:at[2]] + other + text[at[4]:at[5]] + value + text[at[7]:]
}

// Every key with a unit, in each of the other units of its kind, gives the same scenario to
// a rounding.
func TestEveryUnit(t *testing.T) {
	text := fullText(t)
	s := mustRead(t, text)
	want := s.Quantities()
	seen := map[string]bool{}
	for _, at := range keyed.FindAllStringSubmatchIndex(text, -1) {
		key := text[at[2]:at[3]]
		stem, suffix := key[:strings.LastIndexByte(key, '_')+1], key[strings.LastIndexByte(key, '_')+1:]
		for _, other := range others(suffix) {
			other = stem + other
			again, err := read(inOther(text, at, key, other))
			if err != nil {
				t.Errorf("%s for %s: %v", other, key, err)
				continue
			}
			got := again.Quantities()
			if len(got) != len(want) {
				t.Fatalf("%s: %d quantities, want %d", other, len(got), len(want))
			}
			for i := range want {
				a, _ := s.Value(want[i].Key)
				b, err := again.Value(got[i].Key)
				if err != nil || got[i].Key != want[i].Key || !(math.Abs(*a-*b) <= 4e-16*math.Abs(*a)) || got[i].Given != want[i].Given {
					t.Errorf("%s: %s is %v, want %v, given %v", other, got[i].Key, *b, *a, got[i].Given)
				}
			}
			seen[other] = true
		}
	}
	if len(seen) < 80 {
		t.Errorf("only %d keys", len(seen))
	}
}

// A fault of what is written in another unit is told under the key of the file, on its
// line, with the value in the unit of the range.
func TestBrokenUnits(t *testing.T) {
	for _, c := range []struct{ new, want string }{
		{"thickness_in = 0.8", "22: going.mainspring.thickness_in: found 20.32 (thickness_mm); want a number from 0.02 to 10 mm; is it thickness_mm = 0.8?"},
		{"thickness_in = \"0.0157\"", "22: going.mainspring.thickness_in: found the string \"0.0157\"; want a number of millimetres without quotes"},
		{"thickness_in = 0.0157\nthickness_mm = 0.4", "22: going.mainspring.thickness_in: found thickness_in beside thickness_mm, which it is in another unit; want one of them"},
		{"thickness_in = 0.0157\nthickness_cm = 0.04", "22: going.mainspring.thickness_in: found thickness_in beside thickness_mm, which it is in another unit; want one of them"},
		{"thickness_mm = 0.4\nthickness_g = 0.4", "23: going.mainspring.thickness_g: unknown key; want thickness_mm, or in another unit thickness_cm, thickness_m or thickness_in"},
	} {
		_, err := read(edited(t, edit{1, "thickness_mm = 0.40", c.new}))
		if got := message(err); got != "clock.toml:"+c.want {
			t.Errorf("%s: got %s\nwant %s", c.new, got, c.want)
		}
	}
	text := strings.Replace(fullText(t), "diameters_mm", "diameters_m", 1)
	first, _, _ := strings.Cut(message(second(read(text))), "\n")
	if !regexp.MustCompile(`^clock.toml:[0-9]+: going.fusee.diameters_m.[0-9]+: found [0-9.]+ \(diameters_mm.[0-9]+\); want numbers from`).MatchString(first) {
		t.Error(first)
	}
}

func second(_ *Scenario, err error) error { return err }

// --set, KEYs and tolerances take any unit; what the format has stays one.
func TestSetInUnits(t *testing.T) {
	s := mustRead(t, fullText(t))
	if err := s.Apply([]string{"going.mainspring.thickness_in=0.0165", "going.fusee.diameters_cm.3=1.91", "going.barrel.inside_height_in=1.7"}); err != nil {
		t.Fatal(err)
	}
	g := &s.Trains[0]
	if g.Mainspring.ThicknessMM != 0.0165*25.4 || math.Abs(g.Fusee.DiametersMM[3]-19.1) > 4e-15 || g.Barrel.InsideHeightMM != 1.7*25.4 {
		t.Error(g.Mainspring.ThicknessMM, g.Fusee.DiametersMM[3], g.Barrel.InsideHeightMM)
	}
	if err := s.SetNumber("going.mainspring.thickness_in", 0.016); err != nil || g.Mainspring.ThicknessMM == 0 || s.Trains[0].Mainspring.ThicknessMM != 0.016*25.4 {
		t.Error(err, s.Trains[0].Mainspring.ThicknessMM)
	}
	for key, want := range map[string]string{"going.mainspring.thickness_in": "going.mainspring.thickness_mm 25.4", "going.fusee.diameters_cm.3": "going.fusee.diameters_mm.3 10",
		"going.mainspring.thickness_mm": "going.mainspring.thickness_mm 1", "none": "none 1"} {
		got, by := s.InUnit(key)
		if fmt.Sprint(got, " ", by) != want {
			t.Errorf("%s: %s %g", key, got, by)
		}
	}
	if _, err := s.Value("going.mainspring.thickness_in"); !strings.Contains(message(err), "found another unit; want going.mainspring.thickness_mm") {
		t.Error(err)
	}
	err := s.Apply([]string{"going.mainspring.thickness_in=0.42"})
	if got := message(err); !strings.HasPrefix(got, "--set going.mainspring.thickness_in: going.mainspring.thickness_mm: found 10.668") || !strings.Contains(got, "want a number from 0.02 to 10 mm") {
		t.Error(got)
	}
	s = mustRead(t, strings.NewReplacer(`"going.mainspring.thickness_mm"`, `"going.mainspring.thickness_in"`, "plus_minus = 0.01", "plus_minus = 0.0005").Replace(fullText(t)))
	if tol := s.Tolerances[0]; tol.Key != "going.mainspring.thickness_mm" || tol.PlusMinus != 0.0005*25.4 {
		t.Errorf("%+v", tol)
	}
}

// A value that stands in another unit is written in that of its key, which takes its place.
func TestEditInUnits(t *testing.T) {
	text := edited(t, edit{1, "thickness_mm", "thickness_in"}, edit{1, "= 0.4", "= 0.0158"})
	edited, err := Edit(text, []Change{{"going.mainspring.thickness_mm", 0.41, "fitted"}})
	if err != nil || strings.Contains(edited, "thickness_in") || mustRead(t, edited).Trains[0].Mainspring.ThicknessMM != 0.41 {
		t.Error(err)
	}
}
