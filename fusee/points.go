package fusee

import (
	"math"
	"slices"
)

// Point is a place at which a cone was measured.
type Point struct {
	Turn   float64 // θ, turns from the small end
	Radius float64 // m, of the groove bottom
}

// FewPoints is the greatest number of points that are taken for those of a cone cut
// for an even pull; more are joined as they are.
const FewPoints = 5

// Through is the profile through points at rising turns, the first at 0. More than
// FewPoints are joined by the monotone cubic of Measured. Between fewer a cone bends
// more than that tells, and they are taken to be those of a cone cut for an even pull: the
// monotone cubic goes through 1/ρ³, ρ being the radius of the line's middle, which is nearly
// straight along such a cone (see Doubt for how nearly). Half is half the line's thickness (m).
// It fails with ErrTurns and ErrProfile.
func Through(points []Point, half float64) (Profile, error) {
	at, radii := make([]float64, len(points)), make([]float64, len(points))
	for i, p := range points {
		at[i], radii[i] = p.Turn, p.Radius
		if i == 0 && p.Turn != 0 || i > 0 && !(p.Turn > at[i-1]) || math.IsInf(p.Turn, 1) {
			return Profile{}, ErrTurns
		}
	}
	knots, err := monotone(at, radii, nil)
	if err != nil {
		return Profile{}, err
	}
	if len(points) <= FewPoints {
		return evenPull(at, radii, half)
	}
	return newPieces(at, knots), nil
}

// perGap is the number of cubic pieces between two points: to 3e-5 of the radius.
const perGap = 32

// evenPull joins 1/ρ³ by a monotone cubic, ρ being the radius of the line's middle.
//
// Along an even profile dφ/dθ = −C/M and ρ = C Rb/M. A couple M = k (φ + a)^m makes
// 1/ρ^(1+1/m) linear in θ: for a straight law, m = 1, its square, and for m = ½, nearer
// to a strip that set and rolls off the wall, its cube. The cubic is straight where the
// points are, and goes through them where they are not.
func evenPull(at, radii []float64, half float64) (Profile, error) {
	cubes := make([]float64, len(radii))
	for i, r := range radii {
		cubes[i] = 1 / ((r + half) * (r + half) * (r + half))
	}
	slopes, err := monotone(at, cubes, nil)
	if err != nil {
		return Profile{}, err
	}
	joined := newPieces(at, slopes)
	last := len(at) - 1
	turns, knots := make([]float64, last*perGap+1), make([]knot, last*perGap+1)
	for i := range knots {
		gap, part := i/perGap, float64(i%perGap)/perGap
		turns[i] = at[gap]
		if part > 0 {
			turns[i] += part * (at[gap+1] - at[gap])
		}
		cube, slope, _ := joined.At(turns[i])
		rho := 1 / math.Cbrt(cube)
		knots[i] = knot{r: rho - half, dr: -rho / (3 * cube) * slope}
	}
	p := newPieces(turns, knots)
	p.gap = perGap
	return p, nil
}

// Doubt is how far the radius at θ may be from that of the profile through so few
// points, as a share of it and as two standard deviations of a normal distribution:
// nothing at the points, most between them, and more the wider apart they stand. It is
// 0 for more than FewPoints. Source: our own trials with cones cut even for springs
// of clocks (TestCurvesThroughFewPoints of package sim).
func Doubt(points []Point, theta float64) float64 {
	i := slices.IndexFunc(points, func(p Point) bool { return p.Turn > theta })
	if len(points) > FewPoints || i < 1 {
		return 0
	}
	gap := points[i].Turn - points[i-1].Turn
	part := (theta - points[i-1].Turn) / gap
	gap /= points[len(points)-1].Turn
	return 4 * part * (1 - part) * doubt * gap * gap
}

// MostDoubt is the greatest Doubt anywhere, a share of the radius.
func MostDoubt(points []Point) float64 {
	most := 0.0
	for i := 1; i < len(points); i++ {
		most = max(most, Doubt(points, (points[i-1].Turn+points[i].Turn)/2))
	}
	return most
}

// doubt is the Doubt in the middle of a gap as long as the whole cone would be.
const doubt = 0.3
