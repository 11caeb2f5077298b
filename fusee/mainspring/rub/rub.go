package rub

import (
	"math"

	"evenpull/fusee/mainspring"
)

// Coils is what a strip gives running down, by the solution coil by coil with friction, over
// the couple of the closed form at the same turns.
type Coils struct {
	Down    float64 // share of the closed form that it gives running down, the mean of the working range
	Winding float64 // share of the closed form that winds it, above 1, likewise
	Outside bool    // the table is not sure of such a strip: where none was solved that at its edge stands for it

	scale    float64 // of all shares; 1 but for more friction than the table has
	turns    float64 // available
	closed   float64 // turns at which the strip leaves the wall by the closed form
	leaves   float64 // the same with friction
	perLeave float64 // 1/leaves
	angle    float64 // rad, from arbor to hook at rest
	smooth   [places + 2]float64
	swing    [swings + 1]wave
}

// wave is the amplitudes of what swings with the angle between arbor and hook, by its
// multiples: with the cosine and with the sine.
type wave [harmonics][2]float64

// Of reads the table for a spring, the friction between its coils, 0 to 1, and how its outer
// end is held.
func Of(c *mainspring.Curve, friction float64, end mainspring.End) *Coils {
	k, t := begin(c), tableOf(end)
	g := groupsOf(c, friction)
	k.Outside = g.clamp() || k.turns > mostTurns || friction > sureFriction
	rubs := g[frictionGroup]
	g[frictionGroup] = -1
	k.readSmooth(t, g.terms())
	free := k.mean()
	g[frictionGroup] = rubs
	k.read(t, g.terms())
	k.Down = k.mean()
	if beyond := friction/mostFriction - 1; beyond > 0 { // as of a rope about a post
		k.scale = math.Pow(k.Down/free, beyond)
		k.Down *= k.scale
	}
	k.Winding = free * free / k.Down
	return k
}

func begin(c *mainspring.Curve) *Coils {
	return &Coils{turns: c.Turns(), closed: c.LeavesWall(), angle: c.Angle(0), scale: 1}
}

// read works out what hangs on the spring alone.
func (k *Coils) read(t *table, products [more]float64) {
	k.readSmooth(t, products)
	for i := range k.swing {
		for h := range harmonics {
			for j := range 2 {
				k.swing[i][h][j] = dot(t.swing[i][h][j][:], products[:terms])
			}
		}
	}
}

func (k *Coils) readSmooth(t *table, products [more]float64) {
	for i := range k.smooth {
		k.smooth[i] = dot(t.smooth[i][:], products[:])
	}
	k.leave(dot(t.later[:], products[:]))
}

func (k *Coils) leave(later float64) {
	k.leaves = max(k.closed+later, 0.4*k.closed)
	k.perLeave = 1 / k.leaves
}

func dot(a, b []float64) (sum float64) {
	for i, v := range a[:len(b)] {
		sum += v * b[i]
	}
	return sum
}

// least and most are the shares of the available turns between which the table was made.
// Outside them it is read at these.
const least, most = 0.1, 0.95

// Share is the couple running down over that of the closed form, at turns from rest. It
// swings with every turn of a hooked strip.
func (k *Coils) Share(turns float64) float64 {
	turns = k.within(turns)
	at := k.place(turns)
	share := k.smoothAt(&at)
	sin, cos := math.Sincos(k.angle + 2*math.Pi*turns)
	c, s := 1.0, 0.0
	for h := range harmonics {
		c, s = c*cos-s*sin, s*cos+c*sin
		a, b := at.home*k.swing[swings][h][0], at.home*k.swing[swings][h][1]
		for i, by := range &at.weight {
			if i += at.first - still; i >= 0 {
				a, b = a+by*k.swing[i][h][0], b+by*k.swing[i][h][1]
			}
		}
		share += a*c + b*s
	}
	return share * k.scale
}

// Smooth is Share without its swing, with its slope to the turns.
func (k *Coils) Smooth(turns float64) (share, slope float64) {
	at := k.place(k.within(turns))
	share = k.smoothAt(&at)
	if k.within(turns) == turns {
		for i, by := range &at.slope {
			slope += by * k.smooth[at.first+i]
		}
		slope += at.home/nearHome*k.smooth[places] - at.rest/nearRest*k.smooth[places+1]
	}
	return share * k.scale, slope * k.scale
}

func (k *Coils) smoothAt(at *placed) float64 {
	w, list := &at.weight, k.smooth[at.first:places]
	return w[0]*list[0] + w[1]*list[1] + w[2]*list[2] + w[3]*list[3] + at.home*k.smooth[places] + at.rest*k.smooth[places+1]
}

func (k *Coils) within(turns float64) float64 {
	return min(max(turns, least*k.turns), most*k.turns)
}

// mean is that of Smooth over the range of the table.
func (k *Coils) mean() (sum float64) {
	const parts = 12
	for i := range parts {
		share, _ := k.Smooth((least + (most-least)*(float64(i)+0.5)/parts) * k.turns)
		sum += share / parts
	}
	return sum
}

// placed are the cubic B-splines that are not 0 at some turns, the number of the first, their
// slopes to the turns, and what grows towards home and towards rest.
type placed struct {
	first         int
	weight, slope [4]float64
	home, rest    float64
}

// place maps turns on knots 1 apart: up to where the strip leaves the wall they go with that,
// beyond it they widen.
func (k *Coils) place(turns float64) (p placed) {
	x, slope := before*turns*k.perLeave, before*k.perLeave
	if past := turns - k.leaves; past > 0 {
		x, slope = before+after*math.Log1p(past/widen), after/(widen+past)
	}
	if x > places-3 {
		x, slope = places-3, 0
	}
	p.first = min(int(x), places-4)
	f := x - float64(p.first)
	g := 1 - f
	p.weight = [4]float64{g * g * g / 6, (3*f*f*f - 6*f*f + 4) / 6, (3*g*g*g - 6*g*g + 4) / 6, f * f * f / 6}
	p.slope = [4]float64{-g * g / 2 * slope, (1.5*f*f - 2*f) * slope, (2*g - 1.5*g*g) * slope, f * f / 2 * slope}
	p.home, p.rest = math.Exp((turns-k.turns)/nearHome), math.Exp(-turns/nearRest)
	return p
}
