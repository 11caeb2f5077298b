package batch

import (
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
)

func tolerated(t *testing.T) *scenario.Scenario {
	t.Helper()
	s, _ := trial.Compile(t, "eight-day")
	s.Tolerances = nil
	return s
}

// In each column of a Latin hypercube and of Sobol' points every one of as many equal parts
// of the distribution holds one value; a grid has the middle of each level as often as any.
func TestDesign(t *testing.T) {
	for _, name := range Designs() {
		for _, dimensions := range []int{1, 3} {
			at, n, err := places(name, dimensions, 512, 7)
			if err != nil || n != 512 {
				t.Fatalf("%s: %d %v", name, n, err)
			}
			parts := 512
			if name == "grid" {
				parts = int(math.Round(math.Pow(512, 1/float64(dimensions))))
			}
			for i := range dimensions {
				met := make([]int, parts)
				for row := range n {
					u := at(row, i)
					if !(u >= 0 && u < 1) {
						t.Fatalf("%s: %v", name, u)
					}
					met[int(u*float64(parts))]++
				}
				for part, m := range met {
					if m != n/parts {
						t.Fatalf("%s: part %d of coordinate %d is met %d times", name, part, i, m)
					}
				}
			}
		}
	}
	if _, n, _ := places("grid", 3, 100, 1); n != 64 { // 4 × 4 × 4
		t.Errorf("%d rows", n)
	}
	if _, _, err := places("grid", 9, 100, 1); !errors.Is(err, ErrFew) || err.Error() != "100 runs are too few for two levels of each of 9 tolerances, which take 512" {
		t.Error(err)
	}
	if _, _, err := places("star", 3, 100, 1); !errors.Is(err, ErrDesign) {
		t.Error(err)
	}
}

// Values lie as the tolerances say: a uniform one within its half width, a normal one with
// half of it as standard deviation; the same seed gives the same table, another another.
func TestDesignOverTolerances(t *testing.T) {
	s := tolerated(t)
	if _, _, _, err := Design(s, 0, "sobol", 64, 1); !errors.Is(err, ErrNothing) {
		t.Error(err)
	}
	width := "going.mainspring.width_mm"
	s.Tolerances = []scenario.Tolerance{
		{Key: thickness, PlusMinus: 0.01, Shape: "normal", Percent: math.NaN()}, {Key: width, PlusMinus: 0.1, Shape: "uniform", Percent: math.NaN()},
	}
	for _, name := range []string{"latin", "sobol"} {
		read := func(seed int64) (text string, sum, squares float64) {
			header, next, n, err := Design(s, 0, name, 1024, seed)
			if err != nil || n != 1024 || fmt.Sprint(header) != "["+width+" "+thickness+"]" && fmt.Sprint(header) != "["+thickness+" "+width+"]" {
				t.Fatalf("%v %d %v", header, n, err)
			}
			for {
				cells, err := next()
				if err == io.EOF {
					return text, sum, squares
				}
				text += fmt.Sprint(cells)
				for i, cell := range cells {
					v, _ := strconv.ParseFloat(cell, 64)
					switch {
					case header[i] == width && math.Abs(v-32) > 0.1:
						t.Errorf("%s: width %v", name, v)
					case header[i] == thickness:
						sum += v - 0.38
						squares += (v - 0.38) * (v - 0.38)
					}
				}
			}
		}
		one, sum, squares := read(1)
		again, _, _ := read(1)
		other, _, _ := read(2)
		if one != again || one == other {
			t.Errorf("%s: seeds do not tell", name)
		}
		if mean, sd := sum/1024, math.Sqrt(squares/1024); math.Abs(mean) > 2e-5 || math.Abs(sd-0.005) > 1e-4 {
			t.Errorf("%s: mean %v, sd %v", name, mean, sd)
		}
	}
}
