package coils

import (
	"evenpull/fusee/mainspring"
	"math"
)

// grid is the angles of the nodes from 0, on the arbor, to last, on the wall: steps of equal
// parts of a turn, but those of the first turn are stretched or pressed by up to half a step
// together, so that any angle can be had. Counted from the outer end the others stay where
// they are: what presses near that end does so at the same node however far the strip is
// wound, and the couple does not swing with where the nodes happen to lie.
type grid struct {
	turn        int // nodes to a turn
	last        int
	step, start float64 // rad, of most of it, of the first turn
}

func newGrid(turn int, angle float64) grid {
	return gridOf(turn, int(math.Round(angle*float64(turn)/(2*math.Pi))), angle)
}

func gridOf(turn, last int, angle float64) grid {
	step := 2 * math.Pi / float64(turn)
	return grid{turn, last, step, (angle - float64(last-turn)*step) / float64(turn)}
}

func (g *grid) angle(i int) float64 {
	if over := i - g.turn; over > 0 {
		return float64(g.turn)*g.start + float64(over)*g.step
	}
	return float64(i) * g.start
}

func (g *grid) whole() float64 { return g.angle(g.last) }

// cell is the angle from node i to the next.
func (g *grid) cell(i int) float64 {
	if i < g.turn {
		return g.start
	}
	return g.step
}

// between is what the nodes have at an angle, on straight lines between them.
func (g *grid) between(angle float64, of []float64) float64 {
	i := int(angle / g.start)
	if over := angle - g.angle(g.turn); over > 0 {
		i = g.turn + int(over/g.step)
	}
	i = min(max(i, 0), g.last-1)
	return of[i] + (angle-g.angle(i))/g.cell(i)*(of[i+1]-of[i])
}

// The unknowns in the order in which they are eliminated: of each node its radius, the pull
// of the cell before it, its place along the strip. Radii and places at the ends are given.
func (g *grid) radius(i int) int { return 3 * (i - 1) }
func (g *grid) place(i int) int  { return 3*(i-1) + 2 }
func (g *grid) pull(cell int) int {
	if cell == g.last-1 {
		return 3 * cell
	}
	return 3*cell + 1
}
func (g *grid) unknowns() int   { return 3*(g.last-1) + 1 }
func (g *grid) free(i int) bool { return i > 0 && i < g.last }

// stencil is the weights of the radii of a node and its neighbours in the first and second
// derivative to the angle.
type stencil struct{ p, q [3]float64 }

// stencils of all nodes, and the angle that each stands for. At an end held along arbor or
// wall the radius goes on as in a mirror; one free to turn is not bent. So forces are in
// equilibrium up to the ends: the sum of angle, moment and second derivative of any change of
// the radii is 0 for every moment that a free strip can have.
func (g *grid) stencils(end mainspring.End) ([]stencil, []float64) {
	w, weights := make([]stencil, g.last+1), make([]float64, g.last+1)
	for i := 1; i < g.last; i++ {
		a, b := g.cell(i-1), g.cell(i)
		w[i] = stencil{
			[3]float64{-b / (a * (a + b)), (b - a) / (a * b), a / (b * (a + b))},
			[3]float64{2 / (a * (a + b)), -2 / (a * b), 2 / (b * (a + b))},
		}
		weights[i] = (a + b) / 2
	}
	a := g.cell(0)
	w[0].q, weights[0] = [3]float64{0, -2 / (a * a), 2 / (a * a)}, a/2
	if a = g.cell(g.last - 1); end == mainspring.Braced {
		w[g.last].q, weights[g.last] = [3]float64{2 / (a * a), -2 / (a * a), 0}, a/2
	}
	return w, weights
}
