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
	likely = [3]float64{0.05, 0.02, 0.008}
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

// columns are those of a solution, each over its standard deviation.
func columns(k *Coils, t *[terms]float64, r row) (list []column) {
	at := k.place(r.turns)
	sin, cos := math.Sincos(k.angle + 2*math.Pi*r.turns)
	splines := func(put func(place int, by float64)) {
		for i, by := range at.weight {
			put(at.first+i, by)
		}
		put(places, at.home)
	}
	put := func(n, terms int, deviation func(degree int) float64, by float64) {
		for j := range terms {
			list = append(list, column{n*terms + j, by * t[j] * deviation(degree(j))})
		}
	}
	start := 0
	for _, coarse := range []bool{false, true} {
		if coarse && r.nodes == fine {
			break
		}
		smooth, waves, n := func(d int) float64 { return likely[d] }, func(d int) float64 { return swung[d] }, terms
		if coarse {
			smooth = func(d int) float64 { return shift / float64(1+d) }
			waves, n = smooth, 1+groupCount
		}
		from := len(list)
		splines(func(place int, by float64) { put(place, n, smooth, by) })
		put(places+1, n, smooth, at.rest)
		c, s := 1.0, 0.0
		for h := range harmonics {
			c, s = c*cos-s*sin, s*cos+c*sin
			for j, v := range []float64{c, s} {
				splines(func(place int, by float64) {
					if place -= still; place >= 0 {
						put(flats+(place*harmonics+h)*2+j, n, waves, by*v/float64(1+h))
					}
				})
			}
		}
		for i := range list[from:] {
			list[from+i].at += start
		}
		start = rowsTold * terms
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
	}
	return 2
}

// size is the number of coefficients, those of the shift included.
const (
	flats    = places + 2
	rowsTold = flats + (swings+1)*harmonics*2
	size     = rowsTold * (terms + 1 + groupCount)
)

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
	m, right := mat.NewSymDense(size, nil), mat.NewVecDense(size, nil)
	raw := m.RawSymmetric()
	lesson(t, end, func(columns []column, share float64) {
		for i, a := range columns {
			right.SetVec(a.at, right.AtVec(a.at)+a.by*share)
			for _, b := range columns[i:] {
				raw.Data[min(a.at, b.at)*raw.Stride+max(a.at, b.at)] += a.by * b.by
			}
		}
	})
	for i := range size {
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
