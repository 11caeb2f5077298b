package drawing

import (
	"cmp"
	"math"
	"slices"

	"evenpull/fusee"
)

// profile is half the outline of a cone on the sheet, from the turn paid out first:
// x along the axis, y off it, over the groove bottoms and land (m) beyond them.
func (s *sheet) profile(c *fusee.Cone, land float64) []spot {
	const steps = 320
	list := make([]spot, steps+1)
	for i := range list {
		theta := c.Turns * float64(i) / steps
		r, _, _ := c.Profile.At(theta)
		list[i] = spot{s.paper(theta * c.Pitch), s.paper(r + land)}
	}
	return list
}

func widest(profile []spot) float64 {
	return slices.MaxFunc(profile, func(p, q spot) int { return cmp.Compare(p.y, q.y) }).y
}

// around is the closed outline of a profile, the middle of its first end at the spot.
func around(at spot, profile []spot) []spot {
	var list []spot
	for _, p := range profile {
		list = append(list, spot{at.x + p.x, at.y + p.y})
	}
	for _, p := range slices.Backward(profile) {
		list = append(list, spot{at.x + p.x, at.y - p.y})
	}
	return append(list, list[0])
}

// helix draws the near side of the groove, each turn a line of its own, from its
// upper end down where way is 1 and from its lower end up where it is −1.
func (s *sheet) helix(at spot, c *fusee.Cone, land, way float64) {
	const perHalf = 24
	for turn := 0.0; turn < c.Turns; turn++ {
		var near []spot
		for i := range perHalf + 1 {
			part := float64(i) / perHalf
			theta := math.Min(turn+part/2, c.Turns)
			r, _, _ := c.Profile.At(theta)
			near = append(near, spot{at.x + s.paper(theta*c.Pitch), at.y + way*s.paper(r+land)*math.Cos(2*math.Pi*(theta-turn))})
		}
		s.line(groove, near...)
	}
}
