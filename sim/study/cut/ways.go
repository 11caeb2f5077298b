package cut

import (
	"errors"
	"fmt"
	"math"
	"sync"

	"evenpull/fusee"
	"evenpull/sim/scenario"
)

// within finds the largest even profile inside the cone, with the present set-up
// and with the one that takes the least metal off.
func (k *worker) within() error {
	st := k.st
	if k.s.Trains[k.number].Fusee.Profile == scenario.Even && st.Now.TurnsLost == 0 {
		k.leave()
		st.Present, st.Least = st.After, st.After
		return nil
	}
	var present, least fusee.Cutting
	var noPresent, noLeast error
	both(
		func() {
			present, noPresent = k.sparing(func(spare float64) (fusee.Cutting, error) { return k.wound.Within(st.Now.Spring.SetUp, spare) })
		},
		func() {
			least, noLeast = k.sparing(func(spare float64) (fusee.Cutting, error) { return k.wound.LeastCutByClicks(spare, st.Now.Clicks) })
		})
	var err error
	if st.Present, err = k.cutting(&present, noPresent); err != nil {
		return err
	}
	if st.Least, err = k.cutting(&least, noLeast); err != nil {
		return err
	}
	chosen, fault := &least, noLeast
	st.After = st.Least
	if st.Kept = st.KeepSetUp || st.better(&st.Present, &st.Least); st.Kept {
		chosen, fault, st.After = &present, noPresent, st.Present
	}
	switch {
	case errors.Is(fault, fusee.ErrSlack):
		return k.fault("fusee", fault.Error(), "want some set-up, or leave --keep-set-up out", fault)
	case errors.Is(fault, fusee.ErrSetUp):
		return k.fault("fusee", fault.Error(), "want a spring with more turns, or less set-up", fault)
	case fault != nil: // too thin: whether it suits with nothing cut can be told yet
		st.Refused, st.Binding = fault, math.IsNaN(chosen.Touch)
		k.leave()
		return nil
	}
	k.cone = chosen.Drive.Cone
	return nil
}

// leave leaves the cone as it is.
func (k *worker) leave() {
	st := k.st
	st.Nothing = true
	st.After = Way{Digest: st.Now, Removal: Removal{Touch: math.NaN()}}
	k.cone = st.Train.Drive.Cone
}

// better tells whether a way of cutting is to be taken although the other takes less
// metal off: its verdict is better, or it alone is advised.
func (st *Study) better(a, b *Way) bool {
	if a.Fault != nil || b.Fault != nil {
		return a.Fault == nil
	}
	x, y := a.Standing(), b.Standing()
	return x.Beats(&y) || !y.Beats(&x) && st.finding(a).Advised && !st.finding(b).Advised
}

// sparing cuts with the turns to spare, or where the spring has not so many with
// hardly any.
func (k *worker) sparing(cut func(spare float64) (fusee.Cutting, error)) (fusee.Cutting, error) {
	now := &k.st.Now
	c, err := cut(max(now.Advice.TurnsToSpare+now.Spring.Available-now.Reckoned(), leastSpare))
	if errors.Is(err, fusee.ErrThin) || errors.Is(err, fusee.ErrSetUp) {
		return cut(leastSpare)
	}
	return c, err
}

// both does two things at once.
func both(one, other func()) {
	var g sync.WaitGroup
	g.Go(one)
	other()
	g.Wait()
}

// cutting runs the train with a cutting, or says why there is none.
func (k *worker) cutting(c *fusee.Cutting, err error) (Way, error) {
	if err != nil {
		return Way{Fault: err}, nil
	}
	way, err := k.drive(c.Drive.Cone, c.SetUp)
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
		return k.endFault(key, &d, fmt.Errorf("the spring has %.3g turns, and with an even cone this large it binds before the fusee is wound or just then", curve.Turns()))
	}
	asked := d
	d.Cone = w.CutCone()
	if err := d.Stout(); err != nil {
		return k.endFault(key, &asked, err)
	}
	k.cone = d.Cone
	st.After, err = k.drive(k.cone, d.Barrel.SetUp)
	return err
}

// endFault tells why no even cone comes from an end, and which ends would do.
func (k *worker) endFault(key string, d *fusee.Drive, err error) error {
	what, found := "large", err.Error()
	small, fits := k.wound.EvenEnds(leastSpare)
	if d.Cone.Shape == fusee.EvenBySmall {
		what, fits = "small", small
	}
	if errors.Is(err, fusee.ErrCentre) {
		found = fmt.Sprintf("with a %s end of %.4g mm fusee and barrel would meet: their arbors stand %.1f mm apart", what, d.Cone.End*2/mm, d.Cone.Centre/mm)
	}
	want := "want another set-up, fewer fusee turns, or a spring with more turns: with these no end will do"
	if !fits.IsEmpty() {
		from, to := tenths(fits.Lo, fits.Hi)
		want = fmt.Sprintf("want a %s end from %.1f to %.1f mm, another set-up, fewer fusee turns, or a spring with more turns", what, from, to)
	}
	return k.fault(key, found, want, err)
}

// tenths is a range of radii (m) in diameters (mm), in whole tenths that lie within it
// but for the rounding of binary fractions.
func tenths(lo, hi float64) (from, to float64) {
	return math.Ceil(2e4*lo-1e-6) / 10, math.Floor(2e4*hi+1e-6) / 10
}
