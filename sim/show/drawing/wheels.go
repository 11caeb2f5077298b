package drawing

import (
	"fmt"
	"math"

	"evenpull/sim"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// drawWheels draws the pitch circles of a train in a row, all of one module: their
// radii go with the tooth counts. Each wheel meets the pinion that it drives.
func drawWheels(c draw.Canvas, r *sim.Result, top, room vg.Length) {
	meshes := r.Train.Meshes()
	middle := top - room/2
	// From the first arbor to the last the centres stand in line.
	teeth, high := 0.0, 0.0
	for i, m := range meshes {
		teeth += float64(m.Wheel + m.Pinion)
		if i == 0 {
			teeth += float64(m.Wheel)
		}
		high = math.Max(high, float64(m.Wheel))
	}
	teeth += float64(meshes[len(meshes)-1].Pinion)
	const lastName = 60 // points for the last one's at its right
	const label = 30    // points for names above and below
	module := math.Min(float64(c.Max.X-c.Min.X-lastName)/teeth, float64(room-2*label)/high)
	radius := func(n int) vg.Length { return vg.Length(module * float64(n) / 2) }
	x := c.Min.X + radius(meshes[0].Wheel)
	for i, name := range r.Train.Arbors {
		at := vg.Point{X: x, Y: middle}
		says := ""
		reach := vg.Length(0)
		if i > 0 {
			stroke(c, circle(at, radius(meshes[i-1].Pinion)), outline)
			says, reach = fmt.Sprintf("pinion %d", meshes[i-1].Pinion), radius(meshes[i-1].Pinion)
		}
		if i < len(meshes) {
			stroke(c, circle(at, radius(meshes[i].Wheel)), outline)
			if says != "" {
				says += ", "
			}
			says, reach = says+fmt.Sprintf("wheel %d", meshes[i].Wheel), radius(meshes[i].Wheel)
		}
		dot := circle(at, 1.6)
		fill(c, dot, ink)
		nameArbor(c, at, reach, name, says, i%2 == 1, i == len(meshes))
		if i < len(meshes) {
			x += radius(meshes[i].Wheel) + radius(meshes[i].Pinion)
		}
	}
}

// nameArbor names an arbor beyond the reach of its circles: above, below every
// other time so that neighbours do not meet, and the last one at its right.
func nameArbor(c draw.Canvas, at vg.Point, reach vg.Length, name, says string, below, last bool) {
	if last {
		label(c, vg.Point{X: at.X + reach + 12, Y: at.Y + 6}, name, text.XLeft)
		label(c, vg.Point{X: at.X + reach + 12, Y: at.Y - 6}, says, text.XLeft)
		return
	}
	up := vg.Length(1)
	if below {
		up = -1
	}
	label(c, vg.Point{X: at.X, Y: at.Y + up*(reach+20)}, name, text.XCenter)
	label(c, vg.Point{X: at.X, Y: at.Y + up*(reach+9)}, says, text.XCenter)
}
