package scenario

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"evenpull/sim/internal/document"
	"evenpull/sim/internal/keyline"
)

func (tr *trail) fusee(f *Fusee) {
	if !tr.sound("profile") {
		return
	}
	switch f.Profile {
	case Measured:
		tr.unwanted("small_diameter_mm", Given(f.SmallDiameterMM), "diameters_mm is given instead")
		tr.unwanted("large_diameter_mm", Given(f.LargeDiameterMM), "diameters_mm is given instead")
		tr.diameters(f)
	case Cone:
		tr.unwanted("diameters_mm", len(f.DiametersMM) > 0, "a cone has small_diameter_mm and large_diameter_mm")
		tr.coneEnd("small_diameter_mm", f.SmallDiameterMM)
		tr.coneEnd("large_diameter_mm", f.LargeDiameterMM)
	case Even:
		tr.unwanted("diameters_mm", len(f.DiametersMM) > 0, "the even profile has one of small_diameter_mm and large_diameter_mm")
		tr.exclusive("large_diameter_mm", "small_diameter_mm", f.LargeDiameterMM, f.SmallDiameterMM, "profile")
		if !Given(f.SmallDiameterMM) && !Given(f.LargeDiameterMM) && tr.sound("small_diameter_mm", "large_diameter_mm") {
			tr.report("small_diameter_mm", "missing", "want small_diameter_mm or large_diameter_mm for the even profile", "profile")
		}
	}
}

// unwanted refuses a key that the fusee's profile has no use for.
func (tr *trail) unwanted(key string, given bool, why string) {
	if given {
		tr.report(key, "found in a profile that does not take it", "want it left out: "+why, "profile")
	}
}

func (tr *trail) coneEnd(key string, v float64) {
	if !Given(v) && tr.sound(key) {
		tr.report(key, "missing", "want a number "+across.String()+" mm for a cone", "profile")
	}
}

// diameters refuses any number but one for each whole turn and one for where the count
// begins.
func (tr *trail) diameters(f *Fusee) {
	if !tr.sound("turns", "diameters_mm") {
		return
	}
	n := len(f.DiametersMM)
	switch {
	case f.Turns != math.Trunc(f.Turns):
		tr.report("turns", "found "+document.Figure(f.Turns), "want a whole number of turns for a measured profile", "profile")
	case n == 0:
		tr.report("diameters_mm", "missing", fmt.Sprintf("want %g diameters, one more than the turns", f.Turns+1), "profile", "turns")
	case float64(n) != f.Turns+1:
		tr.report("diameters_mm", "found "+plural(n, "value"), fmt.Sprintf("want %g, one more than the turns", f.Turns+1), "turns", "profile")
	}
}

// fuseeArbor is the name of the arbor that carries the great wheel.
const fuseeArbor = "fusee"

// arbors lists what a load or the pins may stand on.
func (t *Train) arbors() []string {
	names := []string{fuseeArbor}
	for i := range t.Meshes {
		if d := t.Meshes[i].Drives; validName(d) && !slices.Contains(names, d) {
			names = append(names, d)
		}
	}
	return names
}

// arbor refuses the name of an arbor that the train has not.
func (tr *trail) arbor(t *Train, key, name string) {
	if name == fuseeArbor || name == "" || !tr.sound(key) {
		return
	}
	for i := range t.Meshes {
		if t.Meshes[i].Drives == name {
			return
		}
	}
	names := t.arbors()
	want := "the arbors of this train are " + strings.Join(names, ", ")
	if near := suggest(name, names); near != "" {
		want = "did you mean " + near + "? " + want
	}
	tr.report(key, "found "+strconv.Quote(keyline.Clip(name)), want)
}
