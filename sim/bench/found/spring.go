package found

import (
	"context"
	"fmt"
	"math"
	"strings"
	"sync"

	"evenpull/sim/bench/book"
	"evenpull/sim/bench/fit"
	"evenpull/sim/bench/readings"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"

	"gonum.org/v1/gonum/mat"
)

// Spring is a spring as it was measured and as its readings tell it.
type Spring struct {
	Label, Train string   // the train it was read in
	Number       int      // of that train in the scenario
	Told         []Told   // what the readings tell of its strip
	Apart        [][2]int // places in Told of what these readings cannot tell apart
	Misfit       float64  // residuals over what scatter explains, rms
	SolidBy      float64  // fusee turns from run down at which it goes solid by all of this; NaN where SolidAt is
	Turns        int      // at which it was read
	SolidAt      float64  // fusee turns from run down at which it went solid; NaN where nobody saw it
	Counted      float64  // turns of the spring from rest to solid, where its length was not measured; else NaN
	Why          error    // why its readings tell nothing; nil when they do

	read  *readings.Spring
	own   *book.Spring // what was measured of it; nil when nothing was
	alone bool         // no other was read in its train
	home  *explained   // in the barrel of the train it was read in
	away  *away        // in others
}

// away is a spring in other barrels, each worked out once.
type away struct {
	sync.Mutex
	in []*explained
}

// explained is a spring in a barrel, as its readings have it.
type explained struct {
	there  *scenario.Scenario // with the strip as it was measured, and the barrel
	inputs []vary.Input       // of the train there
	at     []float64          // places of their parts that explain the readings best
	errors *mat.SymDense      // covariance of these places
	root   *mat.TriDense      // whose square it is, lower
	lo, hi []float64          // between which places lie
}

// springOf explains the readings of a spring in the barrel of the train they were taken in.
func (c *Clock) springOf(ctx context.Context, all []readings.Spring, i int) *Spring {
	read := &all[i]
	sp := &Spring{Label: read.Spring, Train: read.Train, Turns: len(read.Turns), SolidAt: nan, Counted: nan, read: read, alone: alone(all, i), away: new(away)}
	if sp.own = c.Book.Spring(sp.Label); sp.own != nil {
		if sp.own.Train == sp.Train || sp.own.Train == "" {
			sp.SolidAt = sp.own.SolidAtTurn
		}
	}
	if sp.Number, sp.Why = c.Scenario.Train(sp.Train); sp.Why != nil {
		return sp
	}
	f, res, err := sp.explain(ctx, c.carved, &c.carved.Trains[sp.Number].Barrel)
	if sp.Why = err; err != nil {
		return sp
	}
	sp.home = f.explained
	sp.Misfit, sp.SolidBy = f.misfit(res.B), nan
	if r, err := f.drawer.Run(f.at, nil); err == nil && !math.IsNaN(f.solid) {
		sp.SolidBy = r.Turns - r.TurnsLost
	}
	for k := range f.parts {
		if strings.HasPrefix(f.parts[k].Quantity.Key, sp.Train+".mainspring.") {
			sp.Told = append(sp.Told, f.told(k))
		}
	}
	sp.Apart = f.apart(sp.Told, res)
	return sp
}

// explain explains the readings of a spring by its strip and by all else in the train they
// were taken in, with a barrel in its place, each within its reading error: weighted least
// squares on the readings and, as if they were readings too, on what was measured before
// (Bayes' rule for normal errors). What all readings have in common, the meter's bound and
// how run-downs differ as wholes, is one more unknown.
func (sp *Spring) explain(ctx context.Context, s *scenario.Scenario, barrel *scenario.Barrel) (*fitter, *fit.Result, error) {
	if err := ctx.Err(); err != nil {
		return nil, nil, err
	}
	if sp.Turns < rules.LeastTurnsRead {
		return nil, nil, fmt.Errorf("%w: %d, want at least %d", ErrFew, sp.Turns, rules.LeastTurnsRead)
	}
	f := &fitter{explained: new(explained), solid: nan}
	var err error
	if f.there, f.given, err = stripIn(s, sp, barrel); err != nil {
		return nil, nil, err
	}
	if f.inputs, err = inputsOf(f.there, sp.Number, f.given); err != nil {
		return nil, nil, err
	}
	if err := f.begin(sp); err != nil {
		return nil, nil, err
	}
	res, err := f.solve()
	if err != nil {
		return nil, nil, err
	}
	if by := f.misfit(res.B); !(by < hopeless) {
		return nil, nil, fmt.Errorf("no strip like the one that was measured gives these readings: what is left is %.0f times what scatter explains", by)
	}
	return f, res, f.take(res)
}
