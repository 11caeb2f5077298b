package plan

import (
	"math"
	"math/bits"
)

// design is what the fit of record makes of readings at some turns: one parameter, by least
// squares on the means of the turns, all turns with the same weight. To first order its
// error is Σ slope·error/Σ slope² over the turns that are read.
type design struct {
	at              []int                       // whole turns of the fusee that the run-down has
	slope, torque   []float64                   // at each whole turn: N·m for 1 of the parameter, and N·m
	scatter, offset float64                     // N·m, variances of a reading and of a run-down
	rounds          float64                     // N·m, variance that the meter's step adds to a reading, alike in all repeats
	rounding        func(apart float64) float64 // N·m, squared: what it adds alike to two turns whose torques lie so far apart; nil for nothing
	meter           float64                     // variance of the meter as a share
}

// sums are those over the turns that are read: all that the variance hangs on.
type sums struct{ squares, slopes, torques float64 }

func (d *design) with(a sums, turn int) sums {
	s := d.slope[turn]
	return sums{a.squares + s*s, a.slopes + s, a.torques + s*d.torque[turn]}
}

func (d *design) sumsOf(turns []int) (a sums) {
	for _, t := range turns {
		a = d.with(a, t)
	}
	return a
}

// runs is the variance of the parameter by one run-down, which repeats divide.
func (d *design) runs(a sums) float64 {
	return (d.scatter + d.offset*a.slopes*a.slopes/a.squares) / a.squares
}

// stays is the variance that no repeat lessens: the meter's, with what its step makes taken
// as if each turn were rounded by itself, as sets are compared.
func (d *design) stays(a sums) float64 {
	return (d.rounds + d.meter*a.torques*a.torques/a.squares) / a.squares
}

// byMeter is the same with what turns that pull alike have in common of the step.
func (d *design) byMeter(turns []int) float64 {
	a := d.sumsOf(turns)
	v := d.stays(a)
	if d.rounding == nil {
		return v
	}
	for _, t := range turns {
		for _, u := range turns {
			if t != u {
				v += d.slope[t] * d.slope[u] * d.rounding(d.torque[t]-d.torque[u]) / (a.squares * a.squares)
			}
		}
	}
	return v
}

func (d *design) variance(a sums, repeats int) float64 {
	return d.runs(a)/float64(repeats) + d.stays(a)
}

// mostTried is the number of turns up to which every set of them is tried: a million sets.
const mostTried = 20

// best are the best sets of 1, 2 and more turns for some run-downs, by their number less 1:
// of every set, or where the fusee has more turns by exchanges.
func (d *design) best(repeats int) [][]int {
	if len(d.slope) > mostTried {
		return d.exchanged(repeats)
	}
	n := len(d.slope)
	least, sets := make([]float64, n+1), make([]uint32, n+1)
	for i := range least {
		least[i] = math.Inf(1)
	}
	var try func(turn int, set uint32, a sums)
	try = func(turn int, set uint32, a sums) {
		if turn == n {
			if size := bits.OnesCount32(set); a.squares > 0 {
				if v := d.variance(a, repeats); v < least[size] {
					least[size], sets[size] = v, set
				}
			}
			return
		}
		try(turn+1, set|1<<turn, d.with(a, turn))
		try(turn+1, set, a)
	}
	try(0, 0, sums{})
	list := make([][]int, n)
	for size := 1; size <= n; size++ {
		for t := range n {
			if sets[size]&(1<<t) != 0 {
				list[size-1] = append(list[size-1], t)
			}
		}
	}
	return list
}
