package rub

import (
	"bytes"
	"fmt"
	"go/format"
	"math"
	"os"
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

// taught tells which springs the table is made of: of those solved finely every fourth is not.
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

// The table is what is learned from the solutions that are kept: half a minute.
func TestTable(t *testing.T) {
	if !*teach && !*whole {
		t.Skip("only with -args -whole, or -teach, which writes it")
	}
	var lists [2][]float64
	for end := range lists {
		lists[end] = told(learned(t, mainspring.End(end)))
	}
	if *teach {
		write(t, lists)
		return
	}
	for end, want := range lists {
		for i, v := range flat(&tables[end]) {
			if math.Abs(v-want[i]) > 2e-5 {
				t.Fatalf("end %d, %d: %g, learned is %g", end, i, v, want[i])
			}
		}
	}
}

// told are the coefficients of a table as they are written.
func told(learned []float64) (list []float64) {
	for n := range rowsTold * terms {
		v := learned[n] * deviation(n)
		if n%terms == 0 && n < places*terms { // splines add up to 1
			v += base
		}
		list = append(list, math.Round(v*1e5)/1e5)
	}
	return list
}

// flat is a table in the order of its columns.
func flat(t *table) (list []float64) {
	for i := range t.smooth {
		list = append(list, t.smooth[i][:]...)
	}
	for i := range t.swing {
		for h := range t.swing[i] {
			for j := range t.swing[i][h] {
				list = append(list, t.swing[i][h][j][:]...)
			}
		}
	}
	return list
}

// deviation is that of a coefficient of the table, by its number.
func deviation(n int) float64 {
	if n < flats*terms {
		return likely[degree(n%terms)]
	}
	h := (n/terms - flats) / 2 % harmonics
	return swung[degree(n%terms)] / float64(1+h)
}

func write(t testing.TB, lists [2][]float64) {
	var b bytes.Buffer
	fmt.Fprint(&b, "// Code generated by go test -run TestTable -args -teach; DO NOT EDIT.\n\npackage rub\n\n// tables are by the outer end.\nvar tables = [2]table{\n")
	for end, list := range lists {
		fmt.Fprintf(&b, "{ // %s\nsmooth: [places+2][terms]float64{\n", []string{"hooked", "braced"}[end])
		at := 0
		line := func() {
			fmt.Fprint(&b, "{")
			for range terms {
				fmt.Fprintf(&b, "%g, ", list[at])
				at++
			}
			fmt.Fprint(&b, "},\n")
		}
		for range flats {
			line()
		}
		fmt.Fprint(&b, "},\nswing: [swings+1][harmonics][2][terms]float64{\n")
		for range swings + 1 {
			fmt.Fprint(&b, "{\n")
			for range harmonics {
				fmt.Fprint(&b, "{\n")
				line()
				line()
				fmt.Fprint(&b, "},\n")
			}
			fmt.Fprint(&b, "},\n")
		}
		fmt.Fprint(&b, "},\n},\n")
	}
	fmt.Fprint(&b, "}\n")
	text, err := format.Source(b.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile("table.go", text, 0o666); err != nil {
		t.Fatal(err)
	}
}

// Springs of which the table was not made, with 48 nodes to a turn: how far it is off what was
// solved, in the mean, how many windings and how many whole run-downs are within 1.5 %, and the
// worst of all windings.
func TestUnseen(t *testing.T) {
	for end, want := range [2]struct{ rms, within, springs, most float64 }{{0.005, 0.99, 0.8, 0.027}, {0.002, 0.999, 0.99, 0.01}} {
		var square, all, within, springs, good, far float64
		for _, list := range bySpring(solutions(t)) {
			if list[0].end != mainspring.End(end) || taught(list[0]) {
				continue
			}
			c, friction, _, err := drawn(list[0].spring)
			if err != nil {
				t.Fatal(err)
			}
			k := Of(&c, friction, mainspring.End(end))
			if k.Outside {
				continue
			}
			worst := 0.0
			for _, r := range list {
				if r.turns < least*k.turns || r.turns > most*k.turns {
					continue
				}
				off := math.Abs(k.Share(r.turns)/r.share - 1)
				square, all, worst = square+off*off, all+1, max(worst, off)
				if off <= 0.015 {
					within++
				}
			}
			springs++
			if worst <= 0.015 {
				good++
			}
			if testing.Verbose() && worst > 0.015 {
				g := groupsOf(&c, friction)
				t.Logf("end %d spring %d: %.4f  %.2f", end, list[0].spring, worst, g)
			}
			far = max(far, worst)
		}
		rms := math.Sqrt(square / all)
		t.Logf("end %d: %v springs, %v windings; rms %.4f, within %.4f; springs %v, most %.4f", end, springs, all, rms, within/all, good, far)
		if !(rms < want.rms && within/all > want.within && good/springs > want.springs && far < want.most) {
			t.Error("worse than told")
		}
	}
}
