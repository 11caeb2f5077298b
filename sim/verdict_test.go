package sim_test

import (
	. "evenpull/sim"
	. "evenpull/sim/rules"
	"evenpull/sim/show/words"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"evenpull/escapement"
	"evenpull/fusee/mainspring"

	"github.com/golang/geo/r1"
	"github.com/golang/geo/s1"
)

// judged is a result with the given need, least and mean torque.
func judged(kind Kind, need, least, mean float64, band r1.Interval) *Result {
	r := &Result{Digest: Digest{
		Setting: Setting{Name: "t", Kind: kind, Turns: 16, Standard: NewStandard(need, DefaultBands(), band, r1.EmptyInterval())},
		Need:    Need{Used: need, Measured: need}, Torque: Summary{Mean: mean, Min: least, Max: mean + (mean - least), MinAt: 3},
		HoursPerTurn: 12, Runtime: 192, StopsAt: math.NaN(),
	}}
	if least < need {
		r.StopsAt = 2.5
	}
	r.Judge()
	return r
}

// The bench rule (common practice, no source): a train whose least is 0.37 N·m
// is suited by a drive of mean 0.46, and overdriven by one of 0.93.
func TestBenchRule(t *testing.T) {
	none := r1.EmptyInterval()
	if got := judged(Going, 0.37, 0.43, 0.46, none).Verdict.Code; got != Suits {
		t.Errorf("0.46 for 0.37: %v", got)
	}
	if got := judged(Going, 0.37, 0.90, 0.93, none).Verdict.Code; got != Overdriven {
		t.Errorf("0.93 for 0.37: %v", got)
	}
}

func TestVerdicts(t *testing.T) {
	none, band := r1.EmptyInterval(), r1.Interval{Lo: 0.4, Hi: 0.6}
	unknown := math.NaN()
	cases := []struct {
		kind              Kind
		need, least, mean float64
		band              r1.Interval
		want              Code
		first             string // the first reason holds this
	}{
		{Going, 1, 0.99, 1.3, none, Stops, "0.990 times the 1.00 N·m needed; below 1.00"},
		{Going, 1, 1.00, 1.3, none, Thin, "1.00 times"},
		{Going, 1, 1.149, 1.3, none, Thin, "below 1.15 too little is left"},
		{Going, 1, 1.15, 1.6, none, Suits, "1.60 times the 1.00 N·m needed; up to 1.60 suits"},
		{Going, 1, 1.5, 1.601, none, Strong, "up to 2.00 is strong"},
		{Going, 1, 1.5, 2.0, none, Strong, "2.00 times"},
		{Going, 1, 1.5, 2.01, none, Overdriven, "2.01 times the 1.00 N·m needed; above 2.00"},
		{Going, 1, 1.1, 2.5, none, Thin, "1.10 times"},
		{Going, unknown, 1, 1, none, Unjudged, "give demand.least_torque_nm"},
		{Striking, unknown, 0.39, 0.5, band, Thin, "below the 0.400 to 0.600 N·m liked"},
		{Striking, unknown, 0.4, 0.6, band, Suits, "within the 0.400 to 0.600"},
		{Striking, unknown, 0.4, 0.75, band, Strong, "1.25 times the upper end"},
		{Striking, unknown, 0.4, 0.76, band, Overdriven, "above 0.750 N·m it is overdriven"},
		{Striking, 0.35, 0.34, 0.5, band, Stops, "0.971 times the 0.350 N·m found to be needed"},
		{Striking, 0.35, 0.38, 0.5, none, Thin, "1.09 times the 0.350 N·m needed"},
		{Striking, 0.30, 0.40, 0.45, none, Suits, "1.50 times the 0.300 N·m needed"},
	}
	for _, c := range cases {
		r := judged(c.kind, c.need, c.least, c.mean, c.band)
		if r.Verdict.Code != c.want {
			t.Errorf("%+v: %v", c, r.Verdict.Code)
		}
		if first := words.Reasons(&r.Digest)[0]; !strings.Contains(first, c.first) {
			t.Errorf("%+v: first reason %q", c, first)
		}
	}
}

func TestReasonsTellWhere(t *testing.T) {
	none := r1.EmptyInterval()
	if why := words.Reasons(&judged(Going, 1, 0.9, 1.2, none).Digest); !slices.Contains(why, "running down it stops at turn 2.5 of 16 (day 2)") {
		t.Errorf("%q", why)
	}
	r := judged(Going, 1, 0.5, 0.9, none)
	r.StopsAt = 0
	if why := words.Reasons(&r.Digest); why[1] != "it would not even start when fully wound" {
		t.Errorf("%q", why)
	}
	r.Escapes, r.Need.Measured = true, math.NaN()
	if why := words.Reasons(&r.Digest); why[1] != "so it is from the start, fully wound" {
		t.Errorf("%q", why)
	}
	r.StopsAt = 2.5
	if why := words.Reasons(&r.Digest); why[1] != "running down it comes to that at turn 2.5 of 16 (day 2)" {
		t.Errorf("%q", why)
	}
	if why := words.Reasons(&judged(Going, 1, 1.16, 1.9, none).Digest); len(why) != 3 || !strings.Contains(why[2], "does not even this spring out") {
		t.Errorf("%q", why)
	}
	r = judged(Going, 1, 1.05, 1.3, none)
	r.HoursPerTurn, r.Runtime = math.NaN(), math.NaN()
	if why := words.Reasons(&r.Digest); strings.Contains(why[0], "day") {
		t.Errorf("a day without hours: %q", why)
	}
}

// The turn at which a train stops is where its torque crosses the need.
func TestStopsWhere(t *testing.T) {
	res := run(t, sample(t, "too-weak")[0], Options{})
	fine := run(t, sample(t, "too-weak")[0], Options{Step: MinStep})
	i := slices.IndexFunc(fine.Rows, func(r Row) bool { return r.FuseeTorque < fine.Need.Used })
	if i < 1 || math.Abs(fine.Rows[i].FuseeTurn-res.StopsAt) > 0.01 {
		t.Errorf("stops at %g, the fine rows cross at number %d", res.StopsAt, i)
	}
}

func TestFaults(t *testing.T) {
	cases := []struct {
		name string
		edit func(*Train)
		want string // "" for no fault
	}{
		{"sound", func(*Train) {}, ""},
		{"binds", func(tr *Train) { tr.Drive.Barrel.SetUp = 4 }, "the spring binds solid before the fusee is wound"},
		{"no set-up", func(tr *Train) { tr.Drive.Barrel.SetUp = 0 }, "there is no set-up"},
		{"no room", func(tr *Train) { tr.Drive.Barrel.Length = 8e-3 }, "the line needs 9.6 mm of barrel and has 8.0"},
		{"wide lay", func(tr *Train) { tr.Drive.Barrel.Lay = 10e-3 }, "the line lies over 59.9 mm of barrel and has 39.0"},
		{"near breaking", func(tr *Train) { tr.Drive.Line.Breaking = 100 }, "winding pulls the line with 75.2 N, 75 % of the 100 N"},
		{"breaks", func(tr *Train) { tr.Drive.Line.Breaking = 70 }, "winding pulls the line with 75.2 N and it breaks at 70.0"},
		{"fleet", func(tr *Train) { tr.Drive.Line.FleetMax = s1.Angle(0.01) }, "the line leaves the groove at up to 2.7°, more than 0.6°"},
		{"never set", func(tr *Train) { tr.Drive.Spring.Form = 0 }, "no hardened strip bears more than about 2100: it will set"},
		{"hard", func(tr *Train) { tr.Drive.Spring.Yield = 5000e6 }, "a strip that flows at 5000 MPa only: no hardened strip"},
		{"hard by its coils", func(tr *Train) { tr.ByCoils, tr.Drive.Spring.Yield = true, 2101e6 }, "tell of a steel that flows at 2101 MPa only, and no hardened strip bears"},
		{"soft by its coils", func(tr *Train) { tr.ByCoils, tr.Drive.Spring.Yield = true, 899e6 }, "tell of a steel that flows at 899 MPa already, and a hardened strip bears 900 at least"},
		{"coils of steel", func(tr *Train) { tr.ByCoils, tr.Drive.Spring.Yield = true, 1500e6 }, ""},
		{"made in few coils", func(tr *Train) { tr.Drive.Spring.Form, tr.Drive.Spring.FreeCoils = mainspring.Even, 7 }, "a strip made in 7.00 even coils would bear 45"},
		{"trips", func(tr *Train) { tr.Escapement.Limit = escapement.SemiDegrees(3.2) }, "the 3.20° at which the escapement trips"},
		{"sharp", func(tr *Train) { tr.Drive.Housing.Arbor = 2.5e-3 }, "the arbor is only 13.2 times as thick as the strip"},
		{"rubs", func(tr *Train) { tr.Drive.Spring.Width = 33.1e-3 }, "0.10 mm of end float"},
	}
	for _, c := range cases {
		tr := sample(t, "eight-day")[0]
		c.edit(&tr)
		res := run(t, tr, Options{})
		faults := words.Faults(&res.Digest)
		if c.want == "" && len(faults) > 0 || c.want != "" && !strings.Contains(strings.Join(faults, "\n"), c.want) {
			t.Errorf("%s: %q, want %q", c.name, faults, c.want)
		}
	}
}

func TestNames(t *testing.T) {
	if s := fmt.Sprint(Going, Striking, Unjudged, Stops, Thin, Suits, Strong, Overdriven); s != "going striking  stops thin suits strong overdriven" {
		t.Error(s)
	}
}
