package escapement

import "github.com/golang/geo/s1"

// SemiArc is an angle from the dead point to one side: an amplitude.
type SemiArc s1.Angle

// WholeArc is an angle from one side to the other: twice the semi-arc.
type WholeArc s1.Angle

// SemiDegrees is a semi-arc of d degrees.
func SemiDegrees(d float64) SemiArc { return SemiArc(s1.Angle(d) * s1.Degree) }

// WholeDegrees is a whole arc of d degrees.
func WholeDegrees(d float64) WholeArc { return WholeArc(s1.Angle(d) * s1.Degree) }

// Whole is the arc from side to side of the same swing, exactly.
func (a SemiArc) Whole() WholeArc { return WholeArc(2 * a) }

// Semi is the arc to one side of the same swing, exactly.
func (w WholeArc) Semi() SemiArc { return SemiArc(w / 2) }

// Radians is the semi-arc in radians.
func (a SemiArc) Radians() float64 { return float64(a) }

// Degrees is the semi-arc in degrees.
func (a SemiArc) Degrees() float64 { return s1.Angle(a).Degrees() }

// Radians is the whole arc in radians.
func (w WholeArc) Radians() float64 { return float64(w) }

// Degrees is the whole arc in degrees.
func (w WholeArc) Degrees() float64 { return s1.Angle(w).Degrees() }

// String says the angle and which of the two it is.
func (a SemiArc) String() string { return s1.Angle(a).String() + "° to a side" }

// String says the angle and which of the two it is.
func (w WholeArc) String() string { return s1.Angle(w).String() + "° from side to side" }
