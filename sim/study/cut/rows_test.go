package cut

import (
	"errors"
	"math"
	"testing"

	"evenpull/fusee"
	"evenpull/sim"
	"evenpull/sim/rules"
)

// profileOf is a cone measured at its whole turns, from radii in m.
func profileOf(t testing.TB, radius func(turn int) float64) *fusee.Cone {
	t.Helper()
	radii := make([]float64, 17)
	for i := range radii {
		radii[i] = radius(i)
	}
	p, err := fusee.Measured(radii)
	if err != nil {
		t.Fatal(err)
	}
	return &fusee.Cone{Profile: p, Turns: 16}
}

// What comes off is told by cones made for it: a hump or a hollow about one turn.
func TestRemoval(t *testing.T) {
	plain := profileOf(t, func(int) float64 { return 10e-3 })
	for _, turn := range []int{0, 3, 8, 13, 16} {
		by := func(sign float64) *fusee.Cone {
			return profileOf(t, func(i int) float64 {
				x := float64(i - turn)
				return 10e-3 + sign*1e-3*math.Exp(-x*x/4)
			})
		}
		for _, c := range []struct {
			what               string
			r                  Removal
			off, at, share     float64
			missing, missingAt float64
		}{
			{"hump", removal(by(1), plain), 2e-3, float64(turn), 1.0 / 11, 0, 0},
			{"hollow", removal(by(-1), plain), 0, 0, 0, 2e-3, float64(turn)},
			{"a cone with a hollow to cut", removal(plain, by(-1)), 2e-3, float64(turn), 0.1, 0, 0},
		} {
			for k, pair := range [][2]float64{{c.r.Deepest, c.off}, {c.r.DeepestAt, c.at}, {c.r.Share, c.share}, {c.r.Missing, c.missing}, {c.r.MissingAt, c.missingAt}} {
				if math.Abs(pair[0]-pair[1]) > 1e-9 {
					t.Errorf("%s about turn %d: figure %d is %v, want %v", c.what, turn, k, pair[0], pair[1])
				}
			}
			if !math.IsNaN(c.r.Removed) || !math.IsNaN(c.r.Touch) {
				t.Errorf("%s about turn %d: %+v", c.what, turn, c.r)
			}
		}
	}
}

// Rows stand at the multiples of the step and at the end, each once, and tell what the
// drive has there.
func TestRows(t *testing.T) {
	for _, c := range []struct {
		step, is float64
	}{{0, 1}, {0.25, 0.25}, {0.7, 0.7}, {16, 16}, {20, 20}, {0.01, MinStep}, {0.1, 0.1}} {
		st := study(t, "eight-day", 0, Options{Step: c.step})
		now, err := st.Train.Drive.Wind()
		if err != nil {
			t.Fatal(err)
		}
		cut, err := st.Cut.Drive.Wind()
		if err != nil {
			t.Fatal(err)
		}
		last := len(st.Rows) - 1
		for i := range st.Rows {
			row := &st.Rows[i]
			want := float64(i) * c.is
			if i == last {
				want = 16
			}
			if math.Abs(row.FuseeTurn-want) > 1e-9 || i > 0 && row.FuseeTurn <= st.Rows[i-1].FuseeTurn {
				t.Errorf("step %v: row %d at turn %v, want %v", c.step, i, row.FuseeTurn, want)
			}
			a, b := now.At(row.FuseeTurn), cut.At(row.FuseeTurn)
			for k, pair := range [][2]float64{
				{row.TorqueBefore, a.Torque}, {row.Torque, b.Torque}, {math.Tan(row.Fleet), b.Fleet}, {row.Along, row.FuseeTurn * 2.2e-3},
				{row.Remove, row.Now - row.Diameter}, {row.Now, 2*a.Radius - 1.6e-3}, {row.Diameter, 2*b.Radius - 1.6e-3}, {row.Span, cut.FreeSpan(row.FuseeTurn)},
			} {
				if !(math.Abs(pair[0]-pair[1]) <= 2*LeastCount) {
					t.Errorf("step %v, turn %v: figure %d is %v, want %v", c.step, row.FuseeTurn, k, pair[0], pair[1])
				}
			}
			if row.Remove < 0 {
				t.Errorf("step %v, turn %v: %v is added", c.step, row.FuseeTurn, -row.Remove)
			}
		}
		if st.Span != st.Rows[0].Span {
			t.Errorf("span %v, %v in the rows", st.Span, st.Rows[0].Span)
		}
	}
}

// Fine rows stand evenly from end to end, and are the rows where both have one.
func TestFine(t *testing.T) {
	st := study(t, "strike-quick", 0, Options{})
	fine, err := st.Fine(320)
	if err != nil || len(fine) != 321 || fine[320].FuseeTurn != st.Cut.Drive.Cone.Turns {
		t.Fatalf("%v: %d rows", err, len(fine))
	}
	for i, row := range st.Rows {
		if fine[20*i] != row {
			t.Errorf("turn %v: %+v, %+v among the rows", row.FuseeTurn, fine[20*i], row)
		}
	}
	st.Train.Drive.Spring.Thickness = 0
	if _, err := st.Fine(320); err == nil {
		t.Error("a drive that cannot be wound has rows")
	}
}

// A cone whose turns are not whole has no diameters at whole turns to be joined.
func TestWholeTurnsOnly(t *testing.T) {
	st := study(t, "eight-day", 0, Options{FromBlank: true})
	if !(st.Whole > 0) {
		t.Errorf("16 turns: %v", st.Whole)
	}
	odd := st.Cut
	odd.Drive.Cone.Turns = 15.5
	if v := wholeTurns(odd); !math.IsNaN(v) {
		t.Errorf("15.5 turns: %v", v)
	}
	home := st.Cut
	home.Drive.Barrel.SetUp = 20 // more turns than the spring has
	if v := wholeTurns(home); !math.IsNaN(v) {
		t.Errorf("wound home: %v", v)
	}
}

// A whole tenth of a millimetre lies within the range that it bounds, and what lies
// between two of them is left out.
func TestTenths(t *testing.T) {
	for k := 1.0; k < 2000; k++ {
		if from, to := tenths(k/2e4, k/2e4); from != k/10 || to != k/10 {
			t.Errorf("%v mm: from %v to %v", k/10, from, to)
		}
		if from, to := tenths((k+0.01)/2e4, (k+1.99)/2e4); from != (k+1)/10 || to != (k+1)/10 {
			t.Errorf("about %v mm: from %v to %v", (k+1)/10, from, to)
		}
	}
}

// What can be had comes before what cannot, then the better verdict.
func TestBetter(t *testing.T) {
	st := study(t, "too-strong", 0, Options{}, "least_torque_nm = 0.33", "least_torque_nm = 0.341")
	none := Way{Fault: errors.New("none")}
	for _, c := range []struct {
		what string
		a, b *Way
		want bool
	}{
		{"suits against strong", &st.Present, &st.Least, true}, {"strong against suits", &st.Least, &st.Present, false}, {"equals", &st.Least, &st.Least, false},
		{"strong against none", &st.Least, &none, true}, {"none against strong", &none, &st.Least, false}, {"none against suits", &none, &st.Present, false}, {"none against none", &none, &none, false},
	} {
		if got := st.better(c.a, c.b); got != c.want {
			t.Errorf("%s: %v", c.what, got)
		}
	}
	// Of two that suit the one that is advised, whatever stands beside it.
	st.Now.Advice.CutAtMost = 0.9
	deep := st.Present
	deep.Share = 0.95
	if !st.better(&st.Present, &deep) || st.better(&deep, &st.Present) {
		t.Errorf("advised %v, deeper %v", st.finding(&st.Present), st.finding(&deep))
	}
}

// A fusee that cannot be wound with any set-up has only the present one to go by.
func TestNoSetUp(t *testing.T) {
	st := study(t, "eight-day", 0, Options{}, "length_mm    = 1650.0", "length_mm    = 300.0")
	now, then := st.standings()
	if st.Search != nil || st.SetUp() != nil || now != then || now != st.Now.Standing() || st.First() != rules.AnotherSpring {
		t.Errorf("%+v, %+v, first %v", now, then, st.First())
	}
	if st.Now.Advice.Spares(then.Spare) {
		t.Errorf("%v turns left", then.Spare)
	}
}

// A fault of the ends or the set-up names the key at fault, and tells what was found.
func TestFaultsNameTheirKey(t *testing.T) {
	for _, c := range []struct {
		o       Options
		key     string
		replace []string
	}{
		{Options{FromBlank: true, Large: 5e-3}, "fusee.large_diameter_mm", nil},
		{Options{FromBlank: true, Small: 0.5e-3}, "fusee.small_diameter_mm", nil},
		{Options{FromBlank: true, Large: 30e-3}, "fusee.large_diameter_mm", nil},
		{Options{KeepSetUp: true}, "fusee", []string{"set_up_turns        = 1.25", "set_up_turns = 0.0"}},
		{Options{KeepSetUp: true}, "fusee", []string{"set_up_turns        = 1.25", "set_up_turns = 8.6"}},
	} {
		_, err := try(t, "eight-day", 0, c.o, c.replace...)
		var apart *sim.Error
		if !errors.As(err, &apart) || apart.Fault.Key != "going."+c.key && apart.Fault.Key != c.key || apart.Fault.Found == "" || apart.Fault.Found == apart.Fault.Key {
			t.Errorf("%+v %v: %+v", c.o, c.replace, err)
		}
	}
}

// From blank, the small end that a scenario gives is cut, unless another is asked for.
func TestGivenSmallEnd(t *testing.T) {
	const list = "profile = \"even\"\nsmall_diameter_mm = 12.6\n"
	text := []string{"profile = \"measured\" ", list + "#", "diameters_mm = [\n  13.0, 13.4, 13.7, 14.1, 14.5, 14.9, 15.3, 15.9, 16.3,\n  17.0, 17.6, 18.5, 19.2, 20.4, 21.9, 24.4, 29.2,\n]", ""}
	given := study(t, "eight-day", 0, Options{FromBlank: true}, text...)
	if d := given.Rows[0].Diameter; math.Abs(d-12.6e-3) > 1e-9 {
		t.Errorf("small end of %v", d)
	}
	asked := study(t, "eight-day", 0, Options{FromBlank: true, Large: 18e-3}, text...)
	if d := asked.Rows[16].Diameter; math.Abs(d-36e-3) > 1e-9 {
		t.Errorf("large end of %v", d)
	}
}

// Where most comes off between two measured turns it is told to measure there first; at
// a whole turn, or of a cone that is not measured, it is not.
func TestBetween(t *testing.T) {
	for _, c := range []struct {
		name   string
		number int
		want   bool
	}{{"eight-day", 0, true}, {"three-trains", 2, false}} {
		st := study(t, c.name, c.number, Options{})
		if _, part := math.Modf(st.After.DeepestAt); st.Between != c.want || c.want && (part < 0.1 || part > 0.9) {
			t.Errorf("%s: %v, deepest at %v", c.name, st.Between, st.After.DeepestAt)
		}
	}
	if st := study(t, "eight-day", 0, Options{}, "24.4, 29.2", "24.4, 31.2"); st.Between || st.After.DeepestAt != 16 {
		t.Errorf("too thick at its end: %v, deepest at %v", st.Between, st.After.DeepestAt)
	}
}

// Metal only comes off: nothing is missing where the new cone touches the present one,
// whatever rounding makes of it.
func TestNothingIsAddedWhereTheyTouch(t *testing.T) {
	for _, name := range []string{"eight-day", "too-weak", "strike-quick", "strike-pleasant"} {
		for _, keep := range []bool{false, true} {
			touch := study(t, name, 0, Options{KeepSetUp: keep}).After.Touch
			if !(touch > 0) {
				continue
			}
			for _, rows := range []float64{1, 2, 3} {
				st := study(t, name, 0, Options{KeepSetUp: keep, Step: touch / rows})
				if row := &st.Rows[int(rows)]; math.Abs(row.FuseeTurn-touch) > 1e-9 || row.Remove < 0 || row.Remove > LeastCount {
					t.Errorf("%s: %v comes off at turn %v, they touch at %v", name, row.Remove, row.FuseeTurn, touch)
				}
			}
		}
	}
}

// A spring off its thickness that cannot be put into the train is told with its reason.
func TestSpringThatCannotBeBuilt(t *testing.T) {
	st := study(t, "eight-day", 0, Options{}, "length_mm    = 1650.0", "length_mm    = 3450.0", "set_up_turns        = 1.25", "set_up_turns = 0.0")
	if o := st.Sensitivity.Thinner; o.Fault != nil || !(o.Torque.Mean > 0) {
		t.Errorf("thinner: %v, %v N·m", o.Fault, o.Torque.Mean)
	}
	if o := st.Sensitivity.Thicker; o.Fault == nil || o.Torque.Mean != 0 {
		t.Errorf("thicker: %v, %v N·m", o.Fault, o.Torque.Mean)
	}
}

// The torque with another set-up is that of the run that the search for it made: as great at the
// places where that is least and greatest, and with the set-up of now that of the rows.
func TestTorqueSetUp(t *testing.T) {
	st := study(t, "too-weak", 0, Options{})
	d := st.SetUp()
	pull, err := st.TorqueSetUp(d.Spring.SetUp)
	if err != nil {
		t.Fatal(err)
	}
	if got := pull(d.Torque.MinAt); math.Abs(got-d.Torque.Min) > 1e-9 {
		t.Errorf("%v at %v, want %v", got, d.Torque.MinAt, d.Torque.Min)
	}
	if got := pull(d.Torque.MaxAt); math.Abs(got-d.Torque.Max) > 1e-9 {
		t.Errorf("%v at %v, want %v", got, d.Torque.MaxAt, d.Torque.Max)
	}
	rows, err := st.Fine(32)
	if err != nil {
		t.Fatal(err)
	}
	now, err := st.TorqueSetUp(st.Now.Spring.SetUp)
	for i := range rows {
		if err != nil || math.Abs(now(rows[i].FuseeTurn)-rows[i].TorqueBefore) > 1e-12 {
			t.Errorf("turn %v: %v, want %v, %v", rows[i].FuseeTurn, now(rows[i].FuseeTurn), rows[i].TorqueBefore, err)
		}
	}
	strong := study(t, "too-strong", 0, Options{})
	if pull, err := strong.TorqueSetUp(strong.Now.Spring.SetUp); err != nil || !math.IsNaN(pull(1)) || math.IsNaN(pull(3)) {
		t.Errorf("a spring that binds is wound all the way: %v", err)
	}
	if _, err := st.TorqueSetUp(50); err == nil {
		t.Error("more set-up than turns was wound")
	}
}
