// Package measure works out what a bench record says: what trains need, from
// weights, and what springs give, from torques, each with its uncertainty.
//
// Everything is SI. What is not known is NaN.
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
