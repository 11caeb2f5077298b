package train

import (
	"math"
	"testing"
)

// The phases join without a gap, and their speed against time solves
// J ω' = T − c ω² (by central differences) and turns the fly through its pitch
// (by Simpson's rule).
func TestPhases(t *testing.T) {
	for _, d := range []StrikeDesign{hourStrike(), quarters()} {
		s := mustStrike(t, d)
		torque := 1.1 * s.LeastFromRest()
		clock, speed, angle, blows := 0.0, 0.0, 0.0, 0
		run := s.Blows(torque, 12, func(p Phase) {
			closeTo(t, "start", p.Start, clock, 1e-12)
			closeTo(t, "from", p.From, speed, 0)
			if p.From > 0 {
				closeTo(t, "at the start", p.At(0), p.From, 1e-13)
			}
			closeTo(t, "at the end", p.At(p.Seconds), p.To, 1e-10)
			h := p.Seconds * 1e-4
			for _, share := range []float64{0.1, 0.5, 0.9} {
				at := share * p.Seconds
				slope, w := (p.At(at+h)-p.At(at-h))/(2*h), p.At(at)
				got, scale := s.Inertia()*slope-p.Couple+s.Drag()*w*w, math.Abs(p.Couple)+s.Drag()*w*w
				if math.Abs(got) > 1e-6*scale {
					t.Errorf("equation of motion missed by %g of its terms", got/scale)
				}
			}
			angle += simpson(p.At, p.Seconds, 2000)
			clock, speed = p.Start+p.Seconds, p.To
			if p.Lifting {
				blows++
			}
			if want := blows + 1; !p.Lifting && p.Blow != want {
				t.Errorf("phase of blow %d, want %d", p.Blow, want)
			}
		})
		closeTo(t, "angle", angle, 12*s.Pitch(), 1e-8)
		closeTo(t, "seconds", run.Seconds(), clock, 1e-12)
		closeTo(t, "unrecorded", s.Twelve(torque).Seconds(), clock, 1e-12)
		closeTo(t, "speed", run.Speed, speed, 0)
		if run.Blows != 12 || blows != 12 || run.Status != Strikes {
			t.Errorf("%+v after %d lifts", run, blows)
		}
	}
}

func simpson(f func(float64) float64, to float64, n int) float64 {
	h, sum := to/float64(n), 0.0
	for i := range n {
		x := float64(i) * h
		sum += h / 6 * (f(x) + 4*f(x+h/2) + f(x+h))
	}
	return sum
}

// The phase that stalls ends at rest.
func TestStalledPhase(t *testing.T) {
	s := mustStrike(t, hourStrike())
	torque := 0.98 * s.LeastTorque()
	var last Phase
	run := s.Blows(torque, 12, func(p Phase) { last = p })
	if !last.Stalled || !last.Lifting || last.To != 0 || last.Blow != 1 || run.Status != Stalls {
		t.Errorf("%+v, %+v", run, last)
	}
	if got := last.At(last.Seconds); math.Abs(got) > 1e-10*last.From {
		t.Errorf("%g rad/s at the end of a stall", got)
	}
	closeTo(t, "seconds", run.Seconds(), last.Start+last.Seconds, 1e-13)
	closeTo(t, "unrecorded", s.Twelve(torque).Seconds(), run.Seconds(), 1e-13)
	if turned := simpson(last.At, last.Seconds, 2000); turned >= 0.35*s.Pitch() {
		t.Errorf("stalls after %g rad of a lift of %g", turned, 0.35*s.Pitch())
	}
}

// The products of many legs neither overflow nor drift: a long run is as long
// as its blows one by one.
func TestLongRuns(t *testing.T) {
	slow := hourStrike()
	slow.AirDensity = 0.02 // many blows to speed up: small z
	thick := hourStrike()
	thick.AirDensity = 30 // z near 1
	for _, d := range []StrikeDesign{hourStrike(), slow, thick} {
		s := mustStrike(t, d)
		torque := 1.05 * s.LeastFromRest()
		sum := 0.0
		run := s.Blows(torque, 5000, func(p Phase) { sum += p.Seconds })
		closeTo(t, "5000 blows", s.Blows(torque, 5000, nil).Seconds(), sum, 1e-11)
		if run.Blows != 5000 {
			t.Errorf("%+v", run)
		}
	}
	s := mustStrike(t, hourStrike())
	if got := s.Blows(0.6, 0, nil); got != (Run{}) {
		t.Errorf("no blows: %+v", got)
	}
	if got := s.Twelve(math.NaN()); got != (Run{Status: Stands}) {
		t.Errorf("no torque: %+v", got)
	}
}

func TestNoAllocation(t *testing.T) {
	s := mustStrike(t, quarters())
	count := 0
	record := func(Phase) { count++ }
	if n := testing.AllocsPerRun(20, func() {
		sink = s.Steady(0.9).Interval + s.Twelve(0.9).Seconds() + s.Blows(0.9, 12, record).Seconds() + s.Power(0.9).Fly + s.LeastTorque()
	}); n != 0 || count == 0 {
		t.Errorf("%g allocations, %d phases", n, count)
	}
}
