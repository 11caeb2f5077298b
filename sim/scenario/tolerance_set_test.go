package scenario

import "testing"

// TestSetTolerances: what --set does to tolerances, and they to it.
func TestSetTolerances(t *testing.T) {
	text := withTolerance(t, "key = \"going.pendulum.decay.from_deg\"\npercent = 1\n\n[[tolerance]]\nkey = \"going.mesh.centre.efficiency\"\nplus_minus = 0.01")
	for _, c := range []struct {
		sets []string
		want string // the tolerances, or what is wrong
	}{
		{[]string{"tolerance.1.plus_minus=0.02", "tolerance.1.shape=uniform"}, "going.mainspring.thickness_mm 0.02 none uniform"},
		{[]string{"tolerance.1.percent=3"}, "going.mainspring.thickness_mm none 3 normal"},
		{[]string{"tolerance.1.percent=3", "tolerance.1.plus_minus=1"}, "going.mainspring.thickness_mm 1 none normal"},
		{[]string{"tolerance.1.key=going.mainspring.width_mm"}, "going.mainspring.width_mm 0.01 none normal"},
		{[]string{"going.name=time", "tolerance.1.key=time.line.efficiency", "tolerance.3.key=time.line.thickness_mm", "tolerance.4.key=place.gravity_m_s2"},
			"time.line.efficiency 0.01 none normal"},
		{[]string{"tolerance.1.plus_minus=-1"}, "--set tolerance.1.plus_minus: found -1; want a number from 0 to 1000000"},
		{[]string{"tolerance.5.percent=1"}, "--set tolerance.5.percent: unknown key; did you mean tolerance.1.percent?"},
		{[]string{"tolerance.x=1"}, "--set tolerance.x: unknown key; after tolerance may follow 1, 2, 3, 4"},
		{[]string{"tolerance.1=1"}, "--set tolerance.1: found the name of a table; want one of its keys: key, plus_minus, percent, shape"},
		{[]string{"tolerance.2.key=going.mainspring.thickness_mm"}, `--set tolerance.2.key: found "going.mainspring.thickness_mm" again; want each quantity once`},
		{[]string{"tolerance.2.key=tolerance.1.percent"},
			`--set tolerance.2.key: found "tolerance.1.percent": no quantity of the clock; want the key of a quantity that can vary`},
		// the tolerance of what a change replaced is ignored
		{[]string{"going.pendulum.quality=150"}, "going.mainspring.thickness_mm 0.01 none normal"},
		{[]string{"going.mesh.centre.friction_coefficient=0.1"}, "going.mainspring.thickness_mm 0.01 none normal"},
		// a fault of the tolerance is laid to the change that causes it
		{[]string{"going.mesh.centre.drives=second", "going.load.centre.arbor=second"}, `--set going.mesh.centre.drives: tolerance.4.key: found "going.mesh.centre.efficiency": unknown key; did you mean going.mesh.second.efficiency?`},
		{[]string{"striking.name=hours"}, `--set striking.name: tolerance.2.key: found "striking.fusee.pitch_mm": unknown key; did you mean going.fusee.pitch_mm?`},
		{[]string{"tolerance.4.key=striking.fly.inner_radius_mm", "tolerance.4.percent=1"}, "--set tolerance.4.percent: found 1 of a value that is 0; want plus_minus: a percentage of 0 is nothing"},
	} {
		s := mustRead(t, text)
		if err := s.Apply(c.sets); err != nil {
			if err.Error() != c.want {
				t.Errorf("%q: got\n%v\nwant\n%s", c.sets, err, c.want)
			}
		} else if got := show(s, "tolerance.1.key", "tolerance.1.plus_minus", "tolerance.1.percent", "tolerance.1.shape"); got != c.want {
			t.Errorf("%q: got %s, want %s", c.sets, got, c.want)
		}
	}
	s := mustRead(t, withTolerance(t, "key = \"striking.barrel.set_up_turns\"\npercent = 1"))
	want := "--set striking.barrel.set_up_turns: tolerance.3.percent: found 1 of a value that is 0; want plus_minus: a percentage of 0 is nothing"
	if err := s.Apply([]string{"striking.barrel.set_up_turns=0"}); message(err) != want {
		t.Errorf("got\n%v\nwant\n%s", err, want)
	}
}
