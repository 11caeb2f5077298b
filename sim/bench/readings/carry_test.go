package readings

import (
	"errors"
	"math"
	"strings"
	"testing"

	"evenpull/sim/bench/fit"
	"evenpull/sim/internal/trial"
)

// A departure is straight between readings and level beyond them (closed form).
func TestRatioAt(t *testing.T) {
	list := []step{{2, 1.1}, {4, 0.9}, {8, 1}}
	for turns, want := range map[float64]float64{0: 1.1, 2: 1.1, 2.5: 1.05, 3: 1, 4: 0.9, 5: 0.925, 7: 0.975, 8: 1, 9: 1} {
		closeTo(t, "ratio", ratioAt(list, turns), want, 1e-12)
	}
	if v := ratioAt(nil, 3); v != 1 {
		t.Errorf("%v without readings", v)
	}
	closeTo(t, "a single one", ratioAt(list[:1], 3), 1.1, 0)
}

// What stays with the spring is measured over fitted torque, running down, at the
// spring's own turns, which rise though the fusee turns are paid out.
func TestDepartures(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	r := runOf(t, s, 0)
	x := &explainer{points: []Point{{FuseeTurn: 3, Measured: 0.5}, {FuseeTurn: 0, Measured: 0.6}, {FuseeTurn: 99, Measured: 0.7}, {FuseeTurn: 3, Winding: true, Measured: 0.9}, {FuseeTurn: 12, Measured: 0.4}}}
	list := x.departures(r)
	if len(list) != 3 {
		t.Fatalf("%v", list)
	}
	for i, c := range []struct {
		turn     int
		measured float64
	}{{12, 0.4}, {3, 0.5}, {0, 0.6}} {
		row, _, _ := rowsAt(r, float64(c.turn))
		closeTo(t, "turns of the spring", list[i].turns, row.SpringTurns, 0)
		closeTo(t, "ratio", list[i].ratio, c.measured/row.FuseeTorque, 1e-15)
	}
}

// A barrel that has no room in the train it was read in, a spring that no efficiency
// explains and one that lacks a turn that was read are not carried over.
func TestNotCarriedOver(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	sp := springOf(read(runOf(t, s, 0), "going", 2, false, same))
	near := with(t, s, "going.fusee.centre_distance_mm=42") // room for 49 mm beside the fusee, not for 56
	if err := near.Check(); err != nil {
		t.Fatal(err)
	}
	if d, err := NewCarrier(near).To(2).Carry(t.Context(), sp); d != nil || !errors.Is(err, ErrCarry) || !strings.Contains(err.Error(), "centre_distance_mm") {
		t.Errorf("%+v, %v", d, err)
	}
	if d, err := NewCarrier(near).To(1).Carry(t.Context(), sp); err != nil || d.Name != "striking" {
		t.Errorf("%+v, %v", d, err)
	}
	lost := with(t, s, "going.mainspring.thickness_mm=0.475")
	if d, err := NewCarrier(lost).To(0).Carry(t.Context(), sp); d != nil || !errors.Is(err, ErrCarry) || !strings.Contains(err.Error(), fit.Failed.String()) {
		t.Errorf("%+v, %v", d, err)
	}
}

// Neither train may be one that cannot be run, and the next target is not harmed by
// one that could not.
func TestCarryBetweenBrokenTrains(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	sp := springOf(read(runOf(t, s, 0), "going", 2, false, same))
	for i := range 4 {
		broken := i % 2
		lost := s.Clone()
		if i < 2 { // the spring does not go in
			lost.Trains[broken].Barrel.ArborDiameterMM = lost.Trains[broken].Barrel.InsideDiameterMM - 1
		} else { // there is no such wheel
			lost.Trains[broken].Meshes[0].Wheel = 0
			if c, err := Compare(sp, lost); (c == nil) != (broken == 0) || (err == nil) != (broken == 1) {
				t.Errorf("train %d broken: %+v, %v", broken, c, err)
			}
		}
		carrier := NewCarrier(lost)
		for range 2 { // the second time as the first
			if d, err := carrier.To(1).Carry(t.Context(), sp); d != nil || !errors.Is(err, ErrCarry) {
				t.Errorf("train %d broken: %+v, %v", broken, d, err)
			}
		}
		if d, err := carrier.To(2).Carry(t.Context(), sp); (err == nil) != (broken == 1) || (d == nil) != (broken == 0) {
			t.Errorf("train %d broken, to the third: %+v, %v", broken, d, err)
		}
	}
}

// A meter's bound shifts what is fitted but not what is carried over.
func TestCarryWithoutTheMeter(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	b := read(runOf(t, s, 0), "going", 2, false, same)
	plain, err := NewCarrier(s).To(1).Carry(t.Context(), springOf(b))
	if err != nil {
		t.Fatal(err)
	}
	b.MeterRelative = 0.05
	bound, err := NewCarrier(s).To(1).Carry(t.Context(), springOf(b))
	if err != nil || bound.Torque != plain.Torque {
		t.Errorf("%+v, without a bound %+v, %v", bound, plain.Torque, err)
	}
}

// What explains the readings of a train is made once for a target.
func TestExplainerIsKept(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	target := NewCarrier(s).To(1)
	first, err := target.explainer(0)
	again, also := target.explainer(0)
	other, more := target.explainer(2)
	if err != nil || also != nil || more != nil || first != again || first == other {
		t.Errorf("%p, then %p, %p for another train; %v, %v, %v", first, again, other, err, also, more)
	}
}

// One target takes readings from several trains, one after the other, and each comes
// out as it does alone.
func TestOneTargetForAll(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	carrier := NewCarrier(s)
	target := carrier.To(0)
	for _, from := range []int{0, 1, 0, 1} {
		// The going train's own barrel, read in both trains.
		there := s.Clone()
		setUp := there.Trains[from].Barrel.SetUpTurns
		there.Trains[from].Mainspring, there.Trains[from].Barrel = s.Trains[0].Mainspring, s.Trains[0].Barrel
		there.Trains[from].Barrel.SetUpTurns = setUp
		d, err := target.Carry(t.Context(), springOf(read(runOf(t, there, from), s.Trains[from].Name, 2, false, same)))
		if err != nil {
			t.Fatal(err)
		}
		want := runOf(t, s, 0)
		closeTo(t, "mean", d.Torque.Mean, want.Torque.Mean, 1e-4)
		if math.Abs(d.Spare()-want.Spare()) > 1e-3 || math.IsNaN(d.Swing.Amplitude.Mean) || d.Name != "going" {
			t.Errorf("%v turns left, want %v; arc %v", d.Spare(), want.Spare(), d.Swing.Amplitude)
		}
	}
}
