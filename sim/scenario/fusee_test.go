package scenario

import (
	"strings"
	"testing"
)

// chainClock has the keys of line, barrel and fusee that the full scenario has not.
const chainClock = `title = "t"
[[train]]
name = "going"
kind = "going"
[train.mainspring]
width_mm = 36
thickness_mm = 0.38
length_mm = 1650
yield_mpa = 1620
[train.barrel]
inside_diameter_mm = 45
inside_height_mm = 38
arbor_diameter_mm = 15
outside_diameter_mm = 49
set_up_turns = 1.25
arbor_pivot_mm = 9.0
pivot_friction = 0.12
[train.line]
kind = "chain"
thickness_mm = 2.2
width_mm = 1.4
[train.fusee]
turns = 15.5
profile = "measured"
points = [[0, 18.0], [6.5, 22.6],
  [15.5, 36.0]]
over = "lands"
land_height_mm = 0.9
pitch_mm = 2.0
centre_distance_mm = 60.0
pivot_mm = 4.0
great_wheel_mm = 48.0
pull_angle_deg = 60.0
hand = "left"
`

func TestChainClock(t *testing.T) {
	s := mustRead(t, chainClock)
	b, l, f := &s.Trains[0].Barrel, &s.Trains[0].Line, &s.Trains[0].Fusee
	if b.ArborPivotMM != 9 || b.PivotFriction != 0.12 || l.WidthMM != 1.4 || l.Efficiency != 0.99 {
		t.Errorf("%+v, %+v", *b, *l)
	}
	if len(f.Points) != 3 || f.Points[1] != (Point{6.5, 22.6}) || f.Over != OverLands || f.LandHeightMM != 0.9 ||
		f.PivotMM != 4 || f.GreatWheelMM != 48 || f.PullAngleDeg != 60 || f.Hand != LeftHand || f.greatest() != 36-1.8 {
		t.Errorf("%+v", *f)
	}
	if !strings.Contains(chainAssumes(s), "line.efficiency = 0.99 (the line alone, its pivots being given; common practice)\n") {
		t.Error(chainAssumes(s))
	}
	for key, want := range map[string]string{
		"going.fusee.points.1":          "diameter of the going fusee at turn 6.5 from the small end",
		"going.fusee.points.2":          "diameter of the going fusee at turn 15.5 from the small end",
		"going.barrel.arbor_pivot_mm":   "diameter of the arbor that the going barrel turns on",
		"going.barrel.pivot_friction":   "friction coefficient of the pivots of the going barrel and fusee",
		"going.fusee.great_wheel_mm":    "diameter of the going great wheel",
		"going.fusee.pivot_mm":          "diameter of the pivots of the going fusee",
		"going.fusee.pull_angle_deg":    "angle between line and pinion at the going fusee",
		"going.fusee.land_height_mm":    "height of the lands of the going fusee",
		"going.line.width_mm":           "width of the going line",
		"going.fusee.small_diameter_mm": "",
	} {
		if q, err := s.Quantity(key); q.Words != want {
			t.Errorf("%s: %q, %v", key, q.Words, err)
		}
	}
	edited, err := Edit(chainClock, []Change{{Key: "going.fusee.points.2", Value: 35.5}, {Key: "going.fusee.points.1", Value: 22.5}, {Key: "going.fusee.points.0", Value: 17.9, Remark: "again"}})
	if err != nil || !strings.Contains(edited, "points = [[0, 17.9], [6.5, 22.5],  # again\n  [15.5, 35.5]]\n") {
		t.Errorf("edited: %v\n%s", err, edited)
	}
}

func chainAssumes(s *Scenario) string {
	all := ""
	for _, a := range s.Assumed {
		all += a.Key + strings.TrimPrefix(a.String(), "train going: "+a.Key) + "\n"
	}
	return all
}

// What stands for keys of line and fusee that were left out, and which are left out of
// the assumptions because nothing asks for them.
func TestChainDefaults(t *testing.T) {
	for _, c := range []struct{ old, with, want, not string }{
		{"thickness_mm = 2.2\nwidth_mm = 1.4\n", "thickness_mm = 1.9\n", "line.width_mm = 1.9 (from the thickness)\n", ""},
		{"arbor_pivot_mm = 9.0\n", "", "line.efficiency = 0.95 (with the pivots that are not given; common practice)\n", "pivot_friction"},
		{"pivot_mm = 4.0\ngreat_wheel_mm = 48.0\n", "", "line.efficiency = 0.95 (with", "pull_angle"},
		{"pull_angle_deg = 60.0\n", "", "fusee.pull_angle_deg = 90 (a right angle, no source)\n", ""},
		{"pivot_friction = 0.12\n", "", "barrel.pivot_friction = 0.15 (common practice)\n", ""},
		{"land_height_mm = 0.9\n", "", "fusee.land_height_mm = 1.1 (from half the line's thickness)\n", "fusee.over"},
		{"over = \"lands\"\nland_height_mm = 0.9\n", "", "fusee.over = \"groove\"\n", "land_height"},
		{"hand = \"left\"\n", "", "fusee.hand = \"right\"\n", ""},
	} {
		s, err := swap(t, chainClock, c.old, c.with)
		if err != nil {
			t.Errorf("without %q: %v", c.old, err)
			continue
		}
		if all := chainAssumes(s); !strings.Contains(all, c.want) || c.not != "" && strings.Contains(all, c.not) {
			t.Errorf("without %q: assumed\n%s", c.old, all)
		}
	}
	bare := strings.NewReplacer("arbor_pivot_mm = 9.0\npivot_friction = 0.12\n", "", "pivot_mm = 4.0\ngreat_wheel_mm = 48.0\npull_angle_deg = 60.0\n", "")
	if all := chainAssumes(mustRead(t, bare.Replace(chainClock))); strings.Contains(all, "pivot_friction") || strings.Contains(all, "pull_angle") {
		t.Errorf("no pivots: assumed\n%s", all)
	}
}

func TestChainFaults(t *testing.T) {
	const points = "[[0, 18.0], [6.5, 22.6],\n  [15.5, 36.0]]"
	accepts := "want three pairs or more of a turn and a number from 0.5 to 2000 mm, such as [[0, 18.0], [6.5, 22.6], [16, 36.0]]"
	for _, c := range []struct{ old, with, want string }{
		{points, "[[0, 18.0], [15.5, 36.0]]", "c.toml:25: going.fusee.points: found 2 points; want 3 to 256 points"},
		{points, "[[0, 18.0], [6.5, 22.6], [6.5, 23.6], [15.5, 36.0]]", "c.toml:25: going.fusee.points.2: found a point at turn 6.5; want a turn after 6.5: from the small end to the large one"},
		{points, "[[0, 18.0], [7, 22.6],\n [6.5, 23.6], [15.5, 36.0]]", "c.toml:26: going.fusee.points.2: found a point at turn 6.5; want a turn after 7: from the small end to the large one"},
		{points, "[[15.5, 36.0], [6.5, 22.6], [0, 18.0]]", "c.toml:25: going.fusee.points.0: found a point at turn 15.5; want the small end first, at turn 0"},
		{points, "[[0, 18.0], [6.5, 22.6], [15, 36.0]]", "c.toml:25: going.fusee.points.2: found a point at turn 15; want the large end last, at turn 15.5"},
		{points, "[[0, 18.0], [6.5, 22.6], [17, 36.0], [15.5, 37.0]]", "c.toml:25: going.fusee.points.3: found a point at turn 15.5; want a turn after 17: from the small end to the large one"},
		{points, "[[0, 18.0], [6.5, -2], [15.5, 36.0]]", "c.toml:25: going.fusee.points.1: found -2; want numbers from 0.5 to 2000 mm"},
		{points, "[18.0, 22.6, 36.0]", "c.toml:25: going.fusee.points.0: found 18.0 for a pair; " + accepts},
		{points, "[[0, 18.0], [6.5], [15.5, 36]]", "c.toml:25: going.fusee.points.1: found an array for a pair; " + accepts},
		{points, "[[0, 18.0], ['x', 2], [15.5, 36]]", `c.toml:25: going.fusee.points.1: found the string "x"; ` + accepts},
		{points, "18.0", "c.toml:25: going.fusee.points: found 18.0; " + accepts},
		{"turns = 15.5", "turns = 16", "c.toml:26: going.fusee.points.2: found a point at turn 15.5; want the large end last, at turn 16"},
		{"points = " + points, "", "c.toml:23: going.fusee.turns: found 15.5; want a whole number of turns for a diameter at each, or points"},
		{"over =", "diameters_mm = [18, 36]\nover =", "c.toml:25: going.fusee.points: found together with diameters_mm; want one of the two"},
		{`profile = "measured"`, "profile = \"cone\"\nsmall_diameter_mm = 18\nlarge_diameter_mm = 36", `c.toml:27: going.fusee.points: found in a profile that does not take it; want it left out: they belong to profile = "measured"`},
		{"over =", "small_diameter_mm = 18\nover =", "c.toml:27: going.fusee.small_diameter_mm: found in a profile that does not take it; want it left out: measured diameters are those of diameters_mm or points"},
		{`over = "lands"`, `over = "groove"`, `c.toml:28: going.fusee.land_height_mm: found with diameters measured over the groove; want it left out, or over = "lands"`},
		{`over = "lands"`, `over = "top"`, `c.toml:27: going.fusee.over: found "top"; want "groove" or "lands"`},
		{"land_height_mm = 0.9", "land_height_mm = 9", "c.toml:28: going.fusee.land_height_mm: found 9 with a diameter of 18 mm over the lands; want less than 8.75 mm"},
		{"great_wheel_mm = 48.0\n", "", "c.toml:31: going.fusee.pivot_mm: found without great_wheel_mm; want both or neither"},
		{"pivot_mm = 4.0\n", "", "c.toml:31: going.fusee.great_wheel_mm: found without pivot_mm; want both or neither"},
		{"great_wheel_mm = 48.0", "great_wheel_mm = 4.0", "c.toml:31: going.fusee.pivot_mm: found 4; want less than great_wheel_mm, 4 mm"},
		{"arbor_pivot_mm = 9.0", "arbor_pivot_mm = 45", "c.toml:16: going.barrel.arbor_pivot_mm: found 45; want less than inside_diameter_mm, 45 mm"},
		{"pivot_friction = 0.12", "pivot_friction = 1.5", "c.toml:17: going.barrel.pivot_friction: found 1.5; want a number from 0 to 1"},
		{"pull_angle_deg = 60.0", "pull_angle_deg = 190", "c.toml:33: going.fusee.pull_angle_deg: found 190; want a number from 0 to 180 deg"},
		{"width_mm = 1.4", "width_mm = 2.5", "c.toml:29: going.fusee.pitch_mm: found 2, so that turns of the line would overlap; want at least line.width_mm, 2.5 mm"},
		{"width_mm = 1.4\n", "", "c.toml:28: going.fusee.pitch_mm: found 2, so that turns of the line would overlap; want at least line.thickness_mm, 2.2 mm"},
		{`hand = "left"`, `hand = "lefty"`, `c.toml:34: going.fusee.hand: found "lefty"; want "right" or "left"`},
		{"centre_distance_mm = 60.0", "centre_distance_mm = 43.8", "c.toml:30: going.fusee.centre_distance_mm: found 43.8; want more than 43.8 mm, where the line on the fusee meets the line on the barrel"},
	} {
		_, err := swap(t, chainClock, c.old, c.with)
		if err == nil || err.Error() != c.want {
			t.Errorf("%q: %v, want %s", c.with, err, c.want)
		}
	}
}

// Diameters and points take each other's place, and go with a profile that takes neither.
func TestPointsBySet(t *testing.T) {
	for _, c := range []struct {
		sets []string
		want string // points and diameters, or the fault
	}{
		{[]string{"going.fusee.points.1=22.5"}, "3 22.5 0"},
		{[]string{"going.fusee.points=[[0, 18], [5, 20], [10, 25], [15.5, 36]]"}, "4 20.0 0"},
		{[]string{"going.fusee.turns=2", "going.fusee.diameters_mm=[18, 25, 36]"}, "0 0 3"},
		{[]string{"going.fusee.turns=2", "going.fusee.diameters_mm=[18, 25, 36]", "going.fusee.points=[[0, 18], [1, 21], [2, 36]]"}, "3 21.0 0"},
		{[]string{"going.fusee.profile=even", "going.fusee.small_diameter_mm=18"}, "0 0 0"},
		{[]string{"going.fusee.points.3=22.5"}, `--set going.fusee.points.3: found "3"; want a place from 0 to 2`},
		{[]string{"going.fusee.points=[1]"}, "--set going.fusee.points: found 1 for a pair; want three pairs or more of a turn and a number from 0.5 to 2000 mm, such as [[0, 18.0], [6.5, 22.6], [16, 36.0]]"},
	} {
		s := mustRead(t, chainClock)
		own := s.Clone()
		got := ""
		if err := s.Apply(c.sets); err != nil {
			got = err.Error()
		} else {
			f := &s.Trains[0].Fusee
			second := "0"
			if len(f.Points) > 1 {
				second = strings.TrimSuffix(strings.Fields(toml(&f.Points[1].DiameterMM) + " ")[0], "")
				if !strings.Contains(second, ".") {
					second += ".0"
				}
			}
			got = toml(len(f.Points)) + " " + second + " " + toml(len(f.DiametersMM))
		}
		if got != c.want {
			t.Errorf("%v: %s, want %s", c.sets, got, c.want)
		}
		if own.Trains[0].Fusee.Points[1].DiameterMM != 22.6 {
			t.Fatal("a clone follows its original")
		}
	}
	if _, err := mustRead(t, chainClock).Value("going.fusee.points"); err == nil || !strings.HasSuffix(err.Error(), "found several numbers; want the place of one after it, such as going.fusee.points.0") {
		t.Error(err)
	}
	if _, err := mustRead(t, fullText(t)).Value("going.fusee.points.0"); err == nil || !strings.Contains(err.Error(), "want the whole list set first: three pairs or more") {
		t.Error(err)
	}
}
