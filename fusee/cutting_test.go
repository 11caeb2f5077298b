package fusee

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"evenpull/fusee/mainspring"
)

// straightLaw is a drive whose strip lies free from the first turn to the last, so
// that M = k(φ + a), in a straight cone.
func straightLaw(t testing.TB, small, large float64) (d Drive, k, a float64) {
	t.Helper()
	d = clockDrive(t)
	d.Spring.Form, d.Spring.Bending, d.Spring.Thickness, d.Spring.Length = mainspring.Straight, mainspring.Narrow, 0.2*mm, 1.2
	d.Cone.Turns = 8
	d.Cone.Profile, _ = Straight(small, large, d.Cone.Turns)
	w := mustWind(t, d)
	// 2πEI/L a turn: S. Timoshenko, Strength of Materials (from memory).
	s := &d.Spring
	k = 2 * math.Pi * s.Modulus * s.Width * math.Pow(s.Thickness, 3) / 12 / s.Length
	a = w.curve.Couple(2)/k - 2
	closeTo(t, "couple of a straight law", w.curve.Couple(6), k*(6+a), 1e-9)
	return d, k, a
}

// (φ(θ)+a)² = (φs+a)² + 2C(n−θ)/k along an even fusee for M = k(φ + a): closed form.
func TestWithinStraightLaw(t *testing.T) {
	for _, ends := range [][2]float64{{13, 15}, {8, 15}, {14, 26}, {10, 19}} {
		d, k, a := straightLaw(t, ends[0]*mm, ends[1]*mm)
		w := mustWind(t, d)
		setUp, n, rb := 1.0, d.Cone.Turns, d.Barrel.Radius+d.Line.Thickness/2
		radius := func(c, theta float64) float64 {
			m := math.Sqrt(math.Pow(setUp+a, 2) + 2*c*(n-theta)/k)
			return c * rb / (k * m)
		}
		// The greatest C whose profile lies inside, found by halving on a fine grid.
		lo, hi := 0.0, 10.0
		for range 60 {
			c, fits := (lo+hi)/2, true
			for i := range 4001 {
				theta := n * float64(i) / 4000
				r, _, _ := d.Cone.Profile.At(theta)
				fits = fits && radius(c, theta) <= r+d.Line.Thickness/2
			}
			if fits {
				lo = c
			} else {
				hi = c
			}
		}
		cut, err := w.Within(setUp, 0)
		if err != nil {
			t.Fatal(err)
		}
		closeTo(t, "C", cut.Torque, lo, 1e-7)
		even := mustWind(t, cut.Drive)
		for i := range 101 {
			theta := n * float64(i) / 100
			s := even.At(theta)
			closeTo(t, "radius", s.Radius, radius(lo, theta), 1e-7)
			closeTo(t, "spring turns", s.SpringTurns, math.Sqrt(math.Pow(setUp+a, 2)+2*lo*(n-theta)/k)-a, 1e-7)
			closeTo(t, "torque", s.Torque, d.Efficiency*d.Line.Efficiency*lo, 1e-7)
		}
		r, _, _ := d.Cone.Profile.At(cut.Touch)
		closeTo(t, "radius where they touch", radius(lo, cut.Touch), r+d.Line.Thickness/2, 1e-7)
	}
}

// cones are drives of every form of spring with a cone given by its profile.
func cones(t testing.TB, n int) []Wound {
	var all []Wound
	for _, w := range family(t, 3*n) {
		if w.drive.Cone.Shape == Cut && len(all) < n {
			all = append(all, w)
		}
	}
	return all
}

// What is left lies inside the cone, is even, leaves the turns asked for, and no
// larger profile would do all that.
func TestWithinNeverAddsMetal(t *testing.T) {
	rnd := rand.New(rand.NewPCG(2, 71))
	found := 0
	for _, w := range cones(t, 120) {
		setUp, spare := 0.25+2*rnd.Float64(), 0.05+rnd.Float64()
		cut, err := w.Within(setUp, spare)
		if errors.Is(err, ErrThin) || errors.Is(err, ErrSetUp) {
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		found++
		even := mustWind(t, cut.Drive)
		most, loss := 0.0, w.loss
		for i := range 4001 {
			theta := w.Turns() * float64(i) / 4000
			now, _, _ := w.drive.Cone.Profile.At(theta)
			be, _, _ := cut.Drive.Cone.Profile.At(theta)
			if be > now+1e-8 {
				t.Fatalf("%g µm added at turn %v of %v", (be-now)*1e6, theta, w.Turns())
			}
			most = max(most, be/now)
			closeTo(t, "torque", even.At(theta).Torque, loss*cut.Torque, 1e-4)
		}
		left := even.curve.Turns() - setUp - even.SpringTurns()
		if even.Start() != 0 || left < spare-1e-6 {
			t.Errorf("%v turns to spare, want %v; %v lost", left, spare, even.Start())
		}
		if most < 1-1e-5 && left > spare+1e-5 {
			t.Errorf("a larger one fits: at most %v of the cone, %v turns to spare of %v", most, left, spare)
		}
		if cut.Removed < 0 {
			t.Errorf("removed %v", cut.Removed)
		}
		// A thicker cone has room for no smaller profile.
		thick := w.drive
		thick.Cone.Profile = Profile{turns: thick.Cone.Profile.turns, per: thick.Cone.Profile.per}
		for _, p := range w.drive.Cone.Profile.pieces {
			thick.Cone.Profile.pieces = append(thick.Cone.Profile.pieces, piece{p.at, 1.05 * p.r, 1.05 * p.dr, 1.05 * p.c2, 1.05 * p.c3, 1.05 * p.area})
		}
		wide := mustWind(t, thick)
		if more, err := wide.Within(setUp, spare); err != nil || more.Torque < cut.Torque*(1-1e-9) {
			t.Errorf("C %v in a thicker cone, %v before; %v", more.Torque, cut.Torque, err)
		}
	}
	if found < 60 {
		t.Errorf("only %d cones were cut", found)
	}
}

// No set-up of a fine scan takes less metal off.
func TestLeastCutIsLeast(t *testing.T) {
	cuts := 0
	for _, w := range append(cones(t, 8), mustWind(t, clockDrive(t))) {
		least, err := w.LeastCut(0.5)
		if err != nil && !errors.Is(err, ErrThin) && !errors.Is(err, ErrSetUp) {
			t.Fatal(err)
		}
		failed := err != nil
		if !failed {
			cuts++
		}
		for i := range 61 {
			setUp := LeastSetUp + (w.curve.Turns()-0.5-LeastSetUp)*float64(i)/61
			cut, err := w.Within(setUp, 0.5)
			if failed && err == nil {
				t.Errorf("no cut was found, and set up by %v turns there is one", setUp)
			}
			if err == nil && cut.Removed < least.Removed-2e-4*w.drive.Cone.Volume() {
				t.Errorf("%v m³ come off with %v turns, %v with %v", cut.Removed, setUp, least.Removed, least.SetUp)
			}
		}
	}
	if cuts < 3 {
		t.Errorf("only %d cones cut", cuts)
	}
	w := mustWind(t, clockDrive(t)) // what is too thin keeps less than nothing
	w.drive.Line.Thickness = 30 * mm
	if got := w.kept(1, 0); !(got < 0) {
		t.Errorf("%g m³ kept of a cone too thin to be cut", got)
	}
}

// No click of a ratchet takes less metal off.
func TestLeastCutByClicksIsLeast(t *testing.T) {
	const clicks = 10.0
	for _, w := range append(cones(t, 4), mustWind(t, clockDrive(t))) {
		least, err := w.LeastCutByClicks(0.5, clicks, math.Inf(1))
		if errors.Is(err, ErrThin) || errors.Is(err, ErrSetUp) {
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		if at := least.SetUp * clicks; at != math.Round(at) || least.SetUp < LeastSetUp {
			t.Errorf("%v clicks", at)
		}
		for click := 3.0; click < clicks*(w.curve.Turns()-0.5); click++ {
			if cut, err := w.Within(click/clicks, 0.5); err == nil && cut.Removed < least.Removed-2e-4*w.drive.Cone.Volume() {
				t.Errorf("%v m³ come off with %v clicks, %v with %v", cut.Removed, click, least.Removed, least.SetUp*clicks)
			}
		}
	}
}

func TestCuttingFaults(t *testing.T) {
	d := clockDrive(t)
	w := mustWind(t, d)
	for _, c := range []struct {
		setUp, spare float64
		want         error
	}{{0, 0, ErrSlack}, {-1, 0, ErrSlack}, {math.NaN(), 0, ErrSlack}, {50, 0, ErrSetUp}, {1, 50, ErrSetUp}, {0.25, 0, ErrThin}} {
		if _, err := w.Within(c.setUp, c.spare); !errors.Is(err, c.want) {
			t.Errorf("set up by %v with %v to spare: %v", c.setUp, c.spare, err)
		}
	}
	var thin *Thin
	if _, err := w.Within(0.25, 0); !errors.As(err, &thin) || thin.Turn != 0 || thin.Radius >= thin.Least {
		t.Errorf("%v", err)
	}
	if _, err := w.LeastCut(50); !errors.Is(err, ErrSetUp) {
		t.Errorf("%v", err)
	}
	d.Cone.Profile, _ = Straight(2.5*mm, 3.5*mm, d.Cone.Turns)
	slim := mustWind(t, d)
	if _, err := slim.LeastCut(0); !errors.Is(err, ErrThin) {
		t.Errorf("%v", err)
	}
	d.Cone.Shape, d.Cone.End = EvenByLarge, 16*mm
	even := mustWind(t, d)
	if _, err := even.Within(1, 0); !errors.Is(err, ErrProfile) {
		t.Errorf("%v", err)
	}
	if _, err := even.LeastCut(0); !errors.Is(err, ErrProfile) {
		t.Errorf("%v", err)
	}
}

// The volume of a frustum is πh(R² + Rr + r²)/3.
func TestConeVolume(t *testing.T) {
	p, _ := Straight(8*mm, 15*mm, 12)
	c := Cone{Turns: 12, Profile: p, Pitch: 2 * mm}
	closeTo(t, "volume", c.Volume(), math.Pi*24*mm*(225+120+64)*mm*mm/3, 1e-12)
}

// The groove of a cylinder is a helix: its length a turn is the hypotenuse of its
// circumference and its pitch.
func TestGrooveLength(t *testing.T) {
	p, _ := Straight(9*mm, 9*mm, 12)
	c := Cone{Turns: 12, Profile: p, Pitch: 2 * mm}
	closeTo(t, "groove of a cylinder", c.GrooveLength(2*mm), 12*math.Hypot(2*math.Pi*10*mm, 2*mm), 1e-12)
}

func BenchmarkLeastCut(b *testing.B) {
	w := mustWind(b, clockDrive(b))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := w.LeastCut(1); err != nil {
			b.Fatal(err)
		}
	}
}
