package sim_test

import (
	"errors"
	. "evenpull/sim"
	"math"
	"strings"
	"testing"

	"evenpull/fusee"
	"evenpull/fusee/mainspring"
	"evenpull/scenarios"

	"gonum.org/v1/gonum/integrate"
)

// Encyclopaedia Britannica, 11th ed. (1911), "Clock": great wheel 96, centre
// pinion 8, 16 turns: 12 hours a turn, 8 days. The pendulum of the sample beats
// as often as its train asks for, so the centre turns once in an hour.
func TestEightDays(t *testing.T) {
	res := run(t, sample(t, "eight-day")[0], Options{})
	closeTo(t, "hours a fusee turn", res.HoursPerTurn, 12, 2e-4)
	closeTo(t, "hours", res.Runtime, 192, 2e-4)
	closeTo(t, "hours of the last row", res.Rows[len(res.Rows)-1].Hours, res.Runtime, 1e-12)
	// The same article: great wheel 78, pinion 8, 8 pins: 78 blows a turn.
	res = run(t, sample(t, "three-trains")[1], Options{})
	closeTo(t, "hours a striking turn", res.HoursPerTurn, 12, 1e-12)
}

// Every row's figures hang together, and so do those of the whole.
func TestRowsHangTogether(t *testing.T) {
	for _, name := range scenarios.Names() {
		for _, tr := range sample(t, name) {
			res := run(t, tr, Options{})
			var turns, torques []float64
			for i, row := range res.Rows {
				turns, torques = append(turns, row.FuseeTurn), append(torques, row.FuseeTorque)
				if i > 0 && !(row.SpringTurns < res.Rows[i-1].SpringTurns && row.SpringTorque < res.Rows[i-1].SpringTorque) {
					t.Errorf("%s %s: the spring does not run down at turn %g", name, tr.Name, row.FuseeTurn)
				}
				if row.FuseeTorque < res.Torque.Min*(1-1e-11) || row.FuseeTorque > res.Torque.Max*(1+1e-11) {
					t.Errorf("%s %s: torque %g at turn %g is outside %g to %g", name, tr.Name, row.FuseeTorque, row.FuseeTurn, res.Torque.Min, res.Torque.Max)
				}
				closeTo(t, "last arbor", row.LastTorque, tr.Wheels.Torque(tr.Wheels.Last(), row.FuseeTorque), 1e-12)
			}
			span := turns[len(turns)-1] - turns[0]
			closeTo(t, name+" "+tr.Name+": mean torque", res.Torque.Mean, integrate.Trapezoidal(turns, torques)/span, 2e-4)
			closeTo(t, "unevenness", res.Torque.Unevenness, (res.Torque.Max-res.Torque.Min)/res.Torque.Mean, 1e-12)
			closeTo(t, "turns used", res.Spring.Used, res.Rows[0].SpringTurns-res.Rows[len(res.Rows)-1].SpringTurns, 1e-9)
			closeTo(t, "set-up left", res.Rows[len(res.Rows)-1].SpringTurns, res.Spring.SetUp, 1e-9)
		}
	}
}

// What is said of the whole run does not depend on the rows asked for.
func TestStepDoesNotMatter(t *testing.T) {
	tr := sample(t, "too-strong")[0] // starts between two turns
	want := run(t, tr, Options{})
	for _, step := range []float64{0.1, 0.3, 1, 5, 64} {
		got := run(t, tr, Options{Step: step})
		if got.Torque != want.Torque || got.Line != want.Line || got.Verdict != want.Verdict {
			t.Errorf("step %g: %+v, want %+v", step, got.Torque, want.Torque)
		}
		first, last := got.Rows[0], got.Rows[len(got.Rows)-1]
		if first.FuseeTurn != want.TurnsLost || last.FuseeTurn != 16 {
			t.Errorf("step %g runs from %g to %g", step, first.FuseeTurn, last.FuseeTurn)
		}
		for _, row := range got.Rows[1 : len(got.Rows)-1] {
			if k := row.FuseeTurn / step; math.Abs(k-math.Round(k)) > 1e-9 {
				t.Errorf("step %g has a row at %g", step, row.FuseeTurn)
			}
		}
	}
	if n := len(run(t, sample(t, "eight-day")[0], Options{}).Rows); n != 65 {
		t.Errorf("%d rows at quarter turns of 16, want 65", n)
	}
	if n := len(run(t, tr, Options{Step: 1e-9}).Rows); n > 16001 {
		t.Errorf("a step too fine gave %d rows", n)
	}
}

// A result used again is as good as a new one, and allocates nothing.
func TestResultUsedAgain(t *testing.T) {
	strong, good := sample(t, "too-strong")[0], sample(t, "eight-day")[0]
	var res Result
	for _, tr := range []*Train{&strong, &good, &strong} {
		if err := tr.RunInto(&res, Options{}); err != nil {
			t.Fatal(err)
		}
		fresh := run(t, *tr, Options{})
		if res.Torque != fresh.Torque || len(res.Rows) != len(fresh.Rows) || res.Verdict != fresh.Verdict || res.TurnsLost != fresh.TurnsLost {
			t.Errorf("%s differs when its result is used again", tr.Name)
		}
	}
	if n := testing.AllocsPerRun(100, func() {
		if err := good.RunInto(&res, Options{}); err != nil {
			t.Fatal(err)
		}
	}); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

// A what-if is a copy with a field changed: the original stays as it was.
func TestWhatIf(t *testing.T) {
	tr := sample(t, "eight-day")[0]
	before := run(t, tr, Options{})
	smooth := tr
	smooth.Drive.Efficiency /= 2
	closeTo(t, "half the couple", run(t, smooth, Options{}).Torque.Mean, before.Torque.Mean/2, 1e-12)
	if after := run(t, tr, Options{}); after.Torque != before.Torque {
		t.Error("the original changed")
	}
}

// watcher counts what a recorder is told.
type watcher struct {
	begun, rows, ended int
	said               int
	last               float64
}

func (w *watcher) Begin(_ *Train, rows int) { w.begun, w.said = w.begun+1, rows }
func (w *watcher) Row(r Row)                { w.rows, w.last = w.rows+1, r.FuseeTurn }
func (w *watcher) End(*Result)              { w.ended++ }

func TestRecorder(t *testing.T) {
	var w watcher
	run(t, sample(t, "eight-day")[0], Options{Step: 0.5, Recorder: &w})
	if w.begun != 1 || w.ended != 1 || w.rows != 33 || w.said != 33 || w.last != 16 {
		t.Errorf("%+v", w)
	}
}

// What only shows when the drive is wound is blamed on the key to look at.
func TestBlame(t *testing.T) {
	cases := []struct {
		name, key string
		replace   []string
		err       error
	}{
		{"eight-day", "barrel.set_up_turns", []string{"set_up_turns        = 1.25", "set_up_turns = 9.5"}, fusee.ErrSetUp},
		{"eight-day", "mainspring.free_coils", []string{"yield_mpa    = 1620.0", "free_coils = 30"}, mainspring.ErrNoYield},
		{"eight-day", "mainspring.free_coils", []string{"yield_mpa    = 1620.0", "free_coils = 19"}, mainspring.ErrLoose},
		{"eight-day", "mainspring.solid_turns", []string{"yield_mpa    = 1620.0", "solid_turns = 12"}, mainspring.ErrCount},
		{"three-trains", "barrel.set_up_turns", []string{"set_up_turns        = 1.0", "set_up_turns = 0"}, fusee.ErrSlack},
		{"three-trains", "fusee.small_diameter_mm", []string{"large_diameter_mm  = 40.0", "small_diameter_mm = 49.0", "centre_distance_mm = 66.0", ""}, fusee.ErrEven},
	}
	for _, c := range cases {
		_, err := Compile(readSample(t, c.name, c.replace...))
		var blamed *Error
		if !errors.As(err, &blamed) || !strings.HasSuffix(blamed.Fault.Key, c.key) || !errors.Is(err, c.err) {
			t.Errorf("%v: %v, want one at %s", c.replace, err, c.key)
			continue
		}
		if line := strings.Split(c.replace[1], " ")[0]; blamed.Fault.Line == 0 || !strings.HasSuffix(c.key, line) {
			t.Errorf("%v: %v does not tell the line", c.replace, err)
		}
	}
}

// A run of the torque alone has the same torques, need and verdict, and neither arc
// nor blows.
func TestTorqueOnly(t *testing.T) {
	for _, name := range []string{"eight-day", "too-strong", "too-weak", "strike-quick", "strike-pleasant", "three-trains"} {
		for _, tr := range sample(t, name) {
			whole, bare := run(t, tr, Options{}), run(t, tr, Options{TorqueOnly: true})
			if bare.Torque != whole.Torque || bare.Verdict != whole.Verdict || bare.Line != whole.Line || bare.Spring.Stored != whole.Spring.Stored ||
				bare.Need.Used != whole.Need.Used || bare.Runtime != whole.Runtime && !math.IsNaN(whole.Runtime) {
				t.Errorf("%s, %s: %+v, alone %+v", name, tr.Name, whole.Torque, bare.Torque)
			}
			if !math.IsNaN(bare.Swing.Amplitude.Mean) || !math.IsNaN(bare.Cadence.Interval.Mean) || !math.IsNaN(bare.Rows[3].Amplitude) || !math.IsNaN(bare.Rows[3].Twelve) {
				t.Errorf("%s, %s: arc or blows in a run of the torque alone", name, tr.Name)
			}
		}
	}
}
