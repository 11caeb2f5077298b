package fusee

import (
	"errors"
	"math"
	"testing"

	"evenpull/fusee/mainspring"
	"evenpull/fusee/numeric"
)

func wholeTurns(n float64) []float64 {
	var at []float64
	for x := 1.0; x < n; x++ {
		at = append(at, x)
	}
	return at
}

// Without losses the fusee gives what the spring gives: ∫Tf dθ = ∫M dφ, with any
// fleet angle. With losses, what comes out and what coils, barrel, line and fusee
// lose are together what the spring gives.
func TestEnergyIsConserved(t *testing.T) {
	for i, w := range family(t, 60) {
		over := func(f func(theta float64) float64) float64 {
			return 2 * math.Pi * numeric.Adaptive(w.Start(), w.Turns(), 1e-10*w.Work(), f, wholeTurns(w.Turns())...)
		}
		got, tol := over(func(x float64) float64 { return w.At(x).Torque }), 1e-6
		losses := over(w.lostAt)
		if want := w.Work(); math.Abs(got+losses-want) > 1e-7*want {
			t.Errorf("drive %d: ∫Tf dθ = %.10g J, lost are %.10g J, spring gave %.10g J", i, got, losses, want)
		}
		if w.fusee.a == 0 {
			got, tol = w.Work()*w.loss, 1e-12
		}
		closeTo(t, "mean torque", w.MeanTorque()*2*math.Pi*(w.Turns()-w.Start()), got, tol)
	}
}

// lostAt is what is lost at θ, as a torque at the fusee: in the coils, at the barrel's
// arbor, in the line and at the fusee's pivots under the tension of the line and the
// push of the pinion.
func (w *Wound) lostAt(theta float64) float64 {
	s, p := w.At(theta), &w.drive.Pivots
	barrel := s.Radius / w.rb // turns of the barrel for one of the fusee
	left := w.drive.Efficiency * s.Couple
	tension := left / (w.rb + p.Friction*p.Barrel)
	lost := (s.Couple-left)*barrel + p.Friction*p.Barrel*tension*barrel + (1-w.drive.Line.Efficiency)*tension*s.Radius
	if p.Wheel > 0 {
		push := s.Torque / p.Wheel
		angle := float64(p.Pull)
		lost += p.Friction * p.Fusee * math.Hypot(tension+push*math.Cos(angle), push*math.Sin(angle))
	}
	return lost
}

// The line is shared: what leaves the fusee goes round the barrel.
func TestLineIsShared(t *testing.T) {
	for i, w := range family(t, 40) {
		paid := numeric.Adaptive(w.Start(), w.Turns(), 1e-12, func(x float64) float64 { return w.At(x).Radius }, wholeTurns(w.Turns())...)
		if taken := w.SpringTurns() * w.rb; math.Abs(paid-taken) > 1e-8*taken {
			t.Errorf("drive %d: fusee pays out %.12g m/2π, barrel takes %.12g", i, paid, taken)
		}
		closeTo(t, "set-up left at the end", w.At(w.Turns()).SpringTurns, w.drive.Barrel.SetUp, 1e-7)
	}
}

// An even profile is even.
func TestEvenProfile(t *testing.T) {
	seen := 0
	for i, w := range family(t, 120) {
		if w.drive.Cone.Shape == Cut {
			continue
		}
		seen++
		want := w.At(w.Turns()).Torque
		for x := w.Start(); x < w.Turns(); x += 0.37 {
			if got := w.At(x).Torque; math.Abs(got/want-1) > 1e-6 {
				t.Errorf("drive %d at %g: torque %.9g, at the end %.9g", i, x, got, want)
			}
		}
		end := w.Turns()
		if w.drive.Cone.Shape == EvenBySmall {
			end = w.Start()
		}
		closeTo(t, "radius at the end given", w.At(end).Radius-w.half, w.drive.Cone.End, 1e-7)
	}
	if seen < 30 {
		t.Fatalf("only %d even drives tried", seen)
	}
}

// An even profile is the same from either of its ends, up to the last turns of
// the spring.
func TestEvenFromEitherEnd(t *testing.T) {
	seen, near := 0, 0
	for i, w := range family(t, 300) {
		if w.drive.Cone.Shape != EvenByLarge || w.Start() > 0 {
			continue
		}
		seen++
		d := w.drive
		d.Cone.Shape, d.Cone.End = EvenBySmall, w.At(0).Radius-w.half
		v, err := d.Wind()
		if err != nil {
			t.Errorf("drive %d, wound to %.3f of home: %v from its small end", i, w.full/w.curve.Turns(), err)
			continue
		}
		// Near home two profiles have the same small end; the one that takes
		// fewer turns is found.
		if v.full > w.full*(1+1e-9) {
			t.Errorf("drive %d: %.9g turns from the small end, %.9g from the large", i, v.full, w.full)
		}
		if math.Abs(v.full/w.full-1) < 1e-6 {
			near++
		}
	}
	if seen < 40 || near < seen*3/4 {
		t.Errorf("%d tried, %d the same", seen, near)
	}
}

// Closed form for a straight torque law M = k(φ + a):
// (φ(θ)+a)² = (φs+a)² + 2C(n−θ)/k. A long straight strip, all of it free, is one.
func TestEvenProfileOfStraightLaw(t *testing.T) {
	d := clockDrive(t)
	d.Spring = mainspring.Strip{Width: 10 * mm, Thickness: 0.5 * mm, Length: 2400 * mm, Modulus: 206 * GPa}
	d.Housing = mainspring.Housing{Arbor: 6 * mm, Inside: 60 * mm}
	d.Cone.Turns, d.Cone.Shape, d.Cone.End = 4, EvenByLarge, 14*mm
	free := mustWind(t, d).curve
	d.Barrel.SetUp = free.Wound(1.05 * free.Couple(1e-9))
	for free.Rate(d.Barrel.SetUp+0.001) != free.Rate(d.Barrel.SetUp+0.5) {
		d.Barrel.SetUp += 0.25 // past the wall, into the straight middle
	}
	w := mustWind(t, d)
	k := free.Rate(d.Barrel.SetUp + 0.1)
	a := free.Couple(d.Barrel.SetUp)/k - d.Barrel.SetUp
	C := w.even
	for x := 0.0; x <= 4; x += 0.25 {
		s := w.At(x)
		left := (s.SpringTurns + a) * (s.SpringTurns + a)
		right := (d.Barrel.SetUp+a)*(d.Barrel.SetUp+a) + 2*C*(4-x)/k
		closeTo(t, "(φ+a)²", left, right, 1e-9)
	}
}

// TestNothingLeft: let down to rest the spring gives nothing, and not what rounding leaves.
func TestNothingLeft(t *testing.T) {
	for turns := 1.0; turns <= 20; turns++ {
		d := clockDrive(t)
		d.Barrel.SetUp, d.Cone.Turns = 0, turns
		w := mustWind(t, d)
		if s := w.At(turns); s.SpringTurns != 0 || s.Couple != 0 || s.Torque != 0 || s.Tension != 0 || s.Winding != 0 {
			t.Errorf("%v fusee turns: %+v", turns, s)
		}
	}
}

// A spring that binds solid before the fusee is wound.
func TestBinding(t *testing.T) {
	d := clockDrive(t)
	d.Barrel.SetUp = 3
	w := mustWind(t, d)
	if w.Start() <= 0 || w.Start() >= 16 {
		t.Fatalf("starts at %g", w.Start())
	}
	s := w.At(w.Start())
	closeTo(t, "turns at the start", s.SpringTurns, w.curve.Turns(), 1e-12)
	closeTo(t, "couple at the start", s.Couple, w.curve.MaxCouple(), 1e-6)
	free := clockDrive(t)
	if v := mustWind(t, free); v.Start() != 0 {
		t.Errorf("a drive that fits loses %g turns", v.Start())
	}
}

// More set-up lifts the whole curve, and winding takes more than it gives back.
func TestSetUpLifts(t *testing.T) {
	low := clockDrive(t)
	high := low
	high.Barrel.SetUp += 0.2
	a, b := mustWind(t, low), mustWind(t, high)
	for x := 0.0; x <= 16; x++ {
		p, q := a.At(x), b.At(x)
		if q.Torque <= p.Torque {
			t.Errorf("at %g the higher set-up pulls %g, the lower %g", x, q.Torque, p.Torque)
		}
		loss := low.Efficiency * low.Line.Efficiency
		closeTo(t, "down over up", p.Torque/p.Winding, loss*loss, 1e-12)
	}
}

func TestDrivesThatCannotBe(t *testing.T) {
	cases := []struct {
		name string
		edit func(*Drive)
		want error
	}{
		{"strip too long", func(d *Drive) { d.Spring.Length = 9 }, mainspring.ErrTooLong},
		{"no profile", func(d *Drive) { d.Cone.Profile = Profile{} }, ErrProfile},
		{"all set-up", func(d *Drive) { d.Barrel.SetUp = 12 }, ErrSetUp},
		{"even without set-up", func(d *Drive) { d.Cone.Shape, d.Cone.End, d.Barrel.SetUp = EvenByLarge, 18*mm, 0 }, ErrSlack},
		{"even from a small end too large", func(d *Drive) { d.Cone.Shape, d.Cone.End = EvenBySmall, 40*mm }, ErrEven},
		{"even and touching the barrel", func(d *Drive) { d.Cone.Shape, d.Cone.End = EvenByLarge, 36*mm }, ErrCentre},
		{"even for turns the spring has not", func(d *Drive) { d.Cone.Shape, d.Cone.End, d.Cone.Turns = EvenByLarge, 2, 60; d.Cone.Centre = 0 }, nil},
		{"even and thin", func(d *Drive) { d.Cone.Shape, d.Cone.End, d.Line.Thickness = EvenByLarge, 0.1*mm, 8*mm }, ErrThin},
	}
	for _, c := range cases {
		d := clockDrive(t)
		c.edit(&d)
		w, err := d.Wind()
		if c.want == nil {
			if err != nil || w.Start() < 50 {
				t.Errorf("%s: %v, starts at %g", c.name, err, w.Start())
			}
			continue
		}
		if !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", c.name, err, c.want)
		}
	}
}

// Nothing of the drive is NaN or infinite, over the whole family.
func TestAllFinite(t *testing.T) {
	for i, w := range family(t, 200) {
		for x := w.Start(); x <= w.Turns(); x += 0.5 {
			s := w.At(x)
			for _, v := range []float64{s.SpringTurns, s.Couple, s.Radius, s.Tension, s.Torque, s.Winding, s.Fleet} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatalf("drive %d at %g: %+v", i, x, s)
				}
			}
		}
	}
}
