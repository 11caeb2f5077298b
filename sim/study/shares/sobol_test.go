package shares

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/stat"
)

// Every coordinate has one point in each of its parts, no two coordinates are alike, and
// the first points are those worked out by hand from m = 1 and from m = 1, 3 (Bratley and
// Fox, ACM Trans. Math. Softw. 14, 1988, take the same polynomials).
func TestCoordinates(t *testing.T) {
	for _, bits := range []int{fewBits, mostBits} {
		table := coordinates(bits)
		if len(table) != 256 {
			t.Fatalf("%d coordinates", len(table))
		}
		seen := map[string]int{}
		for c, x := range table {
			there := make([]bool, 1<<bits)
			for _, v := range x {
				there[v] = true
			}
			for part, is := range there {
				if !is {
					t.Fatalf("coordinate %d has no point in part %d", c, part)
				}
			}
			if before, is := seen[fmt.Sprint(x)]; is {
				t.Errorf("coordinates %d and %d are alike", before, c)
			}
			seen[fmt.Sprint(x)] = c
		}
	}
	table := coordinates(fewBits)
	for c, want := range [][]float64{{0, 0.5, 0.25, 0.75, 0.125, 0.625, 0.375, 0.875}, {0, 0.5, 0.75, 0.25, 0.625, 0.125, 0.375, 0.875}, {0, 0.5, 0.75, 0.25, 0.375, 0.875, 0.625, 0.125}} {
		for i, v := range want {
			if got := float64(table[c][i]) / Points; got != v {
				t.Errorf("coordinate %d, point %d: %v, want %v", c, i, got, v)
			}
		}
	}
}

// The first two coordinates are a (0, m, 2)-net in base 2 (Sobol' 1967; Niederreiter
// 1992): every elementary interval of volume 2⁻ᵐ holds one point, scrambled or not (Owen
// 1995). Points of one coordinate hold each part once, also those of a Latin hypercube.
func TestNets(t *testing.T) {
	for _, bits := range []int{fewBits, mostBits} {
		table, n := coordinates(bits), 1<<bits
		for scramble := range 4 {
			u := points(3, scramble, bits, 300, table)
			for k := range bits + 1 {
				count := make([]int, n)
				for i := range n {
					x, y := u[i*300], u[i*300+1]
					count[int(x*float64(int(1)<<k))<<(bits-k)|int(y*float64(int(1)<<(bits-k)))]++
				}
				for cell, in := range count {
					if in != 1 {
						t.Fatalf("scramble %d, 2^-%d by 2^-%d: %d points in part %d", scramble, k, bits-k, in, cell)
					}
				}
			}
			for c := range 300 {
				count := make([]int, n)
				for i := range n {
					count[int(u[i*300+c]*float64(n))]++
				}
				for part, in := range count {
					if in != 1 {
						t.Fatalf("coordinate %d: %d points in part %d", c, in, part)
					}
				}
			}
		}
	}
}

// Scrambles are independent of one another, and a point is anywhere: over many seeds a
// coordinate of the first has mean 1/2 and variance 1/12, and its values in two scrambles
// have nothing in common.
func TestScrambles(t *testing.T) {
	table := coordinates(fewBits)[:3]
	var a, b []float64
	for seed := range int64(2000) {
		a = append(a, points(seed, 0, fewBits, 1, table)[0])
		b = append(b, points(seed, 1, fewBits, 1, table)[0])
	}
	mean, variance := stat.MeanVariance(a, nil)
	if math.Abs(mean-0.5) > 4*math.Sqrt(1.0/12/2000) || math.Abs(variance*12-1) > 0.1 || math.Abs(stat.Correlation(a, b, nil)) > 4/math.Sqrt(2000) {
		t.Errorf("mean %v, variance %v, correlation %v", mean, variance, stat.Correlation(a, b, nil))
	}
}

// The mean of a smooth function of six coordinates over the points is closer by far than
// over as many drawn at random: its standard deviation over scrambles is below a tenth
// of σ/√n. The product of 1 + c (x − 1/2) has mean 1 and variance Π(1 + c²/12) − 1.
func TestIntegral(t *testing.T) {
	table := coordinates(fewBits)
	const dims, c = 6, 0.5
	var means []float64
	for scramble := range 40 {
		u := points(1, scramble, fewBits, dims, table)
		sum := 0.0
		for i := range Points {
			p := 1.0
			for k := range dims {
				p *= 1 + c*(u[i*dims+k]-0.5)
			}
			sum += p
		}
		means = append(means, sum/Points)
	}
	mean, sd := stat.MeanStdDev(means, nil)
	random := math.Sqrt((math.Pow(1+c*c/12, dims) - 1) / Points)
	if sd > random/10 || math.Abs(mean-1) > 4*sd/math.Sqrt(40) {
		t.Errorf("mean %v, standard deviation %v; at random %v", mean, sd, random)
	}
}
