package escapement

import (
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/mathext"
)

// The exact elliptic-integral table in M. Seth, George Mason University physics
// course notes (printed): l = 1 m, g = 9.81 m/s², amplitude 10° to 80°.
func TestPrintedPeriods(t *testing.T) {
	p := Pendulum{Length: 1, Mass: 1, Gravity: 9.81, Quality: 100}
	for i, want := range []float64{2.0098926273, 2.0214512578, 2.0409898895, 2.0689378519, 2.1059346193, 2.1528746669, 2.2109761805, 2.2818859240} {
		a := SemiDegrees(float64(10 * (i + 1)))
		if got := p.PeriodAt(a); math.Abs(got-want) > 0.5e-10 {
			t.Errorf("%v: %.10f s, want %.10f", a, got, want)
		}
	}
}

// 86400·(1 − agm(1, cos A/2)), the exact period; 1.65 s a day at 1° is a
// handbook figure (from memory).
func TestCircularErrorADay(t *testing.T) {
	for degrees, want := range map[float64]float64{1: 1.6449, 1.5: 3.7011, 2: 6.5797, 3: 14.8042, 4: 26.3183, 5: 41.1217} {
		r := Rate{Circular: CircularRate(SemiDegrees(degrees))}
		if got := -r.PerDay(); math.Abs(got-want) > 0.5e-4 {
			t.Errorf("%g°: loses %.4f s a day, want %.4f", degrees, got, want)
		}
	}
	if got := -SecondsPerDay * CircularRate(SemiDegrees(1)); math.Abs(got-1.65) > 0.0051 {
		t.Errorf("1°: %.3f s a day, handbooks say 1.65", got)
	}
}

// g/π² with g of the CGPM 1901: 0.993621 m. 39.14 in at London is a handbook
// figure (from memory); gravity there is 9.8119 m/s² (from memory).
func TestSecondsPendulum(t *testing.T) {
	l := LengthFor(2, standardGravity)
	if math.Abs(l-0.993621) > 0.5e-6 {
		t.Errorf("%.6f m, want 0.993621", l)
	}
	p := Pendulum{Length: l, Mass: 1, Gravity: standardGravity, Quality: 100}
	closeTo(t, "there and back", p.Period(), 2, 1e-14)
	closeTo(t, "stiffness mgl", p.Stiffness(), standardGravity*l, 1e-15)
	if got := LengthFor(2, 9.8119) / 0.0254; math.Abs(got-39.14) > 0.005 {
		t.Errorf("at London %.3f in, want 39.14", got)
	}
}

// The complete elliptic integral of gonum (an independent routine): the period
// is 4K(sin²(A/2))√(l/g).
func TestCircularRateIsElliptic(t *testing.T) {
	for d := 0.25; d < 179; d += 0.25 {
		s := math.Sin(SemiDegrees(d).Radians() / 2)
		want := math.Pi / 2 / mathext.CompleteK(s*s)
		closeTo(t, SemiDegrees(d).String(), 1+CircularRate(SemiDegrees(d)), want, 1e-13)
	}
}

// −A²/16 + A⁴/3072 − 23A⁶/737280 …, the inverse of the usual series of the
// period, 1 + A²/16 + 11A⁴/3072 + 173A⁶/737280 … (any text; from memory), down
// to arcs where 1 − cos has no figures left.
func TestCircularRateAtSmallArcs(t *testing.T) {
	for a := 0.05; a > 1e-12; a /= 3 {
		b := a * a
		closeTo(t, "circular", CircularRate(SemiArc(a)), -b/16+b*b/3072-23*b*b*b/737280, b*b*b/1000+4e-16)
	}
	if got := CircularRate(0); got != 0 {
		t.Errorf("at rest %g", got)
	}
	if got := CircularRate(SemiDegrees(360)); got != -1 {
		t.Errorf("over the top %g", got)
	}
}

// A decay worked backwards: a1 e^(−πN/Q) after N periods.
func TestQualityFromDecay(t *testing.T) {
	for _, q := range []float64{1, 40, 120, 5000, 1e6} {
		from, periods := SemiDegrees(4), 30.0
		to := from * SemiArc(math.Exp(-math.Pi*periods/q))
		got, err := QualityFromDecay(from, to, periods)
		if err != nil {
			t.Error(err)
		}
		closeTo(t, "quality", got, q, 1e-9)
	}
	got, _ := QualityFromDecay(SemiDegrees(4), SemiDegrees(2), 30)
	closeTo(t, "halved in 30 periods", got, math.Pi*30/math.Ln2, 1e-14)
}

func TestBadDecays(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		from, to SemiArc
		periods  float64
		field    string
	}{
		{0, 0.1, 30, "from"}, {SemiArc(nan), 0.1, 30, "from"}, {4, 2, 30, "from"},
		{0.1, 0.1, 30, "to"}, {0.1, 0.2, 30, "to"}, {0.1, 0, 30, "to"}, {0.1, SemiArc(nan), 30, "to"},
		{0.1, 0.05, 0, "periods"}, {0.1, 0.05, -3, "periods"}, {0.1, 0.05, nan, "periods"}, {0.1, 0.05, math.Inf(1), "periods"},
		{0.1, 0.001, 1, "quality from the decay"}, {0.1, 0.0999999, 1e6, "quality from the decay"},
	} {
		_, err := QualityFromDecay(c.from, c.to, c.periods)
		var f Fault
		if !errors.As(err, &f) || f.Field != c.field {
			t.Errorf("%v: %v, want a fault of %q", c, err, c.field)
		}
	}
}

// A semi-arc and the whole arc of the same swing.
func TestArcs(t *testing.T) {
	a := SemiDegrees(2.5)
	if a.Whole() != WholeDegrees(5) || WholeDegrees(5).Semi() != a {
		t.Error("2.5° to a side is 5° from side to side")
	}
	closeTo(t, "radians", a.Radians(), math.Pi/72, 1e-15)
	closeTo(t, "radians", a.Whole().Radians(), math.Pi/36, 1e-15)
	closeTo(t, "degrees", a.Degrees(), 2.5, 1e-15)
	closeTo(t, "degrees", a.Whole().Degrees(), 5, 1e-15)
	if got := a.String() + ", " + a.Whole().String(); got != "2.5000000° to a side, 5.0000000° from side to side" {
		t.Error(got)
	}
}
