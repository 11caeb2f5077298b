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
	tr.pivots(f)
	tr.lands(f)
	if !tr.sound("profile") {
		return
	}
	tr.limits(f)
	switch f.Profile {
	case Measured, Wanted:
		why := "measured diameters are those of diameters_mm or points"
		if f.Profile == Wanted {
			why = "a cone that is wanted has none yet"
		}
		tr.unwanted("small_diameter_mm", Given(f.SmallDiameterMM), why)
		tr.unwanted("large_diameter_mm", Given(f.LargeDiameterMM), why)
	}
	if f.Profile != Measured {
		tr.unwanted("points", len(f.Points) > 0, `they belong to profile = "measured"`)
	}
	switch f.Profile {
	case Wanted:
		tr.unwanted("diameters_mm", len(f.DiametersMM) > 0, "a cone that is wanted has none yet")
	case Measured:
		tr.measured(f)
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

// limits refuses limits of a cone that is there, and limits that contradict.
func (tr *trail) limits(f *Fusee) {
	if f.Profile != Wanted {
		why := "limits are those of profile = \"wanted\""
		tr.unwanted("runtime_at_least_h", Given(f.RuntimeAtLeastH), why)
		tr.unwanted("height_at_most_mm", Given(f.HeightAtMostMM), why)
		tr.unwanted("diameter_at_most_mm", Given(f.DiameterAtMostMM), why)
		tr.unwanted("diameter_at_least_mm", Given(f.DiameterAtLeastMM), why)
		tr.unwanted("reserve_wanted", Given(f.ReserveWanted), why)
		return
	}
	if f.DiameterAtLeastMM >= f.DiameterAtMostMM && tr.sound("diameter_at_least_mm", "diameter_at_most_mm") {
		tr.report("diameter_at_least_mm", "found "+document.Figure(f.DiameterAtLeastMM), "want less than diameter_at_most_mm, "+document.Figure(f.DiameterAtMostMM)+" mm", "diameter_at_most_mm")
	}
	if 2*f.EndMarginMM >= f.HeightAtMostMM && tr.sound("height_at_most_mm", "end_margin_mm") {
		tr.report("height_at_most_mm", "found "+document.Figure(f.HeightAtMostMM), "want more than the two end margins, "+document.Figure(2*f.EndMarginMM)+" mm", "end_margin_mm")
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

// measured refuses a measured profile without diameters, or with both kinds of them.
func (tr *trail) measured(f *Fusee) {
	switch {
	case !tr.sound("turns", "diameters_mm", "points"):
	case len(f.DiametersMM) > 0 && len(f.Points) > 0:
		tr.report("points", "found together with diameters_mm", "want one of the two", "diameters_mm", "profile")
	case len(f.Points) > 0:
		tr.points(f)
	default:
		tr.diameters(f)
	}
}

// points refuses too few points, ends that were not measured and turns that do not rise.
func (tr *trail) points(f *Fusee) {
	n := len(f.Points)
	if n < leastPoints || n > MaxPoints {
		tr.report("points", "found "+plural(n, "point"), fmt.Sprintf("want %d to %d points", leastPoints, MaxPoints), "profile")
		return
	}
	for i, p := range f.Points {
		want := ""
		switch {
		case i == 0 && p.Turn != 0:
			want = "want the small end first, at turn 0"
		case i == n-1 && p.Turn != f.Turns:
			want = fmt.Sprintf("want the large end last, at turn %.6g", f.Turns)
		case i > 0 && !(p.Turn > f.Points[i-1].Turn):
			want = fmt.Sprintf("want a turn after %.6g: from the small end to the large one", f.Points[i-1].Turn)
		}
		if want != "" {
			tr.report("points."+strconv.Itoa(i), "found a point at turn "+document.Figure(p.Turn), want, "turns")
			return
		}
	}
}

// pivots refuses pivots without the wheel that pushes them, and one as large as it.
func (tr *trail) pivots(f *Fusee) {
	tr.together("pivot_mm", "great_wheel_mm", Given(f.PivotMM), Given(f.GreatWheelMM))
	if f.PivotMM >= f.GreatWheelMM && tr.sound("pivot_mm", "great_wheel_mm") {
		tr.report("pivot_mm", "found "+document.Figure(f.PivotMM), "want less than great_wheel_mm, "+document.Figure(f.GreatWheelMM)+" mm", "great_wheel_mm")
	}
}

// lands refuses lands as high as the cone that they stand on, and a height of lands
// that nothing was measured over.
func (tr *trail) lands(f *Fusee) {
	if !tr.sound("over", "land_height_mm", "diameters_mm", "points", "small_diameter_mm", "large_diameter_mm") {
		return
	}
	if f.Over != OverLands {
		if Given(f.LandHeightMM) {
			tr.report("land_height_mm", "found with diameters measured over the groove", `want it left out, or over = "lands"`, "over")
		}
		return
	}
	if least, _ := f.diameterRange(); least-2*f.LandHeightMM < across.lo {
		tr.report("land_height_mm", "found "+document.Figure(f.LandHeightMM)+" with a diameter of "+document.Figure(least)+" mm over the lands",
			"want less than "+rounded((least-across.lo)/2)+" mm", "over", "diameters_mm", "points", "small_diameter_mm", "large_diameter_mm")
	}
}

// greatest is the greatest diameter over the groove that was given, 0 for none.
func (f *Fusee) greatest() float64 {
	_, most := f.diameterRange()
	if f.Over == OverLands {
		most -= 2 * f.LandHeightMM
	}
	return most
}

// diameterRange is the least and the greatest diameter that was given; +Inf and 0 for none.
func (f *Fusee) diameterRange() (least, most float64) {
	least, most = math.Inf(1), 0
	take := func(d float64) {
		if d < least {
			least = d
		}
		if d > most {
			most = d
		}
	}
	for _, d := range f.DiametersMM {
		take(d)
	}
	for i := range f.Points {
		take(f.Points[i].DiameterMM)
	}
	take(f.SmallDiameterMM) // neither less nor greater where it was not given
	take(f.LargeDiameterMM)
	return least, most
}

// diameters refuses any number but one for each whole turn and one for where the count
// begins.
func (tr *trail) diameters(f *Fusee) {
	n := len(f.DiametersMM)
	switch {
	case f.Turns != math.Trunc(f.Turns):
		tr.report("turns", "found "+document.Figure(f.Turns), "want a whole number of turns for a diameter at each, or points", "profile")
	case n == 0:
		tr.report("diameters_mm", "missing", fmt.Sprintf("want %.6g diameters, one more than the turns, or points", f.Turns+1), "profile", "turns")
	case float64(n) != f.Turns+1:
		tr.report("diameters_mm", "found "+plural(n, "value"), fmt.Sprintf("want %.6g, one more than the turns", f.Turns+1), "turns", "profile")
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

// meshDriving is the first mesh that drives the arbor of the name, or -1.
func (t *Train) meshDriving(name string) int {
	for i := range t.Meshes {
		if t.Meshes[i].Drives == name {
			return i
		}
	}
	return -1
}

// arbor refuses the name of an arbor that the train has not.
func (tr *trail) arbor(t *Train, key, name string) {
	if name == fuseeArbor || name == "" || !tr.sound(key) {
		return
	}
	if t.meshDriving(name) >= 0 {
		return
	}
	names := t.arbors()
	want := "the arbors of this train are " + strings.Join(names, ", ")
	if near := suggest(name, names); near != "" {
		want = "did you mean " + near + "? " + want
	}
	tr.report(key, "found "+strconv.Quote(keyline.Clip(name)), want)
}
