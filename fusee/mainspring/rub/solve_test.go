package rub

import (
	"cmp"
	"compress/gzip"
	"encoding/csv"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"testing"

	"evenpull/fusee/mainspring"
	"evenpull/fusee/mainspring/coils"
)

// The springs of which the table was made are solved anew, or the table from what is kept:
//
//	go test ./fusee/mainspring/rub -run TestSolutions -timeout 12h -args -solve
//	go test ./fusee/mainspring/rub -run TestTable -args -teach
var (
	anew  = flag.Bool("solve", false, "solve the springs of the table anew: hours")
	teach = flag.Bool("teach", false, "make the table anew from the solutions that are kept")
	whole = flag.Bool("whole", false, "also what takes minutes")
)

var kept = filepath.Join("testdata", "solutions.csv.gz")

// row is a solution: the couple running down over that of the closed form.
type row struct {
	spring       int
	end          mainspring.End
	turns, share float64
}

// spread is the number of a sequence that fills a cube of six evenly (M. Roberts, 2018; from
// memory): frac(1/2 + i g^−(k+1)) with g⁷ = g + 1.
func spread(i, k int) float64 {
	g := 1.0
	for range 60 {
		g = math.Pow(1+g, 1.0/7)
	}
	_, part := math.Modf(0.5 + float64(i)*math.Pow(g, -float64(k+1)))
	return part
}

// drawn is a spring of the table by its number, in a barrel with an arbor of radius 1, and the
// friction of its coils; ok tells whether it is one of the table.
func drawn(number int) (c mainspring.Curve, friction float64, ok bool, err error) {
	u := func(k int) float64 { return spread(number, k) }
	const steel = 1e12
	packing := 1 + 0.1*u(4)
	in := mainspring.Housing{Arbor: 1, Inside: 2.6 + 0.9*u(0)}
	pitch := 0.043 + 0.037*u(1)
	s := mainspring.Strip{
		Width: pitch / packing, Thickness: pitch / packing, Modulus: steel,
		Length: (0.38 + 0.18*u(2)) * math.Pi * (in.Inside*in.Inside - 1) / pitch,
		Form:   mainspring.Set, Yield: (0.0065 + 0.003*u(3)) * steel, Packing: packing,
	}
	c, err = mainspring.New(s, in)
	y := c.YieldCurvature()
	return c, 0.15 * u(5), err == nil && y >= 0.15 && y <= 0.40, err
}

// solve lets a spring run down from just below solid, coil by coil.
func solve(number int, end mainspring.End) (rows []row, err error) {
	c, friction, ok, err := drawn(number)
	if !ok {
		return nil, err
	}
	b, err := coils.NewBarrel(coils.Of(&c, end, friction), c.Angle(0), coils.Usual)
	if err != nil {
		return nil, err
	}
	n := c.Turns()
	x, err := b.Free(n-0.16, nil)
	if err != nil {
		return nil, err
	}
	for t := n - 0.2; t > max(0.08*n, 0.4); {
		if y, err := slide(b, t, x); err == nil {
			x = y
			rows = append(rows, row{number, end, t, y.Couple / c.Couple(t)})
		}
		if t < n-0.5 {
			t -= 0.14
		} else {
			t -= 0.08
		}
	}
	return rows, nil
}

func slide(b *coils.Barrel, turns float64, x *coils.Shape) (*coils.Shape, error) {
	y, err := b.Slide(turns, x)
	if err == nil {
		return y, nil
	}
	if x, err = b.Slide((turns+x.Turns)/2, x); err != nil {
		return nil, err
	}
	return b.Slide(turns, x)
}

// solutions are those that are kept.
func solutions(t testing.TB) (rows []row) {
	t.Helper()
	f, err := os.Open(kept)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	r := csv.NewReader(z)
	if _, err := r.Read(); err != nil {
		t.Fatal(err)
	}
	for {
		cells, err := r.Read()
		if err == io.EOF {
			return rows
		}
		if err != nil {
			t.Fatal(err)
		}
		whole := func(i int) int { v, _ := strconv.Atoi(cells[i]); return v }
		figure := func(i int) float64 { v, _ := strconv.ParseFloat(cells[i], 64); return v }
		rows = append(rows, row{whole(0), mainspring.End(whole(1)), figure(2), figure(3)})
	}
}

// bySpring are the solutions of one spring each.
func bySpring(rows []row) (springs [][]row) {
	for len(rows) > 0 {
		first := rows[0]
		n := slices.IndexFunc(rows, func(r row) bool {
			return r.spring != first.spring || r.end != first.end
		})
		if n < 0 {
			n = len(rows)
		}
		springs, rows = append(springs, rows[:n]), rows[n:]
	}
	return springs
}

// Solutions are those that the solver finds: of one spring here, of all with -solve, which
// writes them.
func TestSolutions(t *testing.T) {
	rows := solutions(t)
	if !*anew {
		again := slices.MinFunc(bySpring(rows), func(a, b []row) int { return cmp.Compare(len(a), len(b)) })
		got, err := solve(again[0].spring, again[0].end)
		if err != nil || len(got) != len(again) {
			t.Fatalf("%d windings, want %d (%v)", len(got), len(again), err)
		}
		for i, want := range again {
			if math.Abs(got[i].turns-want.turns) > 1e-5 || math.Abs(got[i].share-want.share) > 2e-4 {
				t.Errorf("%+v, want %+v", got[i], want)
			}
		}
		return
	}
	f, err := os.Create(kept)
	if err != nil {
		t.Fatal(err)
	}
	z, _ := gzip.NewWriterLevel(f, gzip.BestCompression)
	fmt.Fprintln(z, "spring,end,turns,share")
	for _, s := range bySpring(rows) {
		got, err := solve(s[0].spring, s[0].end)
		if err != nil {
			t.Error(err)
		}
		for _, r := range got {
			fmt.Fprintf(z, "%d,%d,%.5f,%.5f\n", r.spring, r.end, r.turns, r.share)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
}
