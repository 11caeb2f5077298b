package fusee

import (
	"math"
	"testing"

	"evenpull/fusee/mainspring"
)

// rubbing is clockDrive with its coil friction told by the coefficient.
func rubbing(t testing.TB, end mainspring.End) Drive {
	d := clockDrive(t)
	d.Efficiency, d.Friction, d.End = 0, 0.1, end
	return d
}

// What passes the coils is found at each turn: torque and tension go with it, winding does not.
func TestTorquePassesTheCoils(t *testing.T) {
	d := rubbing(t, mainspring.Hooked)
	given := d
	given.Efficiency = 1
	if got := given.Evenly(nil)(3); got != 1 {
		t.Errorf("evenly %v of an efficiency of 1", got)
	}
	for _, pivots := range []Pivots{{}, clockPivots} {
		d.Pivots, given.Pivots = pivots, pivots
		w, all := mustWind(t, d), mustWind(t, given)
		passes := d.Passes(&w.curve)
		for theta := 0.0; theta <= 16; theta += 0.25 {
			s, a := w.At(theta), all.At(theta)
			share := passes(s.SpringTurns)
			for what, v := range map[string][2]float64{"torque": {s.Torque, share * a.Torque}, "tension": {s.Tension, share * a.Tension}} {
				if math.Abs(v[0]/v[1]-1) > 1e-12 {
					t.Errorf("θ = %v: %s %.15g, want %.15g", theta, what, v[0], v[1])
				}
			}
			if by := s.Winding / a.Winding; math.Abs(by-w.rub.Winding) > 1e-12 || !(by > 1) {
				t.Errorf("θ = %v: winding takes %.6g times what it would without friction, want %.6g", theta, by, w.rub.Winding)
			}
		}
		if harder := w.Harder() * w.rub.Down; math.Abs(harder/(all.Harder()*w.rub.Winding)-1) > 1e-12 {
			t.Errorf("harder by %v", w.Harder())
		}
	}
}

// The mean of the torque is that of the torques.
func TestMeanTorquePastTheCoils(t *testing.T) {
	for _, end := range []mainspring.End{mainspring.Hooked, mainspring.Braced} {
		for _, shape := range []Shape{Cut, EvenByLarge, EvenBySmall} {
			for _, pivots := range []Pivots{{}, clockPivots} {
				d := rubbing(t, end)
				d.Pivots, d.Cone.Shape = pivots, shape
				d.Cone.End = map[Shape]float64{EvenByLarge: 16 * mm, EvenBySmall: 8 * mm}[shape]
				w := mustWind(t, d)
				const steps = 4000
				sum, n := 0.0, w.Turns()-w.Start()
				for i := range steps {
					sum += w.At(w.Start()+n*(float64(i)+0.5)/steps).Torque / steps
				}
				if got := w.MeanTorque(); math.Abs(got/sum-1) > 3e-4 {
					t.Errorf("end %d, shape %d, pivots %v: mean torque %.8g, by steps %.8g", end, shape, pivots.Fusee, got, sum)
				}
			}
		}
	}
}

// A cone cut even gives an even torque but for the swing of the coils: past what they let
// through without it.
func TestEvenPastTheCoils(t *testing.T) {
	for _, pivots := range []Pivots{{}, clockPivots} {
		d := rubbing(t, mainspring.Hooked)
		d.Pivots, d.Cone.Shape, d.Cone.End = pivots, EvenByLarge, 16*mm
		w := mustWind(t, d)
		cut := d
		cut.Cone = w.CutCone()
		c := mustWind(t, cut)
		level := func(w *Wound, theta float64) float64 {
			s := w.At(theta)
			smooth, _ := w.rub.Smooth(s.SpringTurns)
			return s.Torque * smooth / w.rub.Share(s.SpringTurns)
		}
		want, swings := level(&w, 8), 0.0
		for theta := w.Start(); theta <= w.Turns(); theta += 0.125 {
			if got := level(&w, theta); math.Abs(got/want-1) > 1e-9 {
				t.Errorf("θ = %v: %.12g, want %.12g", theta, got, want)
			}
			if got := level(&c, theta); theta > w.Start()+0.2 && math.Abs(got/want-1) > 1e-4 {
				t.Errorf("θ = %v: the cone cut gives %.9g, want %.9g", theta, got, want)
			}
			swings = max(swings, math.Abs(w.At(theta).Torque/want-1))
		}
		if !(swings > 0.005 && swings < 0.1) {
			t.Errorf("swings by %v", swings)
		}
	}
}
