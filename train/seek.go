package train

import (
	"math"

	"evenpull/fusee/numeric"
)

// LeastTorque is the least torque (N·m) at the fusee that keeps up striking;
// with less it stalls or stands. It may still take a run-up: see LeastFromRest.
// It is within a few rounding steps of exact, on the side that strikes; without
// hammers it is the limit, at which the train only just stands. It is +Inf where
// 1e9 is too little.
func (s *Strike) LeastTorque() float64 {
	return s.leastWhere(func(torque float64) float64 {
		pin := s.atPins(torque)
		_, least := s.cycle(pin, s.atFly(pin))
		return least
	})
}

// LeastFromRest is the least torque (N·m) at the fusee with which the train
// strikes from rest whichever pin comes first, as near as LeastTorque is: a strike leaves
// the pin wheel now here, now there. It equals LeastTorque where all pins lift the same:
// then the first blow takes u to a fixed share of what it settles to.
func (s *Strike) LeastFromRest() float64 {
	// The first blow is the hardest for every pin, since u is 0 before it.
	return s.leastWhere(func(torque float64) float64 {
		pin := s.atPins(torque)
		u, least := s.lift.decay*s.free.gain(s.atFly(pin)), math.MaxFloat64
		for i := range s.nSets {
			least = min(least, u+s.lift.gain(s.atFly(pin-s.sets[i].couple)))
		}
		return least
	})
}

// leastWhere is the torque at which a margin rises past 0, of those that move the
// train.
func (s *Strike) leastWhere(margin func(float64) float64) float64 {
	moves := crossing(func(torque float64) float64 { return s.atFly(s.atPins(torque)) }, 0)
	return crossing(margin, moves)
}

// crossing is the torque from lo on at which a rising function passes 0, within a
// few rounding steps and on the side above it; lo where it is above 0 already. It is
// +Inf beyond mostTorque.
func crossing(f func(float64) float64, lo float64) float64 {
	if f(lo) > 0 {
		return lo
	}
	for step := max(lo, 1e-12); ; step *= 4 {
		hi := min(lo+step, mostTorque)
		if f(hi) > 0 {
			_, above := numeric.Root(lo, hi, 0, f)
			return above
		}
		if !(hi < mostTorque) {
			return math.Inf(1)
		}
		lo = hi
	}
}

// rate is blows per second, 0 for a train that does not strike.
func (s *Strike) rate(torque float64) float64 { return s.Steady(torque).BlowsPerSecond }

// rateFor is the blows per second of an interval (s).
func rateFor(interval float64) (float64, error) {
	wanted := 1 / interval
	if !(wanted > 0 && wanted <= math.MaxFloat64) {
		return 0, ErrInterval
	}
	return wanted, nil
}

// missed is how far a found rate may be from the wanted one: beyond it a root
// is a jump, where the train stalls. Close to stalling the rate goes with the
// root of what is left, so that rounding shows at 1e-8.
const missed = 1e-6

// TorqueFor is the torque (N·m) at the fusee at which the mean interval (s)
// between blows in steady striking is the given one: the least that strikes at
// least as fast. Where the train stalls before it strikes so slowly that is
// LeastTorque, and the error ErrTooSlow; it fails with ErrTooFast beyond 1e9
// N·m, and with ErrInterval.
func (s *Strike) TorqueFor(interval float64) (float64, error) {
	wanted, err := rateFor(interval)
	if err != nil {
		return 0, err
	}
	lo := s.LeastTorque()
	below := math.Nextafter(wanted, 0) // so that the rate wanted itself is past it
	switch torque := crossing(func(torque float64) float64 { return s.rate(torque) - below }, lo); {
	case math.IsInf(torque, 1):
		return 0, ErrTooFast
	case torque == lo:
		return lo, ErrTooSlow
	default:
		return torque, nil
	}
}

// OuterRadiusFor is the outer radius (m) of the fly, all else the same, at which
// a torque (N·m) at the fusee brings the mean interval (s) between blows in
// steady striking to the given one. The moment of inertia follows the radius
// where it is computed; a given one stays. It fails with ErrTooSlow where a
// fly so large would stall the train, with ErrTooFast where the train strikes
// so fast with no fly that makes sense, and with ErrInterval.
func (s *Strike) OuterRadiusFor(torque, interval float64) (float64, error) {
	wanted, err := rateFor(interval)
	if err != nil {
		return 0, err
	}
	other := *s
	f := s.design.Fly
	rate := func(vane float64) float64 {
		g := f
		g.Outer = f.Inner + vane
		if other.fit(g) != nil {
			return 0
		}
		return other.rate(torque)
	}
	small := f.Outer - f.Inner
	for !(rate(small) >= wanted) {
		if small /= 2; small < 1e-9 {
			return 0, ErrTooFast
		}
	}
	large := 2 * small
	for rate(large) > wanted {
		if large *= 2; large > 1e3 {
			return 0, ErrTooSlow
		}
	}
	_, v := numeric.Root(small, large, 0, func(vane float64) float64 { return wanted - rate(vane) })
	if r := rate(v); !(math.Abs(r-wanted) <= missed*wanted) {
		return 0, ErrTooSlow
	}
	return f.Inner + v, nil
}
