package sim

import (
	"math"

	"github.com/golang/geo/r1"
)

// Code is the verdict on a drive.
type Code uint8

const (
	Unjudged   Code = iota // no need is known
	Stops                  // somewhere the torque is below the need
	Thin                   // it runs, without the reserve that dirt and cold will take
	Suits                  //
	Strong                 // more than it needs
	Overdriven             // so much more that wear or damage follows
)

var codeNames = [...]string{"", "stops", "thin", "suits", "strong", "overdriven"}

// String is the code as results write it; "" when unjudged.
func (c Code) String() string { return codeNames[c] }

// Basis is what a verdict was judged by.
type Basis uint8

const (
	ByNothing Basis = iota
	ByReserve       // torque over the least needed
	ByBand          // the torques liked at the bench
	ByCadence       // the torques that strike as fast as wanted
)

// Verdict is the judgement of a run. Its words come from Result.Reasons and
// Result.Faults.
type Verdict struct {
	Code     Code
	Basis    Basis
	LoadsOff Code // what it would be with every load off; Unjudged where there are none
}

// bandStrong is how far above the liked band a striking train's mean is still
// called strong (common practice, no source).
const bandStrong = 1.25

// judge sets the verdict: a striking train's by a torque band or by its cadence,
// everything else by the reserve.
func (r *Result) judge() {
	if band, basis := r.Train.Liked(); basis != ByNothing {
		r.Verdict = Verdict{Code: r.byBand(band), Basis: basis}
		return
	}
	if math.IsNaN(r.Need.Used) {
		return
	}
	r.Verdict = Verdict{Code: r.byReserve(r.Need.Used), Basis: ByReserve}
	if r.Need.LoadsOff < r.Need.Used {
		r.Verdict.LoadsOff = r.byReserve(max(r.Need.LoadsOff, 0))
	}
}

// Margins tell how far a run stands from each limit of its verdict, as a share
// of the limit: the least torque above what stops it and above what is thin, the
// mean above what suits and above what is strong. They change smoothly where the
// inputs do, and the code changes where one of them passes 0. Those of a limit
// that is not known are NaN.
func (r *Result) Margins() [4]float64 {
	need, b := r.Need.Used, r.Train.Bands
	over := func(torque, limit float64) float64 { return torque/limit - 1 }
	stops := over(r.Torque.Min, need*b.Stops)
	if band, basis := r.Train.Liked(); basis != ByNothing {
		return [4]float64{stops, over(r.Torque.Min, band.Lo), over(r.Torque.Mean, band.Hi), over(r.Torque.Mean, StrongAbove(band))}
	}
	return [4]float64{stops, over(r.Torque.Min, need*b.Thin), over(r.Torque.Mean, need*b.Suits), over(r.Torque.Mean, need*b.Strong)}
}

// byReserve is the verdict for a need (N·m).
func (r *Result) byReserve(need float64) Code {
	return r.Train.Bands.OfReserve(r.Torque.Min/need, r.Torque.Mean/need)
}

// OfReserve is the verdict on the least and the mean reserve of a run.
func (b Bands) OfReserve(least, mean float64) Code {
	switch {
	case least < b.Stops:
		return Stops
	case least < b.Thin:
		return Thin
	case mean <= b.Suits:
		return Suits
	case mean <= b.Strong:
		return Strong
	}
	return Overdriven
}

// Liked is the band of torques (N·m) by which a striking train is judged, and
// where it comes from: from the bench, or else from the cadence wanted.
func (t *Train) Liked() (r1.Interval, Basis) {
	switch {
	case t.Kind == Striking && !t.Demand.Band.IsEmpty():
		return t.Demand.Band, ByBand
	case t.Strikes && !t.Striker.Interval.IsEmpty():
		return r1.Interval{Lo: t.Striker.Slow, Hi: t.Striker.Fast}, ByCadence
	}
	return r1.EmptyInterval(), ByNothing
}

func (r *Result) byBand(band r1.Interval) Code {
	return r.Train.Bands.OfBand(r.Torque.Min, r.Torque.Mean, r.Need.Used, band)
}

// OfBand is the verdict on the least and the mean torque of a striking train
// (N·m), from its need, NaN when not known, and the torques liked.
func (b Bands) OfBand(least, mean, need float64, liked r1.Interval) Code {
	switch {
	case least/need < b.Stops: // false when no need is known
		return Stops
	case least < liked.Lo:
		return Thin
	case mean <= liked.Hi:
		return Suits
	case mean <= StrongAbove(liked):
		return Strong
	}
	return Overdriven
}

// StrongAbove is the mean torque (N·m) up to which a striking train is called
// strong, from the band liked at the bench.
func StrongAbove(liked r1.Interval) float64 { return bandStrong * liked.Hi }
