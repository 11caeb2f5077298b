package fusee

import (
	"math"
	"math/rand/v2"
	"testing"

	"evenpull/fusee/numeric"

	"github.com/golang/geo/s1"
)

// bearings makes bearings of every size and angle.
func bearings(n int) []bearing {
	rnd := rand.New(rand.NewPCG(5, 12))
	all := make([]bearing, n)
	for i := range all {
		wheel := (10 + 30*rnd.Float64()) * mm
		p := Pivots{Friction: rnd.Float64(), Fusee: wheel * rnd.Float64() * 0.9, Wheel: wheel, Pull: s1.Angle(2 * math.Pi * rnd.Float64())}
		all[i] = p.bearing()
	}
	return all
}

// Direct balance of forces as vectors, found by halving: Tf = T − a|F + W|.
func TestBalanceOfForces(t *testing.T) {
	for i, b := range bearings(400) {
		angle := math.Acos(b.cosine)
		for _, tension := range []float64{1, 37} {
			lever := b.a * (1 + float64(i%17))
			lacks := func(torque float64) float64 {
				push := torque * b.perRg
				load := math.Hypot(tension+push*math.Cos(angle), push*math.Sin(angle))
				return tension*lever - b.a*load - torque
			}
			want := 0.0
			if lacks(0) > 0 {
				want, _ = numeric.Bisect(0, tension*lever, 0, func(x float64) bool { return lacks(x) > 0 })
			}
			got := tension * b.passes(lever)
			if math.Abs(got-want) > 1e-12*tension*lever {
				t.Errorf("bearing %d: %.15g N·m pass, balanced at %.15g", i, got, want)
			}
			if got > 0 {
				closeTo(t, "back", b.asks(b.passes(lever)), lever, 1e-12)
				closeTo(t, "share", b.share(1/b.passes(lever)), b.passes(lever)/lever, 1e-12)
				x, h := b.passes(lever), 1e-5*lever
				closeTo(t, "slope", b.slope(x), (b.asks(x+h)-b.asks(x-h))/(2*h), 1e-8)
			}
		}
	}
}

// No pivot, or none that rubs, is the drive without.
func TestNoPivots(t *testing.T) {
	for _, w := range family(t, 20) {
		bare := w.drive
		bare.Pivots = Pivots{}
		slick := bare
		slick.Pivots = clockPivots
		slick.Pivots.Friction = 0
		a, b := mustWind(t, bare), mustWind(t, slick)
		for x := a.Start(); x <= a.Turns(); x += 0.5 {
			p, q := a.At(x), b.At(x)
			closeTo(t, "torque", q.Torque, p.Torque, 1e-15)
			closeTo(t, "winding", q.Winding, p.Winding, 1e-15)
			closeTo(t, "tension", q.Tension, p.Tension, 1e-15)
		}
		closeTo(t, "mean", b.MeanTorque(), a.MeanTorque(), 1e-15)
	}
}

// Each of three bearings by itself: the barrel takes the same share all along, and
// every one of them lowers what is given and adds to what winding takes.
func TestPivotByPivot(t *testing.T) {
	bare := clockDrive(t)
	barrel, fusee := bare, bare
	barrel.Pivots = Pivots{Friction: 0.15, Barrel: 4.5 * mm}
	fusee.Pivots = clockPivots
	fusee.Pivots.Barrel = 0
	a, b, c := mustWind(t, bare), mustWind(t, barrel), mustWind(t, fusee)
	for x := 0.0; x <= 16; x++ {
		p, q, r := a.At(x), b.At(x), c.At(x)
		closeTo(t, "barrel running down", q.Torque/p.Torque, b.rb/(b.rb+0.15*4.5*mm), 1e-14)
		closeTo(t, "barrel winding", q.Winding/p.Winding, b.rb/(b.rb-0.15*4.5*mm), 1e-14)
		closeTo(t, "tension", r.Tension, p.Tension, 1e-14)
		tension := p.Couple / bare.Efficiency / a.rb // while winding; nothing pushes the great wheel
		closeTo(t, "fusee winding", r.Winding, tension*p.Radius/bare.Line.Efficiency+0.15*2*mm*tension, 1e-14)
		if !(r.Torque < p.Torque) {
			t.Errorf("at %g the fusee's pivots give %g, none %g", x, r.Torque, p.Torque)
		}
	}
	closeTo(t, "harder to wind", a.Harder(), 1/(0.9*0.9), 1e-14)
	arm := 0.15 * 4.5 * mm
	closeTo(t, "harder on a pivot", b.Harder(), (b.rb+arm)/(b.rb-arm)/(0.9*0.9), 1e-14)
}

// What is lost follows the tension, not the torque: along a cone cut even for a bare
// line the fusee's own part is nearly twice, the whole about 1.3 times as much fully
// wound as run down, so that the torque is 1 to 3 % uneven.
func TestLossFollowsTheTension(t *testing.T) {
	d := clockDrive(t)
	d.Cone.Shape, d.Cone.End = EvenByLarge, 16*mm
	even := mustWind(t, d)
	d.Cone = even.CutCone()
	d.Line.Efficiency, d.Pivots = 0.99, clockPivots
	w := mustWind(t, d)
	lost := func(x float64, p Pivots) float64 {
		d.Pivots = p
		with := mustWind(t, d)
		d.Pivots = Pivots{}
		without := mustWind(t, d)
		return without.At(x).Torque - with.At(x).Torque
	}
	fusee := clockPivots
	fusee.Barrel = 0
	own := lost(0, fusee) / lost(16, fusee)
	lineAndPivots := func(x float64) float64 {
		s := w.At(x)
		return d.Efficiency*s.Couple*s.Radius/w.rb - s.Torque
	}
	whole := lineAndPivots(0) / lineAndPivots(16)
	uneven := w.At(16).Torque/w.At(0).Torque - 1
	t.Logf("own %.2f, whole %.2f, uneven %.4f, passes %.3f to %.3f", own, whole, uneven, 1-lineAndPivots(0)/w.At(0).Torque, 1-lineAndPivots(16)/w.At(16).Torque)
	if own < 1.6 || own > 2 || whole < 1.2 || whole > 1.4 || uneven < 0.01 || uneven > 0.03 {
		t.Errorf("fully wound over run down: the fusee's own part %.3g, the whole %.3g; uneven by %.3g", own, whole, uneven)
	}
}

// An even profile for pivots is even with them, and its line is shared.
func TestEvenWithPivots(t *testing.T) {
	seen := 0
	for i, w := range family(t, 150) {
		if w.drive.Cone.Shape == Cut || w.fusee.a == 0 {
			continue
		}
		seen++
		want := w.loss * w.even
		for x := w.Start(); x <= w.Turns(); x += 0.37 {
			s := w.At(x)
			closeTo(t, "torque", s.Torque, want, 1e-9)
			rest := numeric.Adaptive(x, w.Turns(), 1e-12, func(x float64) float64 { return w.At(x).Radius })
			closeTo(t, "turns", s.SpringTurns, w.drive.Barrel.SetUp+rest/w.rb, 1e-7)
			if t.Failed() {
				t.Fatal("drive", i)
			}
			if seen > 5 && x > w.Start()+1 {
				break
			}
		}
		end := w.Turns()
		if w.drive.Cone.Shape == EvenBySmall {
			end = w.Start()
		}
		closeTo(t, "radius at the end given", w.At(end).Radius-w.half, w.drive.Cone.End, 1e-7)
		closeTo(t, "mean", w.MeanTorque(), want, 1e-15)
	}
	if seen < 12 {
		t.Fatalf("only %d even drives tried", seen)
	}
}

// The slope of an even radius with pivots, against differences of it.
func TestEvenSlopeWithPivots(t *testing.T) {
	d := clockDrive(t)
	d.Pivots, d.Cone.Shape, d.Cone.End = clockPivots, EvenByLarge, 15*mm
	w := mustWind(t, d)
	for x := 1.03; x < 15; x += 1.71 {
		const h = 1e-4
		a, _ := w.radius(x - h)
		b, _ := w.radius(x + h)
		_, slope := w.radius(x)
		closeTo(t, "slope", slope, (b-a)/(2*h), 1e-4)
	}
}
