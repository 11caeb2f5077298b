package escapement

import "math"

// Recorder watches beats: for a phase portrait, the approach of the amplitude,
// or a reckoning of energy. It is called in the order of time.
type Recorder interface {
	Leg(Leg)   // gets each part of a swing under one couple
	Beat(Beat) // gets each swing, behind its legs
}

// scale is what turns a leg's own units into SI.
type scale struct {
	pulse, stiffness, zeta float64
}

// Leg is the motion under one constant couple between two events. The last of
// a swing that fails to escape is not recorded.
type Leg struct {
	Angle    float64 // rad at the start, to the right of the dead point
	Velocity float64 // rad/s at the start
	Couple   float64 // N·m on the pendulum, to the right
	Seconds  float64 // s that it lasts
	Drop     bool    // a tooth drops at its end

	scale scale
}

// At is the angle (rad) and velocity (rad/s) a time (s) after the start, from
// the closed solution. Between 0 and Seconds it is the pendulum's motion.
func (l *Leg) At(seconds float64) (angle, velocity float64) {
	p := swinger{l.scale.zeta, math.Sqrt((1 - l.scale.zeta) * (1 + l.scale.zeta))}
	m := p.over(seconds * l.scale.pulse)
	rest := l.Couple / l.scale.stiffness
	y, v := p.apply(&m, l.Angle-rest, l.Velocity/l.scale.pulse)
	return y + rest, v * l.scale.pulse
}

// Loss is the work (J) that the viscous drag takes over the leg, c∫ẋ² dt in
// closed form: it uses the speed alone, not the energies at the ends.
func (l *Leg) Loss() float64 {
	z := l.scale.zeta
	w := math.Sqrt((1 - z) * (1 + z))
	t, v := l.Seconds*l.scale.pulse, l.Velocity/l.scale.pulse
	q := (l.Angle - l.Couple/l.scale.stiffness + z*v) / w
	// ẋ = e^(−ζt) (v cos wt − q sin wt), squared and integrated; the double
	// angle's integral has the denominator (2ζ)² + (2w)² = 4.
	sin, cos := math.Sincos(2 * w * t)
	e := math.Exp(-2 * z * t)
	even := (e*(w*sin-z*cos) + z) / 2
	odd := (w - e*(z*sin+w*cos)) / 2
	mean := -math.Expm1(-2*z*t) * (v*v + q*q) / 2
	return l.scale.stiffness * (mean + 2*z*((v*v-q*q)/2*even-v*q*odd))
}

// Energy is the pendulum's own (J) at a time (s) after the start.
func (l *Leg) Energy(seconds float64) float64 {
	x, v := l.At(seconds)
	v /= l.scale.pulse
	return l.scale.stiffness * (x*x + v*v) / 2
}

// leg is the record of a leg of the swing under way, in units of a swing to the
// right.
func (b *Beats) leg(i int, x, v, t float64) Leg {
	side := 1.0
	if !b.left { // it set out on the right
		side = -1
	}
	return Leg{Angle: side * x, Velocity: side * v * b.scale.pulse,
		Couple: side * b.legs[i].rest * b.scale.stiffness, Seconds: t * b.unit,
		Drop: i == b.n-2, scale: b.scale}
}
