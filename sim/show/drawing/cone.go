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

// helix draws the near side of the groove, each turn a line of its own.
func (s *sheet) helix(at spot, c *fusee.Cone, land float64) {
	for turn := 0.0; turn < c.Turns; turn++ {
		s.line(groove, s.nearSide(at, c, land, turn)...)
	}
}

// nearSide is half a turn of the groove: to the right along the axis that of a
// right-hand one goes down, as the thread of a right-hand screw does.
func (s *sheet) nearSide(at spot, c *fusee.Cone, land, turn float64) []spot {
	const perHalf = 24
	way := 1.0
	if c.Left {
		way = -1
	}
	near := make([]spot, perHalf+1)
	for i := range near {
		theta := math.Min(turn+float64(i)/(2*perHalf), c.Turns)
		r, _, _ := c.Profile.At(theta)
		near[i] = spot{at.x + s.paper(theta*c.Pitch), at.y + way*s.paper(r+land)*math.Cos(2*math.Pi*(theta-turn))}
	}
	return near
}
