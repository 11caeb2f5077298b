package fusee

import (
	"math"
	"math/rand/v2"
	"testing"

	"evenpull/fusee/mainspring"

	"github.com/golang/geo/s1"
)

const mm, MPa, GPa = 1e-3, 1e6, 1e9

// clockDrive is an invented eight-day drive with a cone measured at 17 places.
func clockDrive(t testing.TB) Drive {
	t.Helper()
	d := Drive{
		Spring: mainspring.Strip{Width: 38 * mm, Thickness: 0.40 * mm, Length: 1850 * mm,
			Modulus: 206 * GPa, Poisson: 0.3, Form: mainspring.Set, Yield: 1650 * MPa},
		Housing:    mainspring.Housing{Arbor: 7.5 * mm, Inside: 23 * mm},
		Efficiency: 0.9,
		Barrel:     Barrel{Radius: 25 * mm, Length: 44 * mm, Height: 41 * mm, SetUp: 1},
		Line:       Line{Thickness: 1.8 * mm, Width: 1.8 * mm, Efficiency: 0.97},
		Cone:       Cone{Turns: 16, Pitch: 2.4 * mm, Centre: 60 * mm},
	}
	radii := make([]float64, 17)
	for i := range radii {
		x := float64(i) / 16
		radii[i] = (8.4 + 5.6*x + 2.4*x*x*x + 0.05*math.Sin(float64(3*i))) * mm
	}
	p, err := Measured(radii)
	if err != nil {
		t.Fatal(err)
	}
	d.Cone.Profile = p
	return d
}

// clockPivots are the bearings of such a drive, bathed in old oil.
var clockPivots = Pivots{Friction: 0.15, Barrel: 4.5 * mm, Fusee: 2 * mm, Wheel: 24 * mm, Pull: math.Pi / 2}

func mustWind(t testing.TB, d Drive) Wound {
	t.Helper()
	w, err := d.Wind()
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// family makes drives of every form of spring and cone about clockDrive; what
// cannot be wound is passed over. A third of them lose at their pivots.
func family(t testing.TB, n int) []Wound {
	t.Helper()
	rnd := rand.New(rand.NewPCG(3, 14))
	between := func(a, b float64) float64 { return a + (b-a)*rnd.Float64() }
	var all []Wound
	for len(all) < n {
		d := clockDrive(t)
		d.Spring.Form = mainspring.Form(rnd.IntN(3))
		d.Spring.FreeCoils = between(0, 9)
		d.Spring.Thickness = between(0.3, 0.5) * mm
		d.Spring.Length = between(1.2, 2.2)
		d.Barrel.SetUp = between(0.2, 2)
		d.Line.Thickness = between(0.5, 2.2) * mm
		d.Line.Width = d.Line.Thickness
		switch rnd.IntN(4) {
		case 1:
			d.Cone.Turns = between(5, 18)
			d.Cone.Profile, _ = Straight(between(7, 11)*mm, between(12, 20)*mm, d.Cone.Turns)
		case 2:
			d.Cone.Shape, d.Cone.End = EvenByLarge, between(12, 20)*mm
		case 3:
			d.Cone.Shape, d.Cone.End = EvenBySmall, between(5, 12)*mm
		}
		if rnd.IntN(3) == 0 {
			d.Barrel.Lay = d.Line.Thickness * between(1, 3)
		}
		if len(all)%3 == 2 {
			d.Pivots = clockPivots
			d.Pivots.Pull = s1.Angle(len(all)%7) / 2
		}
		if w, err := d.Wind(); err == nil {
			all = append(all, w)
		}
	}
	return all
}

func closeTo(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol*math.Max(1e-300, math.Abs(want))) {
		t.Errorf("%s = %.12g, want %.12g (off by %.2g, allowed %.2g)", what, got, want, got/want-1, tol)
	}
}
