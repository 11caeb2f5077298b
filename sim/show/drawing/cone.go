package drawing

import (
	"cmp"
	"math"
	"slices"

	"evenpull/fusee"
)

// profile is half the outline of a cone on the sheet, from the turn paid out first:
// x along the axis, y off it, over the groove bottoms and land (m) beyond them, with so
// much bare cone (m) at each end.
func (s *sheet) profile(c *fusee.Cone, land, margin float64) []spot {
	const steps = 320
	list := make([]spot, steps+1)
	for i := range list {
		x := (c.Turns*c.Pitch+2*margin)*float64(i)/steps - margin
		list[i] = spot{s.paper(x), s.paper(over(c, land, x))}
	}
	return list
}

// over is the radius (m) of the lands, so high over the groove bottom, at a place along the
// axis from where the groove begins. Beyond the groove's ends it is that of the end.
func over(c *fusee.Cone, land, along float64) float64 {
	r, _, _ := c.Profile.At(math.Min(math.Max(along/c.Pitch, 0), c.Turns))
	return r + land
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

// helix draws the near side of the groove, each turn a line of its own: its middle, or
// beside (m) that along the axis. Every drawing has the hand of the groove from here.
func (s *sheet) helix(at spot, c *fusee.Cone, land, beside float64) {
	for turn := 0.0; turn < c.Turns; turn++ {
		s.line(groove, s.nearSide(at, c, land, beside, turn)...)
	}
}

// nearSide is half a turn of the groove: to the right along the axis that of a
// right-hand one goes down, as the thread of a right-hand screw does.
func (s *sheet) nearSide(at spot, c *fusee.Cone, land, beside, turn float64) []spot {
	const perHalf = 24
	way := 1.0
	if c.Left {
		way = -1
	}
	near := make([]spot, perHalf+1)
	for i := range near {
		theta := math.Min(turn+float64(i)/(2*perHalf), c.Turns)
		along := theta*c.Pitch + beside
		near[i] = spot{at.x + s.paper(along), at.y + way*s.paper(over(c, land, along))*math.Cos(2*math.Pi*(theta-turn))}
	}
	return near
}
