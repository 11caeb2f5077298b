package escapement

import "math"

// Pendulum is a pendulum by its equivalent simple one.
type Pendulum struct {
	Length  float64 // m, of the simple pendulum that beats as fast; above 0 to 1000
	Mass    float64 // kg, above 0 to 1e6
	Gravity float64 // m/s², above 0 to 1000
	Quality float64 // Q, a ratio, 1 to 1e9: 2π × energy / loss of a period
}

// Limits of the quality. Below ½ a pendulum does not swing at all.
const (
	leastQuality = 1
	mostQuality  = 1e9
)

// Check tells with a Fault which field is out of its range.
func (p *Pendulum) Check() error {
	return firstFault(
		span{"Length", p.Length, 1e-6, 1000, "metres, from 1e-6 to 1000"},
		span{"Mass", p.Mass, 1e-9, 1e6, "kilograms, from 1e-9 to 1e6"},
		span{"Gravity", p.Gravity, 1e-6, 1000, "m/s², from 1e-6 to 1000"},
		span{"Quality", p.Quality, leastQuality, mostQuality, "a number from 1 to 1e9"},
	)
}

// Pulse is ω0 = √(g/l) in rad/s, at small arcs and without damping.
func (p *Pendulum) Pulse() float64 { return math.Sqrt(p.Gravity / p.Length) }

// Stiffness is K = mgl in N·m/rad.
func (p *Pendulum) Stiffness() float64 { return p.Mass * p.Gravity * p.Length }

// Period is that of small arcs (s), two beats: 2π√(l/g).
func (p *Pendulum) Period() float64 { return 2 * math.Pi / p.Pulse() }

// PeriodAt is the exact period (s) of a free undamped swing of a semi-arc below
// 180°: the small one over agm(1, cos(A/2)), which is C. F. Gauss's form of the
// complete elliptic integral.
func (p *Pendulum) PeriodAt(a SemiArc) float64 {
	return p.Period() / (1 + CircularRate(a))
}

// LengthFor is the length (m) of the simple pendulum that has a period (s) at small arcs,
// two beats, under a gravity (m/s²): gT²/(4π²).
func LengthFor(period, gravity float64) float64 {
	w := 2 * math.Pi / period
	return gravity / (w * w)
}

// QualityFromDecay is the quality Q (a pure number) of a pendulum that swings free and falls from
// one semi-arc to another in a number of whole periods:
//
//	Q = πN/ln(a1/a2)
//
// It fails with a Fault when the arcs do not fall, when the count is not above
// 0, or when the quality would be below 1 or above 1e9.
func QualityFromDecay(from, to SemiArc, periods float64) (float64, error) {
	err := firstFault(
		span{"from", float64(from), tiny, math.Pi, "an angle above 0 to π radians"},
		span{"to", float64(to), tiny, math.Nextafter(float64(from), 0), "an angle above 0 and below the first"},
		span{"periods", periods, tiny, math.MaxFloat64, "a number above 0"},
	)
	if err != nil {
		return 0, err
	}
	q := math.Pi * periods / math.Log(float64(from/to))
	return q, firstFault(span{"quality from the decay", q, leastQuality, mostQuality, "1 to 1e9"})
}

// CircularRate is the share by which a pendulum of semi-arc A is faster than at
// small arcs, below 0 and exact up to 180°:
//
//	agm(1, cos(A/2)) − 1 = −A²/16 + A⁴/3072 − …
//
// Beyond 180° it is −1: the pendulum goes over the top.
func CircularRate(a SemiArc) float64 {
	if b := float64(a) * float64(a); b < seriesTo {
		return -b * (1./16 - b*(1./3072-b*(23./737280+b*(2519./1321205760+
			b*(140333./951268147200+b*(23798857./2009078326886400+b*(2878634509./2925218043946598400)))))))
	}
	h := math.Sin(float64(a) / 4)
	return agmLess(-2 * h * h)
}

// seriesTo is A² up to which seven terms of the series of agm(1, cos(A/2)) − 1 in A²
// tell all figures, at a quarter of the time: 18°, wider than most clocks swing. The
// coefficients are those of π/(2K(sin(A/2))), worked out by us in exact fractions.
const seriesTo = 0.1

// agmLess is agm(1, 1+q) − 1 for q from −1 to 0. It follows the differences
// from 1 rather than the means, so that small arcs lose no figures.
func agmLess(q float64) float64 {
	if !(q > -1) {
		return -1
	}
	p := 0.0
	for {
		sum, product := p+q, p*q
		p = sum / 2
		q = (sum + product) / (1 + math.Sqrt(1+sum+product))
		if d := p - q; d < 1e-4 { // what agm = m − d²/(16m) leaves out is d⁴/200
			m := (p + q) / 2
			return m - d*d/(16*(1+m))
		}
	}
}
