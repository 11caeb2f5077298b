package found

import (
	"context"
	"errors"
	"math"
	"slices"
	"strings"

	"evenpull/sim"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"

	"gonum.org/v1/gonum/mat"
)

// In is the clock with a spring in the train with the given number. In the train it was
// read in line, fusee and barrel stay as they are: whatever is a little off in them, the
// readings have it with the spring. In another it comes in its barrel, which is taken to be
// the one that the scenario has there: that is the question when barrels were mixed up. It
// was read in that barrel then, with the set-up of the train it was read in, and comes to
// work with that of the other. How well its couple and its turns are known stands as
// tolerances of the couple's ratio and of the packing; all else of it is known then.
func (c *Clock) In(ctx context.Context, sp *Spring, number int) (*Placed, error) {
	return c.put(ctx, c.Scenario, sp, number)
}

// put puts a spring into a train of a scenario, which is the clock's but for the springs of
// other trains.
func (c *Clock) put(ctx context.Context, s *scenario.Scenario, sp *Spring, number int) (*Placed, error) {
	if sp.Why != nil {
		return nil, sp.Why
	}
	e, err := c.explainedIn(ctx, sp, &c.carved.Trains[number].Barrel)
	if err != nil {
		return nil, err
	}
	s = s.Clone()
	carve(s, number)
	p, err := e.in(s, sp.Number, number)
	if err != nil {
		return nil, err
	}
	p.Scenario = s.Clone()
	if err := p.settle(p.Scenario, number, number == sp.Number); err != nil {
		return nil, err
	}
	return p, p.Scenario.CheckTrain(number)
}

// explainedIn is a spring in a barrel, worked out once for each size.
func (c *Clock) explainedIn(ctx context.Context, sp *Spring, barrel *scenario.Barrel) (*explained, error) {
	if sameBarrel(barrel, &c.carved.Trains[sp.Number].Barrel) {
		return sp.home, nil
	}
	sp.away.Lock()
	defer sp.away.Unlock()
	for _, e := range sp.away.in {
		if sameBarrel(barrel, &e.there.Trains[sp.Number].Barrel) {
			return e, nil
		}
	}
	f, _, err := sp.explain(ctx, c.carved, barrel)
	if err != nil {
		return nil, err
	}
	sp.away.in = append(sp.away.in, f.explained)
	return f.explained, nil
}

// sameBarrel tells whether two barrels are of one size.
func sameBarrel(a, b *scenario.Barrel) bool {
	return a.InsideDiameterMM == b.InsideDiameterMM && a.ArborDiameterMM == b.ArborDiameterMM && a.OutsideDiameterMM == b.OutsideDiameterMM && a.InsideHeightMM == b.InsideHeightMM
}

// Placed is a spring in a train.
type Placed struct {
	Scenario *scenario.Scenario // as it is known best, with tolerances
	Nominal  *scenario.Scenario // as it was measured, about which the readings have it
	Inputs   []vary.Input       // what is known together by the readings, those of the strip first

	e      *explained
	kept   []int // of the parts that the readings tell, those of Inputs
	drawer *vary.Drawer
	at     []float64
	errors *mat.SymDense
	best   sim.Digest
	values []float64
	torque float64 // standard deviation of the mean torque, a share
	turns  float64 // of the turns available
}

// Parts is how many normal variates Draw takes: as many in every train.
func (p *Placed) Parts() int { return len(p.e.at) }

// Draw makes the places of the parts of Inputs of independent normal variates: they lie as
// the readings leave them open together. The same variates are the same spring in every
// train.
func (p *Placed) Draw(normal, places []float64) {
	for i, k := range p.kept {
		place := p.e.at[k]
		for j := range k + 1 {
			place += p.e.root.At(k, j) * normal[j]
		}
		places[i] = min(max(place, p.e.lo[k]), p.e.hi[k])
	}
}

// Best are the places of the parts of Inputs that explain the readings best.
func (p *Placed) Best() []float64 { return p.at }

// in puts the spring into a train of a scenario, as it was measured.
func (e *explained) in(s *scenario.Scenario, from, number int) (*Placed, error) {
	t := &s.Trains[number]
	t.Mainspring = e.there.Trains[from].Mainspring
	p := &Placed{Nominal: s, e: e}
	p.take(e, t.Name, number == from)
	m, err := vary.Draws(s, number, vary.Length, nil, p.Inputs)
	if err != nil {
		return nil, err
	}
	m.DriveOnly()
	p.drawer = vary.NewDrawer(m, p.Inputs, 0)
	return p, p.look()
}

// take keeps what goes with the spring to the train of a name; at home all of it.
func (p *Placed) take(e *explained, train string, home bool) {
	at := 0
	for _, in := range e.inputs {
		if home || goes(&in) {
			in.Parts = slices.Clone(in.Parts)
			for k := range in.Parts {
				_, below, _ := strings.Cut(in.Parts[k].Quantity.Key, ".")
				in.Parts[k].Quantity.Key = train + "." + below
				p.kept = append(p.kept, at+k)
				p.at = append(p.at, e.at[at+k])
			}
			p.Inputs = append(p.Inputs, in)
		}
		at += len(in.Parts)
	}
	p.errors = mat.NewSymDense(len(p.kept), nil)
	for i, from := range p.kept {
		for j, to := range p.kept[:i+1] {
			p.errors.SetSym(i, j, e.errors.At(from, to))
		}
	}
}

// look runs the train with the spring as it is known best, and finds how far torque and
// turns may be off.
func (p *Placed) look() error {
	r, err := p.drawer.Run(p.at, nil)
	if err != nil {
		return err
	}
	p.best, p.values = r.Digest, slices.Clone(p.drawer.At(p.at))
	n := len(p.at)
	torque, turns := mat.NewVecDense(n, nil), mat.NewVecDense(n, nil)
	const step = 0.1 // of a standard deviation of what was known before
	at := append([]float64(nil), p.at...)
	for k := range at {
		var logs, available [2]float64
		for side, by := range [2]float64{-step, step} {
			at[k] = p.at[k] + by
			logs[side], available[side] = math.Log(p.best.Torque.Mean), p.best.Spring.Available
			if r, err := p.drawer.Run(at, nil); err == nil {
				logs[side], available[side] = math.Log(r.Torque.Mean), r.Spring.Available
			}
		}
		at[k] = p.at[k]
		torque.SetVec(k, (logs[1]-logs[0])/(2*step))
		turns.SetVec(k, (available[1]-available[0])/(2*step))
	}
	p.torque = math.Sqrt(max(mat.Inner(torque, p.errors, torque), 0))
	p.turns = math.Sqrt(max(mat.Inner(turns, p.errors, turns), 0))
	return nil
}

// settle writes the spring into the scenario, with its tolerances. What is a little off in
// barrel, line and fusee goes with the couple.
func (p *Placed) settle(s *scenario.Scenario, number int, home bool) error {
	t := &s.Trains[number]
	strip := t.Name + ".mainspring."
	if !home {
		quarter := 0.25 / float64(t.Barrel.Clicks) // of a click: it is set up anew
		within(s, scenario.Tolerance{Key: t.Name + ".barrel.set_up_turns", PlusMinus: quarter, Percent: nan})
	}
	at := 0
	for i := range p.Inputs {
		in := &p.Inputs[i]
		for k := range in.Parts {
			key := in.Parts[k].Quantity.Key
			if strings.HasPrefix(key, strip) {
				if err := s.SetNumber(key, p.values[at]); err != nil {
					return err
				}
			}
			exact(s, key) // at home the set-up too: the readings have it with the rest
			at++
		}
	}
	spring := &p.best.Spring
	err := errors.Join(s.SetNumber(strip+"length_mm", 1e3*spring.Strip.Length), s.SetNumber(strip+"packing", spring.Packing))
	w, failed := sim.WindTrain(s, number)
	if err = errors.Join(err, failed); err != nil {
		return err
	}
	err = s.SetNumber(strip+"couple_ratio", t.Mainspring.CoupleRatio*p.best.Torque.Mean/w.MeanTorque())
	slope, failed := turnsByPacking(s, number)
	within(s, scenario.Tolerance{Key: strip + "couple_ratio", PlusMinus: nan, Percent: 200 * p.torque})
	within(s, scenario.Tolerance{Key: strip + "packing", PlusMinus: math.Abs(2 * p.turns / slope), Percent: nan})
	return errors.Join(err, failed)
}

// turnsByPacking is how the turns of a spring go with its packing.
func turnsByPacking(s *scenario.Scenario, number int) (float64, error) {
	const step = 1e-4
	s = s.Clone()
	a, errA := sim.WindTrain(s, number)
	s.Trains[number].Mainspring.Packing += step
	b, errB := sim.WindTrain(s, number)
	if err := errors.Join(errA, errB); err != nil {
		return 0, err
	}
	before, after := a.Curve(), b.Curve()
	return (after.Turns() - before.Turns()) / step, nil
}
