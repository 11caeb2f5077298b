package coils

import (
	"evenpull/fusee/mainspring"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/diff/fd"
	"gonum.org/v1/gonum/mat"
)

// The derivatives of the energy of a node are those of its formula.
func TestBendDerivatives(t *testing.T) {
	own := func(s float64) natural { // 0.3 + sin s
		return natural{0.3 + math.Sin(s), math.Cos(s), -math.Sin(s)}
	}
	r := rand.New(rand.NewPCG(1, 1))
	for range 50 {
		at := []float64{0.3 + r.Float64(), r.NormFloat64(), r.NormFloat64(), r.Float64()}
		var b bend
		energy := func(x []float64) float64 {
			b.of(x[0], x[1], x[2], 0.7, own(x[3]))
			return b.e
		}
		grad := fd.Gradient(nil, energy, at, &fd.Settings{Formula: fd.Central})
		var hess mat.SymDense
		fd.Hessian(&hess, energy, at, &fd.Settings{Formula: fd.Central})
		b.of(at[0], at[1], at[2], 0.7, own(at[3]))
		for i := range 4 {
			if math.Abs(grad[i]-b.d[i]) > 1e-6*(1+math.Abs(b.d[i])) {
				t.Fatalf("at %v: derivative %d is %v, by differences %v", at, i, b.d[i], grad[i])
			}
			for j := range 4 {
				if got, want := b.dd[i][j], hess.At(i, j); math.Abs(got-want) > 1e-3*(1+math.Abs(want)) {
					t.Fatalf("at %v: second derivative %d, %d is %v, by differences %v", at, i, j, got, want)
				}
			}
		}
	}
}

// The matrix is that of the second derivatives of energy and lengths, and the gradient theirs.
func TestAssembled(t *testing.T) {
	b, _ := reference(t, mainspring.Hooked, 0, 24)
	p, err := b.problem(&b.strip, 4)
	if err != nil {
		t.Fatal(err)
	}
	x := p.spiral(few)
	r := rand.New(rand.NewPCG(2, 2))
	for j := range x.pull {
		x.pull[j] = r.NormFloat64()
	}
	p.assemble(x)
	grad, low := append([]float64(nil), p.grad...), append([]float64(nil), p.matrix.low...)
	set := func(i int, by float64) {
		for n := 1; n < p.last; n++ {
			if p.radius(n) == i {
				x.r[n] += by
			}
			if p.place(n) == i {
				x.s[n] += by
			}
		}
		for j := range p.last {
			if p.pull(j) == i {
				x.pull[j] += by
			}
		}
	}
	for range 200 {
		i := r.IntN(p.unknowns())
		const by = 1e-6
		set(i, by)
		p.assemble(x)
		up := append([]float64(nil), p.grad...)
		set(i, -2*by)
		p.assemble(x)
		for k := range grad {
			want := (up[k] - p.grad[k]) / (2 * by)
			got := 0.0
			if a, c := max(i, k), min(i, k); c >= p.matrix.first[a] {
				got = low[p.matrix.at[a]+c]
			}
			if math.Abs(got-want) > 1e-5*(1+math.Abs(want)) {
				t.Fatalf("entry %d, %d is %v, by differences %v", i, k, got, want)
			}
		}
		set(i, by)
	}
}

// A matrix with rows of any reach is solved, symmetric or not, and the signs of its pivots
// are those of its eigenvalues (J. J. Sylvester, 1852); against gonum's dense solvers.
func TestEnvelope(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	for range 40 {
		n := 1 + r.IntN(30)
		first := make([]int, n)
		for i := range first {
			first[i] = r.IntN(i + 1)
		}
		m := newEnvelope(first)
		dense := mat.NewDense(n, n, nil)
		set := func(i, j int, v float64) { dense.Set(i, j, dense.At(i, j)+v) }
		for i, f := range first {
			for j := f; j <= i; j++ {
				v := r.NormFloat64()
				m.add(j, i, v)
				set(i, j, v)
				if j < i {
					set(j, i, v)
				}
			}
		}
		right := make([]float64, n)
		for i := range right {
			right[i] = r.NormFloat64()
		}
		check := func(x []float64) {
			var want mat.VecDense
			if err := want.SolveVec(dense, mat.NewVecDense(n, right)); err != nil {
				return // nearly singular
			}
			for i := range x {
				if math.Abs(x[i]-want.AtVec(i)) > 1e-7*(1+mat.Norm(&want, 2)) {
					t.Errorf("%d of %d: %v, want %v", i, n, x[i], want.AtVec(i))
				}
			}
		}
		kept := append([]float64(nil), m.low...)
		positive, ok := m.factor()
		if !ok {
			t.Fatal("no factors")
		}
		var eigen mat.EigenSym
		sym := mat.NewSymDense(n, nil)
		for i := range n {
			for j := range i + 1 {
				sym.SetSym(i, j, dense.At(i, j))
			}
		}
		eigen.Factorize(sym, false)
		want := 0
		for _, v := range eigen.Values(nil) {
			if v > 0 {
				want++
			}
		}
		if positive != want {
			t.Errorf("%d pivots above 0, and %d eigenvalues", positive, want)
		}
		x := append([]float64(nil), right...)
		m.solve(x)
		check(x)
		copy(m.low, kept)
		m.unlike()
		for i, f := range first {
			for j := f; j < i; j++ {
				v := r.NormFloat64()
				m.addAt(i, j, v)
				set(i, j, v)
				m.addAt(j, i, -2*v)
				set(j, i, -2*v)
			}
		}
		if !m.factorUnlike() {
			t.Fatal("no factors")
		}
		x = append(x[:0], right...)
		m.solveUnlike(x)
		check(x)
	}
	m := newEnvelope([]int{0, 0})
	if _, ok := m.factor(); ok {
		t.Error("a matrix of zeros has factors")
	}
}
