package train

import (
	"math"
	"math/rand/v2"
	"testing"
)

// oracle integrates J ω' = T(ψ) − c ω² in time by the classical Runge–Kutta
// method, phase by phase. It shares no formula with the closed forms, and works
// the couples out anew from the meshes.
type oracle struct {
	d             StrikeDesign
	drag, inertia float64
	pitch         float64
	steps         int // a phase
}

func newOracle(d StrikeDesign) oracle {
	f, o := d.Fly, oracle{d: d}
	for i := range 4000 { // midpoints over a vane
		h := (f.Outer - f.Inner) / 4000
		r := f.Inner + (float64(i)+0.5)*h
		o.drag += float64(f.Vanes) * 0.5 * d.AirDensity * f.DragCoefficient * f.Width * r * r * r * h
		o.inertia += float64(f.Vanes) * f.Density * f.Width * f.Thickness * (r*r + f.Thickness*f.Thickness/12) * h
	}
	o.pitch = 2 * math.Pi
	for _, m := range d.Meshes[d.PinArbor:] {
		o.pitch *= float64(m.Wheel) / float64(m.Pinion)
	}
	o.pitch /= float64(o.pins())
	return o
}

func (o *oracle) pins() (n int) {
	for _, p := range o.d.Pins {
		n += p.Count
	}
	return n
}

// couple at the fly, with a set's hammers (nil for none) on the pin.
func (o *oracle) couple(torque float64, hammers []Hammer) float64 {
	loads := func(arbor int) (sum float64) {
		for _, l := range o.d.Loads {
			if l.Arbor == arbor {
				sum += l.Torque
			}
		}
		return sum
	}
	torque -= loads(0)
	for i, m := range o.d.Meshes {
		if i == o.d.PinArbor {
			w := 0.0
			for _, h := range hammers {
				w += h.Lift * (h.Mass*o.d.Gravity + h.Spring)
			}
			torque -= w / o.d.TailEfficiency / (o.d.LiftShare * 2 * math.Pi / float64(o.pins()))
		}
		eff := m.Efficiency
		if torque < 0 {
			eff = 1 / eff
		}
		torque = torque*eff*float64(m.Pinion)/float64(m.Wheel) - m.Drag - loads(i+1)
	}
	return torque
}

// phase runs through an angle; the time is below 0 when it stalls.
func (o *oracle) phase(w, angle, couple float64) (end, seconds, drag float64) {
	acc := func(w float64) float64 { return (couple - o.drag*w*w) / o.inertia }
	psi, work := 0.0, 0.0
	rk := func(w, h float64) (w1, turned, spent float64) {
		k1 := acc(w)
		w2 := w + h/2*k1
		k2 := acc(w2)
		w3 := w + h/2*k2
		k3 := acc(w3)
		w4 := w + h*k3
		k4 := acc(w4)
		c := func(w float64) float64 { return o.drag * w * w * w }
		return w + h/6*(k1+2*k2+2*k3+k4), h / 6 * (w + 2*w2 + 2*w3 + w4), h / 6 * (c(w) + 2*c(w2) + 2*c(w3) + c(w4))
	}
	// Steps follow the speed, so that a start from rest has enough of them.
	for {
		h := 2 * angle / float64(o.steps) / (w + math.Sqrt(w*w+4*math.Abs(acc(w))*angle/float64(o.steps)))
		w1, turned, spent := rk(w, h)
		if w1 <= 0 {
			return 0, -1, 0
		}
		if psi+turned >= angle {
			for range 60 { // the step that lands on the angle
				w1, turned, spent = rk(w, h)
				if math.Abs(angle-psi-turned) < 1e-15*angle {
					break
				}
				h += (angle - psi - turned) / w1
			}
			return w1, seconds + h, work + spent
		}
		w, psi, seconds, work = w1, psi+turned, seconds+h, work+spent
	}
}

// turn of the pin wheel from a speed; ok is false when it stalls.
func (o *oracle) turn(torque, w float64) (end, freely, lifting, drag float64, ok bool) {
	free := o.couple(torque, nil)
	for _, p := range o.d.Pins {
		lift := o.couple(torque, p.Hammers)
		for range p.Count {
			w1, t1, d1 := o.phase(w, o.pitch*(1-o.d.LiftShare), free)
			w2, t2, d2 := o.phase(w1, o.pitch*o.d.LiftShare, lift)
			if t1 < 0 || t2 < 0 {
				return 0, 0, 0, 0, false
			}
			w, freely, lifting, drag = w2, freely+t1, lifting+t2, drag+d1+d2
		}
	}
	return w, freely, lifting, drag, true
}

// settle goes on until the turn repeats.
func (o *oracle) settle(torque float64) (freely, lifting, drag float64, ok bool) {
	w := 2 * math.Sqrt(math.Max(o.couple(torque, nil), 0)/o.drag)
	for range 500 {
		end, f, l, d, ok := o.turn(torque, w)
		if !ok {
			return 0, 0, 0, false
		}
		if math.Abs(end-w) < 1e-12*w {
			n := float64(o.pins())
			return f / n, l / n, d / n, true
		}
		w = end
	}
	return 0, 0, 0, false
}

// fromRest is the time of n blows, 0 when one stalls.
func (o *oracle) fromRest(torque float64, n int) float64 {
	w, total, done := 0.0, 0.0, 0
	for {
		for _, p := range o.d.Pins {
			for range p.Count {
				w1, t1, _ := o.phase(w, o.pitch*(1-o.d.LiftShare), o.couple(torque, nil))
				w2, t2, _ := o.phase(w1, o.pitch*o.d.LiftShare, o.couple(torque, p.Hammers))
				if t1 < 0 || t2 < 0 {
					return 0
				}
				w, total, done = w2, total+t1+t2, done+1
				if done == n {
					return total
				}
			}
		}
	}
}

// converged halves the step until a figure stays within 1e-8.
func converged(o oracle, f func(o *oracle) float64) float64 {
	o.steps = 40
	last := f(&o)
	for o.steps < 4000 {
		o.steps *= 2
		now := f(&o)
		if math.Abs(now-last) <= 1e-8*math.Abs(now) {
			return now
		}
		last = now
	}
	return math.NaN()
}

// The closed forms against integration, over random trains from just above
// stalling to seven times that.
func TestAgainstIntegration(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 1))
	worst, rests := 0.0, 0
	same := func(what string, got, want float64) {
		t.Helper()
		closeTo(t, what, got, want, 1e-6)
		worst = max(worst, math.Abs(got/want-1))
	}
	for range 60 {
		d, s := randomStrike(t, rnd)
		o, torque := newOracle(d), s.LeastTorque()*(1.003+6*math.Pow(rnd.Float64(), 4))
		c := s.Steady(torque)
		if c.Status != Strikes {
			t.Fatalf("%v above the least torque", c.Status)
		}
		same("free", c.FreeSeconds, converged(o, func(o *oracle) float64 { f, _, _, _ := o.settle(torque); return f }))
		same("lifting", c.LiftSeconds, converged(o, func(o *oracle) float64 { _, l, _, _ := o.settle(torque); return l }))
		same("work of the fly", s.Power(torque).Fly, converged(o, func(o *oracle) float64 { _, _, d, _ := o.settle(torque); return d }))
		run := s.Twelve(torque)
		if want := converged(o, func(o *oracle) float64 { return o.fromRest(torque, 12) }); run.Status == Strikes {
			same("twelve from rest", run.Seconds(), want)
			rests++
		} else if want != 0 {
			t.Errorf("%v from rest, though integrated it strikes in %g s", run.Status, want)
		}
		o.steps = 1000
		if _, _, _, ok := o.settle(0.999 * s.LeastTorque()); ok {
			t.Error("strikes by integration on less than the least torque")
		}
		if _, _, _, ok := o.settle(1.001 * s.LeastTorque()); !ok {
			t.Error("stalls by integration on more than the least torque")
		}
	}
	t.Logf("60 trains, %d of them from rest: worst difference %.2g", rests, worst)
	if rests < 20 || rests == 60 {
		t.Errorf("%d of 60 strike from rest: the family says too little", rests)
	}
}
