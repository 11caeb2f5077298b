package cut

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"evenpull/fusee"
	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
	"evenpull/sim/study/setup"
)

var nan = math.NaN()

func study(t testing.TB, name string, number int, o Options, replace ...string) *Study {
	t.Helper()
	st, err := try(t, name, number, o, replace...)
	if err != nil {
		t.Fatal(err)
	}
	return st
}

func try(t testing.TB, name string, number int, o Options, replace ...string) (*Study, error) {
	t.Helper()
	s, _ := trial.Compile(t, name, replace...)
	if o.Large == 0 {
		o.Large = nan
	}
	if o.Small == 0 {
		o.Small = nan
	}
	return Run(context.Background(), s, number, o)
}

// run runs the first train of a scenario down.
func run(t testing.TB, s *scenario.Scenario) *sim.Result {
	t.Helper()
	trains, err := sim.Compile(s)
	if err != nil {
		t.Fatal(err)
	}
	return &trial.Run(t, trains[:1])[0]
}

// A scenario that asks for an even cone with the large end and the set-up that came
// out runs as even as promised, through the solver of the spring and not the study,
// and has the same diameters.
func TestCutRunsEven(t *testing.T) {
	for _, name := range []string{"eight-day", "too-strong", "too-weak", "strike-quick", "strike-pleasant"} {
		for _, o := range []Options{{}, {KeepSetUp: true}, {FromBlank: true, Large: 13.5e-3}} {
			st := study(t, name, 0, o)
			s, _ := trial.Compile(t, name)
			in := &s.Trains[0]
			in.Barrel.SetUpTurns = st.After.Spring.SetUp
			in.Fusee.Profile, in.Fusee.DiametersMM = scenario.Even, nil
			in.Fusee.LargeDiameterMM = st.Rows[len(st.Rows)-1].Diameter * 1e3
			r := run(t, s)
			if !(r.Torque.Unevenness < 1e-4 && st.After.Torque.Unevenness < 1e-4) || r.TurnsLost > 0 {
				t.Errorf("%s %+v: unevenness %v by a run, %v here", name, o, r.Torque.Unevenness, st.After.Torque.Unevenness)
			}
			if math.Abs(r.Torque.Mean/st.After.Torque.Mean-1) > 1e-6 || math.Abs(r.Line.OnFusee/st.After.Line.OnFusee-1) > 1e-5 {
				t.Errorf("%s %+v: mean %v and %v, line %v and %v", name, o, r.Torque.Mean, st.After.Torque.Mean, r.Line.OnFusee, st.After.Line.OnFusee)
			}
			w, _ := r.Train.Drive.Wind()
			for i := range st.Rows {
				row := &st.Rows[i]
				if want := 2*w.At(row.FuseeTurn).Radius - r.Train.Drive.Line.Thickness; math.Abs(row.Diameter-want) > 1e-8 {
					t.Errorf("%s %+v: diameter %v at turn %v, want %v", name, o, row.Diameter, row.FuseeTurn, want)
				}
				if !o.FromBlank && row.Remove < -1e-8 {
					t.Errorf("%s %+v: %v added at turn %v", name, o, -row.Remove, row.FuseeTurn)
				}
			}
		}
	}
}

// The diameters at whole turns, put into a scenario as measured, run as even as told.
func TestWholeTurnsAsMeasured(t *testing.T) {
	st := study(t, "strike-quick", 0, Options{})
	s, _ := trial.Compile(t, "strike-quick")
	in := &s.Trains[0]
	in.Barrel.SetUpTurns = st.After.Spring.SetUp
	for i := range in.Fusee.DiametersMM {
		in.Fusee.DiametersMM[i] = st.Rows[i].Diameter * 1e3
	}
	if r := run(t, s); !(math.Abs(r.Torque.Unevenness-st.Whole) <= 1e-9) {
		t.Errorf("unevenness %v by a run, %v told", r.Torque.Unevenness, st.Whole)
	}
	// Once cut, it is even as it is, and hardly anything is left to come off.
	again, err := Run(context.Background(), s, 0, Options{Large: nan, Small: nan})
	if err != nil || !(again.Now.Torque.Unevenness < 0.05) || again.After.Removed > 0.05*st.After.Removed {
		t.Errorf("%v: unevenness %v, removed %v after %v", err, again.Now.Torque.Unevenness, again.After.Removed, st.After.Removed)
	}
}

// The thickness is tried with the cone held: a scenario of its own says the same.
func TestSensitivity(t *testing.T) {
	st := study(t, "eight-day", 0, Options{KeepSetUp: true})
	for by, off := range map[float64]Off{-0.01: st.Sensitivity.Thinner, 0.01: st.Sensitivity.Thicker} {
		s, _ := trial.Compile(t, "eight-day")
		s.Trains[0].Mainspring.ThicknessMM += by
		trains, err := sim.Compile(s)
		if err != nil {
			t.Fatal(err)
		}
		trains[0].Drive.Cone = st.Cut.Drive.Cone
		r := &trial.Run(t, trains[:1])[0]
		if math.Abs(r.Torque.Unevenness-off.Torque.Unevenness) > 1e-12 || math.Abs(r.Torque.Mean/off.Torque.Mean-1) > 1e-12 || off.Torque.Unevenness < 1e-3 {
			t.Errorf("%+v mm: %+v, by a run %v and %v", by, off, r.Torque.Unevenness, r.Torque.Mean)
		}
	}
}

func TestFaults(t *testing.T) {
	for _, c := range []struct {
		o       Options
		replace []string
		want    error
		says    string
	}{
		{Options{KeepSetUp: true}, []string{"set_up_turns        = 1.25", "set_up_turns = 0.0"}, fusee.ErrSlack, "leave --keep-set-up out"},
		{Options{KeepSetUp: true}, []string{"set_up_turns        = 1.25", "set_up_turns = 8.6"}, fusee.ErrSetUp, "or less set-up"},
		{Options{FromBlank: true}, []string{"set_up_turns        = 1.25", "set_up_turns = 0.0"}, fusee.ErrSlack, "no end will do"},
		{Options{FromBlank: true, Large: 30e-3}, nil, nil, "the spring has 8.62 turns"},
		{Options{FromBlank: true, Large: 5e-3}, nil, fusee.ErrThin, "at fusee turn 0, and less than 6.00 mm"},
		{Options{FromBlank: true, Large: 5e-3}, nil, fusee.ErrThin, "want a large end from 11.0 to 39.1 mm"},
		{Options{FromBlank: true, Large: 200e-3}, nil, fusee.ErrCentre, "a large end of 400 mm fusee and barrel would meet: their arbors stand 58.0 mm apart"},
		{Options{FromBlank: true, Small: 0.5e-3}, nil, fusee.ErrThin, "a diameter of 1.00 mm at fusee turn 0"},
		{Options{FromBlank: true, Small: 0.5e-3}, nil, fusee.ErrThin, "want a small end from 6.0 to 15.0 mm"},
		{Options{FromBlank: true, Small: 10e-3}, nil, fusee.ErrEven, "small_diameter_mm"},
		{Options{FromBlank: true}, []string{"length_mm    = 1650.0", "length_mm    = 500.0"}, nil, "turns"},
	} {
		_, err := try(t, "eight-day", 0, c.o, c.replace...)
		var apart *sim.Error
		if !errors.As(err, &apart) || c.want != nil && !errors.Is(err, c.want) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%+v: %v", c.o, err)
		}
	}
	s, _ := trial.Compile(t, "eight-day")
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := Run(ctx, s, 0, Options{Large: nan, Small: nan}); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}

// An end asked for is the end that comes out; a step is the distance of the rows.
// TestThinStrips: of a strip with more turns than a scenario takes for a set-up none beyond
// those is tried, and none is laid to the user.
func TestThinStrips(t *testing.T) {
	for _, length := range []int{1650, 6000, 20000} {
		for _, o := range []Options{{}, {KeepSetUp: true}, {FromBlank: true}} {
			st := study(t, "eight-day", 0, o, "thickness_mm = 0.38", "thickness_mm = 0.02", "length_mm    = 1650.0", fmt.Sprintf("length_mm = %d", length))
			for _, d := range []*sim.Digest{st.SetUp(), st.Present.Run(), st.Least.Run(), &st.After.Digest} {
				if d != nil && !(d.Spring.SetUp <= setup.MostTurns) {
					t.Errorf("%d mm, %+v: a set-up of %v turns", length, o, d.Spring.SetUp)
				}
			}
			if !o.FromBlank && (st.Least.Fault != nil || st.Present.Fault != nil) {
				t.Errorf("%d mm, %+v: %v, %v", length, o, st.Present.Fault, st.Least.Fault)
			}
		}
	}
}

func TestEndsAndSteps(t *testing.T) {
	small := study(t, "eight-day", 0, Options{FromBlank: true, Small: 6.2e-3, Step: 0.3})
	last := len(small.Rows) - 1
	if d := small.Rows[0].Diameter; math.Abs(d-12.4e-3) > 1e-9 || last != 54 || small.Rows[last].FuseeTurn != 16 {
		t.Errorf("%v, %d rows", d, last+1)
	}
	if r := small.Rows[7]; math.Abs(r.FuseeTurn-2.1) > 1e-12 || math.Abs(r.Along-2.1*2.2e-3) > 1e-12 {
		t.Errorf("%+v", r)
	}
	large := study(t, "eight-day", 0, Options{FromBlank: true, Large: 18e-3})
	if d := large.Rows[16].Diameter; math.Abs(d-36e-3) > 1e-9 || large.After.Missing <= 0 {
		t.Errorf("%v, %v missing", d, large.After.Missing)
	}
}

// Numbers from the constants and the line alone: 1.6 mm of gut, then of chain, at a
// pitch of 2.2 mm. Either lies in the groove with half its thickness (common practice, no
// source); what was measured over the lands has the lands that are said.
func TestGroove(t *testing.T) {
	g := study(t, "eight-day", 0, Options{}).Groove
	if got := fmt.Sprintf("%v %.3f %.3f %.3f", g.Square, g.Width*1e3, g.Depth*1e3, g.Land*1e3); got != "false 1.700 0.800 0.500" {
		t.Error(got)
	}
	chain := study(t, "eight-day", 0, Options{}, `"gut"  `, `"chain"`, "pitch_mm           = 2.2", "pitch_mm = 1.7")
	if g = chain.Groove; !g.Square || math.Abs(g.Width-1.6e-3) > 1e-12 || math.Abs(g.Depth-0.8e-3) > 1e-12 || math.Abs(g.Land-0.1e-3) > 1e-12 {
		t.Errorf("%+v", g)
	}
	over := study(t, "eight-day", 0, Options{}, "pitch_mm           = 2.2", "over = \"lands\"\nland_height_mm = 0.7\npitch_mm = 2.2")
	if g = over.Groove; g.Square || math.Abs(g.Depth-0.7e-3) > 1e-12 {
		t.Errorf("%+v", g)
	}
}

// The blank is the groove's 16 turns of 2.2 mm, its width of 1.7 mm and a margin at each end, and every row
// says how far its place is from the face at the large end, and how thick the blank is
// there. What was measured over the lands comes out as it was measured.
func TestBlank(t *testing.T) {
	st := study(t, "eight-day", 0, Options{Step: 0.5})
	if b := st.Blank; math.Abs(b.Height-40.9e-3) > 1e-12 || math.Abs(b.Margin-2e-3) > 1e-12 || !b.Usual {
		t.Errorf("%+v", b)
	}
	for i, r := range st.Rows {
		if math.Abs(r.FromWheel-(38.05e-3-1.1e-3*float64(i))) > 1e-12 || math.Abs(r.OverLands-r.Diameter-1.6e-3) > 1e-12 {
			t.Errorf("turn %v: %+v", r.FuseeTurn, r)
		}
	}
	s, _ := trial.Compile(t, "three-trains")
	f := &s.Trains[2].Fusee // a cone that is even as it is
	f.Over, f.LandHeightMM = scenario.OverLands, 0.75
	st, err := Run(context.Background(), s, 2, Options{Large: nan, Small: nan})
	if err != nil {
		t.Fatal(err)
	}
	if last := st.Rows[len(st.Rows)-1]; !st.Nothing || math.Abs(last.OverLands*1e3-f.LargeDiameterMM) > 1e-9 {
		t.Errorf("%+v of %v mm", last, f.LargeDiameterMM)
	}
	f.EndMarginMM = 3.5
	if b := blankOf(f, &st.Cut.Drive.Cone, &Groove{Width: 1.5e-3}); math.Abs(b.Margin-3.5e-3) > 1e-12 || b.Usual || math.Abs(b.Height-(8.5e-3+16*2.4e-3)) > 1e-12 {
		t.Errorf("%+v", b)
	}
}

func BenchmarkCut(b *testing.B) {
	for _, name := range []string{"eight-day", "strike-quick", "too-strong"} {
		b.Run(name, func(b *testing.B) {
			s, _ := trial.Compile(b, name)
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Run(context.Background(), s, 0, Options{Large: nan, Small: nan}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
