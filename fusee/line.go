package fusee

import (
	"math"

	"evenpull/fusee/numeric"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
)

// place works out how the line lies along the barrel.
//
// A line that meets a smooth barrel at an angle β advances along it by
// 2πRb tan β a turn. It spreads until it keeps up with the fusee, and then
// leaves the fusee just along its groove: tan β = p/(2πρ). A third of a barrel
// turn is enough for that, so the way there is left out.
//
// A grooved barrel makes the line advance by its own Lay. The hook is then taken
// to be in the right place along the axis: the fleet angle is as great to one side
// as to the other.
func (w *Wound) place() {
	d := &w.drive
	if d.Barrel.Lay == 0 {
		w.lay = d.Cone.Pitch * (d.Cone.Turns - w.start) / w.SpringTurns()
		return
	}
	w.lay = d.Barrel.Lay
	if d.Cone.Centre == 0 {
		return
	}
	lo, hi := math.MaxFloat64, -math.MaxFloat64
	for theta := w.start; ; theta = min(math.Floor(theta)+1, d.Cone.Turns) {
		off := w.ahead(theta, w.barrelTurns(theta))
		lo, hi = min(lo, off), max(hi, off)
		if theta >= d.Cone.Turns {
			break
		}
	}
	w.mid = (lo + hi) / 2
}

// barrelTurns are the turns the barrel has made since the start of the run.
func (w *Wound) barrelTurns(theta float64) float64 {
	if w.drive.Cone.Shape == Cut {
		return w.full - w.turnsAt(theta)
	}
	phi, _, _ := w.evenAt(theta)
	return w.full - phi
}

// ahead is how far along the axis the line on the fusee has advanced beyond
// that on a grooved barrel.
func (w *Wound) ahead(theta, barrelTurns float64) float64 {
	return w.drive.Cone.Pitch*(theta-w.start) - w.lay*barrelTurns
}

// fleet is the tangent of the fleet angle at θ, with φ and ρ there.
func (w *Wound) fleet(theta, phi, rho float64) float64 {
	c := &w.drive.Cone
	switch {
	case c.Centre == 0:
		return math.NaN()
	case w.drive.Barrel.Lay == 0:
		return c.Pitch / (2 * math.Pi * rho)
	}
	return (w.ahead(theta, w.full-phi) - w.mid) / w.inPlane(rho)
}

// inPlane is the free line's length in the plane of rotation.
func (w *Wound) inPlane(rho float64) float64 {
	c, step := w.drive.Cone.Centre, w.rb-rho
	return math.Sqrt(c*c - step*step)
}

// Span gives the two ends of the free line at θ (m): where it leaves the fusee
// and where it meets the barrel. The fusee's arbor is the z axis with the small
// end at 0, the barrel's is at x = centre distance, and both turn the same
// way, so the line runs along an outer tangent. Without a centre distance both
// are zero.
func (w *Wound) Span(theta float64) (fusee, barrel r3.Vector) {
	c := w.drive.Cone.Centre
	if c == 0 {
		return r3.Vector{}, r3.Vector{}
	}
	s := w.At(theta)
	// The outward normal common to both circles at an outer tangent.
	nx := (s.Radius - w.rb) / c
	ny := math.Sqrt(1 - nx*nx)
	z := w.drive.Cone.Pitch * (theta - w.start)
	fusee = r3.Vector{X: s.Radius * nx, Y: s.Radius * ny, Z: z}
	barrel = r3.Vector{X: c + w.rb*nx, Y: w.rb * ny, Z: z - s.Fleet*w.inPlane(s.Radius)}
	return fusee, barrel
}

// FleetAngle is the angle between the free line and the plane of rotation at
// θ, positive when the fusee's end is nearer the large end.
func (w *Wound) FleetAngle(theta float64) s1.Angle {
	fusee, barrel := w.Span(theta)
	span := fusee.Sub(barrel)
	return s1.Angle(math.Atan2(span.Z, math.Hypot(span.X, span.Y)))
}

// FreeSpan is the length (m) of line between fusee and barrel at θ.
func (w *Wound) FreeSpan(theta float64) float64 {
	fusee, barrel := w.Span(theta)
	return fusee.Sub(barrel).Norm()
}

// Lay is the advance (m) of the line along the barrel for each barrel turn, in
// the mean.
func (w *Wound) Lay() float64 { return w.lay }

// LineRoom is the least length of barrel (m) that the line needs, its turns
// side by side.
func (w *Wound) LineRoom() float64 { return w.SpringTurns() * w.drive.Line.Width }

// LineSpread is the length of barrel (m) over which the line lies.
func (w *Wound) LineSpread() float64 { return w.SpringTurns() * w.lay }

// Gauss–Legendre rules: constant tables.
var (
	twoPoints, threePoints = numeric.NewGauss(2), numeric.NewGauss(3)
	pair                   = numeric.Pair() // of twoPoints
)

// OnFusee is the length of line (m) in the groove at the start of the run:
// ∫√((2πρ)² + ρ'² + p²) dθ, good to 3e-7 for a measured or straight cone and to 1e-5 for an
// even one.
func (w *Wound) OnFusee() float64 {
	if w.drive.Cone.Shape != Cut {
		return w.onEvenFusee()
	}
	sum, n := 0.0, w.Turns()
	for a := w.start; a < n; {
		b := min(math.Floor(a)+1, n)
		for _, at := range &pair {
			sum += (b - a) / 2 * w.grooveSpeed(a+(b-a)*at)
		}
		a = b
	}
	return sum
}

// onEvenFusee integrates over u with θ = start + n u²: the slope of an even
// profile grows as 1/√ where the spring comes home, and it jumps where the
// spring's contacts change, so many small panels.
func (w *Wound) onEvenFusee() float64 {
	const panels = 256
	n := w.Turns() - w.start
	return twoPoints.Panels(0, 1, panels, func(u float64) float64 {
		return 2 * u * n * w.grooveSpeed(w.start+n*u*u)
	})
}

// grooveSpeed is the length of the groove a turn at θ.
func (w *Wound) grooveSpeed(theta float64) float64 {
	r, dr := w.radius(theta)
	p := w.drive.Cone.Pitch
	return math.Sqrt(4*math.Pi*math.Pi*r*r + dr*dr + p*p)
}

// radius is ρ and its slope: along an even profile ρ' = C² Rb M'/M³, and with pivots
// that times a share of it that hangs on M.
func (w *Wound) radius(theta float64) (r, dr float64) {
	if w.drive.Cone.Shape == Cut {
		r, dr, _ = w.drive.Cone.Profile.At(theta)
		return r + w.half, dr
	}
	phi, m, r := w.evenAt(theta)
	rate := w.curve.Rate(phi)
	if w.rub != nil {
		share, slope := w.rub.Smooth(phi)
		m, rate = m*share, rate*share+m*slope
	}
	x := w.even * w.rb / m
	return r, w.fusee.slope(w.drive.Line.Efficiency*x) * x / m * r * w.perRb * rate
}
