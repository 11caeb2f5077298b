package rub

import (
	"math"
	"testing"

	"evenpull/fusee/mainspring"

	"gonum.org/v1/gonum/mat"
)

// The table is the most likely one of what was solved where shares are 0.93 and coefficients
// normal about 0 with these standard deviations by their degree in the groups, and what the
// table does not have is normal with that of noise. What it tells of where the strip leaves the
// wall moves all else: it is found by Gauss and Newton's steps.
var (
	likely = [4]float64{0.05, 0.02, 0.008, 0.004}
	swung  = [3]float64{0.03, 0.012, 0.006}
	late   = [4]float64{0.3, 0.2, 0.1, 0.05} // turns
)

const (
	noise, base = 0.003, 0.93
	rounds      = 10
)

// column is the number of a coefficient, and what it is times.
type column struct {
	at int
	by float64
}

// The numbers of coefficients: of what does not swing, of what does, of leaving the wall.
const (
	flats     = places + 2
	waves     = (swings + 1) * harmonics * 2
	swingFrom = flats * more
	laterFrom = swingFrom + waves*terms
	size      = laterFrom + more
)

// columns are those of a solution, each over its standard deviation.
func columns(k *Coils, products *[more]float64, turns float64) (list []column) {
	at := k.place(turns)
	put := func(from, terms int, by float64) {
		for j := range terms {
			list = append(list, column{from + j, by * products[j] * deviation(from+j)})
		}
	}
	splines := func(put func(place int, by float64)) {
		for i, by := range at.weight {
			put(at.first+i, by)
		}
		put(places, at.home)
	}
	splines(func(place int, by float64) { put(place*more, more, by) })
	put((places+1)*more, more, at.rest)
	sin, cos := math.Sincos(k.angle + 2*math.Pi*turns)
	c, s := 1.0, 0.0
	for h := range harmonics {
		c, s = c*cos-s*sin, s*cos+c*sin
		for j, v := range []float64{c, s} {
			splines(func(place int, by float64) {
				if place -= still; place >= 0 {
					put(swingFrom+((place*harmonics+h)*2+j)*terms, terms, by*v)
				}
			})
		}
	}
	put(laterFrom, more, k.slope(turns))
	return list
}

// slope is that of a share to the turns at which the strip leaves the wall.
func (k *Coils) slope(turns float64) float64 {
	const by = 0.02
	up, down := *k, *k
	up.leave(k.leaves - k.closed + by)
	down.leave(k.leaves - k.closed - by)
	return (up.Share(turns) - down.Share(turns)) / (2 * by)
}

// degree is that of a term in the groups.
func degree(term int) int {
	switch {
	case term == 0:
		return 0
	case term <= groupCount:
		return 1
	case term < terms:
		return 2
	}
	return 3
}

// taught tells which springs the table is made of: of every eight one is not.
func taught(r row) bool { return r.spring%8 != 3 }

// lesson does what is to be done with each solution of an end that a table is made of, and how
// much it is above what the table has.
func lesson(t testing.TB, now *table, end mainspring.End, do func(columns []column, above float64)) {
	for _, rows := range bySpring(solutions(t)) {
		if rows[0].end != end || !taught(rows[0]) {
			continue
		}
		c, friction, _, err := drawn(rows[0].spring)
		if err != nil {
			t.Fatal(err)
		}
		k, g := begin(&c), groupsOf(&c, friction)
		products := g.terms()
		k.read(now, products)
		for _, r := range rows {
			if r.turns >= least*k.turns && r.turns <= most*k.turns {
				do(columns(k, &products, r.turns), r.share-k.Share(r.turns))
			}
		}
	}
}

// learned is the table of an end.
func learned(t testing.TB, end mainspring.End) *table {
	now, x := new(table), mat.NewVecDense(size, nil)
	for range rounds {
		fill(now, x.RawVector().Data)
		step(t, now, end, x)
	}
	fill(now, x.RawVector().Data)
	return now
}

// step goes on from x, the coefficients of a table over their standard deviations.
func step(t testing.TB, now *table, end mainspring.End, x *mat.VecDense) {
	m, right := mat.NewSymDense(size, nil), mat.NewVecDense(size, nil)
	raw := m.RawSymmetric()
	lesson(t, now, end, func(columns []column, above float64) {
		for i, a := range columns {
			right.SetVec(a.at, right.AtVec(a.at)+a.by*above)
			for _, b := range columns[i:] {
				raw.Data[min(a.at, b.at)*raw.Stride+max(a.at, b.at)] += a.by * b.by
			}
		}
	})
	for i := range size {
		m.SetSym(i, i, m.At(i, i)+noise*noise)
	}
	right.AddScaledVec(right, -noise*noise, x)
	var f mat.Cholesky
	if !f.Factorize(m) {
		t.Fatal("no table")
	}
	var by mat.VecDense
	if err := f.SolveVecTo(&by, right); err != nil {
		t.Fatal(err)
	}
	x.AddVec(x, &by)
}
