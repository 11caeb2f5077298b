package sim_test

import (
	"math"
	"strings"
	"testing"

	"evenpull/fusee/mainspring"
	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/show/words"
)

const byFriction = "friction_coefficient = 0.10"

// rubbing is the sample with its coil friction told by the coefficient, and what else is put in
// place of something.
func rubbing(t *testing.T, replace ...string) (*sim.Train, *sim.Result) {
	t.Helper()
	_, trains := trial.Compile(t, "eight-day", append([]string{
		"efficiency   = 0.90 ", byFriction + " #", `key        = "going.mainspring.efficiency"`, `key        = "going.mainspring.width_mm"`,
	}, replace...)...)
	return &trains[0], &trial.Run(t, trains[:1])[0]
}

// With a coefficient of friction the torque is that of the closed form past the coils at each
// turn, near that of the usual efficiency; braced it is more, and rough coils leave less.
func TestFrictionCoefficient(t *testing.T) {
	_, plain := trial.Compile(t, "eight-day")
	usual := trial.Run(t, plain[:1])[0]
	train, hooked := rubbing(t)
	c, err := mainspring.New(train.Drive.Spring, train.Drive.Housing)
	if err != nil {
		t.Fatal(err)
	}
	passes := train.Drive.Passes(&c)
	for i, row := range hooked.Rows {
		want := usual.Rows[i].FuseeTorque / 0.9 * passes(row.SpringTurns)
		if math.Abs(row.FuseeTorque/want-1) > 1e-9 {
			t.Errorf("at %v turns of the spring: %v N·m, want %v", row.SpringTurns, row.FuseeTorque, want)
		}
	}
	_, braced := rubbing(t, byFriction, byFriction+"\nouter_end = \"braced\"\n")
	_, rough := rubbing(t, byFriction, "friction_coefficient = 0.30")
	u, h, b, r := usual.Torque.Mean, hooked.Torque.Mean, braced.Torque.Mean, rough.Torque.Mean
	if !(h > 0.95*u && h < 1.05*u && b > 1.03*h && r < 0.9*h && r > 0.6*h) {
		t.Errorf("mean torque: usual %.4g, hooked %.4g, braced %.4g, rough %.4g", u, h, b, r)
	}
	// A hooked strip swings with every turn of the barrel.
	if !(hooked.Torque.Unevenness > usual.Torque.Unevenness+0.03) {
		t.Errorf("unevenness %.4g, hooked %.4g", usual.Torque.Unevenness, hooked.Torque.Unevenness)
	}
	for _, c := range []struct {
		of      *sim.Result
		outside bool
	}{{&usual, false}, {hooked, false}, {rough, true}} {
		told := strings.Contains(strings.Join(words.Minds(&c.of.Digest), "\n"), "is beyond the table of coil friction")
		if c.of.Spring.OffTable != c.outside || told != c.outside {
			t.Errorf("outside the table: %v, told %v; want %v", c.of.Spring.OffTable, told, c.outside)
		}
	}
}

// Turns that were counted are those that are told, with either; but the coils are packed the
// looser the fewer the closed form has.
func TestCountedWithFriction(t *testing.T) {
	const length = "length_mm    = 1650.0 "
	_, plain := trial.Compile(t, "eight-day", length, "solid_turns = 8.4\n"+length)
	usual := trial.Run(t, plain[:1])[0]
	_, hooked := rubbing(t, length, "solid_turns = 8.4\n"+length)
	for _, r := range []*sim.Result{&usual, hooked} {
		if math.Abs(r.Spring.Available-8.4) > 1e-9 {
			t.Errorf("%.6g turns, 8.4 were counted", r.Spring.Available)
		}
	}
	if less := usual.Spring.Packing - hooked.Spring.Packing; !(less > 0.01 && less < 0.03) {
		t.Errorf("packing %.4g, with friction %.4g", usual.Spring.Packing, hooked.Spring.Packing)
	}
}
