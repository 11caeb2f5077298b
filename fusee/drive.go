package fusee

import (
	"errors"

	"evenpull/fusee/mainspring"
	"evenpull/fusee/mainspring/rub"

	"github.com/golang/geo/s1"
)

// Shape tells how the cone is described.
type Shape uint8

const (
	Cut         Shape = iota // a profile given by its radii: measured, or a straight cone
	EvenBySmall              // the profile that makes the torque constant, its small end given
	EvenByLarge              // the same, its large end given
)

// Barrel is the going barrel's outside, and how it is set up. Its inside is
// the mainspring's housing.
type Barrel struct {
	Radius float64 // m, where the line lies
	Length float64 // m, room for the line along the arbor
	Height float64 // m, inside, between the caps
	SetUp  float64 // turns left in the spring when the fusee is run down
	Lay    float64 // m along the barrel for each of its turns; 0: the line follows the fusee
}

// Line is the gut, wire or chain.
type Line struct {
	Thickness  float64  // m, radial: of a chain, its height
	Width      float64  // m, along the arbor
	Efficiency float64  // share of the work it passes on
	Breaking   float64  // N; 0 when not known
	FleetMax   s1.Angle // the greatest fleet angle that stays in the groove
}

// Cone is the fusee. Radii are those of the groove bottoms.
type Cone struct {
	Turns   float64 // turns of the fusee from wound to run down, above 0
	Shape   Shape   // which of Profile and End tells its form
	Profile Profile // for Cut
	End     float64 // m, radius of the end given, for the even shapes
	Pitch   float64 // m, advance of the groove a turn
	Left    bool    // the groove is a left-hand one; else right-hand
	Centre  float64 // m, between the arbors of fusee and barrel; 0 when not known
}

// Drive is all that pulls: the inputs of this package. SI throughout.
type Drive struct {
	Spring     mainspring.Strip   // the mainspring
	Housing    mainspring.Housing // the inside of the barrel, and its arbor
	Efficiency float64            // η, share of the couple that coil friction leaves running down, above 0 to 1; 0: by Friction
	Friction   float64            // coefficient between the coils, 0 to 1, from which that share is found at each turn
	End        mainspring.End     // how the outer end is held, for that
	Barrel     Barrel             // its outside and the set-up
	Line       Line               // gut, wire or chain
	Cone       Cone               // the fusee
	Pivots     Pivots             // zero: lossless, or their loss is in Line.Efficiency
}

// Passes is the share of a spring's couple that passes its coils running down, at turns from
// rest.
func (d *Drive) Passes(c *mainspring.Curve) func(turns float64) float64 {
	if d.Efficiency == 0 {
		return rub.Of(c, d.Friction, d.End).Share
	}
	return func(float64) float64 { return d.Efficiency }
}

// Evenly is Passes without its swing, for which even cones are cut.
func (d *Drive) Evenly(c *mainspring.Curve) func(turns float64) float64 {
	if d.Efficiency > 0 {
		return d.Passes(c)
	}
	k := rub.Of(c, d.Friction, d.End)
	return func(turns float64) float64 {
		share, _ := k.Smooth(turns)
		return share
	}
}

// Errors of Wind beside those of package mainspring.
var (
	ErrSetUp  = errors.New("the set-up alone winds the spring home: no turn is left for the fusee")
	ErrSlack  = errors.New("without set-up the torque falls to nothing and no cone can even it out")
	ErrEven   = errors.New("no even profile from this small end: the fusee would take more turns of the spring than there are")
	ErrTurns  = errors.New("the points of a cone need rising turns from 0 at the small end")
	ErrThin   = errors.New("the even profile would be thinner than the line's own middle somewhere")
	ErrCentre = errors.New("the even profile grows so large that fusee and barrel would meet")
)
