package train

import (
	"fmt"

	"evenpull/fusee/numeric"
)

// The drag coefficients of a fly among which DragFor and DragForTwelve look: far below
// and far above those of any plate.
const (
	LeastDrag = 0.01
	MostDrag  = 10.0
)

// DragCoefficient is the drag coefficient Cd of the fly.
func (s *Strike) DragCoefficient() float64 { return s.design.Fly.DragCoefficient }

// DragFor is the drag coefficient of the fly, all else the same, with which a torque
// (N·m) at the fusee strikes at the given mean interval (s) in steady striking: that
// rises strictly with the coefficient, up to where the train stalls. It fails with a
// Fault: ErrNoDrive where the mean couple over a blow is not above 0, ErrTooSlow where
// the train stalls before, ErrTooFast, and with ErrInterval.
func (s *Strike) DragFor(torque, interval float64) (float64, error) {
	return s.dragWhere(torque, interval, func(o *Strike) float64 { return o.rate(torque) })
}

// DragForTwelve is DragFor by the time (s) from the first to the last blow of a strike
// of twelve from rest.
func (s *Strike) DragForTwelve(torque, seconds float64) (float64, error) {
	return s.dragWhere(torque, seconds, func(o *Strike) float64 {
		all := o.Twelve(torque)
		if all.Status != Strikes {
			return 0
		}
		return 1 / all.Blown
	})
}

// dragWhere is the coefficient at which a rate, 0 for a train that stalls, is that of a
// time.
func (s *Strike) dragWhere(torque, seconds float64, rate func(*Strike) float64) (float64, error) {
	wanted, err := rateFor(seconds)
	if err != nil {
		return 0, err
	}
	if mean := s.meanCouple(torque); !(mean > 0) {
		return 0, Fault{ErrNoDrive, "torque", torque, fmt.Sprintf("N·m, more: in the mean of a blow %.3g mN·m are left for the fly", mean*1e3)}
	}
	other := *s
	at := func(drag float64) float64 {
		f := s.design.Fly
		f.DragCoefficient = drag
		if other.fit(f) != nil {
			return 0
		}
		return rate(&other)
	}
	refuse := func(kind error, wants string, rate float64) (float64, error) {
		return 0, Fault{kind, "time", seconds, fmt.Sprintf("%s it takes %.3g s", wants, 1/rate)}
	}
	quickest, slowest := at(LeastDrag), at(MostDrag)
	switch {
	case quickest == 0:
		return 0, Fault{ErrNoDrive, "torque", torque, "N·m, more: with hardly any drag it stalls"}
	case quickest < wanted:
		return refuse(ErrTooFast, "more, since with hardly any drag", quickest)
	case slowest >= wanted:
		return refuse(ErrTooSlow, fmt.Sprintf("less, since with a drag coefficient of %g", MostDrag), slowest)
	}
	drag, _ := numeric.Root(LeastDrag, MostDrag, 0, func(drag float64) float64 { return wanted - at(drag) })
	if r := at(drag); r > wanted*(1+missed) {
		return refuse(ErrTooSlow, "less, since where it stalls", r)
	}
	return drag, nil
}

// meanCouple is the mean over a turn of the pin wheel of what drives the fly (N·m), its
// drag left out.
func (s *Strike) meanCouple(torque float64) float64 {
	pin, share := s.atPins(torque), s.design.LiftShare
	mean := (1 - share) * s.atFly(pin)
	for i := range s.nSets {
		p := &s.sets[i]
		mean += share * s.atFly(pin-p.couple) * float64(p.count) / float64(s.pins)
	}
	return mean
}
