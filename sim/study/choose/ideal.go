package choose

import (
	"math"

	"evenpull/sim"
	"evenpull/sim/study/setup"
)

// Ideal is the spring that brings the mean torque to the target, of a width, cut so
// that it fills the barrel as the present one does; where its turns hold the set-up
// back and that is better, half of the barrel, which gives the most turns.
type Ideal struct {
	Width     float64 // mm
	Spacers   float64 // mm
	Fill      float64 // share of the barrel
	Thumb     float64 // mm, the thickness by the rule of thumb, that torque goes with its cube and with the width; NaN where there is no spring to reckon it from
	Thickness float64 // mm; NaN when none brings the mean torque to the target
	Length    float64 // mm
	Digest    sim.Digest
	Ordered   Ordered // where it can be ordered
}

// Found tells whether any thickness brings the mean torque to the target.
func (id *Ideal) Found() bool { return id.Thickness > 0 }

// Run is the run-down with the spring; nil where there is none.
func (id *Ideal) Run() *sim.Digest { return id.Digest.Where(id.Found()) }

// Ordered is an ideal spring in the sizes that strips are sold in, which the figures
// are of: hundredths of a millimetre of thickness (common practice, no source), or
// thousandths where these are too coarse, and whole millimetres of length.
type Ordered struct {
	Thickness, Length float64 // mm
	Decimals          int     // of the thickness
	Digest            sim.Digest
	Tolerance         Tolerance // each strip cut to the same fill
}

// Known tells whether the spring can be ordered.
func (o *Ordered) Known() bool { return o.Thickness > 0 }

// shares are the widths looked at, as shares of the greatest that the barrel takes.
var shares = [...]float64{1, 0.9, 0.8, 0.7}

const (
	thinnest, thickest = 0.02, 10 // mm, of a strip in a scenario
	narrowest          = 0.5      // mm
	half               = 0.5      // share of the barrel at which a spring has the most turns
)

// ideals finds the springs to have made.
func (st *Study) ideals() {
	f := newFitter(&st.shop)
	full := micro(st.Height - st.EndShake)
	for i, share := range shares {
		width := full
		if i > 0 {
			width = math.Round(full*share*10) / 10
		}
		if width >= narrowest {
			st.Ideals = append(st.Ideals, st.ideal(f, width))
		}
	}
}

// ideal finds thickness and set-up for a width, and what of it can be ordered.
func (st *Study) ideal(f *fitter, width float64) Ideal {
	id := st.filling(f, width, st.Present.Digest.Spring.Fill)
	if !id.Found() || !f.advice.Spares(id.Digest.Spare()-1/f.train.Clicks) { // the turns hold the set-up back
		if other := st.filling(f, width, half); other.Found() && (!id.Found() || setup.Preferred([]sim.Digest{id.Digest, other.Digest}) == 1) {
			id = other
		}
	}
	if id.Found() && advised(&id.Digest) {
		id.order(&made{fitter: f, width: width, fill: id.Fill})
	}
	return id
}

// filling is ideal for a share of the barrel that is filled: of the strips that give
// the mean torque, each with another set-up, the one that the rules prefer.
func (st *Study) filling(f *fitter, width, fill float64) Ideal {
	p, m := &st.Present, made{fitter: f, width: width, fill: fill}
	about := p.Thickness * math.Cbrt(st.Target.Mean/p.Digest.Torque.Mean*p.Width/width)
	id := Ideal{Width: width, Spacers: f.spacersFor(width), Fill: fill, Thickness: math.NaN(), Length: math.NaN(), Thumb: about}
	if st.Lost {
		id.Thumb = math.NaN()
	}
	at := func(click int) float64 { return float64(click) / f.train.Clicks }
	h, ok := m.thickness(st.Target.Mean, about, 0) // what is set up more has fewer turns for the fusee
	var list []sim.Digest
	var thick []float64
	spares := true
	for click := 0; ok && spares && at(click) <= setup.MostTurns; click++ {
		r, err := m.run(h, at(click), sim.Options{TorqueOnly: true})
		if err != nil || r.TurnsLost > 0 {
			break
		}
		list, thick = append(list, r.Digest), append(thick, h)
		spares = f.advice.Spares(r.Spare()) || !f.advice.Spares(list[0].Spare())
		h, ok = m.thickness(st.Target.Mean, h, at(click+1))
	}
	if len(list) == 0 {
		return id
	}
	best := setup.Fitted(list, int(math.Round(f.present)))
	if r, err := m.run(thick[best], at(best), sim.Options{}); err == nil {
		id.Thickness, id.Length, id.Digest = thick[best], m.length(thick[best]), r.Digest
	}
	return id
}

// order rounds the spring to sizes that are sold, and sets it up as any other.
func (id *Ideal) order(m *made) {
	for decimals := 2; decimals <= 3 && !id.Ordered.Known(); decimals++ {
		scale := math.Pow10(decimals)
		o := Ordered{Decimals: decimals, Thickness: math.Round(id.Thickness*scale) / scale}
		if o.Thickness < 0.1 && decimals == 2 {
			continue
		}
		o.Length = math.Round(m.length(o.Thickness))
		m.strip = m.madeOf(m.width, o.Thickness, o.Length)
		d, err := m.fitter.setUp()
		if err != nil || !advised(d) {
			continue
		}
		o.Digest = *d
		if o.Tolerance = around(o.Thickness, func(h float64) bool {
			r, err := m.run(h, o.Digest.Spring.SetUp, sim.Options{})
			return err == nil && advised(&r.Digest)
		}); o.Tolerance.Known() {
			id.Ordered = o
		}
	}
}
