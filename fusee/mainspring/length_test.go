package mainspring

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// A strip that never set takes (rw − r − R + ru)/kh turns, the same with as much of the
// barrel empty as was full: both lengths together fill it, and the most are those of half
// the barrel filled, (√(2(R² + r²)) − R − r)/kh (SAE Spring Design Manual, from memory).
func TestLengthsOfAStraightStrip(t *testing.T) {
	in := Housing{Arbor: 7.5 * mm, Inside: 22.5 * mm}
	s := Strip{Width: 32 * mm, Thickness: 0.38 * mm, Modulus: 206 * GPa, Poisson: 0.3, Packing: 1.065}
	most := HalfAreaTurns(in, s.pitch())
	for _, counted := range []float64{0.01, 1, 5, 8.2, most - 1e-6} {
		below, beyond, err := bothLengths(s, in, counted, math.NaN())
		if err != nil {
			t.Fatal(err)
		}
		closeTo(t, "both", below+beyond, s.LongestFor(in), 1e-9)
		ru, rw := math.Sqrt(in.Inside*in.Inside-s.pitch()*below/math.Pi), math.Sqrt(in.Arbor*in.Arbor+s.pitch()*below/math.Pi)
		closeTo(t, "turns", (rw-in.Arbor-in.Inside+ru)/s.pitch(), counted, 1e-8)
		if !(below < beyond) || below > s.HalfFill(in) {
			t.Errorf("%v turns: %v below %v", counted, below, beyond)
		}
	}
	below, beyond, err := bothLengths(s, in, most+0.01, math.NaN())
	if !errors.Is(err, ErrCount) || below != beyond || !strings.Contains(err.Error(), "0.00 to 8.75") {
		t.Errorf("%v, %v: %v", below, beyond, err)
	}
	closeTo(t, "the length that makes the most", below, s.HalfFill(in), 1e-5)
	for _, wrong := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		if _, _, err := bothLengths(s, in, wrong, math.NaN()); !errors.Is(err, ErrCount) {
			t.Errorf("%v turns: %v", wrong, err)
		}
	}
	s.Thickness = -s.Thickness
	if below, beyond, err := bothLengths(s, in, 5, math.NaN()); !errors.Is(err, ErrGeometry) || below == below || beyond == beyond {
		t.Errorf("%v, %v: %v", below, beyond, err)
	}
}

// At both lengths a strip of any form makes the turns that were counted, with the steel that
// its coils tell of there; between them it makes more.
func TestLengthForGoesBack(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 8))
	found, most := 0, 0
	for range 300 {
		at := func(lo, hi float64) float64 { return lo + (hi-lo)*random.Float64() }
		in := Housing{Arbor: at(0.005, 0.01), Inside: at(0.018, 0.03)}
		s := Strip{Width: at(0.02, 0.05), Thickness: at(0.0002, 0.0006), Modulus: 206e9, Poisson: 0.3, Packing: at(1, 1.13),
			Form: Form(random.IntN(3)), FreeCoils: at(1, 6), Yield: at(1.2e9, 2e9)}
		coils := math.NaN()
		if s.Form == Set && random.IntN(2) == 0 {
			coils = at(2, 8)
		}
		counted := at(0.3, 1.05) * HalfAreaTurns(in, s.pitch())
		below, beyond, err := bothLengths(s, in, counted, coils)
		if err != nil {
			most++
			if !errors.Is(err, ErrCount) || s.turnsAt(in, below, coils) > counted {
				t.Errorf("%+v, %v turns: %v", s, counted, err)
			}
			for range 20 {
				from, to := s.lengths(in, coils)
				if any := s.turnsAt(in, at(from, to), coils); any > counted || any > s.turnsAt(in, below, coils)+1e-9 {
					t.Fatalf("%+v: %v turns, %v said to be most", s, any, s.turnsAt(in, below, coils))
				}
			}
			continue
		}
		found++
		closeTo(t, "below", s.turnsAt(in, below, coils), counted, 1e-9)
		closeTo(t, "beyond", s.turnsAt(in, beyond, coils), counted, 1e-9)
		if between := s.turnsAt(in, at(below, beyond), coils); !(between >= counted) {
			t.Errorf("%+v, coils %v: between %v and %v it makes %v, not over %v", s, coils, below, beyond, between, counted)
		}
		s.Length = below
		if c, err := New(s, in); err == nil && math.IsNaN(coils) {
			closeTo(t, "the curve", c.Turns(), counted, 1e-9)
		}
	}
	if found < 200 || most < 20 {
		t.Errorf("%d found, %d past the most", found, most)
	}
}

// A strip made in coils has some turns however short it is.
func TestFewerTurnsThanAny(t *testing.T) {
	in := Housing{Arbor: 7.5 * mm, Inside: 22.5 * mm}
	s := Strip{Width: 32 * mm, Thickness: 0.38 * mm, Modulus: 206 * GPa, Poisson: 0.3, Form: Even, FreeCoils: 6}
	below, beyond, err := bothLengths(s, in, 0.5, math.NaN())
	if !errors.Is(err, ErrCount) || below == below || beyond == beyond || !strings.Contains(err.Error(), "0.89 to 9.24") {
		t.Errorf("%v, %v: %v", below, beyond, err)
	}
	// The shortest has just the curvature of the coil that lies outside, wound home.
	from, _ := s.lengths(in, math.NaN())
	s.Length = from * (1 + 1e-9)
	if _, err := New(s, in); err != nil {
		t.Error(err)
	}
	s.Length = from * (1 - 1e-9)
	if _, err := New(s, in); !errors.Is(err, ErrTooManyCoils) {
		t.Error(err)
	}
}

func BenchmarkLengthFor(b *testing.B) {
	in := Housing{Arbor: 7.5 * mm, Inside: 22.5 * mm}
	s := Strip{Width: 32 * mm, Thickness: 0.38 * mm, Modulus: 206 * GPa, Poisson: 0.3, Packing: 1.065, Form: Set, Yield: 1600 * MPa}
	for name, coils := range map[string]float64{"stress": math.NaN(), "coils": 7} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := LengthFor(s, in, 8.2, coils, false); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func bothLengths(s Strip, in Housing, counted, coils float64) (below, beyond float64, err error) {
	below, err = LengthFor(s, in, counted, coils, false)
	beyond, again := LengthFor(s, in, counted, coils, true)
	if (err == nil) != (again == nil) {
		return below, beyond, fmt.Errorf("only one of them fails: %w, %w", err, again)
	}
	return below, beyond, err
}

// As short as it can be that lies free in its coils a strip is all set: it makes no turns,
// whatever rounding makes of the most coils there.
func TestShortest(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 9))
	for range 6000 {
		at := func(lo, hi float64) float64 { return lo + (hi-lo)*random.Float64() }
		in := Housing{Arbor: at(0.005, 0.01), Inside: at(0.018, 0.03)}
		s := Strip{Width: 0.03, Thickness: at(0.0002, 0.0006), Modulus: 206e9, Poisson: 0.3, Packing: at(1, 1.13), Form: Set}
		coils := at(2, 8)
		length, _ := s.lengths(in, coils)
		for range 4 {
			if turns := s.turnsAt(in, length, coils); turns > 1e-9 {
				t.Errorf("%+v in %+v with %v coils: %v turns", s, in, coils, turns)
			}
			length = math.Nextafter(length, 1)
		}
	}
}
