package rub

import (
	"math"
	"testing"

	"evenpull/fusee/mainspring"
)

var ends = []mainspring.End{mainspring.Hooked, mainspring.Braced}

// eightDay is an invented spring of an eight-day clock, its steel flowing at a stress (Pa).
func eightDay(t testing.TB, yield float64) *mainspring.Curve {
	t.Helper()
	c, err := mainspring.New(mainspring.Strip{
		Width: 32e-3, Thickness: 0.38e-3, Length: 1.65, Modulus: 206e9, Form: mainspring.Set, Yield: yield, Packing: 1.065,
	}, mainspring.Housing{Arbor: 7.5e-3, Inside: 22.5e-3})
	if err != nil {
		t.Fatal(err)
	}
	return &c
}

// The slope of Smooth is that of its differences, and Share swings about it: over a turn it
// comes to the same.
func TestSmooth(t *testing.T) {
	c := eightDay(t, 1620e6)
	for _, end := range ends {
		k := Of(c, 0.1, end)
		if k.Outside {
			t.Errorf("%+v: not in the table", groupsOf(c, 0.1))
		}
		for turns := 0.0; turns <= k.turns; turns += 0.0625 {
			const by = 1e-5
			up, _ := k.Smooth(turns + by)
			down, _ := k.Smooth(turns - by)
			_, slope := k.Smooth(turns)
			edge := math.Min(math.Abs(turns-least*k.turns), math.Abs(turns-most*k.turns)) < by
			if want := (up - down) / (2 * by); !edge && math.Abs(slope-want) > 1e-6 {
				t.Errorf("end %d, %.4g turns: slope %.8g, want %.8g", end, turns, slope, want)
			}
		}
		for turns := least*k.turns + 0.5; turns < most*k.turns-0.5; turns += 0.25 {
			swings, smooth := 0.0, 0.0
			const steps = 64
			for i := range steps {
				at := turns + (float64(i)+0.5)/steps - 0.5
				s, _ := k.Smooth(at)
				swings, smooth = swings+k.Share(at)/steps, smooth+s/steps
			}
			if math.Abs(swings-smooth) > 0.01 { // where the swing sets in it is not whole
				t.Errorf("end %d, %.4g turns: %.5g over a turn, smooth %.5g", end, turns, swings, smooth)
			}
		}
	}
}

// Down is the mean of the working range; outside of that what holds at its ends holds.
func TestMean(t *testing.T) {
	c := eightDay(t, 1620e6)
	for _, end := range ends {
		k := Of(c, 0.1, end)
		mean := 0.0
		const parts = 1000
		for i := range parts {
			share, _ := k.Smooth((0.1 + 0.85*(float64(i)+0.5)/parts) * c.Turns())
			mean += share / parts
		}
		if math.Abs(k.Down-mean) > 5e-4 {
			t.Errorf("end %d: %.6g, want %.6g", end, k.Down, mean)
		}
		for _, at := range []struct{ turns, as, not float64 }{{0, 0.1, 0.105}, {0.095, 0.1, 0.105}, {0.96, 0.95, 0.945}, {1, 0.95, 0.945}} {
			got, as, not := k.Share(at.turns*c.Turns()), k.Share(at.as*c.Turns()), k.Share(at.not*c.Turns())
			if got != as || got == not {
				t.Errorf("end %d: %.6g at %v of the turns, %.6g at %v, %.6g at %v", end, got, at.turns, as, at.as, not, at.not)
			}
		}
	}
}

// Springs somewhat beyond those of the table are read as such, those further off as these.
func TestEdge(t *testing.T) {
	for _, c := range []struct {
		group, read float64
		off         bool
	}{{0.3, 0.3, false}, {1.08, 1.08, false}, {1.2, 1.1, true}, {-1.08, -1.08, false}, {-1.2, -1.1, true}, {math.NaN(), math.NaN(), true}} {
		for i := range groupCount {
			var g groups
			g[i] = c.group
			if off := g.clamp(); off != c.off || g[i] != c.read && !math.IsNaN(c.read) {
				t.Errorf("group %d of %v: %v, off %v", i, c.group, g[i], off)
			}
		}
	}
	k := begin(eightDay(t, 1620e6))
	for later, want := range map[float64]float64{0.5: k.closed + 0.5, -0.5: k.closed - 0.5, -100: 0.4 * k.closed} {
		if k.leave(later); k.leaves != want {
			t.Errorf("%v turns later: %v, want %v", later, k.leaves, want)
		}
	}
}

// The more friction the less is left, also beyond the table; with none it is the shape alone.
func TestFriction(t *testing.T) {
	c := eightDay(t, 1620e6)
	for _, end := range ends {
		last, free := 1.02, Of(c, 0, end).Down
		for _, friction := range []float64{0, 0.03, 0.06, 0.09, 0.12, 0.15, 0.2, 0.3, 0.5, 1} {
			k := Of(c, friction, end)
			if !(k.Down < last && k.Down > 0.2) || math.Abs(k.Winding*k.Down-free*free) > 1e-12 {
				t.Errorf("end %d, friction %v: %.4g running down, %.4g wound, before it %.4g", end, friction, k.Down, k.Winding, last)
			}
			if outside := friction > 0.125; k.Outside != outside {
				t.Errorf("friction %v: outside %v", friction, k.Outside)
			}
			last = k.Down
		}
		if k := Of(c, 0, end); !(math.Abs(k.Down-1) < 0.03) || math.Abs(k.Winding/k.Down-1) > 1e-12 {
			t.Errorf("end %d: without friction %.4g and %.4g", end, k.Down, k.Winding)
		}
	}
	rough, rougher := Of(c, 0.3, mainspring.Hooked), Of(c, 0.45, mainspring.Hooked) // as of a rope: e^{−μα}
	if edge := Of(c, 0.15, mainspring.Hooked); math.Abs(rough.Down*rough.Down-rougher.Down*edge.Down) > 0.02 {
		t.Errorf("at friction 0.15, 0.3 and 0.45 %.4g, %.4g and %.4g are left", edge.Down, rough.Down, rougher.Down)
	}
	hooked, braced := Of(c, 0.1, mainspring.Hooked), Of(c, 0.1, mainspring.Braced)
	if !(hooked.Down < braced.Down-0.03) {
		t.Errorf("hooked %.4g, braced %.4g", hooked.Down, braced.Down)
	}
}

// Springs that the table does not have are those at its edge, and told; whatever they are, a
// share is a share.
func TestOutside(t *testing.T) {
	for _, s := range []mainspring.Strip{
		{Form: mainspring.Straight}, {Form: mainspring.Even, FreeCoils: 3}, {Form: mainspring.Set, Yield: 500e6}, {Form: mainspring.Set, Yield: 4000e6},
	} {
		s.Width, s.Modulus = 20e-3, 206e9
		for _, thickness := range []float64{0.15e-3, 0.4e-3, 1e-3} {
			for _, fill := range []float64{0.1, 0.5, 0.9} {
				in := mainspring.Housing{Arbor: 6e-3, Inside: 20e-3}
				s.Thickness = thickness
				s.Length = fill * s.LongestFor(in)
				c, err := mainspring.New(s, in)
				if err != nil {
					continue
				}
				for _, end := range ends {
					k := Of(&c, 0.1, end)
					if !k.Outside {
						t.Errorf("%+v is in the table", s)
					}
					for turns := -1.0; turns < c.Turns()+1; turns += 0.1 {
						if v := k.Share(turns); !(v > 0.4 && v < 1.2) {
							t.Fatalf("%+v at %.3g of %.3g turns: %.4g", s, turns, c.Turns(), v)
						}
					}
				}
			}
		}
	}
}

// A long strip has all that the table asks for but for its turns.
func TestTooManyTurns(t *testing.T) {
	for pitch, outside := range map[float64]bool{0.05: false, 0.047: true} {
		s := mainspring.Strip{Width: pitch, Thickness: pitch, Length: 0.5 * math.Pi * (3.4*3.4 - 1) / pitch, Modulus: 1e12, Form: mainspring.Set, Yield: 7e9}
		c, err := mainspring.New(s, mainspring.Housing{Arbor: 1, Inside: 3.4})
		if err != nil {
			t.Fatal(err)
		}
		if k := Of(&c, 0.1, mainspring.Hooked); k.Outside != outside {
			t.Errorf("%.4g turns: outside %v", c.Turns(), k.Outside)
		}
	}
}

func BenchmarkOf(b *testing.B) {
	c := eightDay(b, 1620e6)
	for b.Loop() {
		Of(c, 0.1, mainspring.Hooked)
	}
}

func BenchmarkShare(b *testing.B) {
	k := Of(eightDay(b, 1620e6), 0.1, mainspring.Hooked)
	turns := 0.0
	for b.Loop() {
		if turns += 0.1; turns > 8 {
			turns = 0
		}
		k.Share(turns)
	}
}
