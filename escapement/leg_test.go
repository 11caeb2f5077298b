package escapement

import (
	"math"
	"math/rand/v2"
	"testing"
)

// A remembered time only makes it faster: whatever the stretch remembers, it
// ends when and as it would if it remembered nothing, to the last figures.
func TestMemoryChangesNothing(t *testing.T) {
	rnd := rand.New(rand.NewPCG(14, 15))
	for range 20000 {
		p := newSwinger(math.Pow(10, 5*rnd.Float64()))
		l := stretch{rest: 0.2 * (2*rnd.Float64() - 1), turns: rnd.IntN(2) == 0}
		x, v := -1.0, 0.2+rnd.Float64()
		if l.turns {
			x = 0.3 * rnd.Float64()
		} else {
			l.target = 0.3 - 0.5*rnd.Float64()
			if rnd.IntN(2) == 0 { // only just reached
				m := p.over(p.turning(x-l.rest, v))
				top, _ := p.apply(&m, x-l.rest, v)
				l.target = top + l.rest - math.Pow(10, -4-3*rnd.Float64())
			}
		}
		cold := l
		x1, v1, t1, ok := p.runCold(&cold, x-l.rest, v)
		if !ok {
			continue
		}
		blunt := 0.0 // a slow passing is told less well in time
		if !l.turns {
			blunt = 2e-15 / v1
		}
		miss := math.Pow(10, -8+8*rnd.Float64())
		l.propagator = p.over(t1 + miss*(2*rnd.Float64()-1))
		x2, v2, t2, ok := p.run(&l, x, v)
		if off := max(math.Abs(x2-x1), math.Abs(v2-v1), math.Abs(t2-t1)); !ok || !(off < 4e-15+blunt) {
			t.Fatalf("Q %g, %+v: missed by up to %.2g: (%.17g, %.17g) at %.17g, without memory (%.17g, %.17g) at %.17g",
				0.5/p.zeta, l, miss, x2, v2, t2, x1, v1, t1)
		}
	}
}

// A pendulum that turns back is seen to, whatever time is remembered.
func TestRunThatTurnsBack(t *testing.T) {
	p := newSwinger(50)
	for _, memory := range []float64{0, 0.5, 1, 1.5, 3} {
		l := stretch{target: 0.99, propagator: p.over(memory)}
		if _, _, _, ok := p.run(&l, 0, 0.99); ok {
			t.Errorf("remembering %g, it passes what it cannot reach", memory)
		}
	}
}

// From a remembered time past the turning point the way up to the target is found.
func TestRunEndsOnTheWayUp(t *testing.T) {
	p := newSwinger(50)
	up := stretch{target: 0.5}
	_, v1, t1, _ := p.run(&up, -1, 0.1)
	for s := t1; s < t1+3; s += 1e-4 {
		l := stretch{target: 0.5, propagator: p.over(s)}
		_, v2, t2, ok := p.run(&l, -1, 0.1)
		if !ok || math.Abs(t2-t1) > 1e-14 || math.Abs(v2-v1) > 1e-14 {
			t.Fatalf("remembering %g: at %g with %g, want at %g with %g", s, t2, v2, t1, v1)
		}
	}
}
