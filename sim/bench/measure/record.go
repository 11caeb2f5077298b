// Package measure works out what a bench record says: what trains need, from weights, and what
// springs give, from torques, each with its uncertainty.
//
// A weight of mass m on a pulley of radius R pulls the winding square with m g (R + c/2), c the
// thickness of the cord and g gravity; the friction of the square's own pivots is in it. What
// is told from trials and readings is by JCGM 100:2008 (GUM): standard uncertainties, of
// rectangular distributions where only bounds are known, and 95 % intervals by Student's t for
// repeats; up-and-down trials after W. J. Dixon and A. M. Mood (J. Am. Stat. Assoc. 43, 1948),
// outliers after F. E. Grubbs (Technometrics 11, 1969). Run-downs differ as wholes: they are
// what is counted, not their turns; see Mean. The least torque of a train differs with the
// phase of its teeth, which only trials over a turn of the centre wheel even out.
//
// Everything is SI: torques in N·m at the winding square, turns of the fusee paid out. What is
// not known is NaN.
package measure

import "evenpull/sim/bench/book"

// Record is what a bench file says.
type Record struct {
	Needs    []Need   // one for each table of weights
	Supplies []Supply // one for each table of torques; sets that the same meter read share their Runs
}

// Of works a bench file out that book.Read has accepted, with the acceleration
// of gravity (m/s², above 0) where the weights hung.
func Of(b *book.Book, gravity float64) Record {
	var r Record
	known := newTables()
	for i := range b.Weights {
		r.Needs = append(r.Needs, NeedOf(&b.Weights[i], gravity))
	}
	for i := range b.Torques {
		r.Supplies = append(r.Supplies, supplyOf(&b.Torques[i], known))
	}
	gather(r.Supplies, known)
	return r
}
