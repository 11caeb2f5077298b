package coils

import "math"

// contact is a place where the strip may touch: the sum of some radii, times weights, is not
// below a limit. The first node is the one that is pressed.
type contact struct {
	node   [4]int
	weight [4]float64 // 0 where there are fewer
	limit  float64
}

// contacts are all places where the strip may touch arbor, wall and itself.
func contacts(s *strip, g *grid) []contact {
	var all []contact
	for i := 1; i <= g.last; i++ {
		switch {
		case i < g.turn:
			all = append(all, contact{[4]int{i}, [4]float64{1}, s.inner})
		case i > g.turn && i < 2*g.turn:
			all = append(all, g.above(i, s.h))
		default:
			all = append(all, contact{[4]int{i, i - g.turn}, [4]float64{1, -1}, s.h})
		}
		if i > g.last-g.turn && i < g.last {
			all = append(all, contact{[4]int{i}, [4]float64{-1}, -s.outer})
		}
	}
	return all
}

// above is the contact of a node of the second turn with what lies a turn further in: on the
// parabola through the three nodes about it.
func (g *grid) above(i int, h float64) contact {
	j := i - g.turn
	at := g.angle(i) - 2*math.Pi - g.angle(j)
	a, b := -g.cell(j-1), g.cell(j)
	return contact{
		[4]int{i, j - 1, j, j + 1},
		[4]float64{1, -at * (at - b) / (a * (a - b)), -(at - a) * (at - b) / (a * b), -at * (at - a) / (b * (b - a))},
		h,
	}
}

func (c *contact) onWall() bool  { return c.weight[0] < 0 }
func (c *contact) onArbor() bool { return c.weight[0] > 0 && c.weight[1] == 0 }

// sum is the sum of what the nodes have, times the weights.
func (c *contact) sum(of []float64) float64 {
	return c.weight[0]*of[c.node[0]] + c.weight[1]*of[c.node[1]] + c.weight[2]*of[c.node[2]] + c.weight[3]*of[c.node[3]]
}

func (c *contact) room(r []float64) float64 { return c.sum(r) - c.limit }
