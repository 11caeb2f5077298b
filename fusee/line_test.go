package fusee

import (
	"math"
	"testing"

	"evenpull/fusee/internal/adaptive"

	"github.com/golang/geo/s1"
)

func TestLineOnFusee(t *testing.T) {
	for i, w := range family(t, 25) {
		want := adaptive.Integrate(w.grooveSpeed, w.Start(), w.Turns(), 1e-10, wholeTurns(w.Turns())...)
		tol := 3e-7
		if w.drive.Cone.Shape != Cut {
			tol = 3e-5
		}
		if got := w.OnFusee(); math.Abs(got/want-1) > tol {
			t.Errorf("drive %d: %.10g m, by quadrature %.10g m", i, got, want)
		}
	}
	// A drum with a groove is a helix: n √((2πρ)² + p²).
	d := clockDrive(t)
	d.Cone.Profile, _ = Straight(12*mm, 12*mm, 16)
	w := mustWind(t, d)
	closeTo(t, "helix", w.OnFusee(), 16*math.Hypot(2*math.Pi*12.9*mm, 2.4*mm), 1e-12)
}

// The free line touches both circles, and the fast tangent of the fleet angle
// is that of the line in space.
func TestSpanIsTangent(t *testing.T) {
	for i, w := range family(t, 40) {
		for _, x := range []float64{w.Start(), (w.Start() + w.Turns()) / 2, w.Turns()} {
			s := w.At(x)
			p, q := w.Span(x)
			along := q.Sub(p)
			along.Z = 0
			rp, rq := p, q
			rp.Z, rq.Z = 0, 0
			rq.X -= w.drive.Cone.Centre
			if math.Abs(along.Dot(rp)) > 1e-12 || math.Abs(along.Dot(rq)) > 1e-12 {
				t.Errorf("drive %d: the line is no tangent: %g, %g", i, along.Dot(rp), along.Dot(rq))
			}
			closeTo(t, "radius on the fusee", rp.Norm(), s.Radius, 1e-12)
			closeTo(t, "radius on the barrel", rq.Norm(), w.rb, 1e-12)
			if got := math.Tan(w.FleetAngle(x).Radians()); math.Abs(got-s.Fleet) > 1e-9 {
				t.Errorf("drive %d: fleet %g in space, %g by formula", i, got, s.Fleet)
			}
			closeTo(t, "free span", w.FreeSpan(x), along.Norm()*math.Sqrt(1+s.Fleet*s.Fleet), 1e-9)
			closeTo(t, "tension", s.Tension, w.drive.Efficiency*s.Couple/w.rb*math.Sqrt(1+s.Fleet*s.Fleet), 1e-12)
		}
	}
}

// A line that meets a smooth barrel at β advances by 2πRb tan β a turn. Wound
// close, turn against turn, it would have to arrive at an angle that spreads
// it: the two contradict each other, so by default the line follows the fusee.
func TestCloseLayContradictsItself(t *testing.T) {
	d := clockDrive(t)
	d.Barrel.Lay = d.Line.Thickness
	worst := 0.0
	w := mustWind(t, d)
	for x := 0.0; x <= 16; x++ {
		worst = math.Max(worst, math.Abs(w.At(x).Fleet))
	}
	if spread := 2 * math.Pi * w.rb * worst; spread < 10*d.Line.Thickness {
		t.Errorf("close lay at %.3g° would advance %.3g m a turn: no contradiction", math.Atan(worst)*180/math.Pi, spread)
	}
	d.Barrel.Lay = 0
	w = mustWind(t, d)
	worst = 0
	for x := 0.0; x <= 16; x++ {
		worst = math.Max(worst, math.Abs(w.At(x).Fleet))
	}
	if limit := math.Tan((4 * s1.Degree).Radians()); worst > limit {
		t.Errorf("a line that follows its fusee leaves at %.3g°", math.Atan(worst)*180/math.Pi)
	}
	closeTo(t, "lay", w.Lay(), 16*2.4*mm/w.SpringTurns(), 1e-12)
}

// The hook is placed so that the fleet angle's offset is as great to either side.
func TestHookIsCentred(t *testing.T) {
	w := mustWind(t, clockDrive(t))
	lo, hi := math.Inf(1), math.Inf(-1)
	for x := 0.0; x <= 16; x++ {
		p, q := w.Span(x)
		lo, hi = math.Min(lo, p.Z-q.Z), math.Max(hi, p.Z-q.Z)
	}
	if math.Abs(lo+hi) > 1e-12 || hi <= 0 {
		t.Errorf("offsets from %g to %g m", lo, hi)
	}
}

func TestLayHasRoom(t *testing.T) {
	d := clockDrive(t)
	d.Barrel.Length = 20 * mm
	w := mustWind(t, d)
	closeTo(t, "lay in a short barrel", w.Lay(), (20-1.8)*mm/w.SpringTurns(), 1e-12)
	d.Barrel.Length = 5 * mm
	w = mustWind(t, d)
	closeTo(t, "lay in no barrel", w.Lay(), 1.8*mm, 1e-12)
	closeTo(t, "room needed", w.LineRoom(), w.SpringTurns()*1.8*mm, 1e-12)
	d.Cone.Centre = 0
	w = mustWind(t, d)
	if p, q := w.Span(3); p != q || !math.IsNaN(w.At(3).Fleet) {
		t.Error("a fleet angle without a centre distance")
	}
}

var sink float64

func BenchmarkWind(b *testing.B) {
	d := clockDrive(b)
	b.ReportAllocs()
	for b.Loop() {
		w, _ := d.Wind()
		sink = w.full
	}
}

func BenchmarkAt(b *testing.B) {
	w := mustWind(b, clockDrive(b))
	b.ReportAllocs()
	for b.Loop() {
		sink = w.At(7.3).Torque
	}
}
