package sim_test

import (
	"errors"
	. "evenpull/sim"
	"math"
	"strings"
	"testing"

	"evenpull/escapement"
	"evenpull/fusee"
	"evenpull/fusee/mainspring"
	"evenpull/sim/internal/trial"

	"github.com/golang/geo/r1"
)

// Every unit of the file against SI, written out by hand.
func TestUnits(t *testing.T) {
	tr := sample(t, "eight-day",
		"set_up_turns        = 1.25", "set_up_turns = 1.25\nlay_mm = 3.5",
		"yield_mpa    = 1620.0", "natural_form = \"even\"\npacking = 1.03\nfree_coils = 7.25\nmodulus_gpa = 200\nbending = \"plate\"\npoisson = 0.28",
		"breaking_n   = 350.0", "breaking_n = 350\nefficiency = 0.96\nfleet_angle_max_deg = 5",
		`kind             = "recoil"`, "kind = \"deadbeat\"\nimpulse_late_deg = 0.5\ntrip_deg = 9",
		"efficiency   = 0.90", "efficiency = 0.88")[0]
	near := func(what string, got, want float64) { t.Helper(); closeTo(t, what, got, want, 1e-12) }
	s := tr.Drive.Spring
	near("width", s.Width, 0.032)
	near("thickness", s.Thickness, 0.00038)
	near("length", s.Length, 1.65)
	near("modulus", s.Modulus, 200e9)
	near("poisson", s.Poisson, 0.28)
	near("free coils", s.FreeCoils, 7.25)
	near("packing", s.Packing, 1.03)
	if s.Form != mainspring.Even || s.Bending != mainspring.Plate {
		t.Errorf("form %d, bending %v", s.Form, s.Bending)
	}
	d := tr.Drive
	near("coil friction", d.Efficiency, 0.88)
	near("inside radius", d.Housing.Inside, 0.0225)
	near("arbor radius", d.Housing.Arbor, 0.0075)
	near("outside radius", d.Barrel.Radius, 0.0245)
	near("height", d.Barrel.Height, 0.0332)
	near("outside length", d.Barrel.Length, 0.039)
	near("set-up", d.Barrel.SetUp, 1.25)
	near("lay", d.Barrel.Lay, 0.0035)
	near("line", d.Line.Thickness, 0.0016)
	near("line efficiency", d.Line.Efficiency, 0.96)
	near("breaking", d.Line.Breaking, 350)
	near("fleet limit", d.Line.FleetMax.Degrees(), 5)
	near("pitch", d.Cone.Pitch, 0.0022)
	near("centre distance", d.Cone.Centre, 0.058)
	r, _, _ := d.Cone.Profile.At(16)
	near("large radius", r, 0.0146)
	near("arc", tr.Escapement.Arc.Degrees(), 5)
	near("margin", tr.Escapement.Margin.Degrees(), 0.5)
	near("late", tr.Escapement.Late.Degrees(), 0.5)
	near("trip", tr.Escapement.Limit.Degrees(), 9)
	near("pendulum", tr.Pendulum.Length, 0.2001)
	near("bob", tr.Pendulum.Mass, 0.24)
	near("Q of the decay: πN/ln(a1/a2)", tr.Pendulum.Quality, math.Pi*40/math.Ln2)
	near("need", tr.Demand.Least, 0.33)
	if tr.Escapement.Kind != (escapement.DeadBeat{}) || tr.Escapement.Teeth != 30 {
		t.Errorf("%+v", tr.Escapement)
	}
}

func TestUnitsOfCones(t *testing.T) {
	trains := sample(t, "three-trains")
	c := trains[1].Drive.Cone
	small, _, _ := c.Profile.At(0)
	large, _, _ := c.Profile.At(16)
	closeTo(t, "small", small, 0.006, 1e-12)
	closeTo(t, "large", large, 0.011, 1e-12)
	closeTo(t, "even, large", trains[2].Drive.Cone.End, 0.020, 1e-12)
	if trains[2].Drive.Cone.Shape != fusee.EvenByLarge || trains[2].Demand.Band != (r1.Interval{Lo: 0.6, Hi: 0.9}) {
		t.Errorf("%+v %+v", trains[2].Drive.Cone.Shape, trains[2].Demand.Band)
	}
	small2 := sample(t, "three-trains", "large_diameter_mm  = 40.0", "small_diameter_mm = 15.0")[2].Drive.Cone
	if closeTo(t, "even, small", small2.End, 0.0075, 1e-12); small2.Shape != fusee.EvenBySmall {
		t.Errorf("%+v", small2.Shape)
	}
	verge := sample(t, "eight-day", `"recoil"    # "recoil" (anchor), "verge" or "deadbeat"`, `"verge"`)[0]
	if verge.Escapement.Kind != (escapement.Verge{}) {
		t.Errorf("%+v", verge.Escapement.Kind)
	}
}

// All trains' faults come together; only one train's when only it is asked for.
func TestCompileTellsAll(t *testing.T) {
	s := readSample(t, "three-trains", "set_up_turns        = 1.25", "set_up_turns = 9.5")
	_, err := Compile(s)
	if err == nil || strings.Count(err.Error(), "set_up_turns") != 2 {
		t.Errorf("%v", err)
	}
	if trains, err := Compile(s, "quarters"); err != nil || len(trains) != 1 {
		t.Errorf("%d trains, %v", len(trains), err)
	}
	_, err = Compile(readSample(t, "three-trains", "large_diameter_mm  = 40.0", "small_diameter_mm = 15.0", "set_up_turns        = 1.0", "set_up_turns = 0.1"))
	if !errors.Is(err, fusee.ErrCentre) || !strings.Contains(err.Error(), "centre_distance_mm") {
		t.Errorf("%v", err)
	}
}

// What an escapement cannot be is told in the keys and units of the scenario.
func TestEscapementBlamed(t *testing.T) {
	for want, edit := range map[string][]string{
		"going.escapement.impulse_late_deg: found 4; want 0 but for a dead beat, and there at most half the escaping arc either way: 2.5 deg": {`kind             = "recoil"`, "kind = \"deadbeat\"\nimpulse_late_deg = 4"},
		"going.escapement.impulse_late_deg: found 1; want 0 but for a dead beat":                                                              {`kind             = "recoil"`, "kind = \"recoil\"\nimpulse_late_deg = 1"},
		"going.escapement.escaping_arc_deg: found 180; want half the escaping arc, with the margin, of at most 90 deg; it is 90.5 deg":        {"escaping_arc_deg = 5.0", "escaping_arc_deg = 180.0"},
		"going.escapement.margin_deg: found 89; want half the escaping arc, with the margin, of at most 90 deg; it is 91.5 deg":               {"escaping_arc_deg = 5.0", "escaping_arc_deg = 5.0\nmargin_deg = 89"},
		"going.escapement.trip_deg: found 1; want more than the pendulum needs, half the escaping arc with the margin: 3 deg":                 {"escaping_arc_deg = 5.0", "escaping_arc_deg = 5.0\ntrip_deg = 1"},
	} {
		_, err := Compile(readSample(t, "eight-day", edit...))
		var blamed *Error
		if !errors.As(err, &blamed) || blamed.Fault.Line == 0 || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %s", err, want)
		}
	}
	// With a fault of the drive in the same train, both are told.
	_, err := Compile(readSample(t, "eight-day", "escaping_arc_deg = 5.0", "escaping_arc_deg = 5.0\ntrip_deg = 1", "set_up_turns        = 1.25", "set_up_turns = 20"))
	if err == nil || !strings.Contains(err.Error(), "trip_deg") || !strings.Contains(err.Error(), "set_up_turns") {
		t.Errorf("%v", err)
	}
}

// The place's gravity is that of its pendulums: hours go as 1/√g.
func TestGravityOfPlace(t *testing.T) {
	there := sample(t, "eight-day", "[[train]]", "[place]\ngravity_m_s2 = 9.78\n[[train]]")[0]
	here := sample(t, "eight-day")[0]
	closeTo(t, "gravity", there.Pendulum.Gravity, 9.78, 1e-12)
	closeTo(t, "hours", there.HoursPerTurn()/here.HoursPerTurn(), math.Sqrt(9.80665/9.78), 1e-12)
}

// A spring whose length was left out makes the turns that were counted, whatever tells its
// steel.
func TestCountedWithoutLength(t *testing.T) {
	for _, steel := range []string{"yield_mpa    = 1620.0", "free_coils = 6.9", "free_coils = 6\nnatural_form = \"even\"", "natural_form = \"straight\"", ""} {
		_, trains := trial.Compile(t, "eight-day", "length_mm    = 1650.0", "solid_turns = 8.3", "yield_mpa    = 1620.0", steel)
		r := trial.Run(t, trains)[0]
		if math.Abs(r.Spring.Available-8.3) > 1e-8 || r.Spring.Packing != 1.065 || !r.Counted || r.Spring.Fill > 0.46 {
			t.Errorf("%s: %+v", steel, r.Spring)
		}
	}
}
