package coils

import (
	"errors"
	"math"
	"testing"

	"evenpull/fusee/mainspring"
)

// The couples of a strip of 36 × 0.38 × 1650 mm in a barrel of 45 mm with an arbor of 15 mm,
// without friction, by another solver of our own (interior point, 96 nodes a turn), at turns
// from the closed form's rest.
func TestReference(t *testing.T) {
	turns := []float64{1.046, 3.046, 5.046, 7.046, 8.546}
	for end, want := range map[mainspring.End][]float64{
		mainspring.Braced: {0.666, 1.142, 1.402, 1.666, 1.884},
		mainspring.Hooked: {0.661, 1.111, 1.396, 1.672, 1.875},
	} {
		for nodes, within := range map[int]float64{48: 0.01, 96: 0.005} {
			if testing.Short() && nodes > Usual {
				continue
			}
			b, _ := reference(t, end, 0, nodes)
			var s *Shape
			for i, at := range turns {
				if nodes > Usual && !*whole && i%3 != 0 { // a second each
					continue
				}
				s = free(t, b, at, s)
				if math.Abs(s.Couple-want[i]) > within*want[i] {
					t.Errorf("end %d, %d nodes, %.3f turns: %.4f N·m, want %.3f", end, nodes, at, s.Couple, want[i])
				}
			}
		}
	}
}

// The couple is the slope of the energy; no coil overlaps another, none pulls across a
// contact, every cell keeps its length.
func TestShape(t *testing.T) {
	for _, end := range []mainspring.End{mainspring.Hooked, mainspring.Braced} {
		b, _ := reference(t, end, 0, Usual)
		for _, at := range []float64{0.4, 3.046, 8.5} {
			s := free(t, b, at, nil)
			const by = 2e-4
			up, down := free(t, b, at+by, s), free(t, b, at-by, s)
			slope := (up.Energy - down.Energy) / (4 * math.Pi * by)
			if math.Abs(slope-s.Couple) > 1e-5*s.Couple {
				t.Errorf("end %d, %.3g turns: couple %.8g, slope of the energy %.8g", end, at, s.Couple, slope)
			}
			if s.Overlap > 1e-9 || s.Left > solved {
				t.Errorf("overlap %.3g m, left %.3g", s.Overlap, s.Left)
			}
			pressed := 0.0
			for i := range s.Inner {
				if s.Inner[i] < 0 || s.Wall[i] < 0 {
					t.Errorf("node %d is pulled: %.3g, %.3g N/m", i, s.Inner[i], s.Wall[i])
				}
				pressed = max(pressed, s.Inner[i], s.Wall[i])
				if i > 0 && !(s.Along[i] > s.Along[i-1] && s.Angle[i] > s.Angle[i-1]) {
					t.Errorf("node %d does not come after the one before", i)
				}
				lies := s.Radius[i] > b.spring.Arbor && s.Radius[i] < b.spring.Inside
				if inside := i - Usual; !lies || inside > Usual && s.Radius[i]-s.Radius[inside] < b.spring.Pitch-1e-9 {
					t.Errorf("node %d lies at %.6g m", i, s.Radius[i])
				}
			}
			if last := len(s.Along) - 1; pressed == 0 || math.Abs(s.Along[last]-b.spring.Length) > 1e-9 || math.Abs(s.Angle[last]-b.origin-2*math.Pi*at) > 1e-9 {
				t.Errorf("%.6g m long, turned by %.6g, pressed by %.3g", s.Along[last], s.Angle[last], pressed)
			}
		}
	}
}

// From wherever a search starts it ends in the same shape, and the finer the nodes the nearer
// the couples lie to each other.
func TestOneShape(t *testing.T) {
	b, _ := reference(t, mainspring.Hooked, 0, 24)
	near := free(t, b, 2, nil)
	a, c := free(t, b, 5, near), free(t, b, 5, nil)
	if math.Abs(a.Energy-c.Energy) > 1e-6*a.Energy || math.Abs(a.Couple-c.Couple) > 1e-5*a.Couple {
		t.Errorf("%.8g J from near, %.8g J from nothing", a.Energy, c.Energy)
	}
	fine, _ := reference(t, mainspring.Hooked, 0, Usual)
	middle, _ := reference(t, mainspring.Hooked, 0, 36)
	f, m := free(t, fine, 5, nil).Couple, free(t, middle, 5, nil).Couple
	if math.Abs(f-m) > math.Abs(f-a.Couple) || math.Abs(f-a.Couple) > 0.01*f {
		t.Errorf("%.5g with 24 nodes a turn, %.5g with 36, %.5g with 48", a.Couple, m, f)
	}
}

// A strip of which each element bends by itself is what the closed form computes: with the
// radii of the middle of the strip for those of arbor and wall its couple is nearly the same,
// and the energy of a shape of a strip that set hardly differs.
func TestClamped(t *testing.T) {
	b, c := reference(t, mainspring.Braced, 0, Usual)
	unit := b.spring.Stiffness / b.spring.Inside
	for _, at := range []float64{2, 4, 6, 8} {
		s := free(t, b, at, nil)
		energy, couple, ok := b.strip.clamped(b.origin + 2*math.Pi*at)
		if !ok || math.Abs(couple*unit-c.Couple(at)) > 0.015*c.Couple(at) || math.Abs(energy*unit-s.Energy) > 0.003*s.Energy {
			t.Errorf("%v turns: couple %.4g, closed form %.4g; energy %.5g, of the shape %.5g", at, couple*unit, c.Couple(at), energy*unit, s.Energy)
		}
	}
	for _, angle := range []float64{1, 1e3} {
		if _, _, ok := b.strip.clamped(angle); ok {
			t.Errorf("a strip turned by %v", angle)
		}
	}
}

// A straight strip lies more than a hundredth above that energy, from wherever it is sought:
// there that is no bound by which to refuse a shape.
func TestAboveClamped(t *testing.T) {
	b, c := barrelOf(t, mainspring.Strip{
		Width: 20e-3, Thickness: 0.4e-3, Length: 1.6, Modulus: 206e9, Bending: mainspring.Narrow,
	}, mainspring.Housing{Arbor: 8e-3, Inside: 22e-3}, mainspring.Braced, 0, Fewest)
	turns := 0.4 * c.Turns()
	near := free(t, b, turns-0.3, nil)
	p, err := b.problem(&b.strip, turns)
	if err != nil {
		t.Fatal(err)
	}
	least, _, ok := p.clamped(p.whole())
	if !ok {
		t.Fatal("there is no such strip")
	}
	for name, x := range map[string]*state{"few": p.spiral(few), "many": p.spiral(many), "near": p.carried(near.state)} {
		if x, err = p.least(x, start); err != nil {
			t.Fatal(name, err)
		}
		if energy, _, _ := p.value(x); !(energy > (1+far)*least && energy < 1.06*least) {
			t.Errorf("%s: %.5g times that of elements that bend by themselves", name, energy/least)
		}
		if err := p.sure(x); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		for i := range x.r { // another shape is refused
			x.r[i] += 0.003 * math.Sin(float64(i))
		}
		if err := p.sure(x); !errors.Is(err, ErrEnergy) {
			t.Errorf("%s: a strip bent by force is taken for one at rest: %v", name, err)
		}
	}
}

// A matrix that is that of no minimum is raised until it is one.
func TestRaised(t *testing.T) {
	b, _ := reference(t, mainspring.Braced, 0, Fewest)
	p, err := b.problem(&b.strip, 4)
	if err != nil {
		t.Fatal(err)
	}
	x, err := p.least(p.spiral(few), start)
	if err != nil {
		t.Fatal(err)
	}
	for _, pull := range []float64{0, 1e4} { // pulled so, its cells would rather be crooked
		for j := range x.pull {
			x.pull[j] += pull
		}
		p.assemble(x)
		p.addPressing(x, complete, make([]float64, p.unknowns()))
		raise, ok := p.factorRaised(0)
		positive := 0
		for _, d := range p.matrix.pivot {
			if d > 0 {
				positive++
			}
		}
		if !ok || positive != 2*(p.last-1) || (raise > 0) != (pull > 0) {
			t.Errorf("pull %v: raised by %v, %d pivots above 0 of %d", pull, raise, positive, p.unknowns())
		}
	}
}
