package vary_test

import (
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/vary"
)

// A model of the drive alone has the torques, need and verdict of a whole one; made
// whole it has arc and rate too, and a departure is in all its runs and in its copies.
func TestDriveAndDepart(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	const key = "going.mainspring.thickness_mm"
	whole, err := vary.New(s, 0, vary.Length, key)
	if err != nil {
		t.Fatal(err)
	}
	drive, err := vary.Drive(s, 0, nil, key)
	if err != nil {
		t.Fatal(err)
	}
	_, a := whole.Own()
	_, b := drive.Own()
	if a.Torque != b.Torque || a.Need != b.Need || a.Verdict != b.Verdict || b.Swing.Amplitude.Mean == b.Swing.Amplitude.Mean {
		t.Errorf("%+v, whole %+v", b, a)
	}
	drive.Whole()
	if r, err := drive.Run(drive.Nominal()); err != nil || r.Swing.Amplitude != a.Swing.Amplitude || r.Swing.Rate != a.Swing.Rate {
		t.Errorf("%+v, %v, whole %+v", r.Swing, err, a.Swing)
	}
	drive.Depart(func(float64) float64 { return 0.5 })
	copied, err := drive.Copy()
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range []*vary.Model{drive, copied} {
		if r, err := m.Run(m.Nominal()); err != nil || r.Torque.Min != 0.5*a.Torque.Min {
			t.Errorf("%v, %v, whole %v", r.Torque.Min, err, a.Torque.Min)
		}
	}
	if _, own := copied.Own(); own.Torque != a.Torque {
		t.Error("the departure is in the scenario's own run")
	}
}
