package cut

import (
	"errors"
	"fmt"
	"math"
	"sync"

	"evenpull/fusee"
	"evenpull/sim"
	"evenpull/sim/scenario"
)

// within finds the largest even profile inside the cone, with the present set-up
// and with the one that takes the least metal off.
func (k *worker) within() error {
	st := k.st
	if k.even {
		st.Nothing = true
		k.cone, k.set = st.Train.Drive.Cone, st.AsItIs.SetUp
		st.Present, st.Least = st.AsItIs, st.AsItIs
		return nil
	}
	var present, least fusee.Cutting
	var noPresent, noLeast error
	var both sync.WaitGroup
	both.Go(func() {
		present, noPresent = sparing(func(spare float64) (fusee.Cutting, error) { return k.wound.Within(st.AsItIs.SetUp, spare) })
	})
	least, noLeast = sparing(k.wound.LeastCut)
	both.Wait()
	var err error
	if st.Present, err = k.cutting(&present, noPresent); err != nil {
		return err
	}
	if st.Least, err = k.cutting(&least, noLeast); err != nil {
		return err
	}
	chosen, fault := &least, noLeast
	if st.Kept = st.KeepSetUp || noPresent == nil && st.Present.good() && !st.Least.good(); st.Kept {
		chosen, fault = &present, noPresent
	}
	switch {
	case errors.Is(fault, fusee.ErrSlack) || errors.Is(fault, fusee.ErrSetUp):
		return k.fault("fusee", fault.Error(), k.wanted(chosen, fault), fault)
	case fault != nil: // too thin: whether it suits with nothing cut can be told yet
		st.Refused = fmt.Sprintf("%v; %s", fault, k.wanted(chosen, fault))
		if noLeast == nil {
			st.Refused += "; or leave --keep-set-up out"
		}
		st.Nothing, st.Kept = true, true
		k.cone, k.set = st.Train.Drive.Cone, st.AsItIs.SetUp
		return nil
	}
	k.cone, k.set = chosen.Drive.Cone, chosen.SetUp
	return nil
}

// wanted is what would let a cone be cut that could not be.
func (k *worker) wanted(c *fusee.Cutting, fault error) string {
	switch {
	case errors.Is(fault, fusee.ErrSlack):
		return "want some set-up, or leave --keep-set-up out"
	case errors.Is(fault, fusee.ErrThin) && math.IsNaN(c.Touch):
		curve := k.wound.Curve()
		return fmt.Sprintf("want a spring with more turns than %s, or fewer fusee turns: it is the spring that leaves no room for a larger cone", sim.Figure(curve.Turns()))
	}
	return "want a larger cone, or a spring that suits this one"
}

// sparing cuts with a turn to spare, or where the spring has not so many with hardly
// any.
func sparing(cut func(spare float64) (fusee.Cutting, error)) (fusee.Cutting, error) {
	c, err := cut(spare)
	if errors.Is(err, fusee.ErrThin) || errors.Is(err, fusee.ErrSetUp) {
		return cut(leastSpare)
	}
	return c, err
}

// cutting runs the train with a cutting, or says why there is none.
func (k *worker) cutting(c *fusee.Cutting, err error) (Way, error) {
	if err != nil {
		return Way{Fault: err.Error()}, nil
	}
	_, way, err := k.drive(c.Drive.Cone, c.SetUp)
	way.Removed, way.Touch = c.Removed, c.Touch
	return way, err
}

// blank cuts a cone anew: from the end asked for, else the one that the scenario
// gives, else its large end.
func (k *worker) blank() error {
	st := k.st
	d := st.Train.Drive
	key := "fusee.large_diameter_mm"
	switch in := &k.s.Trains[k.number].Fusee; {
	case !math.IsNaN(st.Options.Small):
		d.Cone.Shape, d.Cone.End = fusee.EvenBySmall, st.Options.Small
		key = "fusee.small_diameter_mm"
	case math.IsNaN(st.Options.Large) && in.Profile == scenario.Even && scenario.Given(in.SmallDiameterMM):
		d.Cone.Shape, d.Cone.End = fusee.EvenBySmall, in.SmallDiameterMM*mm/2
		key = "fusee.small_diameter_mm"
	default:
		end, _, _ := d.Cone.Profile.At(d.Cone.Turns)
		if !math.IsNaN(st.Options.Large) {
			end = st.Options.Large
		}
		d.Cone.Shape, d.Cone.End = fusee.EvenByLarge, end
	}
	w, err := d.Wind()
	if err != nil {
		return k.endFault(key, &d, err)
	}
	curve := w.Curve()
	if left := curve.Turns() - d.Barrel.SetUp - w.SpringTurns(); left < leastSpare {
		return k.endFault(key, &d, fmt.Errorf("the spring has %s turns, and with an even cone this large it binds before the fusee is wound or just then", sim.Figure(curve.Turns())))
	}
	asked := d
	d.Cone = w.CutCone()
	if err := d.Stout(); err != nil {
		return k.endFault(key, &asked, err)
	}
	k.cone, k.set = d.Cone, d.Barrel.SetUp
	if _, st.Present, err = k.drive(k.cone, k.set); err != nil {
		return err
	}
	st.Present.Removed = math.NaN()
	st.Least = st.Present
	return nil
}

// endFault tells why no even cone comes from an end, and which ends would do.
func (k *worker) endFault(key string, d *fusee.Drive, err error) error {
	what, found := "large", err.Error()
	small, fits := k.wound.EvenEnds(leastSpare)
	if d.Cone.Shape == fusee.EvenBySmall {
		what, fits = "small", small
	}
	if errors.Is(err, fusee.ErrCentre) {
		found = fmt.Sprintf("with a %s end of %s mm fusee and barrel would meet: their arbors stand %s mm apart", what, sim.Figure(2e3*d.Cone.End), sim.Figure(1e3*d.Cone.Centre))
	}
	want := "want another set-up, fewer fusee turns, or a spring with more turns: with these no end will do"
	if !fits.IsEmpty() {
		want = fmt.Sprintf("want a %s end from %.1f to %.1f mm, another set-up, fewer fusee turns, or a spring with more turns", what, math.Ceil(2e4*fits.Lo-1e-6)/10, math.Floor(2e4*fits.Hi+1e-6)/10)
	}
	return k.fault(key, found, want, err)
}

// fault lays an error at a key of the scenario.
func (k *worker) fault(key, found, want string, err error) error {
	return &sim.Error{Fault: k.s.FaultAt(k.number, key, found, want), Err: err}
}

// judge runs the train with the cone to cut, and with the spring off its thickness.
func (k *worker) judge() error {
	m, way, err := k.drive(k.cone, k.set)
	if err != nil {
		return err
	}
	from := &k.st.Least
	if k.st.Kept {
		from = &k.st.Present
	}
	way.Removed, way.Touch = from.Removed, from.Touch
	if k.st.After = way; k.st.Refused != "" {
		k.st.After.Removed = 0
	}
	r, err := m.Run([]float64{k.set, m.Nominal()[1]})
	if err != nil {
		return err
	}
	k.st.Line, k.st.Cut, k.st.Faults = r.Line, *r.Train, r.Faults()
	k.st.judged = *r
	k.st.judged.Train, k.st.judged.Rows = &k.st.Cut, nil
	if k.st.AsItIs.Stored < way.Stored {
		k.st.Caution = sim.Caution(way.Stored)
	}
	k.st.sense(m, k.set)
	return nil
}
