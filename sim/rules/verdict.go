// Package rules holds what a drive is judged by and what is advised: the bands of the verdict,
// the limits beyond which something is a fault, and the rules of advice. Every command asks
// here, so that none can advise what another advises against. It gives codes and figures;
// package words makes the sentences.
//
// The reserve is the torque over the need, both in N·m at the fusee arbor. A going train is
// judged by the least reserve of the run (stops, thin) and then by the mean (suits, strong,
// overdriven); a striking train by the torques that were liked at the bench or that strike as
// fast as is wanted, where these are known. The first that can decide does: see Basis.
//
// Without a statement to the contrary figures are pure numbers. They are common practice
// without a published source unless one is named; [verdict] and [advice] of a scenario change
// them. None of them knows of wear, dirt or cracks.
package rules

import (
	"fmt"
	"math"

	"github.com/golang/geo/r1"
)

// Code is the verdict on a drive.
type Code uint8

const (
	Unjudged   Code = iota // no need is known
	Stops                  // somewhere the torque is below the need
	Thin                   // it runs, without the reserve that dirt and cold will take
	Suits                  // it runs, with reserve enough and not too much
	Strong                 // more than it needs
	Overdriven             // so much more that wear or damage follows
)

var codeNames = [...]string{"", "stops", "thin", "suits", "strong", "overdriven"}

// String is the code as results write it; "" when unjudged.
func (c Code) String() string {
	if int(c) < len(codeNames) {
		return codeNames[c]
	}
	return fmt.Sprintf("code %d", uint8(c))
}

// BestFirst are the verdicts in the order of advice: of two that do not suit the
// one that goes comes before the one that stops. What is not judged is last.
func BestFirst() [6]Code { return [...]Code{Suits, Strong, Thin, Overdriven, Stops, Unjudged} }

// Place is the place of a code in BestFirst, from 0.
func (c Code) Place() int {
	order := BestFirst()
	for i := range order {
		if order[i] == c {
			return i
		}
	}
	return len(order)
}

// Better tells whether a verdict is better than another. What is not judged is
// neither better nor worse.
func (c Code) Better(than Code) bool {
	return c != Unjudged && than != Unjudged && c.Place() < than.Place()
}

// AtBestThin is the verdict on a pendulum that no torque gives the margin asked for.
func AtBestThin(c Code) Code {
	if c.Better(Thin) {
		return Thin
	}
	return c
}

// Basis is what a verdict was judged by.
type Basis uint8

const (
	ByNothing Basis = iota // no need is known
	ByReserve              // torque over the least needed
	ByBand                 // the torques liked at the bench
	ByCadence              // the torques that strike as fast as wanted
)

// Bands are the reserves (pure numbers) by which a drive is judged: the least of the run
// below Stops or Thin, the mean up to Suits or Strong.
type Bands struct{ Stops, Thin, Suits, Strong float64 }

// DefaultBands are those that hold where a scenario says nothing else: 1, 1.15, 1.6 and 2
// (common practice, no source).
func DefaultBands() Bands { return Bands{1, 1.15, 1.6, 2} }

// strongBand is how far above the torques liked the mean of a striking train is
// still called strong.
const strongBand = 1.25

// StrongBand is the factor, 1.25 (common practice, no source), on the greatest torque liked
// up to which the mean of a striking train is called strong.
const StrongBand = strongBand

// Standard is what the torques of one train are judged by. Torques are in N·m at
// the fusee arbor.
type Standard struct {
	Need  float64 // the least that the train runs on; NaN when not known
	Bands Bands
	Liked r1.Interval // of a striking train; used when Basis is ByBand or ByCadence
	Basis Basis       // the first that can decide
}

// NewStandard chooses the basis: the torques liked at the bench, else those that
// strike as fast as wanted, else the reserve over the need. An interval that is
// not known is empty.
func NewStandard(need float64, b Bands, liked, cadence r1.Interval) Standard {
	s := Standard{Need: need, Bands: b, Liked: r1.EmptyInterval()}
	switch {
	case !liked.IsEmpty():
		s.Liked, s.Basis = liked, ByBand
	case !cadence.IsEmpty():
		s.Liked, s.Basis = cadence, ByCadence
	case !math.IsNaN(need):
		s.Basis = ByReserve
	}
	return s
}

// Timed is the standard with the torques that were found at the bench to strike as
// fast as wanted in place of computed ones; an empty interval changes nothing. The
// torques liked stand before both.
func (s Standard) Timed(cadence r1.Interval) Standard {
	if s.Basis == ByBand || cadence.IsEmpty() {
		return s
	}
	return NewStandard(s.Need, s.Bands, r1.EmptyInterval(), cadence)
}

// byBand tells whether the torques liked decide, once the train runs at all.
func (s *Standard) byBand() bool { return s.Basis == ByBand || s.Basis == ByCadence }

// Judge is the verdict on the least and the mean torque of a run.
func (s *Standard) Judge(least, mean float64) Code {
	at := s.Limits()
	switch {
	case s.Basis == ByNothing:
		return Unjudged
	case s.stops(least):
		return Stops
	case s.byBand() && least < at[1], !s.byBand() && least/s.Need < s.Bands.Thin:
		return Thin
	case s.under(mean, at[2], s.Bands.Suits):
		return Suits
	case s.under(mean, at[3], s.Bands.Strong):
		return Strong
	}
	return Overdriven
}

// stops is false when no need is known.
func (s *Standard) stops(least float64) bool { return least/s.Need < s.Bands.Stops }

// under compares a mean with a limit: as a torque, or as a reserve.
func (s *Standard) under(mean, limit, reserve float64) bool {
	if s.byBand() {
		return mean <= limit
	}
	return mean/s.Need <= reserve
}

// Limits are the torques at which the verdict changes: the least below which the
// train stops, the least below which it is thin, the mean up to which it suits and
// up to which it is strong. NaN where not known.
func (s *Standard) Limits() [4]float64 {
	stops := s.Need * s.Bands.Stops
	if s.byBand() {
		return [4]float64{stops, s.Liked.Lo, s.Liked.Hi, strongBand * s.Liked.Hi}
	}
	return [4]float64{stops, s.Need * s.Bands.Thin, s.Need * s.Bands.Suits, s.Need * s.Bands.Strong}
}

// Range is the torques (N·m) of one verdict.
type Range struct {
	Code
	r1.Interval
}

// Ranges are those of the verdicts, rising from 0 to infinity without gaps; none where
// nothing is known. Below the need the train stops, whatever else is liked there.
func (s *Standard) Ranges() []Range {
	if s.Basis == ByNothing {
		return nil
	}
	var list []Range
	at, lo := s.Limits(), 0.0
	for i, hi := range append(at[:], math.Inf(1)) {
		if !math.IsNaN(hi) { // no need is known
			hi = math.Max(lo, hi)
			list = append(list, Range{Stops + Code(i), r1.Interval{Lo: lo, Hi: hi}})
			lo = hi
		}
	}
	return list
}

// Margins tell how far a run is from each limit, as a share of it: the least
// torque above what stops it and above what is thin, the mean above what suits and
// above what is strong. They change smoothly where the inputs do, and the verdict
// changes where one of them passes 0. NaN for a limit that is not known.
func (s *Standard) Margins(least, mean float64) [4]float64 {
	at := s.Limits()
	return [4]float64{least/at[0] - 1, least/at[1] - 1, mean/at[2] - 1, mean/at[3] - 1}
}

// Inside is how far a run lies inside the limits of what suits, below 0 outside: the lesser of
// the logarithms of the least torque over the lower one, and of the upper one over the mean.
func (s *Standard) Inside(least, mean float64) float64 {
	m := s.Margins(least, mean)
	low, high := math.Log1p(m[1]), -math.Log1p(m[2])
	if math.IsNaN(high) || low < high {
		return low
	}
	return high
}

// ByMargins is the verdict that Margins tell: only their signs count, and a limit that is
// not known stops nothing.
func ByMargins(m [4]float64) Code {
	switch {
	case m[0] < 0:
		return Stops
	case m[1] < 0:
		return Thin
	case m[2] <= 0:
		return Suits
	case m[3] <= 0:
		return Strong
	}
	return Overdriven
}

// Suiting is the range of torque that suits: the least from its lower end, the mean
// up to its upper one. Below the need nothing suits.
func (s *Standard) Suiting() r1.Interval {
	at := s.Limits()
	lo := at[1]
	if at[0] > lo {
		lo = at[0]
	}
	return r1.Interval{Lo: lo, Hi: at[2]}
}

// Reserve is a torque over the need; NaN when that is not known.
func (s *Standard) Reserve(torque float64) float64 { return torque / s.Need }
