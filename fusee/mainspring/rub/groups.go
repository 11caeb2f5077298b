package rub

import "evenpull/fusee/mainspring"

// The pure numbers that the table hangs on.
const (
	radiiGroup    = iota // inside radius over that of the arbor
	pitchGroup           // what a coil takes up over the radius of the arbor
	fillGroup            // share of the free area of the barrel that coils take up
	yieldGroup           // curvature at which the strip flows, times the radius of the arbor
	frictionGroup        // coefficient between the coils
	packingGroup         // what a coil takes up over its thickness
	groupCount
)

// groups are those of a spring, each from −1 to 1 over its range.
type groups [groupCount]float64

// Uncounted are the turns from rest to solid that the closed form has beyond the strip: it
// rests 0.05 turn further wound, and is solid 0.08 turn sooner, 0.1 where it is braced. Good
// to 0.03, of springs of the table.
func Uncounted(end mainspring.End) float64 {
	if end == mainspring.Braced {
		return 0.15
	}
	return 0.13
}

const (
	mostFriction = 0.15
	sureFriction = 0.12 // up to which coils seldom stick and jump, as no table can follow
	mostTurns    = 12.0 // available: of more there were too few
)

// ranges are those that the springs of the table were drawn from.
var ranges = [groupCount][2]float64{{2.6, 3.5}, {0.043, 0.08}, {0.38, 0.56}, {0.18, 0.38}, {0, mostFriction}, {1, 1.1}}

// terms is the number of products of groups: 1, each, and each with each; more with those of
// any three but the packing.
const (
	terms = 1 + groupCount + (groupCount+1)*groupCount/2
	more  = terms + packingGroup*(packingGroup+1)*(packingGroup+2)/6
)

func groupsOf(c *mainspring.Curve, friction float64) (g groups) {
	s, in := c.Strip(), c.Housing()
	g = groups{in.Inside / in.Arbor, c.Pitch() / in.Arbor, c.Fill(), c.YieldCurvature() * in.Arbor, friction, c.Pitch() / s.Thickness}
	for i, r := range ranges {
		g[i] = (2*g[i] - r[0] - r[1]) / (r[1] - r[0])
	}
	return g
}

// clamp takes the groups to the edge of the table and tells whether they were off it.
func (g *groups) clamp() (off bool) {
	for i, v := range g {
		const slack = 0.1 // of half the range, at which the table is still read
		off = off || !(v >= -1-slack && v <= 1+slack)
		g[i] = min(max(v, -1-slack), 1+slack)
	}
	return off
}

func (g *groups) terms() (t [more]float64) {
	t[0] = 1
	copy(t[1:], g[:])
	n := 1 + groupCount
	for i := range groupCount {
		for j := i; j < groupCount; j++ {
			t[n] = g[i] * g[j]
			n++
		}
	}
	for i := range packingGroup {
		for j := i; j < packingGroup; j++ {
			for k := j; k < packingGroup; k++ {
				t[n] = g[i] * g[j] * g[k]
				n++
			}
		}
	}
	return t
}
