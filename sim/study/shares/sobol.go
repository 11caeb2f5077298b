package shares

import (
	_ "embed"
	"encoding/binary"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
)

const (
	fewBits, mostBits = 9, 11
	// Points is the number of points of a scramble, 512, and MostPoints where those are too
	// few, 2048: powers of two, as a net wants them.
	Points, MostPoints = 1 << fewBits, 1 << mostBits
)

//go:embed joekuo.txt
var joeKuo string

// coordinates gives for each coordinate that the table has in which of 2 to the power of
// bits equal parts of [0, 1) each point lies. The first is that of van der Corput.
func coordinates(bits int) [][]uint16 {
	all := make([][]uint16, 0, 256)
	all = append(all, strata(bits, 0, 0, slices.Repeat([]int{1}, bits)))
	for line := range strings.Lines(joeKuo) {
		if strings.HasPrefix(line, "#") {
			continue
		}
		var n []int
		for _, f := range strings.Fields(line) {
			v, err := strconv.Atoi(f)
			if err != nil {
				panic(err) // the table is part of the program
			}
			n = append(n, v)
		}
		all = append(all, strata(bits, n[0], n[1], n[2:]))
	}
	return all
}

// strata are those of the points in one coordinate: point i is the sum modulo 2 of the
// direction numbers of the bits of i. The numbers m follow one another by the polynomial
// of degree s with the middle coefficients a (Joe and Kuo 2008, equation 2).
func strata(bits, s, a int, m []int) []uint16 {
	m = m[:len(m):len(m)]
	for k := len(m); k < bits; k++ {
		next := m[k-s] ^ m[k-s]<<s
		for i := 1; i < s; i++ {
			if a>>(s-1-i)&1 == 1 {
				next ^= m[k-i] << i
			}
		}
		m = append(m, next)
	}
	x := make([]uint16, 1<<bits)
	for i := range x {
		for k := range bits {
			if i>>k&1 == 1 {
				x[i] ^= uint16(m[k] << (bits - 1 - k))
			}
		}
	}
	return x
}

// points are 2 to the power of bits points of a Sobol' sequence in as many dimensions as
// wanted, the coordinates of one after the other, scrambled as A. B. Owen (1995) does:
// every bit is flipped or not by a choice that depends on the bits above it, and within its
// smallest part a point lies anywhere. Each point is even over [0, 1), and all together
// keep the evenness of the net. Coordinates beyond the table are a Latin hypercube.
func points(seed int64, scramble, bits, dimensions int, table [][]uint16) []float64 {
	var key [32]byte
	binary.LittleEndian.PutUint64(key[:], uint64(seed))
	binary.LittleEndian.PutUint64(key[8:], uint64(scramble))
	random := rand.New(rand.NewChaCha8(key))
	n := 1 << bits
	all := make([]float64, n*dimensions)
	for c := range dimensions {
		in := make([]int, n)
		if c < len(table) {
			to := nested(random, bits)
			for i, x := range table[c] {
				in[i] = to[x]
			}
		} else {
			in = random.Perm(n)
		}
		for i, x := range in {
			all[i*dimensions+c] = (float64(x) + random.Float64()) / float64(n)
		}
	}
	return all
}

// nested is a random permutation of the parts that keeps those together which agree in
// their first bits.
func nested(random *rand.Rand, bits int) []int {
	to, flip := make([]int, 1<<bits), make([]int, 1<<bits) // flip: by the bits above, with a 1 before them
	for i := range flip {
		flip[i] = random.IntN(2)
	}
	for x := range to {
		for b := range bits {
			above := x >> (bits - b)
			to[x] |= (x>>(bits-1-b)&1 ^ flip[1<<b|above]) << (bits - 1 - b)
		}
	}
	return to
}

// Sobol are n points in as many dimensions, the coordinates of one after the other: Points
// at a time are of a Sobol' sequence scrambled by itself.
func Sobol(seed int64, dimensions, n int) []float64 {
	table := coordinates(fewBits)
	var all []float64
	for scramble := 0; len(all) < n*dimensions; scramble++ {
		all = append(all, points(seed, scramble, fewBits, dimensions, table)...)
	}
	return all[:n*dimensions]
}
