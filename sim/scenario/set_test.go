package scenario

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"evenpull/sim/internal/document"
)

// show spells the values behind KEYs, for comparison; NaN is "none".
func show(s *Scenario, keys ...string) string {
	var out []string
	for _, k := range keys {
		tg, err := s.resolve(k, false)
		switch {
		case err != nil:
			out = append(out, "absent")
		case tg.number() != nil && !Given(*tg.number()):
			out = append(out, "none")
		case tg.number() != nil:
			out = append(out, document.Figure(*tg.number()))
		default:
			out = append(out, strings.TrimPrefix(fmt.Sprint(reflect.ValueOf(tg.v).Elem()), "&"))
		}
	}
	return strings.Join(out, " ")
}

func TestSet(t *testing.T) {
	for _, c := range []struct {
		sets, keys []string
		want       string
	}{
		{[]string{"going.mainspring.thickness_mm=0.45"}, []string{"going.mainspring.thickness_mm"}, "0.45"},
		{[]string{"going.mainspring.width_mm = 36 # narrower"}, []string{"going.mainspring.width_mm"}, "36"},
		{[]string{"going.mesh.centre.efficiency=0.9"}, []string{"going.mesh.centre.efficiency"}, "0.9"},
		{[]string{"going.mesh.centre.wheel=80"}, []string{"going.mesh.centre.wheel"}, "80"},
		{[]string{"going.load.centre.torque_nm=0.01"}, []string{"going.load.centre.torque_nm"}, "0.01"},
		{[]string{"place.gravity_m_s2=9.7", "verdict.thin_below=1.2"}, []string{"place.gravity_m_s2", "verdict.thin_below"}, "9.7 1.2"},
		{[]string{"going.demand.least_torque_nm=0.3"}, []string{"going.demand.least_torque_nm"}, "0.3"},
		{[]string{"striking.strike.hammers.1.mass_g=50"}, []string{"striking.strike.hammers.1.mass_g"}, "50"},
		{[]string{"going.fusee.diameters_mm.0=17.5", "going.fusee.diameters_mm.16=35"},
			[]string{"going.fusee.diameters_mm.0", "going.fusee.diameters_mm.1", "going.fusee.diameters_mm.16"}, "17.5 18.6 35"},
		{[]string{"striking.demand.torque_band_nm=[0.5, 0.7]", "striking.demand.torque_band_nm.1=0.8"}, []string{"striking.demand.torque_band_nm"}, "{0.5 0.8}"},
		{[]string{"title=Another clock"}, []string{"title"}, "Another clock"},
		{[]string{`title="With = sign"`}, []string{"title"}, "With = sign"},
		{[]string{"title=1755"}, []string{"title"}, "1755"},
		{[]string{"going.line.kind=wire", "going.mainspring.bending='plate'"}, []string{"going.line.kind", "going.mainspring.bending"}, "wire plate"},
		// one of an exclusive pair replaces the other
		{[]string{"going.mainspring.free_coils=6"}, []string{"going.mainspring.free_coils", "going.mainspring.yield_mpa"}, "6 none"},
		{[]string{"striking.mainspring.yield_mpa=1600"}, []string{"striking.mainspring.free_coils", "striking.mainspring.yield_mpa"}, "none 1600"},
		{[]string{"going.mesh.centre.friction_coefficient=0.1"}, []string{"going.mesh.centre.efficiency", "going.mesh.centre.friction_coefficient"}, "none 0.1"},
		{[]string{"going.mesh.escape.friction_coefficient=0.1"}, []string{"going.mesh.escape.efficiency"}, "none"},
		{[]string{"going.mesh.third.efficiency=0.9"}, []string{"going.mesh.third.efficiency", "going.mesh.third.friction_coefficient"}, "0.9 none"},
		{[]string{"going.pendulum.quality=150"}, []string{"going.pendulum.quality", "going.pendulum.decay.periods"}, "150 absent"},
		{[]string{"going.pendulum.quality=150", "going.pendulum.decay.from_deg=5", "going.pendulum.decay.to_deg=3", "going.pendulum.decay.periods=40"},
			[]string{"going.pendulum.quality", "going.pendulum.decay.periods"}, "none 40"},
		{[]string{"striking.fusee.profile=even", "striking.fusee.small_diameter_mm=19"}, []string{"striking.fusee.small_diameter_mm", "striking.fusee.large_diameter_mm"}, "19 none"},
		{[]string{"striking.fusee.profile=even", "striking.fusee.small_diameter_mm=19", "striking.fusee.large_diameter_mm=35"},
			[]string{"striking.fusee.small_diameter_mm", "striking.fusee.large_diameter_mm"}, "none 35"},
		{[]string{"going.fusee.profile=cone", "going.fusee.small_diameter_mm=18", "going.fusee.large_diameter_mm=35"}, []string{"going.fusee.diameters_mm"}, "[]"},
		{[]string{"striking.fusee.profile=measured", "striking.fusee.turns=2", "striking.fusee.diameters_mm=[20, 25, 30]"},
			[]string{"striking.fusee.small_diameter_mm", "striking.fusee.diameters_mm.2"}, "none 30"},
		// a new name is a new KEY
		{[]string{"going.name=time", "time.mainspring.width_mm=37", "tolerance.1.key=time.mainspring.thickness_mm"}, []string{"going.name", "time.mainspring.width_mm"}, "absent 37"},
	} {
		s := mustRead(t, fullText(t))
		if err := s.Apply(c.sets); err != nil {
			t.Errorf("%q: %v", c.sets, err)
		} else if got := show(s, c.keys...); got != c.want {
			t.Errorf("%q: %q are %q, want %q", c.sets, c.keys, got, c.want)
		}
	}
}

// assumed lists the assumptions that begin so.
func assumedOf(s *Scenario, prefix string) string {
	var out []string
	for _, a := range s.Assumed {
		if strings.HasPrefix(a.String(), prefix) {
			out = append(out, strings.TrimPrefix(a.String(), prefix))
		}
	}
	return strings.Join(out, "; ")
}

// TestSetAndAssumptions: what is set is no longer assumed, and what is derived
// from a default follows.
func TestSetAndAssumptions(t *testing.T) {
	for _, c := range []struct{ file, sets, prefix, want string }{
		{"least", "", "train going: mainspring", `.modulus_gpa = 206 (spring steel, from memory); .natural_form = "set"; .yield_mpa = 1600 (0.95 of what strip of EN 10132-4 bears, from memory); .bending = "wide"; .poisson = 0.3 (steel, from memory); .packing = 1.065 (common practice); .couple_ratio = 1; .efficiency = 0.9 (common practice)`},
		{"least", "going.mainspring.modulus_gpa=200", "train going: mainspring", `.natural_form = "set"; .yield_mpa = 1600 (0.95 of what strip of EN 10132-4 bears, from memory); .bending = "wide"; .poisson = 0.3 (steel, from memory); .packing = 1.065 (common practice); .couple_ratio = 1; .efficiency = 0.9 (common practice)`},
		{"least", "going.mainspring.free_coils=6", "train going: mainspring.yield", ""},
		{"least", "going.mainspring.natural_form=straight", "train going: mainspring.yield", ""},
		{"least", "going.mainspring.friction_coefficient=0.1", "train going: mainspring.", `modulus_gpa = 206 (spring steel, from memory); natural_form = "set"; yield_mpa = 1600 (0.95 of what strip of EN 10132-4 bears, from memory); bending = "wide"; poisson = 0.3 (steel, from memory); packing = 1.065 (common practice); couple_ratio = 1; outer_end = "hooked" (common practice)`},
		{"least", "going.mainspring.solid_turns=8", "train going: mainspring.pa", ""},
		{"least", "going.barrel.lay_mm=2", "train going: barrel", ".outside_length_mm = 41 (from the inside height); .clicks = 12 (common practice)"},
		{"least", "going.barrel.inside_height_mm=43", "train going: barrel.outside", "_length_mm = 43 (from the inside height)"},
		{"least", "going.mesh.centre.friction_coefficient=0.1", "train going: mesh", ".centre.drag_nm = 0"},
		{"full-format", "going.mesh.third.efficiency=0.9", "train going: mesh.third", ".drag_nm = 0"},
		{"least", "striking.demand.torque_band_nm=[1,2]", "train striking: demand", ""},
		{"least", "place.gravity_m_s2=9.81", "place", ".air_density_kg_m3 = 1.225 (ISO 2533 at sea level)"},
		{"least", "going.name=time", "train time: line", ".width_mm = 1.8 (from the thickness); .efficiency = 0.95 (with the pivots that are not given; common practice); .fleet_angle_max_deg = 4 (common practice)"},
		{"least", "going.mesh.centre.drives=second", "train going: mesh", ".second.efficiency = 0.95 (common practice); .second.drag_nm = 0"},
	} {
		s, err := ReadFile("testdata/" + c.file + ".toml")
		if err == nil && c.sets != "" {
			err = s.Apply([]string{c.sets})
		}
		if err != nil {
			t.Fatal(c.sets, err)
		}
		if got := assumedOf(s, c.prefix); got != c.want {
			t.Errorf("%s %s: %q, want %q", c.file, c.sets, got, c.want)
		}
	}
}

// TestSetMakesTables: tables that were left out may be built up by --set, with
// their defaults.
func TestSetMakesTables(t *testing.T) {
	s := mustRead(t, edited(t, edit{1, "[train.escapement]…[train.demand]", ""}))
	err := s.Apply([]string{"going.escapement.kind=verge", "going.escapement.teeth=31", "going.escapement.escaping_arc_deg=40",
		"going.pendulum.length_mm=180", "going.pendulum.mass_g=300", "going.pendulum.decay.from_deg=30",
		"going.pendulum.decay.to_deg=20", "going.pendulum.decay.periods=10"})
	if err != nil {
		t.Fatal(err)
	}
	if got := assumedOf(s, "train going: escapement"); got != ".drop = 0.15 (common practice); .efficiency = 0.8 (common practice); .margin_deg = 0.5 (common practice); .recoil_ratio = 1.731 (from the pallets and the last mesh)" {
		t.Error(got)
	}
	if d := s.Trains[0].Pendulum.Decay; d.FromDeg != 30 || d.ToDeg != 20 || d.Periods != 10 {
		t.Error(*s.Trains[0].Pendulum.Decay)
	}
	s = mustRead(t, edited(t, edit{1, "[train.escapement]…[train.demand]", ""}))
	if err := s.Set("going.pendulum.decay.from_deg", "much"); err == nil || s.Trains[0].Pendulum != nil {
		t.Error("a refused value left a table behind:", err)
	}
}

// A timed strike and a drag coefficient stand for one another: the one set last stays, and
// a clone has a timed strike of its own.
func TestSetTimed(t *testing.T) {
	s := mustRead(t, fullText(t))
	if err := s.Apply([]string{"striking.strike.timed.torque_nm=0.5", "striking.strike.timed.blow_interval_s=1.1"}); err != nil {
		t.Fatal(err)
	}
	tr := &s.Trains[1]
	if Given(tr.Fly.DragCoefficient) || tr.Strike.Timed.BlowIntervalS != 1.1 || s.Supplied(1, "fly.drag_coefficient") {
		t.Errorf("%+v, %+v", tr.Fly, tr.Strike.Timed)
	}
	c := s.Clone()
	if err := c.Apply([]string{"striking.strike.timed.twelve_s=13"}); err != nil {
		t.Fatal(err)
	}
	if was, is := s.Trains[1].Strike.Timed, c.Trains[1].Strike.Timed; is.TwelveS != 13 || Given(is.BlowIntervalS) || was.BlowIntervalS != 1.1 {
		t.Errorf("%+v from %+v", is, was)
	}
	if err := c.Apply([]string{"striking.fly.drag_coefficient=1.3"}); err != nil || c.Trains[1].Strike.Timed != nil || c.Trains[1].Fly.DragCoefficient != 1.3 {
		t.Errorf("%+v, %v", c.Trains[1].Strike, err)
	}
}
