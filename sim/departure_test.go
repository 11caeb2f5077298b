package sim_test

import (
	"math"
	"testing"

	"evenpull/escapement"
	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/rules"
)

// A spring that gives a share of what is computed gives that share of every torque,
// and the train is judged and swung by it.
func TestDeparture(t *testing.T) {
	_, trains := trial.Compile(t, "eight-day")
	run := func(departure func(float64) float64) *sim.Result {
		r, err := trains[0].Run(sim.Options{Departure: departure})
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	near := func(what string, got, want, tolerance float64) {
		t.Helper()
		if !(math.Abs(got-want) <= tolerance*math.Abs(want)) {
			t.Errorf("%s: %v, want %v", what, got, want)
		}
	}
	whole, share := run(nil), run(func(float64) float64 { return 0.6 })
	for i := range whole.Rows {
		a, b := &share.Rows[i], &whole.Rows[i]
		near("fusee", a.FuseeTorque, 0.6*b.FuseeTorque, 1e-12)
		near("spring", a.SpringTorque, 0.6*b.SpringTorque, 1e-12)
		near("tension", a.LineTension, 0.6*b.LineTension, 1e-12)
		near("winding", a.WindingTorque, 0.6*b.WindingTorque, 1e-12)
		near("last arbor", a.LastTorque, trains[0].Wheels.Torque(trains[0].Wheels.Last(), a.FuseeTorque), 1e-12)
		if a.SpringTurns != b.SpringTurns || a.Fleet != b.Fleet {
			t.Error("turns or fleet angle have changed")
		}
	}
	near("mean", share.Torque.Mean, 0.6*whole.Torque.Mean, 1e-12)
	near("least", share.Torque.Min, 0.6*whole.Torque.Min, 1e-12)
	near("tension", share.Line.MaxWindingTension, 0.6*whole.Line.MaxWindingTension, 1e-12)
	near("unevenness", share.Torque.Unevenness, whole.Torque.Unevenness, 1e-12)
	if share.Verdict.Code != rules.Stops || math.IsNaN(share.StopsAt) || share.Rows[0].Status != escapement.Stops || whole.Rows[0].Status != escapement.Runs || share.Spring != whole.Spring {
		t.Errorf("%+v", share.Digest)
	}
	// The mean of one that varies is that over the turns, to what quarter turns leave.
	slope := func(turns float64) float64 { return 1 - 0.02*turns }
	sum := 0.0
	for i := 1; i < len(whole.Rows); i++ {
		a, b := &whole.Rows[i-1], &whole.Rows[i]
		sum += (a.FuseeTorque*slope(a.SpringTurns) + b.FuseeTorque*slope(b.SpringTurns)) / 2 * (b.FuseeTurn - a.FuseeTurn)
	}
	near("mean of a varying one", run(slope).Torque.Mean, sum/whole.Turns, 1e-4)
	fine, err := trains[0].Run(sim.Options{Departure: slope, Step: 0.1})
	if err != nil {
		t.Fatal(err)
	}
	if coarse := run(slope); fine.Torque != coarse.Torque || fine.Over != coarse.Over {
		t.Error("the step of the rows changes the figures")
	}
}

// Of an unknown digest every figure is NaN, and nothing is judged.
func TestUnknown(t *testing.T) {
	d := sim.Unknown()
	for _, v := range []float64{d.Torque.Mean, d.Spring.Stored, d.Line.MaxTension, float64(d.Line.MaxFleet), d.Swing.Rate.Max, d.Over.LastTorque.Min, d.TurnsLost, d.Spare(), d.HoursGoing()} {
		if !math.IsNaN(v) {
			t.Errorf("%v is known", v)
		}
	}
	if !d.Wanted.IsEmpty() || !d.Standard.Liked.IsEmpty() || d.Faults != 0 {
		t.Errorf("%+v", d)
	}
}
