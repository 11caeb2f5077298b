package rub

import (
	"math"
	"testing"

	"evenpull/fusee/mainspring"
	"evenpull/fusee/mainspring/coils"

	"gonum.org/v1/gonum/mat"
)

// The table is the most likely one of what was solved where shares are 0.93 and coefficients
// normal about 0 with these standard deviations by their degree in the groups, and what the
// table does not have is normal with that of noise. Half as many nodes to a turn shift a share
// by what is found along with it, and left out of the table.
var (
	likely = [4]float64{0.05, 0.02, 0.008, 0.004}
	swung  = [3]float64{0.03, 0.012, 0.006}
)

const (
	noise, base = 0.004, 0.93
	shift       = 0.006
	fine        = coils.Usual
)

// column is the number of a coefficient, and what it is times.
type column struct {
	at int
	by float64
}

// block is coefficients of one kind: from which number on, how many products of groups each
// spline has, and their standard deviations by degree.
type block struct {
	from, terms int
	deviation   func(degree int) float64
}

// The blocks of a table, and of the shift of what was solved coarsely.
const (
	flats     = places + 2
	waves     = (swings + 1) * harmonics * 2
	swingFrom = flats * more
	size      = swingFrom + waves*terms // of a table
	linear    = 1 + groupCount
	all       = size + (flats+waves)*linear
)

func blocks(coarse bool) (smooth, swing block) {
	if coarse {
		by := func(d int) float64 { return shift / float64(1+d) }
		return block{size, linear, by}, block{size + flats*linear, linear, by}
	}
	return block{0, more, func(d int) float64 { return likely[d] }}, block{swingFrom, terms, func(d int) float64 { return swung[d] }}
}

// columns are those of a solution, each over its standard deviation.
func columns(k *Coils, products *[more]float64, r row) (list []column) {
	at := k.place(r.turns)
	sin, cos := math.Sincos(k.angle + 2*math.Pi*r.turns)
	put := func(b block, n int, by float64) {
		for j := range b.terms {
			list = append(list, column{b.from + n*b.terms + j, by * products[j] * b.deviation(degree(j))})
		}
	}
	for _, coarse := range []bool{false, true} {
		if coarse && r.nodes == fine {
			break
		}
		smooth, swing := blocks(coarse)
		splines := func(put func(place int, by float64)) {
			for i, by := range at.weight {
				put(at.first+i, by)
			}
			put(places, at.home)
		}
		splines(func(place int, by float64) { put(smooth, place, by) })
		put(smooth, places+1, at.rest)
		c, s := 1.0, 0.0
		for h := range harmonics {
			c, s = c*cos-s*sin, s*cos+c*sin
			for j, v := range []float64{c, s} {
				splines(func(place int, by float64) {
					if place -= still; place >= 0 {
						put(swing, (place*harmonics+h)*2+j, by*v/float64(1+h))
					}
				})
			}
		}
	}
	return list
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

// taught tells which springs the table is made of: of those solved finely every eighth is not.
func taught(r row) bool { return r.nodes != fine || r.spring%8 != 3 }

// lesson does what is to be done with each solution of an end that the table is made of.
func lesson(t testing.TB, end mainspring.End, do func(columns []column, share float64)) {
	for _, rows := range bySpring(solutions(t)) {
		if rows[0].end != end || !taught(rows[0]) {
			continue
		}
		c, friction, _, err := drawn(rows[0].spring)
		if err != nil {
			t.Fatal(err)
		}
		k := Of(&c, friction, end)
		g := groupsOf(&c, friction)
		products := g.terms()
		for _, r := range rows {
			if r.turns >= least*k.turns && r.turns <= most*k.turns {
				do(columns(k, &products, r), r.share-base)
			}
		}
	}
}

// learned is the table of an end.
func learned(t testing.TB, end mainspring.End) (list []float64) {
	m, right := mat.NewSymDense(all, nil), mat.NewVecDense(all, nil)
	raw := m.RawSymmetric()
	lesson(t, end, func(columns []column, share float64) {
		for i, a := range columns {
			right.SetVec(a.at, right.AtVec(a.at)+a.by*share)
			for _, b := range columns[i:] {
				raw.Data[min(a.at, b.at)*raw.Stride+max(a.at, b.at)] += a.by * b.by
			}
		}
	})
	for i := range all {
		m.SetSym(i, i, m.At(i, i)+noise*noise)
	}
	var f mat.Cholesky
	if !f.Factorize(m) {
		t.Fatal("no table")
	}
	var x mat.VecDense
	if err := f.SolveVecTo(&x, right); err != nil {
		t.Fatal(err)
	}
	return x.RawVector().Data
}
