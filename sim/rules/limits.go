package rules

// Limits beyond which something does not fit or is unsafe whatever the torque.
const (
	// NearBreaking is the share of the line's breaking strength from which on it is
	// called near: a safety of two.
	NearBreaking = 0.5
	// HardStrip is the stress (Pa) that no hardened spring strip bears: tensile
	// strengths of EN 10132-4 end near 2100 MPa (from memory).
	HardStrip = 2100e6
	// SoftStrip is the flow stress (Pa) below which the coils that a strip shows lying
	// free tell of another spring, another barrel or a stretch by hand (common practice,
	// no source).
	SoftStrip = 900e6
	// LoosePacking is the packing above which a count of turns is asked about (common
	// practice, no source).
	LoosePacking = 1.4
	// SpareOfCounted are the turns to spare of those counted from rest to solid, which
	// leave nothing to guess (common practice, no source).
	SpareOfCounted = 0.25
	// UntimedCadence is the share by which a cadence may be off where the drag of the fly
	// is that of any: the air near it turns with it, and coefficients are from wind
	// tunnels. FliesFrom and FliesTo are the coefficients beyond which a timed strike is
	// asked about (all common practice, no source).
	UntimedCadence = 0.25
	FliesFrom      = 0.5
	FliesTo        = 3.0
	// TightArbor is the least arbor diameter over strip thickness; bent more sharply
	// the innermost coil breaks.
	TightArbor = 15.0
	// LeastFloat is the end float (m) below which the coils rub on the caps; about
	// 1 mm is wanted.
	LeastFloat = 0.2e-3
	// NeedsApart is the share by which measured and predicted need may differ before
	// it is noted.
	NeedsApart = 0.25
	// NeedsDiffer is the share by which the needs by weights and by scenario may differ
	// before it is said that they are two.
	NeedsDiffer = 0.01
	// LeastTurnsRead are the turns that readings are to be at to tell of a spring: three
	// for couple, slope and bend (common practice, no source).
	LeastTurnsRead = 3
	// WildRatio is how many times what is predicted readings may be, or one over it,
	// before a unit is thought mistaken.
	WildRatio = 3.0
	// PoorFit is the χ² per degree of freedom above which the inputs fitted are said not
	// to explain the readings: two standard deviations are left in the mean.
	PoorFit = 4.0
	// Together is the share of a variance from which on it is worth telling that inputs
	// have it only together, and TogetherErrors how many standard errors of its own it is
	// to be above 0 (of eight samples: 98 in 100 sure) before that is believed.
	Together       = 0.05
	TogetherErrors = 3.0
	// LeastShare is the share of a variance below which an input is not worth a row.
	LeastShare = 0.005
	// RoughQuality is the quality of a pendulum below which averages over a period are
	// out by more than a hundredth.
	RoughQuality = 40.0
	// TargetReserve is the mean reserve aimed at when none is asked for: within what
	// suits, with room on both sides.
	TargetReserve = 1.3
	// Fullest is the share of the barrel's free area that a strip may fill: the rest
	// goes to coils that do not pack perfectly, and to the hooks.
	Fullest = 0.95
	// EndShake is the room (mm) that spring and spacers are to leave in the barrel.
	EndShake = 1.0
)
