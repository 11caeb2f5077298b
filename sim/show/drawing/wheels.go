package drawing

import (
	"fmt"
	"math"

	"evenpull/sim"
)

// Room about the wheels, mm.
const (
	lastName  = 21.0 // for that of the last arbor, at its right
	arborName = 10.5 // for those of the others, above and below
)

// wheels draws the pitch circles of a train in a row, all of one module: their radii
// go with the tooth counts. Each wheel meets the pinion that it drives, and from the
// first arbor to the last the centres stand in line.
func (s *sheet) wheels(at spot, r *sim.Result, width, height float64) {
	meshes := r.Train.Meshes()
	teeth, most := meshes[0].Wheel+meshes[len(meshes)-1].Pinion, 0
	for _, m := range meshes {
		teeth += m.Wheel + m.Pinion
		most = max(most, m.Wheel)
	}
	module := math.Min((width-lastName)/float64(teeth), (height-2*arborName)/float64(most))
	radius := func(teeth int) float64 { return module * float64(teeth) / 2 }
	at.x += radius(meshes[0].Wheel)
	for i, name := range r.Train.Arbors {
		says, reach := "", 0.0
		if i > 0 {
			reach = radius(meshes[i-1].Pinion)
			s.circle(at, reach, nil, solid)
			says = fmt.Sprintf("pinion %d", meshes[i-1].Pinion)
		}
		s.circle(at, 0.5, black, solid)
		if i == len(meshes) {
			s.words(spot{at.x + reach + 4, at.y + 2}, 1, normal, name)
			s.words(spot{at.x + reach + 4, at.y - 2}, 1, normal, says)
			return
		}
		if says != "" {
			says += ", "
		}
		reach = radius(meshes[i].Wheel)
		s.circle(at, reach, nil, solid)
		up := float64(1 - 2*(i%2)) // below every other time, so that neighbours do not meet
		s.words(spot{at.x, at.y + up*(reach+7)}, 0, normal, name)
		s.words(spot{at.x, at.y + up*(reach+3)}, 0, normal, says+fmt.Sprintf("wheel %d", meshes[i].Wheel))
		at.x += reach + radius(meshes[i].Pinion)
	}
}
