package fusee

import (
	"math"

	"github.com/golang/geo/s1"
)

// Pivots are what turns under the pull of the line: the barrel on its arbor and the
// fusee on its pivots. Those whose radius is 0 are not known and lose nothing here.
type Pivots struct {
	Friction float64  // coefficient of both, 0 to 1
	Barrel   float64  // m, radius of the arbor where the barrel turns on it
	Fusee    float64  // m, radius of the fusee's pivots; then with Wheel
	Wheel    float64  // m, radius of the great wheel at which its pinion pushes it
	Pull     s1.Angle // between that push and the line
}

// bearing is the fusee on its pivots, a = μ rp. The zero bearing loses nothing.
//
// Line and pinion load it with |F + W|, F the tension and W = Tf/rg the push of the
// pinion at the angle α to it, so that with T = ηl F ρ
//
//	Tf = T − a √(F² + W² + 2FW cos α)
//
// All of it goes with F: Tf/F hangs on T/F alone.
type bearing struct {
	a      float64 // m
	perRg  float64 // 1/m
	q      float64 // a/rg
	cosine float64 // of α
	sine2  float64 // its sine squared
}

func (p *Pivots) bearing() bearing {
	if p.Fusee == 0 {
		return bearing{}
	}
	cos := math.Cos(float64(p.Pull))
	b := bearing{a: p.Friction * p.Fusee, perRg: 1 / p.Wheel, cosine: cos, sine2: 1 - cos*cos}
	b.q = b.a * b.perRg
	return b
}

// passes is Tf/F where T/F is t (m): the smaller root of
// (1 − q²)x² − 2(t + a q cos α)x + t² − a², written without cancellation; 0 where
// the line cannot turn the fusee. The other root is that of a pinion that pulls.
func (b *bearing) passes(t float64) float64 {
	if t <= b.a {
		return 0
	}
	u := t * b.perRg
	root := b.a * math.Sqrt(1+u*(u+2*b.cosine)-b.q*b.q*b.sine2)
	return (t*t - b.a*b.a) / (t + b.a*b.q*b.cosine + root)
}

// asks is the inverse of passes: T/F where Tf/F is x (m).
func (b *bearing) asks(x float64) float64 {
	u := x * b.perRg
	return x + b.a*math.Sqrt(1+u*(u+2*b.cosine))
}

// slope is that of asks.
func (b *bearing) slope(x float64) float64 {
	u := x * b.perRg
	return 1 + b.q*(u+b.cosine)/math.Sqrt(1+u*(u+2*b.cosine))
}

// share is the part S of the work that passes the fusee's pivots along an even
// profile, where v = F/Tf (1/m): 1/(1 + a √(v² + 1/rg² + 2 (v/rg) cos α)).
func (b *bearing) share(v float64) float64 {
	return 1 / (1 + b.a*math.Sqrt(v*v+b.perRg*(b.perRg+2*v*b.cosine)))
}

// bear works out what line and pivots do to the torque: pull and push are the
// tension over the spring's couple, running down and winding. While winding the
// clicks free the great wheel of its pinion, and every loss turns round.
func (w *Wound) bear() {
	d := &w.drive
	off := d.Pivots.Friction * d.Pivots.Barrel
	w.fusee = d.Pivots.bearing()
	w.perRb = 1 / w.rb
	down, up := d.Efficiency, 1/d.Efficiency
	if w.rub != nil { // running down it is found at each turn
		down, up = 1, w.rub.Winding
	}
	w.pull, w.push = down/(w.rb+off), up/(w.rb-off)
	w.loss, w.perLoss = d.Line.Efficiency*w.pull*w.rb, w.push*w.rb/d.Line.Efficiency
}

// Harder is the tension while winding over that running down, at the same turn; where coil
// friction is told by its coefficient, as it is in the mean.
func (w *Wound) Harder() float64 {
	if w.rub != nil {
		return w.push / (w.pull * w.rub.Down)
	}
	return w.push / w.pull
}

// MeanTorque is the mean of Torque over the run (N·m): the work of the spring, less
// the losses, over the angle turned. It is exact, but for 1e-6 of itself where the
// share that the fusee's pivots lose changes along a cone, and some 1e-4 where that of the
// coils does.
func (w *Wound) MeanTorque() float64 {
	passed := w.Work()
	switch {
	case w.drive.Cone.Shape != Cut && (w.fusee.a > 0 || w.rub != nil):
		return w.loss * w.even * w.swings()
	case w.fusee.a > 0 || w.rub != nil:
		passed = w.passed()
	}
	return w.loss * passed / (2 * math.Pi * (w.Turns() - w.start))
}

// passed is ∫S dE over the run, S being the share that passes coils and fusee's pivots:
// that in the middle for all of it, and by points on each turn what is more or less.
func (w *Wound) passed() float64 {
	share := func(turns, rho float64) float64 {
		t, s := w.drive.Line.Efficiency*rho, 1.0
		if w.rub != nil {
			s = w.rub.Share(turns)
		}
		if w.fusee.a > 0 {
			s *= w.fusee.passes(t) / t
		}
		return s
	}
	at := (w.start + w.Turns()) / 2
	rho, _ := w.radius(at)
	middle := share(w.turnsAt(at), rho)
	sum := w.alongTurns(func(theta float64) float64 {
		rho, _ := w.radius(theta)
		turns := w.turnsAt(theta)
		return w.curve.Couple(turns) * rho * (share(turns, rho) - middle)
	})
	return middle*w.Work() + 2*math.Pi*w.perRb*sum
}

// swings is the mean, along an even profile, of what the coils let through over the share
// that it was cut for: 1 but for what their swing adds.
func (w *Wound) swings() float64 {
	if w.rub == nil {
		return 1
	}
	return w.alongTurns(func(theta float64) float64 {
		turns, _, _ := w.evenAt(theta)
		smooth, _ := w.rub.Smooth(turns)
		return w.rub.Share(turns) / smooth
	}) / (w.Turns() - w.start)
}

// alongTurns integrates over the run by two points on each turn of the fusee, or on each
// half of one where the coils swing.
func (w *Wound) alongTurns(f func(theta float64) float64) (sum float64) {
	parts := 1.0
	if w.rub != nil {
		parts = 2
	}
	for a, n := w.start, w.Turns(); a < n; {
		b := min((math.Floor(a*parts)+1)/parts, n)
		for _, at := range &pair {
			sum += (b - a) / 2 * f(a+(b-a)*at)
		}
		a = b
	}
	return sum
}
