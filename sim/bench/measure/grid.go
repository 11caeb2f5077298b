package measure

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

const (
	mostSweeps = 1000
	settled    = 1e-14 // of the greatest part
)

// grid is the readings one way as repeats by turns, NaN where one is missing.
type grid struct {
	lists  [][]float64 // of each repeat, at the turns that have readings
	along  []float64   // of each turn: 0 fully wound, 1 at the last
	weight []float64   // of each turn, by trapezia; they add up to 1
	turn   []float64   // N·m, the part of each turn in the readings
	part   []float64   // N·m, that of each repeat; they add up to 0
	level  float64     // N·m, the mean torque over the turns
}

func gridOf(turns []Turn, lists [][]float64, first float64) grid {
	g := grid{lists: make([][]float64, 0, len(lists)), along: along(turns), weight: trapezia(turns), turn: make([]float64, len(turns)), part: make([]float64, len(lists)), level: math.NaN()}
	for _, list := range lists {
		row := make([]float64, len(turns))
		for j := range turns {
			row[j] = math.NaN()
			if at := int(math.Round(turns[j].FuseeTurn - first)); at < len(list) {
				row[j] = list[at]
			}
		}
		g.lists = append(g.lists, row)
	}
	for j := range turns {
		g.turn[j] = turns[j].Mean
	}
	if len(turns) > 0 {
		g.split()
	}
	return g
}

// trapezia is the weight of each turn in a mean over fusee turns.
func trapezia(turns []Turn) []float64 {
	w := make([]float64, len(turns))
	if len(turns) == 1 {
		w[0] = 1
		return w
	}
	span := 0.0
	for j := 1; j < len(turns); j++ {
		step := turns[j].FuseeTurn - turns[j-1].FuseeTurn
		w[j-1] += step / 2
		w[j] += step / 2
		span += step
	}
	floats.Scale(1/span, w)
	return w
}

// split finds the parts: each of turns and repeats in turn the mean of what the
// other leaves, until neither moves. The sum of the weighted squares falls at every
// sweep; with nothing missing the first settles.
func (g *grid) split() {
	for range mostSweeps {
		if moved := g.sweep(); moved <= settled*floats.Norm(g.turn, math.Inf(1)) {
			break
		}
	}
	g.level = floats.Dot(g.weight, g.turn)
}

// sweep finds the parts of the repeats for those of the turns, then the other
// way round, and gives how far any moved.
func (g *grid) sweep() (moved float64) {
	part := g.part
	for i, list := range g.lists {
		sum, total := 0.0, 0.0
		for j, v := range list {
			if !math.IsNaN(v) {
				sum += g.weight[j] * (v - g.turn[j])
				total += g.weight[j]
			}
		}
		if total > 0 {
			moved = max(moved, math.Abs(sum/total-part[i]))
			part[i] = sum / total
		}
	}
	floats.AddConst(-floats.Sum(part)/float64(len(part)), part) // their level is that of the turns
	for j := range g.turn {
		sum, n := 0.0, 0
		for i, list := range g.lists {
			if v := list[j]; !math.IsNaN(v) {
				sum += v - part[i]
				n++
			}
		}
		moved = max(moved, math.Abs(sum/float64(n)-g.turn[j]))
		g.turn[j] = sum / float64(n)
	}
	return moved
}

// repeats gives each repeat its readings and its mean over all turns.
func (g *grid) repeats() []Repeat {
	repeats := make([]Repeat, len(g.lists))
	for i, list := range g.lists {
		repeats[i].Mean = g.level + g.part[i]
		for _, v := range list {
			if !math.IsNaN(v) {
				repeats[i].N++
			}
		}
	}
	return repeats
}

// scatter is the standard deviation of one reading clear of the parts of its turn
// and its repeat, here all turns alike (two-way analysis of variance without
// interaction: any text); NaN without a degree of freedom.
func (g *grid) scatter() float64 {
	squares, freedom := 0.0, g.groups()-len(g.turn)-len(g.lists)
	left := make([]float64, len(g.turn))
	for _, list := range g.lists {
		left = left[:0]
		for j, v := range list {
			if !math.IsNaN(v) {
				left = append(left, v-g.turn[j])
			}
		}
		if len(left) > 0 {
			floats.AddConst(-floats.Sum(left)/float64(len(left)), left)
			squares, freedom = squares+floats.Dot(left, left), freedom+len(left)
		}
	}
	if freedom < 1 {
		return math.NaN()
	}
	if sd := math.Sqrt(squares / float64(freedom)); sd > leastMoved*math.Abs(g.level) {
		return sd
	}
	return 0
}

// groups is how many groups of repeats there are of which none can be compared with
// another's: one when every repeat shares turns with the rest, directly or through
// others.
func (g *grid) groups() int {
	found := 0
	reached := make([]bool, len(g.lists))
	var queue []int
	for first := range g.lists {
		if reached[first] {
			continue
		}
		found++
		reached[first] = true
		for queue = append(queue, first); len(queue) > 0; {
			a := g.lists[queue[0]]
			queue = queue[1:]
			for i, b := range g.lists {
				if !reached[i] && share(a, b) {
					reached[i] = true
					queue = append(queue, i)
				}
			}
		}
	}
	return found
}

// share tells whether two repeats have a reading at the same turn.
func share(a, b []float64) bool {
	for j := range a {
		if !math.IsNaN(a[j] + b[j]) {
			return true
		}
	}
	return false
}
