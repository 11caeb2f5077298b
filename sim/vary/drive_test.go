package vary_test

import (
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/vary"
)

// A model of the drive alone has the torques, need and verdict of a whole one; made
// whole it has arc and rate too.
func TestDrive(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	const key = "going.mainspring.thickness_mm"
	whole, err := vary.New(s, 0, vary.Length, key)
	if err != nil {
		t.Fatal(err)
	}
	drive, err := vary.Drive(s, 0, key)
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
}
