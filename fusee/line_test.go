package fusee

import (
	"math"
	"testing"

	"evenpull/fusee/numeric"
)

func TestLineOnFusee(t *testing.T) {
	for i, w := range family(t, 60) {
		// θ = start + u² removes the singularity of a slope that grows as 1/√ there.
		want := numeric.Adaptive(0, math.Sqrt(w.Turns()-w.Start()), 1e-11, func(u float64) float64 { return 2 * u * w.grooveSpeed(w.Start()+u*u) }, roots(w.Start(), wholeTurns(w.Turns()))...)
		tol := 3e-7
		if w.drive.Cone.Shape != Cut {
			tol = 1e-5
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

func roots(start float64, turns []float64) []float64 {
	var us []float64
	for _, x := range turns {
		if x > start {
			us = append(us, math.Sqrt(x-start))
		}
	}
	return us
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
			closeTo(t, "tension", s.Tension, w.pull*s.Couple*math.Sqrt(1+s.Fleet*s.Fleet), 1e-12)
		}
	}
}

// A line that meets a smooth barrel at β advances by 2πRb tan β a turn. Wound
// close, turn against turn, it would have to arrive at an angle that spreads
// it: the two contradict each other.
func TestCloseLayContradictsItself(t *testing.T) {
	d := clockDrive(t)
	d.Barrel.Lay = d.Line.Thickness
	w := mustWind(t, d)
	worst := 0.0
	for x := 0.0; x <= 16; x++ {
		worst = math.Max(worst, math.Abs(w.At(x).Fleet))
	}
	if spread := 2 * math.Pi * w.rb * worst; spread < 10*d.Line.Thickness {
		t.Errorf("close lay at %.3g° would advance %.3g m a turn: no contradiction", math.Atan(worst)*180/math.Pi, spread)
	}
}

// The line's own law, dz/dθ = 2πρ tan β with tan β the offset over the span,
// stepped finely from any hook: it ends up along the groove, as the closed form
// has it, and lies over as much of the barrel as the groove over the fusee.
func TestLineSettlesAlongTheGroove(t *testing.T) {
	w := mustWind(t, clockDrive(t))
	for _, hook := range []float64{-10 * mm, 0, 10 * mm} {
		z, step := hook, 1.0/2000
		for x := 0.0; x < 16; x += step {
			rho := w.At(x).Radius
			off := w.drive.Cone.Pitch*x - z
			if x > 6 { // barrel turns enough to settle
				// The span and the radius change slowly, so the lag is small.
				if tan := off / w.inPlane(rho); math.Abs(tan/w.At(x).Fleet-1) > 0.12 {
					t.Fatalf("hook %g, turn %.2f: tan β %.5f, along the groove %.5f", hook, x, tan, w.At(x).Fleet)
				}
			}
			z += step * 2 * math.Pi * rho * off / w.inPlane(rho)
		}
	}
	closeTo(t, "spread", w.LineSpread(), 16*2.4*mm, 1e-12)
	closeTo(t, "lay", w.Lay(), 16*2.4*mm/w.SpringTurns(), 1e-12)
	closeTo(t, "room needed", w.LineRoom(), w.SpringTurns()*1.8*mm, 1e-12)
}

// The hook of a grooved barrel is placed so that the offset is as great to
// either side.
func TestHookIsCentred(t *testing.T) {
	d := clockDrive(t)
	d.Barrel.Lay = 4 * mm
	w := mustWind(t, d)
	lo, hi := math.Inf(1), math.Inf(-1)
	for x := 0.0; x <= 16; x++ {
		p, q := w.Span(x)
		lo, hi = math.Min(lo, p.Z-q.Z), math.Max(hi, p.Z-q.Z)
	}
	if math.Abs(lo+hi) > 1e-12 || hi <= 0 {
		t.Errorf("offsets from %g to %g m", lo, hi)
	}
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
