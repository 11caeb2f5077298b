package fusee

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"evenpull/fusee/mainspring"
	"evenpull/fusee/numeric"
)

// says fails unless an error is of a kind and its message has the words.
func says(t testing.TB, err, kind error, words string) {
	t.Helper()
	if !errors.Is(err, kind) || !strings.Contains(err.Error(), words) {
		t.Errorf("%v: want %v with %q", err, kind, words)
	}
}

// Messages give what was found, in the units of the bench.
func TestMessagesGiveFigures(t *testing.T) {
	d := clockDrive(t)
	w := mustWind(t, d)
	turns := w.curve.Turns()
	d.Barrel.SetUp = 12
	_, err := d.Wind()
	says(t, err, ErrSetUp, fmt.Sprintf("(set up by 12 turns, and it has %.3f)", turns))
	d.Barrel.SetUp = turns // no turn is left
	_, err = d.Wind()
	says(t, err, ErrSetUp, "no turn is left")

	d = clockDrive(t)
	d.Cone.Shape, d.Cone.End = EvenByLarge, 36*mm
	_, err = d.Wind()
	rb := d.Barrel.Radius + d.Line.Thickness/2
	says(t, err, ErrCentre, fmt.Sprintf("its large end reaches %.4g m, the barrel %.4g m, and their arbors stand %.4g m apart", 36*mm+d.Line.Thickness/2, rb, d.Cone.Centre))

	_, err = w.Within(turns-0.5, 1)
	says(t, err, ErrSetUp, fmt.Sprintf("(set up by %.4g turns with 1 to spare, and it has %.3f)", turns-0.5, turns))
	if _, err = w.Within(1, turns-1); !errors.Is(err, ErrSetUp) {
		t.Errorf("no turn between set-up and what is to spare: %v", err)
	}
	_, err = w.LeastCut(turns - 0.1)
	says(t, err, ErrSetUp, fmt.Sprintf("(0.25 turns keep the line taut and %.4g are to spare, and it has %.3f)", turns-0.1, turns))

	d.Cone.Shape, d.Line.Thickness = Cut, 1*mm
	d.Cone.Profile, _ = Straight(2.5*mm, 9*mm, 16)
	says(t, d.Stout(), ErrThin, "a diameter of 5.00 mm at fusee turn 0, and less than 6.00 mm")
	d.Cone.Profile, _ = Straight(9*mm, 2.75*mm, 16)
	says(t, d.Stout(), ErrThin, "a diameter of 5.50 mm at fusee turn 16, and less than 6.00 mm")
	d.Line.Thickness = 4 * mm
	d.Cone.Profile, _ = Straight(3.5*mm, 9*mm, 16)
	says(t, d.Stout(), ErrThin, "a diameter of 7.00 mm at fusee turn 0, and less than 8.00 mm")
	d.Cone.Profile, _ = Straight(4*mm, 9*mm, 16)
	if err := d.Stout(); err != nil {
		t.Errorf("just thick enough: %v", err)
	}
}

// The work of the run is that between the two windings of the spring, and what is
// stored at its start is all of it; the turns used are those that the line takes
// round the barrel, ∫ρ dθ/Rb.
func TestWorkAndTurns(t *testing.T) {
	for i, w := range family(t, 60) {
		d := &w.drive
		full := w.At(w.Start()).SpringTurns
		closeTo(t, "turns", w.SpringTurns(), full-d.Barrel.SetUp, 1e-6)
		closeTo(t, "stored", w.Stored(), w.curve.Energy(full), 1e-6)
		closeTo(t, "work", w.Work(), w.Stored()-w.curve.Energy(d.Barrel.SetUp), 1e-12)
		if w.Turns() != d.Cone.Turns || fmt.Sprint(w.Curve()) != fmt.Sprint(w.curve) { // printed: a strip that never set has NaN for its flow stress
			t.Errorf("drive %d: %g turns", i, w.Turns())
		}
	}
}

// An even profile for more turns than the spring has starts where the spring is
// home, and from there on it is even; one for as many as it has loses none.
func TestEvenFromHome(t *testing.T) {
	d := clockDrive(t)
	d.Cone.Shape, d.Cone.End, d.Cone.Turns, d.Cone.Centre = EvenByLarge, 2, 60, 0
	w := mustWind(t, d)
	if !(w.Start() > 50 && w.Start() < 60) {
		t.Fatalf("starts at %g", w.Start())
	}
	closeTo(t, "home at the start", w.At(w.Start()).SpringTurns, w.curve.Turns(), 1e-9)
	closeTo(t, "couple", w.At(w.Start()).Couple, w.curve.MaxCouple(), 1e-7)
	torque := w.At(w.Start()).Torque
	for theta := w.Start(); theta <= 60; theta += 0.5 {
		closeTo(t, "torque", w.At(theta).Torque, torque, 1e-9)
	}
	// C n = ∫M dφ, so this many turns take all of the spring.
	d.Cone.Turns = 60 - w.Start()
	fits := mustWind(t, d)
	if fits.Start() > 1e-9 {
		t.Errorf("a cone for just the turns that there are starts at %g", fits.Start())
	}
}

// The groove of a steep cone, from its definition: a turn goes 2πρ round, ρ' out and
// p along.
func TestGrooveOfSteepCone(t *testing.T) {
	const turns, pitch, line = 5.0, 4 * mm, 3 * mm
	p, _ := Straight(6*mm, 26*mm, turns)
	c := Cone{Turns: turns, Profile: p, Pitch: pitch}
	want := numeric.Adaptive(0, turns, 1e-12, func(x float64) float64 {
		around := 2 * math.Pi * (6*mm + 4*mm*x + line/2)
		return math.Sqrt(around*around + 4*mm*4*mm + pitch*pitch)
	})
	closeTo(t, "groove", c.GrooveLength(line), want, 2e-5)
	// π p ∫r² dθ of a cone that is measured at each turn, piece by piece.
	radii := []float64{6 * mm, 8 * mm, 9 * mm, 12 * mm, 13 * mm, 17 * mm}
	c.Profile, _ = Measured(radii)
	volume := numeric.Adaptive(0, turns, 1e-16, func(x float64) float64 {
		r, _, _ := c.Profile.At(x)
		return math.Pi * pitch * r * r
	}, 1, 2, 3, 4)
	closeTo(t, "volume", c.Volume(), volume, 1e-4)
	length := numeric.Adaptive(0, turns, 1e-12, func(x float64) float64 {
		r, dr, _ := c.Profile.At(x)
		around := 2 * math.Pi * (r + line/2)
		return math.Sqrt(around*around + dr*dr + pitch*pitch)
	}, 1, 2, 3, 4)
	closeTo(t, "measured groove", c.GrooveLength(line), length, 1e-5)
}

// What is cut off is the difference of two volumes of metal, none of it below 0, and
// the profile cut touches the cone where it is said to.
func TestWhatIsCutOff(t *testing.T) {
	n := 0
	for i, w := range cones(t, 40) {
		cut, err := w.Within(1, 0.5)
		if err != nil {
			continue
		}
		n++
		now, then := w.drive.Cone, cut.Drive.Cone
		closeTo(t, "removed", cut.Removed, now.Volume()-then.Volume(), 1e-12)
		if cut.Removed < -1e-6*now.Volume() {
			t.Errorf("drive %d: %g m³ come off", i, cut.Removed)
		}
		if cut.SetUp != 1 || cut.Drive.Barrel.SetUp != 1 {
			t.Errorf("drive %d: set up by %g", i, cut.SetUp)
		}
		if !math.IsNaN(cut.Touch) {
			a, _, _ := now.Profile.At(cut.Touch)
			b, _, _ := then.Profile.At(cut.Touch)
			if math.Abs(a-b) > 1e-6*a {
				t.Errorf("drive %d: at turn %g the cone has %g m, the profile %g", i, cut.Touch, a, b)
			}
			continue
		}
		// Nothing touches: the spring's turns end first.
		even := mustWind(t, cut.Drive)
		closeTo(t, "turns to spare", w.curve.Turns()-even.SpringTurns()-1, 0.5, 1e-4)
	}
	if n < 10 {
		t.Errorf("only %d cones", n)
	}
}

// Where the first crossing from below 0 is, of functions whose crossings are known:
// also where the peak is between two steps of the scan, and where it is too low.
func TestFirstAbove(t *testing.T) {
	for _, x := range []struct {
		f     func(float64) float64
		first float64
	}{
		{func(x float64) float64 { return x - 0.3 }, 0.3},
		{func(x float64) float64 { return 0.04 - (x-0.5)*(x-0.5) }, 0.3},
		{func(x float64) float64 { d := (x - 1.0/3) / 1e-3; return 1 - d*d }, 1.0/3 - 1e-3},
		{func(x float64) float64 { d := (x - 2e-3) / 1e-3; return 1 - d*d }, 1e-3},
		{func(x float64) float64 { d := (x - 0.998) / 1e-3; return 1 - d*d }, 0.997},
		{func(x float64) float64 { return -1e-3 - (x-0.4)*(x-0.4) }, math.NaN()},
	} {
		const from = 2 // the interval is 2 to 3
		below, above, ok := firstAbove(func(at float64) float64 { return x.f(at - from) }, from, from+1)
		below, above = below-from, above-from
		if ok == math.IsNaN(x.first) {
			t.Errorf("crossing at %g: found %v", x.first, ok)
		}
		if ok && !(below <= x.first && above >= x.first && x.f(below) < 0 && x.f(above) >= 0 && above-below <= 2.0/64) {
			t.Errorf("crossing at %g: between %g and %g", x.first, below, above)
		}
	}
}

// A drive with a strip that cannot be says so.
func TestStripInDrive(t *testing.T) {
	d := clockDrive(t)
	d.Spring.Width = 0
	if _, err := d.Wind(); !errors.Is(err, mainspring.ErrGeometry) {
		t.Error(err)
	}
}

// A cylinder with a groove of pitch p against a barrel of lay L: the line moves by
// (p − L ρ/Rb) a turn against it, evenly, so that the fleet angle is 0 half way:
// closed form.
func TestFleetOfGroovedBarrel(t *testing.T) {
	d := clockDrive(t)
	d.Barrel.Lay = 3.1 * mm
	d.Cone.Profile, _ = Straight(12*mm, 12*mm, d.Cone.Turns)
	w := mustWind(t, d)
	if w.Start() != 0 {
		t.Fatalf("starts at %g", w.Start())
	}
	rho, rb := 12*mm+d.Line.Thickness/2, d.Barrel.Radius+d.Line.Thickness/2
	span := math.Sqrt(d.Cone.Centre*d.Cone.Centre - (rb-rho)*(rb-rho))
	for _, theta := range []float64{0, 1, 8, 11.5, 16} {
		want := (d.Cone.Pitch - d.Barrel.Lay*rho/rb) * (theta - 8) / span
		if got := w.At(theta).Fleet; math.Abs(got-want) > 1e-12 {
			t.Errorf("turn %g: %g, want %g", theta, got, want)
		}
	}
	closeTo(t, "spread", w.LineSpread(), 16*rho/rb*3.1*mm, 1e-12)
}

// A drive that binds pays out line from its start on: there the fusee's end of the
// line is at the small end, and the groove of what is left of the run is laid.
func TestLineOfBindingDrive(t *testing.T) {
	for _, lay := range []float64{0, 3 * mm} {
		d := clockDrive(t)
		d.Barrel.SetUp, d.Barrel.Lay = 3, lay
		w := mustWind(t, d)
		if !(w.Start() > 0.5) {
			t.Fatalf("starts at %g", w.Start())
		}
		first, _ := w.Span(w.Start())
		last, _ := w.Span(16)
		if math.Abs(first.Z) > 1e-15 || math.Abs(last.Z-d.Cone.Pitch*(16-w.Start())) > 1e-12 {
			t.Errorf("from %g to %g m along the axis", first.Z, last.Z)
		}
		if lay == 0 {
			closeTo(t, "spread", w.LineSpread(), d.Cone.Pitch*(16-w.Start()), 1e-12)
		}
		if got := w.barrelTurns(w.Start()); math.Abs(got) > 1e-9 {
			t.Errorf("%g barrel turns at the start", got)
		}
		closeTo(t, "barrel turns", w.barrelTurns(16), w.SpringTurns(), 1e-9)
	}
}

// Where a larger cone winds the spring so nearly home that its small end is too thin
// again, the largest is the one whose small end is just thick enough.
func TestLargestConeWithThinSmallEnd(t *testing.T) {
	n := 0
	for i := range 400 {
		thick := clockDrive(t)
		thick.Cone.Turns, thick.Cone.Centre = 4+float64(i%20), 0
		thick.Cone.Profile, _ = Straight(9*mm, 15*mm, thick.Cone.Turns)
		thick.Line.Thickness = (1 + 0.5*float64(i/20)) * mm
		w, err := thick.Wind()
		if err != nil {
			continue
		}
		small, large := w.EvenEnds(0)
		if small.IsEmpty() {
			continue
		}
		d := w.drive
		d.Cone.Centre, d.Cone.Shape, d.Cone.End = 0, EvenByLarge, large.Hi
		even, err := d.Wind()
		if err != nil {
			t.Fatal(i, err)
		}
		r := even.At(even.Start()).Radius - even.half
		least := math.Max(leastRadius, d.Line.Thickness)
		if r < least*(1-1e-6) {
			t.Errorf("drive %d: the small end of the largest cone is %g m, and %g is the least", i, r, least)
		}
		home := w.curve.Turns() - d.Barrel.SetUp - even.SpringTurns()
		if r < least*(1+1e-6) && home > 0 {
			n++
		}
	}
	if n == 0 {
		t.Error("no such cone")
	}
	w := mustWind(t, clockDrive(t))
	if small, _ := w.EvenEnds(w.curve.Turns() - w.drive.Barrel.SetUp); !small.IsEmpty() {
		t.Errorf("no turn for the fusee: %v", small)
	}
}

// Without a centre distance the line is taken to run square to the arbors: its
// tension is η M/Rb.
func TestTensionWithoutCentre(t *testing.T) {
	d := clockDrive(t)
	d.Cone.Centre = 0
	w := mustWind(t, d)
	for theta := 0.0; theta <= 16; theta += 4 {
		s := w.At(theta)
		closeTo(t, "tension", s.Tension, d.Efficiency*s.Couple/(d.Barrel.Radius+d.Line.Thickness/2), 1e-12)
	}
}
