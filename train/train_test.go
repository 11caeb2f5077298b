package train

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
)

func closeTo(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol*math.Abs(want)) {
		t.Errorf("%s = %.12g, want %.12g", what, got, want)
	}
}

func mustTrain(t testing.TB, meshes []Mesh, loads ...Load) Train {
	t.Helper()
	tr, err := New(meshes, loads)
	if err != nil {
		t.Fatal(err)
	}
	return tr
}

func free(wheel, pinion int) Mesh { return Mesh{Wheel: wheel, Pinion: pinion, Efficiency: 1} }

// Ratios and counts printed in handbooks.
func TestPrintedTrains(t *testing.T) {
	goodrich := mustTrain(t, []Mesh{free(80, 10), free(75, 10)})
	closeTo(t, "W. L. Goodrich, The Modern Clock (1905), ch. XV: 80/10 · 75/10", goodrich.Speed(2), 60, 1e-12)

	motion := mustTrain(t, []Mesh{free(36, 12), free(40, 10)})
	closeTo(t, "Goodrich, ch. XVI, motion work: 36/12 · 40/10", motion.Speed(2), 12, 1e-12)

	// Encyclopaedia Britannica, 11th ed. (1911), "Clock": a great wheel of 96
	// and a centre pinion of 8 turn once in 12 hours; 16 turns go eight days
	// (16 coils also in E. Beckett, Clocks, Watches and Bells).
	great := mustTrain(t, []Mesh{free(96, 8)})
	closeTo(t, "hours a great-wheel turn", great.Speed(1), 12, 1e-12)
	closeTo(t, "days in 16 turns", 16*great.Speed(1)/24, 8, 1e-12)

	// The same article: great wheel 78, pin-wheel pinion 8, 8 pins.
	strike := mustTrain(t, []Mesh{free(78, 8)})
	closeTo(t, "blows a great-wheel turn", strike.BlowsPerTurn(1, 8), 78, 1e-12)
	closeTo(t, "hours a turn at 78 blows in 12 hours", strike.StrikingSecondsPerTurn(1, 8, 78)/3600, 12, 1e-12)
	closeTo(t, "blows a day", strike.BlowsPerTurn(1, 8)*86400/strike.StrikingSecondsPerTurn(1, 8, 78), 156, 1e-12)
	closeTo(t, "blows in eight days", 16*strike.BlowsPerTurn(1, 8), 1248, 1e-12)
}

// G. Niemann and H. Winter, Maschinenelemente II (from memory): 96 driving 8,
// μ 0.15, contact ratio 1.
func TestToothLoss(t *testing.T) {
	if got := 100 * ToothLoss(0.15, 96, 8, 0, 1); math.Abs(got-6.38) > 0.005 {
		t.Errorf("all recess: %.4f %%, want 6.38", got)
	}
	if got := 100 * ToothLoss(0.15, 96, 8, 0.5, 0.5); math.Abs(got-3.19) > 0.005 {
		t.Errorf("centred: %.4f %%, want 3.19", got)
	}
	// Integrated over cycloidal teeth, all recess (our own computation): somewhat less.
	for _, c := range []struct {
		wheel, pinion int
		cycloidal     float64
	}{{96, 8, 0.935}, {84, 7, 0.924}, {60, 6, 0.906}} {
		if over := FrictionEfficiency(0.15, c.wheel, c.pinion) - c.cycloidal; over < 0 || over > 0.008 {
			t.Errorf("%d driving %d: %.4f over that of cycloidal teeth", c.wheel, c.pinion, over)
		}
	}
	closeTo(t, "efficiency", FrictionEfficiency(0.15, 96, 8), 1-ToothLoss(0.15, 96, 8, 0, 1), 1e-15)
	if FrictionEfficiency(3, 6, 6) > 0 {
		t.Error("a mesh that friction jams passes work on")
	}
}

// Common engineering handbook figure: a line over a sheave passes on about
// 0.98. It is an input of this program; here it stands for one more mesh.
func TestChainOfEfficiencies(t *testing.T) {
	tr := mustTrain(t, []Mesh{{Wheel: 10, Pinion: 10, Efficiency: 0.98}, {Wheel: 10, Pinion: 10, Efficiency: 0.93}})
	closeTo(t, "two in a row", tr.Torque(2, 1), 0.98*0.93, 1e-12)
}

// Power in = power out + what drags and loads take + what the meshes lose.
func TestPowerBalance(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		meshes := make([]Mesh, 1+rnd.IntN(6))
		for i := range meshes {
			meshes[i] = Mesh{Wheel: 40 + rnd.IntN(100), Pinion: 6 + rnd.IntN(10), Efficiency: 0.8 + 0.2*rnd.Float64(), Drag: 1e-7 * rnd.Float64()}
		}
		load := Load{Arbor: rnd.IntN(len(meshes) + 1), Torque: 1e-6}
		tr := mustTrain(t, meshes, load)
		const fusee = 0.5
		power, torque := fusee, fusee // a turn
		for i := range meshes {
			if load.Arbor == i {
				torque -= load.Torque
				power -= load.Torque * tr.Speed(i)
			}
			power -= torque * tr.Speed(i) * (1 - meshes[i].Efficiency)
			torque = torque*meshes[i].Efficiency/meshes[i].Ratio() - meshes[i].Drag
			power -= meshes[i].Drag * tr.Speed(i+1)
		}
		if load.Arbor == len(meshes) {
			power -= load.Torque * tr.Speed(len(meshes))
		}
		got := tr.Torque(tr.Last(), fusee) * tr.Speed(tr.Last())
		if math.Abs(got-math.Max(power, 0)) > 1e-12 {
			t.Errorf("%d meshes: %g out, %g left", len(meshes), got, power)
		}
	}
}

func TestNeedsInvertsTorque(t *testing.T) {
	tr := mustTrain(t, []Mesh{{96, 8, 0.93, 1e-4}, {75, 8, 0.92, 1e-5}}, Load{Arbor: 1, Torque: 1e-3}, Load{Arbor: 1, Torque: 2e-3}, Load{Torque: 0.01})
	for arbor := range tr.Arbors() {
		closeTo(t, "there and back", tr.Torque(arbor, tr.Needs(arbor, 0.004)), 0.004, 1e-12)
	}
	closeTo(t, "load at the fusee", tr.Needs(0, 0), 0.01, 1e-12)
	if got := tr.Torque(2, 0.001); got != 0 {
		t.Errorf("a train that stands passes on %g", got)
	}
	closeTo(t, "gain", tr.Gain(1), 0.93*8/96, 1e-12)
	if tr.Last() != 2 {
		t.Errorf("last arbor %d", tr.Last())
	}
}

func TestPace(t *testing.T) {
	tr := mustTrain(t, []Mesh{free(96, 8), free(64, 8), free(60, 8)})
	closeTo(t, "centre in an hour with a seconds pendulum", tr.SecondsPerTurn(30, 2), 12*3600, 1e-12)
}

func TestBadTrains(t *testing.T) {
	cases := map[string]struct {
		meshes []Mesh
		loads  []Load
	}{
		"no teeth":         {meshes: []Mesh{{0, 8, 0.9, 0}}},
		"no leaves":        {meshes: []Mesh{{96, 0, 0.9, 0}}},
		"no efficiency":    {meshes: []Mesh{{96, 8, 0, 0}}},
		"more than it got": {meshes: []Mesh{{96, 8, 1.1, 0}}},
		"NaN":              {meshes: []Mesh{{96, 8, math.NaN(), 0}}},
		"pushing drag":     {meshes: []Mesh{{96, 8, 0.9, -1}}},
		"load nowhere":     {meshes: []Mesh{{96, 8, 0.9, 0}}, loads: []Load{{Arbor: 2}}},
		"load before":      {loads: []Load{{Arbor: -1}}},
		"pushing load":     {loads: []Load{{Torque: -1}}},
		"too long":         {meshes: make([]Mesh, Most+1)},
	}
	for name, c := range cases {
		if _, err := New(c.meshes, c.loads); !errors.Is(err, ErrTrain) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if tr, err := New(nil, nil); err != nil || tr.Torque(0, 1) != 1 {
		t.Errorf("a fusee alone: %v", err)
	}
}

// What was there before leaves nothing behind.
func TestMake(t *testing.T) {
	long, load := []Mesh{free(96, 8), free(64, 8), free(60, 8)}, Load{Arbor: 1, Torque: 0.1}
	tr := mustTrain(t, long, load)
	for _, c := range []struct {
		meshes []Mesh
		loads  []Load
	}{{long[:1], nil}, {long, []Load{load}}, {long[1:], []Load{{Arbor: 2, Torque: 0.01}}}} {
		if err := tr.Make(c.meshes, c.loads); err != nil {
			t.Fatal(err)
		}
		want := mustTrain(t, c.meshes, c.loads...)
		if tr.Arbors() != want.Arbors() {
			t.Fatalf("%d arbors, want %d", tr.Arbors(), want.Arbors())
		}
		for i := range want.Arbors() {
			if tr.Speed(i) != want.Speed(i) || tr.Gain(i) != want.Gain(i) || tr.Torque(i, 2) != want.Torque(i, 2) {
				t.Errorf("%+v, arbor %d: %v, want %v", c, i, tr.arbors[i], want.arbors[i])
			}
		}
	}
	if err := tr.Make(long[:1], []Load{{Arbor: 2}}); !errors.Is(err, ErrTrain) || tr.Arbors() != 0 {
		t.Errorf("%v, %d arbors", err, tr.Arbors())
	}
}

var sink float64

func BenchmarkNew(b *testing.B) {
	meshes := []Mesh{{96, 8, 0.93, 0}, {75, 8, 0.93, 0}, {70, 7, 0.93, 0}}
	b.ReportAllocs()
	for b.Loop() {
		t, _ := New(meshes, nil)
		sink = t.arbors[3].gain
	}
}
