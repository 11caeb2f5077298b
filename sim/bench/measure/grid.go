package measure

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
)

const (
	mostSweeps = 1000
	settled    = 1e-14 // of the greatest part
)

// grid is the readings as repeats by turns, NaN where one is missing, for what
// is asked of repeats as wholes.
type grid struct {
	lists  [][]float64 // of each repeat, at the turns that have readings
	weight []float64   // of each turn, by trapezia; they add up to 1
	turn   []float64   // N·m, the part of each turn in the readings
}

func gridOf(turns []Turn, lists [][]float64) grid {
	g := grid{lists: make([][]float64, 0, len(lists)), weight: trapezia(turns), turn: make([]float64, len(turns))}
	for _, list := range lists {
		row := make([]float64, len(turns))
		for j := range turns {
			row[j] = math.NaN()
			if at := turns[j].FuseeTurn; at < len(list) {
				row[j] = list[at]
			}
		}
		g.lists = append(g.lists, row)
	}
	for j := range turns {
		g.turn[j] = turns[j].Mean
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
		step := float64(turns[j].FuseeTurn - turns[j-1].FuseeTurn)
		w[j-1] += step / 2
		w[j] += step / 2
		span += step
	}
	floats.Scale(1/span, w)
	return w
}

// repeats finds the part of each repeat and, on the way, of each turn: each in
// turn the mean of what the other leaves, until neither moves. The sum of the
// weighted squares falls at every sweep; with nothing missing the first settles.
func (g *grid) repeats() []Repeat {
	part := make([]float64, len(g.lists))
	for range mostSweeps {
		if moved := g.sweep(part); moved <= settled*floats.Norm(g.turn, math.Inf(1)) {
			break
		}
	}
	level := math.NaN()
	if len(g.turn) > 0 {
		level = floats.Dot(g.weight, g.turn)
	}
	repeats := make([]Repeat, len(part))
	for i, list := range g.lists {
		repeats[i].Mean = level + part[i]
		for _, v := range list {
			if !math.IsNaN(v) {
				repeats[i].N++
			}
		}
	}
	return repeats
}

// sweep finds the parts of the repeats for those of the turns, then the other
// way round, and gives how far any moved.
func (g *grid) sweep(part []float64) (moved float64) {
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

// connected tells whether every repeat can be compared with every other.
func (g *grid) connected() bool {
	if len(g.lists) == 0 {
		return true
	}
	reached := make([]bool, len(g.lists))
	queue := []int{0}
	reached[0] = true
	for len(queue) > 0 {
		a := g.lists[queue[0]]
		queue = queue[1:]
		for i, b := range g.lists {
			if !reached[i] && share(a, b) {
				reached[i] = true
				queue = append(queue, i)
			}
		}
	}
	return !slices.Contains(reached, false)
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

// mean works out the overall mean.
func (g *grid) mean(repeats []Repeat, m meter) Mean {
	means := make([]float64, len(repeats))
	for i := range repeats {
		means[i] = repeats[i].Mean
	}
	var o Mean
	value, sd := meanSD(means)
	n := float64(len(means))
	o.Value, o.Scatter = value, math.NaN()
	if n > 1 {
		o.Scatter = student(n-1) * sd / math.Sqrt(n)
	}
	o.Meter = math.Hypot(m.bound(value), m.tick()*floats.Norm(g.weight, 2))
	o.HalfWidth = math.Hypot(o.Scatter, o.Meter)
	return o
}
