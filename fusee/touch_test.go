package fusee

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// A cone that stands over the even profile of a straight law as a parabola over its
// tangent: the profile is its largest even one, and touches where the parabola does,
// between the places that are looked at, and at both ends of the cone.
func TestTouchBetweenPlaces(t *testing.T) {
	d, k, a := straightLaw(t, 9*mm, 15*mm)
	const setUp, knots = 1.0, 4096
	n, half, rb := d.Cone.Turns, d.Line.Thickness/2, d.Barrel.Radius+d.Line.Thickness/2
	c := 15 * mm * k * (setUp + a) / rb
	for _, touch := range []float64{0, 0.03, 3.19, 3.21, n - 0.03, n} {
		at := make([]knot, knots+1)
		for i := range at {
			theta := n * float64(i) / knots
			// ρ = C Rb/M and dM/dθ = −k C/M, in closed form.
			m := k * math.Sqrt(math.Pow(setUp+a, 2)+2*c*(n-theta)/k)
			off := theta - touch
			at[i] = knot{r: c*rb/m - half + 0.02*mm*off*off, dr: c*c*rb*k/(m*m*m) + 0.04*mm*off}
		}
		d.Cone.Profile = newProfile(n/knots, at)
		w := mustWind(t, d)
		cut, err := w.Within(setUp, 0)
		if err != nil {
			t.Fatal(err)
		}
		closeTo(t, "C", cut.Torque, c, 2e-9)
		if math.Abs(cut.Touch-touch) > 1e-3 {
			t.Errorf("touches at %v, want %v", cut.Touch, touch)
		}
	}
}

// Circles whose radii add up to the distance of their centres touch.
func TestConeThatTouchesTheBarrel(t *testing.T) {
	d := clockDrive(t)
	d.Cone.Shape, d.Cone.End, d.Cone.Centre = EvenByLarge, 16*mm, 0
	w := mustWind(t, d)
	large := w.even * w.rb / w.curve.Couple(d.Barrel.SetUp)
	closeTo(t, "large end", large, 16*mm+w.half, 1e-15)
	d.Cone.Centre = large + w.rb
	if _, err := d.Wind(); !errors.Is(err, ErrCentre) {
		t.Errorf("they touch: %v", err)
	}
	d.Cone.Centre = math.Nextafter(d.Cone.Centre, 1)
	if _, err := d.Wind(); err != nil {
		t.Errorf("they are just clear of each other: %v", err)
	}
}

// Two radii make a straight cone.
func TestTwoRadii(t *testing.T) {
	p, err := Measured([]float64{9 * mm, 12 * mm})
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range []float64{0, 0.3, 1} {
		r, dr, area := p.At(x)
		closeTo(t, "radius", r, (9+3*x)*mm, 1e-14)
		closeTo(t, "slope", dr, 3*mm, 1e-14)
		closeTo(t, "area", area, (9*x+1.5*x*x)*mm, 1e-14)
	}
}

// A spring that is wound home just as the fusee is wound gives its even profile an
// endless slope there: the cone that is cut is finite all the same, and even.
func TestCutFromHome(t *testing.T) {
	d := clockDrive(t)
	d.Cone.Shape, d.Cone.End, d.Cone.Centre = EvenByLarge, 16*mm, 0
	w := mustWind(t, d)
	// C n = ∫M dφ: the turns that take all of the spring.
	spring := &w.curve
	d.Cone.Turns = (spring.Energy(spring.Turns()) - w.work) / (2 * math.Pi * w.even) * (1 + 1e-13)
	w = mustWind(t, d)
	if w.start != 0 || w.full != spring.Turns() {
		t.Fatalf("starts at %g with %g of %g turns", w.start, w.full, spring.Turns())
	}
	if _, dr := w.radius(0); !math.IsInf(dr, 1) {
		t.Fatalf("slope %g", dr)
	}
	d.Cone = w.CutCone()
	cut := mustWind(t, d)
	for theta := 0.0; theta <= w.Turns(); theta += 0.1 {
		tol := 2e-5
		if theta < 0.1 {
			tol = 0.01
		}
		closeTo(t, "torque", cut.At(theta).Torque, w.At(theta).Torque, tol)
	}
}

// The least set-up is the only one left where the spring has just so many turns, and
// that is none too many; with clicks it is taken where it is a whole one.
func TestLeastSetUpIsIncluded(t *testing.T) {
	w := mustWind(t, clockDrive(t))
	spare := w.curve.Turns() - LeastSetUp
	if w.curve.Turns()-spare != LeastSetUp {
		t.Fatal("rounding")
	}
	if _, err := w.LeastCut(spare); !errors.Is(err, ErrSetUp) || !strings.Contains(err.Error(), "keep the line taut") {
		t.Errorf("nothing left to cut for: %v", err)
	}
	whole, between, late := 0, 0, 0
	for _, w := range wavy(t, 100) {
		if whole > 0 && between > 0 && late > 0 {
			break
		}
		const spare = 0.5
		best, err := w.LeastCut(spare)
		if err != nil {
			continue
		}
		cut := func(clicks, want float64) {
			cut, err := w.LeastCutByClicks(spare, clicks, math.Inf(1))
			if err != nil && !errors.Is(err, ErrThin) || cut.SetUp != want {
				t.Errorf("%v clicks a turn: set up by %v, want %v of %v; %v", clicks, cut.SetUp, want, w.curve.Turns(), err)
			}
		}
		switch most := w.curve.Turns() - spare; {
		case best.SetUp == LeastSetUp:
			whole++
			cut(4, LeastSetUp)
			cut(3, 1./3)
		case best.SetUp < 2*LeastSetUp && w.kept(LeastSetUp, spare) > w.kept(2*LeastSetUp, spare):
			between++
			cut(4, LeastSetUp)
		case best.SetUp > 0.6*most: // the next click leaves no turn to spare
			late++
			cut(1/(0.9*best.SetUp), 0.9*best.SetUp)
		}
	}
	if whole == 0 || between == 0 || late == 0 {
		t.Errorf("%d cones with the least set-up, %d with hardly more, %d with nearly all", whole, between, late)
	}
}
