package choose

import (
	"fmt"
	"math"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/show/words"
)

// Ideal is the spring that brings the mean torque to the target, of a width, set up
// to be most even with the spare turns left, cut so that it fills the barrel as the
// present one does; where its turns hold the set-up back and that is more even, half
// of the barrel, which gives the most turns.
type Ideal struct {
	Width      float64 // mm
	Fill       float64 // share of the barrel
	Thickness  float64 // mm; NaN when none does
	Length     float64 // mm
	Thumb      float64 // mm, the thickness by the rule of thumb
	Spacers    float64 // mm
	SetUp      float64 // turns
	Left       float64 // turns of the spring when the fusee is wound
	Mean       float64 // N·m
	Reserve    sim.Spread
	Unevenness float64
	Verdict    rules.Code
	Reasons    []string
	Faults     []string
	Tolerance  Tolerance // each strip cut to the same fill
	Fault      string    // why there is none
}

// shares are the widths looked at, as shares of the barrel's full width.
var shares = [...]float64{1, 0.9, 0.8, 0.7}

const (
	thinnest, thickest = 0.02, 10 // mm, of a strip in a scenario
	narrowest          = 0.5      // mm
)

// ideals finds the ideal springs, and what tolerance the best candidate allows, if
// there is one.
func (st *Study) ideals() {
	f := newFitter(st.shop)
	full := micro(st.shop.height - st.shop.shake)
	for i, share := range shares {
		width := full
		if i > 0 {
			width = math.Round(full*share*10) / 10
		}
		if width >= narrowest {
			st.Ideals = append(st.Ideals, st.ideal(f, width))
		}
	}
	st.Tolerance = noTolerance
	if len(st.Candidates) > 0 && st.Candidates[0].Refused == "" {
		c := &st.Candidates[0]
		f.strip = f.stripOf(&c.Spring)
		st.Tolerance = around(c.ThicknessMM, func(h float64) bool {
			return f.suits(c.WidthMM, h, c.CutTo, c.SetUp)
		})
	}
}

// half is the share of the barrel at which a spring has the most turns.
const half = 0.5

// ideal finds the thickness and the set-up for a width.
func (st *Study) ideal(f *fitter, width float64) Ideal {
	id := st.filling(f, width, st.Present.Fill)
	if id.Fault == "" && id.Left > spare+1.0/stepsPerTurn {
		return id
	}
	// The turns hold the set-up back.
	other := st.filling(f, width, half)
	switch {
	case other.Fault != "":
		return id
	case id.Fault != "" || id.scant() && !other.scant(), other.scant() == id.scant() && other.Unevenness < id.Unevenness:
		return other
	}
	return id
}

// scant tells that fewer turns are left than are wanted, but for the rounding of
// the last thickness.
func (id *Ideal) scant() bool { return id.Left < spare-1e-6 }

// filling is ideal for a share of the barrel that is filled.
func (st *Study) filling(f *fitter, width, fill float64) Ideal {
	p, nan := &st.Present, math.NaN()
	f.fill, f.setUp = fill, st.shop.setUp
	id := Ideal{Width: width, Fill: fill, Thickness: nan, Length: nan, SetUp: nan, Left: nan, Mean: nan, Unevenness: nan, Tolerance: noTolerance,
		Reserve: sim.Spread{Mean: nan, Min: nan, Max: nan},
		Spacers: st.shop.spacersFor(width), Thumb: p.Thickness * math.Cbrt(st.Target.Mean/p.Mean*p.Width/width)}
	m := f.settle(st.Target.Mean, width, id.Thumb)
	if !m.ok || m.binds {
		id.Fault = fmt.Sprintf("no thickness brings the mean torque to %s N·m: a spring thick enough has too few turns", words.Figure(st.Target.Mean))
		return id
	}
	h := m.thickness
	f.setUp = float64(m.setUp) / stepsPerTurn
	f.own()
	r := f.whole(width, h, f.lengthFor(h), f.setUp)
	if r == nil {
		id.Fault = "it cannot be run"
		return id
	}
	id.Thickness, id.Length, id.SetUp = h, f.lengthFor(h), f.setUp
	id.judged(r)
	id.Tolerance = around(h, func(h float64) bool { return f.suits(width, h, f.lengthFor(h), f.setUp) })
	return id
}

// judged takes over what a run tells.
func (id *Ideal) judged(r *sim.Result) {
	id.Mean, id.Unevenness = r.Torque.Mean, r.Torque.Unevenness
	id.Left = r.Spring.Available - r.Spring.Used - id.SetUp
	id.Verdict, id.Reasons, id.Faults = r.Verdict.Code, words.Reasons(&r.Digest), words.Faults(&r.Digest)
	id.Reserve = sim.Spread{Mean: r.Reserve(r.Torque.Mean), Min: r.Reserve(r.Torque.Min), Max: r.Reserve(r.Torque.Max)}
	if id.scant() {
		id.Faults = append(id.Faults, fewLeft(id.Left))
	}
}

// sound tells whether the spring can be ordered as it stands.
func (id *Ideal) sound() bool {
	return id.Fault == "" && id.Verdict == rules.Suits && len(id.Faults) == 0
}

// whole runs the whole train down with the strip at hand at a size in mm; nil when
// it cannot be run.
func (f *fitter) whole(width, thickness, length, setUp float64) *sim.Result {
	d := &f.train.Drive
	d.Spring = f.strip
	d.Spring.Width, d.Spring.Thickness, d.Spring.Length = width*mm, thickness*mm, length*mm
	d.Barrel.SetUp = setUp
	if err := f.train.Run(sim.Options{}, &f.result); err != nil {
		return nil
	}
	return &f.result
}
