package train

import (
	"math"
	"math/rand/v2"
	"testing"
)

// standardGravity is that of the 3rd CGPM, 1901 (m/s²).
const standardGravity = 9.80665

// hourStrike is an invented bracket clock: 78/8 turns of 8 pins a fusee turn.
func hourStrike() StrikeDesign {
	return StrikeDesign{
		Meshes:   []Mesh{{78, 8, 0.93, 0}, {64, 8, 0.93, 0}, {56, 7, 0.93, 0}, {48, 6, 0.93, 1e-6}},
		PinArbor: 1, Pins: AllPins(8, Hammer{0.04, 0.02, 0.6}),
		LiftShare: 0.35, TailEfficiency: 0.9,
		Fly:        Fly{Vanes: 2, Width: 0.024, Outer: 0.018, Thickness: 0.0006, Density: 8500, DragCoefficient: 1.2},
		AirDensity: 1.2, Gravity: standardGravity,
	}
}

// quarters is an invented quarter train of three kinds of pins.
func quarters() StrikeDesign {
	d := hourStrike()
	light, heavy := Hammer{0.02, 0.015, 0.3}, Hammer{0.03, 0.016, 0.4}
	d.Pins = []PinSet{{[]Hammer{light}, 3}, {[]Hammer{heavy, light}, 2}, {nil, 1}, {[]Hammer{heavy}, 4}}
	return d
}

func mustStrike(t testing.TB, d StrikeDesign) Strike {
	t.Helper()
	s, err := NewStrike(d)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// randomStrike is an invented train within what clocks have, drawn from rnd; its
// 2cψ/J a blow from 0.1 to 30, so that an integration settles.
func randomStrike(t testing.TB, rnd *rand.Rand) (StrikeDesign, Strike) {
	for {
		d := StrikeDesign{LiftShare: 0.1 + 0.8*rnd.Float64(), TailEfficiency: 0.6 + 0.4*rnd.Float64(), AirDensity: 1.2, Gravity: standardGravity}
		for range 3 + rnd.IntN(2) {
			d.Meshes = append(d.Meshes, Mesh{40 + rnd.IntN(60), 6 + rnd.IntN(6), 0.8 + 0.2*rnd.Float64(), 1e-7 * rnd.Float64()})
		}
		d.PinArbor = rnd.IntN(2)
		d.Loads = []Load{{rnd.IntN(len(d.Meshes) + 1), 1e-7}}
		for range 1 + rnd.IntN(3) {
			h := Hammer{0.01 + 0.05*rnd.Float64(), 0.01 + 0.02*rnd.Float64(), rnd.Float64()}
			d.Pins = append(d.Pins, PinSet{[]Hammer{h, h}[:rnd.IntN(3)], 2 + rnd.IntN(4)})
		}
		d.Fly = Fly{1 + rnd.IntN(4), 0.01 + 0.03*rnd.Float64(), 0.005 * rnd.Float64(), 0.01 + 0.02*rnd.Float64(),
			0.0003 + 0.001*rnd.Float64(), 2700 + 6000*rnd.Float64(), 1 + rnd.Float64(), 0}
		s := mustStrike(t, d)
		if k := s.free.power + s.lift.power; k > 0.1 && k < 30 {
			return d, s
		}
	}
}

// S. F. Hoerner, Fluid-Dynamic Drag (from memory):
// square plate 1.17, long plate 1.98; NASA Glenn, "Shape effects on drag": 1.28.
func TestFlyCouple(t *testing.T) {
	f := Fly{Vanes: 2, Width: 0.030, Outer: 0.020, DragCoefficient: 1.28}
	closeTo(t, "integral of ½ρCd w r³ω² over two vanes", f.Drag(1.225)*100*100, 1.8816e-5, 1e-9)
	if cd := f.DragCoefficient; cd < 1.17 || cd > 1.98 {
		t.Errorf("%g is not between a square and a long plate", cd)
	}
	sum, n := 0.0, 20000 // by midpoints
	f.Inner = 0.004
	h := (f.Outer - f.Inner) / float64(n)
	for i := range n {
		r := f.Inner + (float64(i)+0.5)*h
		sum += 2 * 0.5 * 1.225 * 1.28 * 0.030 * r * r * r * h
	}
	closeTo(t, "vanes that begin off the axis", f.Drag(1.225), sum, 1e-8)
}

// A vane from the axis on is a rod about its end, m l²/3, but for its thickness;
// two are a plate about its middle, m (l² + t²)/12 (common tables of moments of
// inertia).
func TestFlyInertia(t *testing.T) {
	f := Fly{Vanes: 2, Width: 0.02, Outer: 0.02, Thickness: 0.003, Density: 8500}
	mass, whole := 8500*0.02*0.04*0.003, 0.04
	closeTo(t, "a plate about its middle", f.MomentOfInertia(), mass*(whole*whole+0.003*0.003)/12, 1e-12)
	f.Inner = 0.01
	want := 2 * 8500 * 0.02 * 0.003 * ((8e-6-1e-6)/3 + 0.01*9e-6/12)
	closeTo(t, "with a gap", f.MomentOfInertia(), want, 1e-12)
	f.Inertia = 7e-7
	closeTo(t, "given", f.MomentOfInertia(), 7e-7, 0)
}

// 78 and 90: Encyclopaedia Britannica, 11th ed. (1911), "Clock", has 156 a day
// for the hours alone. Quarters by count: closed form (1 + 2 + 3 + 4) 12.
func TestCounts(t *testing.T) {
	for _, c := range []struct{ got, want int }{
		{StrikesIn12Hours(false), 78}, {2 * StrikesIn12Hours(false), 156}, {StrikesIn12Hours(true), 90}, {QuartersIn12Hours(), 120},
	} {
		if c.got != c.want {
			t.Errorf("%d, want %d", c.got, c.want)
		}
	}
	s := mustStrike(t, hourStrike())
	closeTo(t, "Britannica 1911: 78/8 × 8", s.BlowsPerTurn(), 78, 1e-12)
	if got := s.BlowsInRun(16); got != 1248 {
		t.Errorf("%d blows in 16 turns, want 1248 (Britannica 1911)", got)
	}
	if s.BlowsInRun(-1) != 0 || s.BlowsInRun(math.NaN()) != 0 || s.BlowsInRun(1.5/78) != 1 {
		t.Error("odd runs")
	}
}

// Work of hammers: m g h + F h, and the couple W pins/(2πλ) carried to the fly.
func TestCouples(t *testing.T) {
	d := hourStrike()
	s := mustStrike(t, d)
	w := (0.04*standardGravity + 0.6) * 0.02
	closeTo(t, "work", d.Pins[0].Hammers[0].Work(standardGravity), w, 1e-12)
	pin := 0.5 * 0.93 * 8 / 78
	lift := w / 0.9 * 8 / (2 * math.Pi * 0.35)
	down := func(x, eff float64) float64 { return x*eff*eff*eff*(8./64)*(7./56)*(6./48) - 1e-6 }
	free, lifting := s.Couples(0.5, 0)
	closeTo(t, "free", free, down(pin, 0.93), 1e-12)
	closeTo(t, "driven back", lifting, down(pin-lift, 1/0.93), 1e-12)
	if lifting >= 0 {
		t.Error("the example is meant to be driven back")
	}
	closeTo(t, "fly turns a blow", s.Pitch()/(2*math.Pi), 8*8*8./8, 1e-12)
	if a, b := s.Couples(0.5, 7); a != b || a != free {
		t.Errorf("no such set: %g %g", a, b)
	}
}
