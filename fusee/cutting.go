package fusee

import (
	"fmt"
	"math"

	"evenpull/fusee/numeric"
)

const (
	// leastRadius is the least radius (m) of the groove bottoms that leaves a
	// fusee stiff on its arbor (common practice, no source).
	leastRadius = 3e-3
	// LeastSetUp are the fewest turns of set-up that keep the line taut when the
	// fusee has run down (common practice, no source).
	LeastSetUp = 0.25
)

// Cutting is the largest even profile that fits inside a cone: what is left when
// metal comes off and none is put on.
type Cutting struct {
	SetUp   float64 // turns, with which it is even
	Torque  float64 // N·m, ∫M dφ over a fusee turn but for the fusee's pivots: the torque at the fusee without other losses
	Touch   float64 // θ, turns, where nothing comes off; NaN when the spring's turns end before the profile meets the cone
	Removed float64 // m³ over the groove bottoms
	Drive   Drive   // with this set-up and the profile cut
}

// Thin is a profile too thin to be cut, an ErrThin. SI.
type Thin struct {
	Turn   float64 // turns from the small end to the thinnest place
	Radius float64 // m, of the groove bottom there
	Least  float64 // m, what it would have to be
}

// Error gives the place and the diameter.
func (t *Thin) Error() string {
	return fmt.Sprintf("the cone comes down to a diameter of %.2f mm at fusee turn %.4g, and less than %.2f mm over the groove bottom is too thin (common practice, no source)", t.Radius*2e3, t.Turn, t.Least*2e3)
}

// Unwrap gives ErrThin.
func (t *Thin) Unwrap() error { return ErrThin }

// LeastRadius is the radius (m) of the groove bottom below which a cone is too thin to be cut.
func (d *Drive) LeastRadius() float64 { return math.Max(leastRadius, d.Line.Thickness) }

// Stout tells whether a cone is thick enough to be cut: nowhere less than 3 mm in
// radius nor than the line's thickness. Its error is a *Thin.
func (d *Drive) Stout() error {
	least := d.LeastRadius()
	if turn, r := d.Cone.Profile.thinnest(); r < least {
		return &Thin{Turn: turn, Radius: r, Least: least}
	}
	return nil
}

// thinnest is the least radius at the knots and the turn it is at.
func (p *Profile) thinnest() (turn, r float64) {
	r = math.MaxFloat64
	for i := range len(p.pieces) + 1 {
		at := p.end(i - 1)
		if here, _, _ := p.At(at); here < r {
			turn, r = at, here
		}
	}
	return turn, r
}

// Within is the largest even profile for a set-up that fits inside the cone, to
// 1e-9 of the radius, and leaves the spring turns to spare when the fusee is wound.
// It fails with ErrProfile when the cone is not given by its profile, with ErrSlack
// or ErrSetUp for a set-up that will not do, and with ErrThin.
func (w *Wound) Within(setUp, spare float64) (Cutting, error) {
	switch {
	case w.drive.Cone.Shape != Cut:
		return Cutting{}, ErrProfile
	case !(setUp > 0):
		return Cutting{}, ErrSlack
	case setUp+spare >= w.curve.Turns():
		return Cutting{}, fmt.Errorf("%w (set up by %.4g turns with %.4g to spare, and it has %.3f)", ErrSetUp, setUp, spare, w.curve.Turns())
	}
	k := newCutter(w, setUp, spare)
	k.fit()
	k.look(fine)
	k.fit()
	k.touchUp()
	cut := Cutting{SetUp: setUp, Torque: k.c, Touch: k.touch, Drive: w.drive}
	cut.Drive.Barrel.SetUp = setUp
	cut.Drive.Cone.Shape, cut.Drive.Cone.End = EvenByLarge, w.evenRadius(k.c, k.low)-w.half
	even, err := cut.Drive.Wind()
	if err != nil {
		return Cutting{}, err
	}
	cut.Drive.Cone = even.CutCone()
	cut.Removed = w.drive.Cone.Volume() - cut.Drive.Cone.Volume()
	return cut, cut.Drive.Stout()
}

// Volume is that (m³) of the cone's stem to the groove bottoms: p ∫πr² dθ.
func (c *Cone) Volume() float64 {
	p := &c.Profile
	return math.Pi * c.Pitch * p.over(threePoints, func(theta float64) float64 {
		r, _, _ := p.At(theta)
		return r * r
	})
}

// GrooveLength is the length (m) of a line of the given thickness in the whole
// groove, ∫√((2πρ)² + ρ'² + p²) dθ by two points on each piece of the profile: to
// 1e-5 also for a cone cut even, whose end may be steep.
func (c *Cone) GrooveLength(thickness float64) float64 {
	p := &c.Profile
	return p.over(twoPoints, func(theta float64) float64 {
		r, dr, _ := p.At(theta)
		around := 2 * math.Pi * (r + thickness/2)
		return math.Sqrt(around*around + dr*dr + c.Pitch*c.Pitch)
	})
}

// LeastCut is the set-up of at least LeastSetUp with which the largest even profile
// inside the cone keeps the most metal, to a hundredth of a turn, with turns of the
// spring to spare. It fails as Within does; with ErrThin only where every set-up
// would leave the cone too thin.
func (w *Wound) LeastCut(spare float64) (Cutting, error) {
	return w.leastCut(spare, 0, math.Inf(1))
}

// LeastCutByClicks is LeastCut with a set-up in whole clicks, of which the ratchet
// has so many, above 0, in a turn: one of the two beside the set-up that would keep
// the most. None of more than the given turns is tried.
func (w *Wound) LeastCutByClicks(spare, clicks, most float64) (Cutting, error) {
	return w.leastCut(spare, clicks, most)
}

func (w *Wound) leastCut(spare, clicks, most float64) (Cutting, error) {
	most = min(most, w.curve.Turns()-spare)
	switch {
	case w.drive.Cone.Shape != Cut:
		return Cutting{}, ErrProfile
	case most <= LeastSetUp:
		return Cutting{}, fmt.Errorf("%w (%.4g turns keep the line taut and %.4g are to spare, and it has %.3f)", ErrSetUp, LeastSetUp, spare, w.curve.Turns())
	}
	const steps = 12
	at := func(i int) float64 { return LeastSetUp + (most-LeastSetUp)*float64(i)/steps }
	lost := func(setUp float64) float64 { return -w.kept(setUp, spare) }
	best, least := 0, math.MaxFloat64
	for i := range steps {
		if v := lost(at(i)); v < least {
			best, least = i, v
		}
	}
	setUp := numeric.Minimum(at(max(best-1, 0)), math.Min(at(best+1), most*(1-1e-9)), 4e-3, lost)
	if lost(setUp) > least {
		setUp = at(best)
	}
	if clicks > 0 {
		low, high := math.Floor(setUp*clicks)/clicks, math.Ceil(setUp*clicks)/clicks
		// One that leaves the spring no turn keeps less than nothing.
		if setUp = high; low >= LeastSetUp && lost(low) < lost(high) {
			setUp = low
		}
	}
	return w.Within(setUp, spare)
}
