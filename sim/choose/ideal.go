package choose

import (
	"fmt"
	"math"

	"evenpull/fusee/mainspring"
	"evenpull/sim"
)

// Ideal is the spring that brings the mean torque to the target, of a width, with
// the present set-up, cut so that it fills the barrel as the present one does; where
// it would bind like that, half of the barrel, which gives the most turns.
type Ideal struct {
	Width     float64 // mm
	Fill      float64 // share of the barrel
	Thickness float64 // mm; NaN when none does
	Length    float64 // mm
	Thumb     float64 // mm, the thickness by the rule of thumb
	Spacers   float64 // mm
	Mean      float64 // N·m
	Reserve   sim.Spread
	Evenness  float64
	Lost      float64 // fusee turns, since it binds
	Verdict   sim.Code
	Faults    []string
	Tolerance Tolerance // each strip cut to the same fill
	Fault     string    // why there is none
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

// ideal finds the thickness for a width.
func (st *Study) ideal(f *fitter, width float64) Ideal {
	id := st.filling(f, width, st.Present.Fill)
	if id.Lost > 0 || id.Fault != "" {
		if other := st.filling(f, width, half); other.Fault == "" && other.Lost == 0 {
			return other
		}
	}
	return id
}

// filling is ideal for a share of the barrel that is filled.
func (st *Study) filling(f *fitter, width, fill float64) Ideal {
	p := &st.Present
	f.fill = fill
	id := Ideal{Width: width, Fill: fill, Thickness: math.NaN(), Length: math.NaN(), Mean: math.NaN(), Evenness: math.NaN(), Tolerance: noTolerance,
		Reserve: sim.Spread{Mean: math.NaN(), Min: math.NaN(), Max: math.NaN()},
		Spacers: st.shop.spacersFor(width), Thumb: p.Thickness * math.Cbrt(st.Target.Mean/p.Mean*p.Width/width)}
	f.own()
	h, ok := f.thicknessFor(st.Target.Mean, width, id.Thumb)
	if !ok {
		id.Fault = fmt.Sprintf("no thickness brings the mean torque to %s N·m with the present set-up: a spring thick enough has too few turns", sim.Figure(st.Target.Mean))
		return id
	}
	id.Thickness, id.Length = h, f.lengthFor(h)
	r := f.whole(width, h, id.Length, p.SetUp)
	if r == nil {
		id.Fault, id.Thickness = "it cannot be run", math.NaN()
		return id
	}
	id.Mean, id.Evenness, id.Lost = r.Torque.Mean, r.Torque.Evenness, r.TurnsLost
	id.Verdict, id.Faults = r.Verdict.Code, r.Faults()
	id.Reserve = sim.Spread{Mean: r.Reserve(r.Torque.Mean), Min: r.Reserve(r.Torque.Min), Max: r.Reserve(r.Torque.Max)}
	id.Tolerance = around(h, func(h float64) bool { return f.suits(width, h, f.lengthFor(h), p.SetUp) })
	return id
}

// own makes the strip one of the scenario's own steel.
func (f *fitter) own() {
	f.strip = f.base
	f.strip.Form, f.strip.Yield, f.strip.FreeCoils = f.steel.Form, f.steel.Yield, 0
}

// lengthFor is the length (mm) at which a strip of a thickness fills the barrel to
// the share that is held.
func (f *fitter) lengthFor(thickness float64) float64 {
	strip := mainspring.Strip{Thickness: thickness * mm}
	return f.fill * strip.LongestFor(f.train.Drive.Housing) / mm
}

// meanOf is the mean torque (N·m) of a strip of the own steel, width and thickness
// in mm, with the present set-up; NaN when it cannot be run.
func (f *fitter) meanOf(width, thickness float64) float64 {
	f.own()
	d := &f.drive.Drive
	d.Spring = f.strip
	d.Spring.Width, d.Spring.Thickness, d.Spring.Length = width*mm, thickness*mm, f.lengthFor(thickness)*mm
	d.Barrel.SetUp = f.setUp
	if err := f.drive.Run(sim.Options{}, &f.result); err != nil {
		return math.NaN()
	}
	return f.result.Torque.Mean
}

// thicknessFor finds the thickness (mm) that gives a mean torque, near a guess: the
// torque grows with it, until so few turns are left that nothing can be wound.
func (f *fitter) thicknessFor(mean, width, guess float64) (float64, bool) {
	enough := func(h float64) bool { return !(f.meanOf(width, h) < mean) } // what cannot be run is too thick
	lo := max(thinnest, min(guess, thickest))
	for ; enough(lo); lo /= 1.05 {
		if lo <= thinnest {
			return 0, false
		}
	}
	hi := lo
	for ; !enough(hi); hi *= 1.05 {
		if hi >= thickest {
			return 0, false
		}
	}
	for range 60 {
		mid := math.Sqrt(lo * hi)
		if !(mid > lo && mid < hi) {
			break
		}
		if enough(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi, math.Abs(f.meanOf(width, hi)/mean-1) < 1e-6
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
