package mainspring

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
)

// A spring maker's (Tokai Bane) technical page on flat spiral springs prints
// E 206 000 N/mm², b 10, t 1, L 1200 mm; the values follow from its E b t³/12L.
func TestRateOfFreeSpiral(t *testing.T) {
	s := Strip{Width: 10 * mm, Thickness: 1 * mm, Length: 1200 * mm, Modulus: 206 * GPa, Bending: Narrow}
	c := mustCurve(t, s, Housing{Arbor: 8 * mm, Inside: 60 * mm})
	from := c.Wound(c.ei * (c.mPeak + 1e-3)) // just inside the straight middle
	perTurn := c.Couple(from+1) - c.Couple(from)
	closeTo(t, "rate a radian (N·mm)", perTurn/(2*math.Pi)*1e3, 143.056, 0.0005/143.056)
	closeTo(t, "rate a turn (N·mm)", perTurn*1e3, 898.84, 0.005/898.84)
	section := s.Width * s.Thickness * s.Thickness / 6
	closeTo(t, "stress at one turn (MPa)", perTurn/section/1e6, 539.31, 0.005/539.31)
	closeTo(t, "rate, closed form", perTurn, 2*math.Pi*c.Stiffness()/s.Length, 1e-9)
}

// Associated Spring, Design Handbook (from memory): D 46, d 15, t 0.4, half the
// area filled; the handbook prints 2.55 where ideal packing has 2.
func TestTurnsOfPowerSpring(t *testing.T) {
	in := Housing{Arbor: 7.5 * mm, Inside: 23 * mm}
	s := Strip{Width: 38 * mm, Thickness: 0.4 * mm, Modulus: 206 * GPa}
	s.Length = s.LongestFor(in) / 2
	c := mustCurve(t, s, in)
	closeTo(t, "turns", c.Turns(), 9.2814, 0.00005/9.2814)
	closeTo(t, "turns by the half-area formula", HalfAreaTurns(in, s.Thickness), c.Turns(), 1e-12)
	closeTo(t, "handbook turns", HalfAreaTurns(in, s.Thickness)*2/2.55, 7.2796, 0.00005/7.2796)
	closeTo(t, "fill", c.Fill(), 0.5, 1e-12)
	for _, fill := range []float64{0.3, 0.45, 0.55, 0.7} {
		s.Length = s.LongestFor(in) * fill
		if other := mustCurve(t, s, in); other.Turns() >= c.Turns() {
			t.Errorf("filled to %g the barrel gives %g turns, more than half full (%g)", fill, other.Turns(), c.Turns())
		}
	}
}

// Beer & Johnston, Mechanics of Materials, ch. 4 (from memory): a bar of
// 50 × 120 mm, σY 240 MPa, E 200 GPa under 36.8 kN·m has an elastic core of
// 80 mm and a radius of 33.3 m, and 225 m unloaded. The bar is a strip whose
// innermost coil lies on an arbor of that radius.
func TestElasticPlasticBar(t *testing.T) {
	s := Strip{Width: 50 * mm, Thickness: 120 * mm, Length: 20, Modulus: 200 * GPa, Bending: Narrow, Form: Set, Yield: 240 * MPa}
	c := mustCurve(t, s, Housing{Arbor: 100.0 / 3, Inside: 60})
	closeTo(t, "couple (kN·m)", c.MaxCouple()/1e3, 36.8, 1e-9)
	closeTo(t, "elastic core (mm)", s.Thickness/c.Overstrain()/mm, 80, 1e-9)
	closeTo(t, "unloaded radius (m)", 1/(1/c.r-c.mHome), 225, 1e-9)
}

// Kalpakjian & Schmid, Manufacturing Engineering and Technology (from memory):
// Ri/Rf = 4(RiY/Et)³ − 3(RiY/Et) + 1; Ri 0.5 in, Y 40 ksi, E 29e6 psi,
// t 0.0359 in give Rf 0.531 in.
func TestSpringback(t *testing.T) {
	const in = 25.4 * mm
	const psi = 6894.757293168
	s := Strip{Width: in, Thickness: 0.0359 * in, Length: in, Modulus: 29e6 * psi, Bending: Narrow, Form: Set, Yield: 40e3 * psi}
	c := mustCurve(t, s, Housing{Arbor: 0.5 * in, Inside: 2 * in})
	rf := 1 / (1/c.r - c.mHome)
	if math.Abs(rf/in-0.531) > 0.0005 {
		t.Errorf("radius after springback %.4f in, printed 0.531", rf/in)
	}
	q := 0.5 * 40e3 / (29e6 * 0.0359)
	closeTo(t, "Ri/Rf", c.r/rf, 4*q*q*q-3*q+1, 1e-12)
}

// Our own solution of the strip as one curve, coil by coil (interior point, 96 nodes a
// turn, without friction): 36 × 0.38 × 1650 mm, E 206 GPa, flow stress 1620 MPa, a barrel
// of 45 mm and an arbor of 15 mm, EI of a narrow strip; the couple (N·m) against turns from
// the clamp's rest. Whichever way its outer end is held the strip is within 3 % of the
// clamp, which is the one that was computed beside it.
func TestStripInABarrel(t *testing.T) {
	s := Strip{Width: 36 * mm, Thickness: 0.38 * mm, Length: 1650 * mm, Modulus: 206 * GPa, Bending: Narrow, Form: Set, Yield: 1620 * MPa}
	c := mustCurve(t, s, Housing{Arbor: 7.5 * mm, Inside: 22.5 * mm})
	for _, at := range []struct{ turns, clamp, tangent, pinned float64 }{
		{1.046, 0.668, 0.666, 0.661}, {3.046, 1.141, 1.142, 1.111}, {5.046, 1.402, 1.402, 1.396}, {7.046, 1.661, 1.666, 1.672}, {8.546, 1.863, 1.884, 1.875},
	} {
		couple := c.Couple(at.turns)
		closeTo(t, "clamp", couple, at.clamp, 0.0005/at.clamp)
		closeTo(t, "tangent", couple, at.tangent, 0.03)
		closeTo(t, "pinned", couple, at.pinned, 0.03)
	}
}

// J. Japan Soc. Precision Engineering 18 (205), 1952, abstract: the best form
// keeps κa − κ0 = 2p/h, p the strain at the proportional limit. All of it then
// reaches and leaves the arbor at one couple.
func TestBestNaturalForm(t *testing.T) {
	s, in := clockSpring(Set)
	const p = 0.008
	var c Curve
	c.layOut(&s, in)
	c.a, c.xy = 2*p/s.Thickness, c.xEnd
	c.n2, c.rootN, c.rootK = c.r2, c.r, 1
	c.settle()
	closeTo(t, "couple of first and last touch", c.mTouch, c.mHome, 1e-12)
	closeTo(t, "couple at the turns available", c.Couple(c.Turns()), c.Stiffness()*2*p/s.Thickness, 1e-9)
	if k := c.contacts(c.mHome * (1 - 1e-9)); k.xa != c.xEnd {
		t.Errorf("just below home %g of %g is off the arbor", k.xa, c.xEnd)
	}
}

// Ashwell, J. R. Aeronaut. Soc. 54 (1950) and Searle, Experimental Elasticity
// (1908): between strip and plate the stiffness grows by up to 1/(1 − ν²).
func TestPlateIsStiffer(t *testing.T) {
	s, in := clockSpring(Straight)
	strip := mustCurve(t, s, in)
	s.Bending = Plate
	plate := mustCurve(t, s, in)
	for _, turns := range []float64{1, 4, 8} {
		closeTo(t, "plate over strip", plate.Couple(turns)/strip.Couple(turns), 1.0989, 1e-4)
	}
	closeTo(t, "Searle's parameter", plate.Searle(), 38.0*38/(0.4*7.5), 1e-12)
}

// Common practice, no source: strength as the width, and as the cube of the
// thickness. The cube holds for the slope (Timoshenko); the level of a spring
// that set grows between the square and the cube.
func TestStrengthOfLeaf(t *testing.T) {
	s, in := clockSpring(Set)
	wide := s
	wide.Width *= 2
	a, b := mustCurve(t, s, in), mustCurve(t, wide, in)
	closeTo(t, "twice the width", b.Couple(5)/a.Couple(5), 2, 1e-12)

	s, _ = clockSpring(Straight)
	thick := s
	thick.Thickness *= 1.1
	a, b = mustCurve(t, s, in), mustCurve(t, thick, in)
	closeTo(t, "slope at 1.1 × thickness", b.Stiffness()/a.Stiffness(), 1.331, 1e-12)

	s, in = clockSpring(Set)
	s.Length *= 0.8
	thick = s
	thick.Thickness *= 1.1
	a, b = mustCurve(t, s, in), mustCurve(t, thick, in)
	mean := func(c Curve) float64 { return (c.Energy(7) - c.Energy(1)) / (2 * math.Pi * 6) }
	exponent := math.Log(mean(b)/mean(a)) / math.Log(1.1)
	if exponent < 2 || exponent > 3 {
		t.Errorf("mean couple of a set spring goes as thickness^%.3f, want between the square and the cube", exponent)
	}
}

// A set strip never passes σy w h²/4, the couple of a section all yielded.
func TestSetStripStaysBelowPlasticCouple(t *testing.T) {
	for i, c := range family(t, 300) {
		if c.strip.Form != Set {
			continue
		}
		s := c.strip
		if limit := c.FlowStress() * s.Width * s.Thickness * s.Thickness / 4; c.MaxCouple() > limit*(1+1e-12) {
			t.Errorf("spring %d: %g N·m past %g", i, c.MaxCouple(), limit)
		}
	}
}

// A deeply set strip, packed on the wall, would pull backwards: turns must be
// counted from rest, where its inner coils stand off the wall.
func TestTurnsCountFromRest(t *testing.T) {
	s, in := clockSpring(Set)
	c := mustCurve(t, s, in)
	if c.SlackTurns() <= 0 || c.naturalAt(0) <= 1/c.ru {
		t.Fatalf("this strip should curl off the wall: slack %g turns", c.SlackTurns())
	}
	packed := -1e-3 + c.leaveWall(0) // the couple that holds every coil on the wall
	if packed >= 0 || c.winding(packed, c.contacts(packed)) > 1e-12 {
		t.Errorf("packed on the wall the couple is %g (1/m), want a negative one", packed)
	}
	if m := c.Couple(1e-6); m < 0 || m > 1e-2*c.MaxCouple() {
		t.Errorf("just off rest the couple is %g N·m, want next to nothing", m)
	}
	s, in = clockSpring(Straight)
	if straight := mustCurve(t, s, in); straight.SlackTurns() != 0 {
		t.Errorf("a straight strip stands off the wall by %g turns", straight.SlackTurns())
	}
}

func TestImpossibleStrips(t *testing.T) {
	base, in := clockSpring(Set)
	cases := []struct {
		name string
		edit func(*Strip, *Housing)
		want error
	}{
		{"too long", func(s *Strip, in *Housing) { s.Length = s.LongestFor(*in) }, ErrTooLong},
		{"no width", func(s *Strip, _ *Housing) { s.Width = 0 }, ErrGeometry},
		{"NaN", func(s *Strip, _ *Housing) { s.Thickness = math.NaN() }, ErrGeometry},
		{"infinite", func(s *Strip, _ *Housing) { s.Modulus = math.Inf(1) }, ErrGeometry},
		{"arbor fills barrel", func(_ *Strip, in *Housing) { in.Arbor = in.Inside }, ErrGeometry},
		{"no yield", func(s *Strip, _ *Housing) { s.Yield = 0 }, ErrGeometry},
		{"infinite yield", func(s *Strip, _ *Housing) { s.Yield = math.Inf(1) }, ErrGeometry},
		{"yield NaN", func(s *Strip, _ *Housing) { s.Yield = math.NaN() }, ErrGeometry},
		{"Poisson 1", func(s *Strip, _ *Housing) { s.Bending, s.Poisson = Wide, 1 }, ErrGeometry},
		{"Poisson −1.2", func(s *Strip, _ *Housing) { s.Bending, s.Poisson = Plate, -1.2 }, ErrGeometry},
		{"Poisson is not used", func(s *Strip, _ *Housing) { s.Bending, s.Poisson = Narrow, 1.2 }, nil},
		{"coils NaN", func(s *Strip, _ *Housing) { s.Form, s.FreeCoils = Even, math.NaN() }, ErrGeometry},
		{"no coils", func(s *Strip, _ *Housing) { s.Form, s.FreeCoils = Even, 0 }, nil},
		{"negative coils", func(s *Strip, _ *Housing) { s.Form, s.FreeCoils = Even, -1 }, ErrGeometry},
		{"curled up", func(s *Strip, _ *Housing) { s.Form, s.FreeCoils = Even, 40 }, ErrTooManyCoils},
	}
	for _, c := range cases {
		s, h := base, in
		c.edit(&s, &h)
		if _, err := New(s, h); !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", c.name, err, c.want)
		}
	}
}

func TestFiguresOfSpring(t *testing.T) {
	s, in := clockSpring(Even)
	c := mustCurve(t, s, in)
	closeTo(t, "free coils", c.FreeTurns(), 7, 1e-12)
	closeTo(t, "end float", c.EndFloat(41*mm), 3*mm, 1e-9)
	k := 1/in.Arbor - 2*math.Pi*7/s.Length
	closeTo(t, "peak stress of coils", c.PeakStress(), s.Modulus*s.Thickness/2*k, 1e-12)
	if !math.IsNaN(c.Overstrain()) {
		t.Error("overstrain without a yield stress")
	}
	s, in = clockSpring(Set)
	c = mustCurve(t, s, in)
	closeTo(t, "peak stress of a set strip", c.PeakStress(), s.Yield, 1e-12)
	s.Bending = Plate
	c = mustCurve(t, s, in)
	closeTo(t, "flow stress of a plate", c.FlowStress(), s.Yield*2/math.Sqrt(3), 1e-12)
	s.Yield = 1e12
	c = mustCurve(t, s, in)
	straight := s
	straight.Form = Straight
	e := mustCurve(t, straight, in)
	closeTo(t, "a strip that never yields is straight", c.Couple(4), e.Couple(4), 1e-12)
	closeTo(t, "and as stressed", c.PeakStress(), e.PeakStress(), 1e-12)
}

var sink float64

func BenchmarkNew(b *testing.B) {
	s, in := clockSpring(Set)
	b.ReportAllocs()
	for b.Loop() {
		c, _ := New(s, in)
		sink = c.tHome
	}
}

func BenchmarkCouple(b *testing.B) {
	s, in := clockSpring(Set)
	c := mustCurve(b, s, in)
	for _, at := range []struct {
		name  string
		turns float64
	}{{"wall", 1}, {"free", 4}, {"arbor", 8}} {
		b.Run(at.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				sink = c.Couple(at.turns)
			}
		})
	}
}

func BenchmarkEnergy(b *testing.B) {
	s, in := clockSpring(Set)
	c := mustCurve(b, s, in)
	b.ReportAllocs()
	for b.Loop() {
		sink = c.Energy(4)
	}
}

// What the curve tells of its strip, by the definitions.
func TestOfTheStrip(t *testing.T) {
	s, in := clockSpring(Set)
	c := mustCurve(t, s, in)
	closeTo(t, "sharpness of Searle", c.Searle(), s.Width*s.Width/(s.Thickness*in.Arbor), 1e-12)
	closeTo(t, "fill", c.Fill(), s.Thickness*s.Length/(math.Pi*(in.Inside*in.Inside-in.Arbor*in.Arbor)), 1e-12)
	closeTo(t, "overstrain", c.Overstrain(), s.Modulus*s.Thickness/(2*in.Arbor*s.Yield), 1e-12)
	closeTo(t, "slack", c.SlackTurns(), c.tRest/(2*s.Thickness), 1e-12)
}

// Coils no straighter than the outermost of a strip wound home leave it no couple:
// that one has the curvature 1/rw, and so n coils in a length L must be fewer than
// L/(2π rw) (geometry). The message gives that number.
func TestTooManyCoils(t *testing.T) {
	s, in := clockSpring(Even)
	outer := math.Sqrt(in.Arbor*in.Arbor + s.Thickness*s.Length/math.Pi)
	most := s.Length / (2 * math.Pi * outer)
	s.FreeCoils = most * (1 - 1e-9)
	c := mustCurve(t, s, in)
	if !(c.Couple(c.Turns()) > 0) {
		t.Error("no couple")
	}
	s.FreeCoils = most * (1 + 1e-9)
	_, err := New(s, in)
	if want := fmt.Sprintf("(%.4g coils, and it must be fewer than %.3f)", most, most); !errors.Is(err, ErrTooManyCoils) || !strings.Contains(err.Error(), want) {
		t.Errorf("%v, want %s", err, want)
	}
	s.FreeCoils = 1.25 * most
	_, err = New(s, in)
	if want := fmt.Sprintf("(%.4g coils, and it must be fewer than %.3f)", 1.25*most, most); !errors.Is(err, ErrTooManyCoils) || !strings.Contains(err.Error(), want) {
		t.Errorf("%v, want %s", err, want)
	}
	s.FreeCoils = 0
	if _, err := New(s, in); err != nil {
		t.Errorf("no coils: %v", err)
	}
}

// A strip as long as fills the barrel does not go in, one a hair shorter does, and
// the message gives both lengths: the area of the strip is that between the circles.
func TestLongestStrip(t *testing.T) {
	s, in := clockSpring(Straight)
	longest := math.Pi * (in.Inside*in.Inside - in.Arbor*in.Arbor) / s.Thickness
	closeTo(t, "longest", s.LongestFor(in), longest, 1e-14)
	s.Length = longest * (1 - 1e-6)
	c := mustCurve(t, s, in)
	if c.Turns() > 1e-4 {
		t.Errorf("%g turns in a full barrel", c.Turns())
	}
	s.Length = 1.25 * longest
	_, err := New(s, in)
	if want := fmt.Sprintf("%.4g m of it, and less than %.4g m goes in", s.Length, longest); !errors.Is(err, ErrTooLong) || !strings.Contains(err.Error(), want) {
		t.Errorf("%v, want %s", err, want)
	}
	for name, edit := range map[string]func(*Strip, *Housing){
		"no thickness": func(s *Strip, _ *Housing) { s.Thickness = 0 }, "no length": func(s *Strip, _ *Housing) { s.Length = 0 },
		"no modulus": func(s *Strip, _ *Housing) { s.Modulus = 0 }, "no arbor": func(_ *Strip, in *Housing) { in.Arbor = 0 },
		"endless": func(s *Strip, _ *Housing) { s.Length = math.Inf(1) }, "yield of NaN": func(s *Strip, _ *Housing) { s.Form, s.Yield = Set, math.NaN() },
		"endless yield": func(s *Strip, _ *Housing) { s.Form, s.Yield = Set, math.Inf(1) }, "coils of NaN": func(s *Strip, _ *Housing) { s.Form, s.FreeCoils = Even, math.NaN() },
	} {
		s, in := clockSpring(Straight)
		edit(&s, &in)
		if _, err := New(s, in); !errors.Is(err, ErrGeometry) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
