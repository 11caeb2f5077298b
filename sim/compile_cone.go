package sim

import (
	"errors"

	"evenpull/fusee"
	"evenpull/sim/scenario"
)

// ErrWanted: there is no cone yet.
var ErrWanted = errors.New("there is no cone yet")

// coneOf is the fusee, its profile in a room where it was measured. What was measured over
// the lands stands their height further out than the groove.
func coneOf(t *scenario.Train, room *fusee.Room) (fusee.Cone, error) {
	in := &t.Fusee
	c := fusee.Cone{Turns: in.Turns, Pitch: in.PitchMM * mm, Centre: orZero(in.CentreDistanceMM * mm), Left: in.Hand == scenario.LeftHand}
	var err error
	switch {
	case in.Profile == scenario.Wanted:
		return c, ErrWanted
	case len(in.Points) > 0:
		c.Profile, err = fusee.Through(pointsOf(in), t.Line.ThicknessMM*mm/2)
	case in.Profile == scenario.Measured:
		radii := make([]float64, 0, fusee.Most)
		for _, d := range in.DiametersMM {
			radii = append(radii, groove(in, d))
		}
		c.Profile, err = room.Measured(radii)
	case in.Profile == scenario.Cone:
		c.Profile, err = fusee.Straight(groove(in, in.SmallDiameterMM), groove(in, in.LargeDiameterMM), in.Turns)
	case scenario.Given(in.SmallDiameterMM):
		c.Shape, c.End = fusee.EvenBySmall, groove(in, in.SmallDiameterMM)
	default:
		c.Shape, c.End = fusee.EvenByLarge, groove(in, in.LargeDiameterMM)
	}
	return c, err
}

// groove is the radius (m) of the groove bottom where a diameter was measured.
func groove(in *scenario.Fusee, diameterMM float64) float64 {
	r := diameterMM * mm / 2
	if in.Over == scenario.OverLands {
		r -= in.LandHeightMM * mm
	}
	return r
}

func pointsOf(in *scenario.Fusee) []fusee.Point {
	points := make([]fusee.Point, len(in.Points))
	for i, p := range in.Points {
		points[i] = fusee.Point{Turn: p.Turn, Radius: groove(in, p.DiameterMM)}
	}
	return points
}

// ConeByLine tells whether the cone of a train changes with the thickness of its line:
// where lands of half its height were measured over, or the curve through a few points
// is that of its middle.
func ConeByLine(in *scenario.Fusee) bool {
	return in.Over == scenario.OverLands || 0 < len(in.Points) && len(in.Points) <= fusee.FewPoints
}
