// Package setup finds the set-up of a spring that makes the torque of a train
// most even.
package setup

import (
	"context"
	"errors"
	"fmt"
	"math"

	"evenpull/sim"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"

	"github.com/golang/geo/r1"
)

const (
	steps = 120  // of the curve
	near  = 1.1  // times the best unevenness that is still called near it
	fine  = 1e-6 // turns to which the best and the ends of the range are found

	trifle = 0.001 // unevenness that nobody could tell from a better one
)

// Point is a train at one set-up.
type Point struct {
	SetUp      float64 // turns
	Unevenness float64
	CV         float64
	Mean       float64 // N·m at the fusee
	Reserve    sim.Spread
	Verdict    sim.Code
	Lost       float64 // fusee turns that the binding spring does not let be wound
}

// Study is the search carried out.
type Study struct {
	Train     *sim.Train
	Now, Best Point
	Range     r1.Interval // set-up turns that keep the unevenness within 10 % of the best, or below 0.1 %
	Most      float64     // turns of set-up with which the fusee can just be wound
	Curve     []Point     // from no set-up to Most
	Caution   string
}

// ErrNoRoom tells that the fusee takes more turns of the spring than there are.
var ErrNoRoom = errors.New("the fusee takes more turns of the spring than it has: with any set-up the spring binds before the fusee is wound")

// Run searches the set-ups with which the fusee of the train with the given
// number can be wound fully. It fails when the scenario as it is cannot be run,
// with ErrNoRoom, and with the error of ctx.
func Run(ctx context.Context, s *scenario.Scenario, number int) (*Study, error) {
	m, err := vary.New(s, number, vary.Length, s.Trains[number].Name+".barrel.set_up_turns")
	if err != nil {
		return nil, err
	}
	m.DriveOnly()
	st := &Study{}
	st.Train, st.Caution = m.Own()
	if st.Now, err = at(m, m.Nominal()[0]); err != nil {
		return nil, err
	}
	if err := st.most(m); err != nil {
		return nil, err
	}
	if err := st.curve(ctx, m); err != nil {
		return nil, err
	}
	return st, st.search(m)
}

// Cures tells that the train does not suit as it is and does with the best set-up,
// which leaves the spring turns to spare.
func (st *Study) Cures() bool {
	wrong := st.Now.Verdict != sim.Unjudged && (st.Now.Verdict != sim.Suits || st.Now.Lost > 0)
	return wrong && st.Best.Verdict == sim.Suits && st.Most-st.Best.SetUp >= spare
}

// at is the train at a set-up.
func at(m *vary.Model, setUp float64) (Point, error) {
	r, err := m.Run([]float64{setUp})
	if err != nil {
		return Point{}, err
	}
	return Point{
		SetUp: setUp, Unevenness: r.Torque.Unevenness, CV: r.Torque.CV, Mean: r.Torque.Mean, Verdict: r.Verdict.Code, Lost: r.TurnsLost,
		Reserve: sim.Spread{Mean: r.Reserve(r.Torque.Mean), Min: r.Reserve(r.Torque.Min), Max: r.Reserve(r.Torque.Max)},
	}, nil
}

// most finds the greatest set-up: what the spring has beyond the turns that the
// fusee takes, which do not depend on the set-up.
func (st *Study) most(m *vary.Model) error {
	r, err := m.Run([]float64{0})
	if err != nil {
		return err
	}
	if st.Most = r.Spring.Available - r.Spring.Used; r.TurnsLost > 0 || st.Most <= 0 {
		return fmt.Errorf("%w (it has %s)", ErrNoRoom, sim.Figure(r.Spring.Available))
	}
	return nil
}

func (st *Study) curve(ctx context.Context, m *vary.Model) error {
	st.Curve = make([]Point, steps+1)
	faults := make([]error, steps+1)
	err := m.Each(ctx, len(st.Curve), func(m *vary.Model, i int) {
		st.Curve[i], faults[i] = at(m, st.Most*(float64(i)/steps))
	})
	return errors.Join(append(faults, err)...)
}

// search goes from the best of the curve to the very best, and from there to
// the ends of the range.
func (st *Study) search(m *vary.Model) error {
	best := 0
	for i := range st.Curve {
		if st.Curve[i].Unevenness < st.Curve[best].Unevenness {
			best = i
		}
	}
	even := func(x float64) float64 {
		p, err := at(m, x)
		if err != nil {
			return math.Inf(1)
		}
		return p.Unevenness
	}
	lo, hi := st.Curve[max(best-1, 0)].SetUp, st.Curve[min(best+1, steps)].SetUp
	x := golden(even, lo, hi)
	if even(x) > st.Curve[best].Unevenness {
		x = st.Curve[best].SetUp // at an end of the curve
	}
	var err error
	if st.Best, err = at(m, x); err != nil {
		return err
	}
	if st.Now.SetUp <= st.Most && st.Now.Unevenness <= st.Best.Unevenness {
		st.Best = st.Now // as by an even cone, cut for it
	}
	limit := max(near*st.Best.Unevenness, trifle)
	st.Range = r1.Interval{Lo: st.end(even, best, -1, limit), Hi: st.end(even, best, 1, limit)}
	return nil
}

// end is the set-up, from the best one down or up, at which the unevenness passes
// the limit; the end of the curve when it does not.
func (st *Study) end(even func(float64) float64, best, step int, limit float64) float64 {
	in := st.Best.SetUp
	for i := best; i >= 0 && i <= steps; i += step {
		out := st.Curve[i].SetUp
		if (out-in)*float64(step) < 0 {
			continue // the grid's best on the other side of the very best
		}
		if st.Curve[i].Unevenness <= limit {
			in = out
			continue
		}
		for math.Abs(out-in) > fine {
			if mid := (in + out) / 2; even(mid) <= limit {
				in = mid
			} else {
				out = mid
			}
		}
		return in
	}
	return in
}

// golden is the least of a function with one trough between lo and hi, by the
// golden section.
func golden(f func(float64) float64, lo, hi float64) float64 {
	const g = 0.6180339887498949
	a, b := hi-g*(hi-lo), lo+g*(hi-lo)
	fa, fb := f(a), f(b)
	for hi-lo > fine/2 {
		if fa < fb {
			hi, b, fb = b, a, fa
			a = hi - g*(hi-lo)
			fa = f(a)
		} else {
			lo, a, fa = a, b, fb
			b = lo + g*(hi-lo)
			fb = f(b)
		}
	}
	return (lo + hi) / 2
}
