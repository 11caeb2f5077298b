// Package scenario reads a clock's description from a TOML file and checks it.
//
// Read and ReadFile give a Scenario, complete and checked, or Faults: everything that is wrong
// at once, each with its line, its KEY, what was found and what would do. A KEY names a number
// as TRAIN.TABLE.KEY: going.mainspring.thickness_mm. Set and SetNumber change one, Value points
// at one, Quantities lists all that may vary; whoever changed something asks Check again.
//
// Each field name ends in its unit just as its key does (millimetres, grams, megapascals …),
// also where the file has another unit of the kind (thickness_in), and package sim turns
// values into SI when it compiles a train. Unit, range, default, meaning and usual reading error of every key are one table,
// which Fields and Input give. A number that was not given and has no default is NaN; see
// Given. Values that stand for what was left out are in Scenario.Assumed. Ranges are wide,
// there to catch slips of the pen and of the unit, and, like the defaults and the reading
// errors, common practice without a source unless one is named.
//
// A Scenario is for one goroutine at a time once it is changed; Clone gives another.
package scenario

import (
	"math"

	"evenpull/sim/internal/keyline"
)

// Kinds of train.
const (
	Going    = "going"
	Striking = "striking"
)

// Kinds of fusee profile.
const (
	Measured = "measured" // a diameter at each whole turn
	Cone     = "cone"     // straight from the small to the large diameter
	Even     = "even"     // whatever makes the torque constant
	Wanted   = "wanted"   // there is no cone yet
)

// Kinds of escapement.
const (
	Recoil   = "recoil"
	Verge    = "verge"
	DeadBeat = "deadbeat"
)

// How the strip bends: as wide as it is, or, for comparison, as if it were narrow or
// held flat.
const (
	AsWide  = "wide"
	AsStrip = "strip"
	AsPlate = "plate"
)

// How the strip came by the form that it shows lying free: it set when it was first
// wound home, was made in even coils, or never took a form.
const (
	BySet      = "set"
	AsEven     = "even"
	AsStraight = "straight"
)

// What the diameters of a fusee were measured over.
const (
	OverGroove = "groove"
	OverLands  = "lands"
)

// Hands of the groove.
const (
	RightHand = "right"
	LeftHand  = "left"
)

// How the outer end of the strip is held.
const (
	Hooked = "hooked"
	Braced = "braced"
)

// Scenario is a whole clock: the place it stands in, the bands it is judged by,
// one or more trains, and how far their quantities may be from their values.
type Scenario struct {
	Source     string // where it was read from, for messages
	Title      string
	Note       string
	Place      Place
	Verdict    Bands
	Trains     []Train
	Advice     Advice
	Tolerances []Tolerance
	Assumed    []Assumption // every value left out and what was used for it

	sum      string            // of the bytes of the file, as Checksum has it
	lines    keyline.Index     // where each key stands in the file
	set      map[string]string // by spot, the KEY that Set changed it by
	supplied map[string]bool   // by spot, values that no one gave
	written  map[string]string // by spot, the keys that the file has in another unit; only ever read
}

// Assumption is a value that the file left out and the program supplied.
type Assumption struct {
	Train string // "" for what belongs to the whole clock
	Key   string // below the train, such as mainspring.modulus_gpa
	Value string // as a TOML value
	Why   string // what the value stands for, "" where it goes without saying
}

// Place is where the clock stands.
type Place struct {
	GravityMS2     float64 // m/s²
	AirDensityKgM3 float64 // kg/m³
}

// Bands are the limits of the reserve by which a train is judged.
type Bands struct {
	StopsBelow, ThinBelow, SuitsUpTo, StrongUpTo float64
}

// Advice are the rules by which something is advised: common practice, no source.
type Advice struct {
	TurnsToSpare       float64 // turns left when the fusee is wound, 0 to 20
	NoteBeyondHandbook bool    // a note where more turns are used than handbooks count
	SetUpGain          float64 // share of the unevenness that another set-up takes away, 0 to 1
	SetUpGainPoints    float64 // and by how much at least, 0 to 1
	ShortenGain        float64 // by which cutting a spring shorter must raise the share of draws that suit, 0 to 1
	EqualWithin        float64 // springs whose shares of draws that suit differ by no more are equal in that, 0 to 1
	CutAtMost          float64 // share of the groove's diameter that may come off, 0 to 1
	CutGain            float64 // share of the unevenness that a cut may leave, 0 to 1
	Historic           bool    // cutting is never advised
}

// Train is one train, from its mainspring to its escapement or fly.
type Train struct {
	Name       string
	Kind       string // Going or Striking
	Mainspring Mainspring
	Barrel     Barrel
	Line       Line
	Fusee      Fusee
	Meshes     []Mesh
	Loads      []Load
	Escapement *Escapement // going trains; nil when not given
	Pendulum   *Pendulum   // going trains; nil when not given
	Strike     *Strike     // striking trains; nil when not given
	Fly        *Fly        // striking trains; nil when not given
	Demand     Demand
}

// Mainspring is the strip. One of YieldMPa and FreeCoils is given when it is BySet,
// FreeCoils when it is AsEven, none when it is AsStraight; one of Packing and SolidTurns,
// unless SolidTurns tells the length, and one of Efficiency and FrictionCoefficient. The other is NaN.
type Mainspring struct {
	WidthMM, ThicknessMM, LengthMM float64
	ModulusGPa                     float64
	NaturalForm                    string // BySet, AsEven or AsStraight
	YieldMPa                       float64
	FreeCoils                      float64
	Bending                        string // AsWide, AsStrip or AsPlate
	Poisson                        float64
	SolidTurns                     float64 // counted from rest to solid
	Packing                        float64 // what a coil takes up over its thickness, 1 or more
	CoupleRatio                    float64 // couple that it gives over the computed one
	Efficiency                     float64
	FrictionCoefficient            float64  // between the coils
	OuterEnd                       string   // Hooked or Braced; "" without a friction coefficient
	LengthBy                       LengthBy // how LengthMM is known
	Present                        bool     // false: broken or lost, and its sizes may be NaN
}

// Barrel holds the spring inside and the line outside.
type Barrel struct {
	InsideDiameterMM  float64
	InsideHeightMM    float64
	ArborDiameterMM   float64
	OutsideDiameterMM float64
	OutsideLengthMM   float64
	SetUpTurns        float64 // NaN where the cone is wanted and it was not given
	Clicks            int     // teeth of the set-up ratchet, 1 to 200
	LayMM             float64 // advance of the line for each barrel turn; NaN: the line follows the fusee
	ArborPivotMM      float64 // diameter on which the barrel turns under the pull; NaN unless given
	PivotFriction     float64 // of barrel and fusee; NaN when neither pivot is given
}

// Line is the gut, wire or chain between fusee and barrel.
type Line struct {
	Kind             string  // "gut", "wire" or "chain"
	ThicknessMM      float64 // radial: of a chain, its height
	WidthMM          float64 // along the arbor
	Efficiency       float64
	BreakingN        float64 // NaN unless given
	FleetAngleMaxDeg float64
}

// Fusee is the cone. One of DiametersMM and Points belongs to the measured profile, the
// two other diameters to the cone (both) and the even profile (one of them); Turns and
// PitchMM may be NaN where the cone is wanted, and the limits are NaN unless given.
type Fusee struct {
	Turns            float64
	Profile          string
	DiametersMM      []float64
	Points           []Point
	Over             string  // OverGroove or OverLands: what every diameter was measured over
	LandHeightMM     float64 // of the lands over the groove bottom; NaN but for OverLands
	SmallDiameterMM  float64 // NaN unless given
	LargeDiameterMM  float64 // NaN unless given
	PitchMM          float64
	CentreDistanceMM float64 // NaN unless given
	PivotMM          float64 // diameter of the pivots, with GreatWheelMM; NaN unless given
	GreatWheelMM     float64 // diameter of the great wheel where its pinion pushes it
	PullAngleDeg     float64 // between that push and the line; NaN unless the pivots are given
	Hand             string  // of the groove: RightHand or LeftHand

	// Limits of a cone that is wanted.
	RuntimeAtLeastH   float64
	HeightAtMostMM    float64 // of the whole blank, end margins included
	DiameterAtMostMM  float64 // over the lands
	DiameterAtLeastMM float64 // groove bottom
	EndMarginMM       float64 // of bare cone beyond the groove, at each end
	ReserveWanted     float64 // mean reserve, at the least
}

// Point is a diameter measured at a fusee turn, counted from the small end.
type Point struct{ Turn, DiameterMM float64 }

// Mesh is a wheel driving a pinion. Friction takes the place of Efficiency
// when it is given.
type Mesh struct {
	Wheel, Pinion       int
	Drives              string
	Efficiency          float64 // NaN when FrictionCoefficient is given
	FrictionCoefficient float64 // NaN unless given
	DragNM              float64
}

// Load is a load at an arbor: a driven one, or "fusee". It stands, or, when
// EveryH and LastsMin are given, it comes and goes.
type Load struct {
	Arbor            string
	TorqueNM         float64
	EveryH, LastsMin float64 // NaN unless given
}

// Escapement is what the last mesh of a going train drives.
type Escapement struct {
	Kind           string // Recoil, Verge or DeadBeat
	Teeth          int
	EscapingArcDeg float64 // whole arc between the two escapes
	Drop           float64
	Efficiency     float64
	MarginDeg      float64
	ImpulseLateDeg float64 // NaN but for a dead beat
	TripDeg        float64 // NaN unless given
	RecoilRatio    float64 // couple going out over couple coming in; NaN for a dead beat

	// All three for a dead beat whose faces rub, else NaN.
	DeadFriction, PalletRadiusMM, WheelRadiusMM float64
}

// Pendulum is described by its equivalent simple pendulum: one of LengthMM and
// BeatsPerMinute is given, the other is NaN. Quality is NaN when Decay is given.
type Pendulum struct {
	LengthMM, BeatsPerMinute float64
	MassG                    float64
	Quality                  float64
	Decay                    *Decay
}

// Metres is the length of the equivalent simple pendulum (m) where gravity is so great
// (m/s²): l = g (T/2π)², two beats a period.
func (p *Pendulum) Metres(gravity float64) float64 {
	if !Given(p.BeatsPerMinute) {
		return p.LengthMM * 1e-3
	}
	perRadian := 120 / p.BeatsPerMinute / (2 * math.Pi)
	return gravity * perRadian * perRadian
}

// Decay is a free swing dying down: one of Periods and LastsS is given, the other is NaN.
type Decay struct {
	FromDeg, ToDeg float64
	Periods        float64
	LastsS         float64
}

// Count is the number of periods, each of the given seconds, that the swing was followed.
func (d *Decay) Count(period float64) float64 {
	if Given(d.Periods) {
		return d.Periods
	}
	return d.LastsS / period
}

// Strike is the pin work of a striking train.
type Strike struct {
	PinArbor    string
	Pins        int
	BlowsPer12H float64
	LiftShare   float64
	Tail        float64 // share of the work at the pins that lifts hammers
	Hammers     []Hammer
	PinSets     []PinSet // none: every pin lifts every hammer
	Timed       *Timed   // nil when not given
}

// Timed is a strike that was timed, which tells the drag coefficient of the fly: one of
// BlowIntervalS and TwelveS is given, the other is NaN.
type Timed struct {
	TorqueNM      float64 // at the fusee arbor
	BlowIntervalS float64
	TwelveS       float64 // from the first blow to the last of twelve
}

// PinSet is a number of pins in succession that lift the same hammers.
type PinSet struct {
	Pins  int
	Lifts []float64 // numbers of the hammers, from 1; none: a gap
}

// Hammer is one hammer, lifted by each pin or by those of its sets.
type Hammer struct {
	MassG, LiftMM, SpringN float64
}

// Fly is the air brake that the last mesh of a striking train drives.
type Fly struct {
	Vanes           int
	WidthMM         float64
	InnerRadiusMM   float64
	OuterRadiusMM   float64
	ThicknessMM     float64
	DensityKgM3     float64
	DragCoefficient float64 // NaN where a timed strike tells it
	InertiaGMM2     float64 // NaN unless given
}

// Demand is what the train was found to need at the fusee arbor. What was not
// found is NaN.
type Demand struct {
	LeastTorqueNM float64
	BlowIntervalS Range
	TorqueBandNM  Range
}

// Range is a pair of limits, the lower first.
type Range struct{ Lo, Hi float64 }

// Given tells whether an optional number was given.
func Given(v float64) bool { return !math.IsNaN(v) }

// Given tells whether the pair was given.
func (r Range) Given() bool { return Given(r.Lo) }
