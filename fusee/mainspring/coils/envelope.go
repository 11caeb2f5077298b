package coils

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

// envelope is a matrix of which each row, and each column above the diagonal, is kept from its
// first entry that is not zero. Its factors, without exchange of rows, lie in the same room:
// of rows that reach far back there are few here (A. Jennings, Comput. J. 9, 1966; from memory).
type envelope struct {
	first []int     // of each row
	at    []int     // where a row begins in low, had it a column 0
	low   []float64 // rows up to the diagonal, one after the other
	up    []float64 // columns above it, likewise; only of a matrix that is not symmetric
	pivot []float64 // once factored
	room  []float64 // for a row
}

// newEnvelope has rows that begin at the given columns.
func newEnvelope(first []int) *envelope {
	n := len(first)
	m := &envelope{first: first, at: make([]int, n), pivot: make([]float64, n), room: make([]float64, n)}
	size := 0
	for i, f := range first {
		m.at[i] = size - f
		size += i + 1 - f
	}
	m.low = make([]float64, size)
	return m
}

// row is the entries of a row left of the diagonal, and column those of a column above it.
func (m *envelope) row(i int) []float64    { return m.low[m.at[i]+m.first[i] : m.at[i]+i] }
func (m *envelope) column(i int) []float64 { return m.up[m.at[i]+m.first[i] : m.at[i]+i] }

// add adds to an entry and the one across the diagonal, which are one in a symmetric matrix.
func (m *envelope) add(i, j int, v float64) {
	m.low[m.at[max(i, j)]+min(i, j)] += v
}

// unlike makes the matrix, so far symmetric, one that is not: addAt adds to one entry.
func (m *envelope) unlike() {
	m.up = append(m.up[:0], m.low...)
}

func (m *envelope) addAt(i, j int, v float64) {
	if j > i {
		m.up[m.at[j]+i] += v
	} else {
		m.low[m.at[i]+j] += v
	}
}

// factor puts L D Lᵀ in the place of a symmetric matrix and tells how many pivots are above
// 0, which is how many of its eigenvalues are (Sylvester's law of inertia). It fails on a
// pivot that is 0 or no number.
func (m *envelope) factor() (positive int, ok bool) {
	for i, f := range m.first {
		row, g := m.row(i), m.room[f:i]
		for k := range g {
			j := f + k
			from := max(f, m.first[j])
			g[k] = row[k] - floats.Dot(g[from-f:k], m.low[m.at[j]+from:m.at[j]+j])
		}
		d := m.low[m.at[i]+i]
		for k, v := range g {
			l := v / m.pivot[f+k]
			d -= v * l
			row[k] = l
		}
		if !usable(d) {
			return positive, false
		}
		if d > 0 {
			positive++
		}
		m.pivot[i] = d
	}
	return positive, true
}

// solve puts the solution in the place of the right-hand side, by L D Lᵀ.
func (m *envelope) solve(x []float64) {
	m.forward(x)
	for i, d := range m.pivot {
		x[i] /= d
	}
	for i := len(x) - 1; i >= 0; i-- {
		floats.AddScaled(x[m.first[i]:i], -x[i], m.row(i))
	}
}

// factorUnlike puts L U in the place of a matrix that is not symmetric, the diagonal of L
// being 1. It fails on a pivot that is 0 or no number.
func (m *envelope) factorUnlike() bool {
	for i, f := range m.first {
		low, up := m.row(i), m.column(i)
		for k := range low {
			j := f + k
			from := max(f, m.first[j])
			low[k] = (low[k] - floats.Dot(low[from-f:k], m.up[m.at[j]+from:m.at[j]+j])) / m.pivot[j]
			up[k] -= floats.Dot(up[from-f:k], m.low[m.at[j]+from:m.at[j]+j])
		}
		d := m.low[m.at[i]+i] - floats.Dot(low, up)
		if !usable(d) {
			return false
		}
		m.pivot[i] = d
	}
	return true
}

// solveUnlike puts the solution in the place of the right-hand side, by L U.
func (m *envelope) solveUnlike(x []float64) {
	m.forward(x)
	for i := len(x) - 1; i >= 0; i-- {
		x[i] /= m.pivot[i]
		floats.AddScaled(x[m.first[i]:i], -x[i], m.column(i))
	}
}

func (m *envelope) forward(x []float64) {
	for i, f := range m.first {
		x[i] -= floats.Dot(m.row(i), x[f:i])
	}
}

func usable(pivot float64) bool { return pivot != 0 && !math.IsNaN(pivot) && !math.IsInf(pivot, 0) }
