package rub

import "evenpull/fusee/mainspring"

// The table: how many cubic splines its shares are made of along the run, the first of them
// that swings, how many multiples of the angle those swing with; knots up to where the strip
// leaves the wall and, beyond it, to each e-fold of widen more turns; and the turns towards
// home, and from rest, in which the last of them grow.
const (
	places    = 17
	still     = 3
	swings    = places - still
	harmonics = 3

	before, after   = 4, 4
	widen, nearHome = 0.7, 0.4 // turns
	nearRest        = 0.35
)

// table is the coefficients of the products of groups, by spline and at last of what grows
// towards home and towards rest: of what does not swing, and of cosine and sine of each
// multiple of the angle; and of the turns by which the strip leaves the wall later than by the
// closed form.
type table struct {
	smooth [places + 2][more]float64
	swing  [swings + 1][harmonics][2][terms]float64
	later  [more]float64
}

func tableOf(end mainspring.End) *table {
	if end == mainspring.Braced {
		return &braced
	}
	return &hooked
}
