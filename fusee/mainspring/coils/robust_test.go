package coils

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"evenpull/fusee/mainspring"
)

// Strips of any kind come to a shape or to a refusal, soon: straight, evenly coiled and deeply
// set, in nearly empty and nearly full barrels, thin and thick.
func TestAnyStrip(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes seconds")
	}
	r := rand.New(rand.NewPCG(5, 7))
	tried, found := 0, 0
	for tried < 14 {
		arbor := 4e-3 + 8e-3*r.Float64()
		in := mainspring.Housing{Arbor: arbor, Inside: arbor * (2 + 2*r.Float64())}
		s := mainspring.Strip{
			Width: 20e-3, Thickness: arbor * (0.02 + 0.06*r.Float64()), Modulus: 206e9, Bending: mainspring.Narrow,
			Form: mainspring.Form(r.IntN(3)), Yield: 800e6 + 1200e6*r.Float64(), FreeCoils: 4 * r.Float64(), Packing: 1 + 0.1*r.Float64(),
		}
		s.Length = (0.15 + 0.82*r.Float64()) * s.LongestFor(in)
		c, err := mainspring.New(s, in)
		if err != nil {
			continue
		}
		b, err := NewBarrel(Of(&c, mainspring.End(r.IntN(2)), 0.1*r.Float64()), c.Angle(0), 24)
		if errors.Is(err, ErrFew) {
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		tried++
		turns := (0.05 + 0.9*r.Float64()) * c.Turns()
		begun := time.Now()
		x, err := b.Free(turns, nil)
		if err == nil {
			x, err = b.Slide(turns*0.98, x)
		}
		if took := time.Since(begun); took > 20*time.Second {
			t.Errorf("%+v in %+v at %.4g turns took %v", s, in, turns, took)
		}
		switch {
		case err == nil:
			found++
			if math.IsNaN(x.Couple) || x.Left > solved || x.Overlap > 1e-9 || x.Couple < -0.2*c.MaxCouple() || x.Couple > 3*c.MaxCouple() {
				t.Errorf("%+v in %+v at %.4g turns: %.4g N·m, closed form %.4g; left %.3g", s, in, turns, x.Couple, c.Couple(turns), x.Left)
			}
		case testing.Verbose():
			t.Logf("form %d end %d fill %.2f h/r %.3f R/r %.2f at %.3g of %.3g: %v", s.Form, b.spring.End, s.Fill(in), s.Thickness/arbor, in.Inside/arbor, turns, c.Turns(), err)
		case !errors.Is(err, ErrDiverged) && !errors.Is(err, ErrEnergy):
			t.Errorf("%+v in %+v at %.4g turns: %v", s, in, turns, err)
		}
	}
	if found < 13 {
		t.Errorf("shapes of %d of %d strips", found, tried)
	}
}

// Where nothing is wound nothing slides, and what friction holds stays held.
func TestNothingSlides(t *testing.T) {
	b, _ := reference(t, mainspring.Hooked, 0.1, Fewest)
	x, err := b.Slide(3.1, free(t, b, 3, nil))
	if err != nil {
		t.Fatal(err)
	}
	if y, err := b.Slide(3.1, x); err != nil || y.Couple != x.Couple || y.Rubbed != 0 || x.Rubbed == 0 {
		t.Errorf("%.6g N·m, then %+v, %v", x.Couple, y, err)
	}
}

// What is no spring is told.
func TestNoSpring(t *testing.T) {
	b, c := reference(t, mainspring.Hooked, 0.1, Fewest)
	good := b.spring
	for name, change := range map[string]func(s *Spring){
		"no length":         func(s *Spring) { s.Length = 0 },
		"infinite":          func(s *Spring) { s.Stiffness = math.Inf(1) },
		"no number":         func(s *Spring) { s.Arbor = math.NaN() },
		"no room":           func(s *Spring) { s.Inside = s.Arbor + s.Pitch },
		"much friction":     func(s *Spring) { s.Friction = 0.6 },
		"negative friction": func(s *Spring) { s.Friction = -0.1 },
		"no natural form":   func(s *Spring) { s.Natural = nil },
	} {
		s := good
		change(&s)
		if _, err := NewBarrel(s, c.Angle(0), Usual); !errors.Is(err, ErrSpring) {
			t.Errorf("%s: %v", name, err)
		}
	}
	for _, nodes := range []int{0, Fewest - 1, MostNodes + 1} {
		if _, err := NewBarrel(good, c.Angle(0), nodes); err == nil {
			t.Errorf("%d nodes a turn", nodes)
		}
	}
	if _, err := NewBarrel(good, 3, Usual); !errors.Is(err, ErrFew) {
		t.Error(err)
	}
	if _, err := b.Free(-20, nil); !errors.Is(err, ErrFew) {
		t.Error(err)
	}
}

func BenchmarkCold(b *testing.B) {
	barrel, _ := reference(b, mainspring.Hooked, 0, Usual)
	for b.Loop() {
		free(b, barrel, 4, nil)
	}
}

func BenchmarkWarm(b *testing.B) {
	barrel, _ := reference(b, mainspring.Hooked, 0, Usual)
	near := free(b, barrel, 4, nil)
	for b.Loop() {
		free(b, barrel, 4.2, near)
	}
}

func BenchmarkSlide(b *testing.B) {
	barrel, _ := reference(b, mainspring.Hooked, 0.1, Usual)
	near := free(b, barrel, 4, nil)
	for b.Loop() {
		if _, err := barrel.Slide(4.2, near); err != nil {
			b.Fatal(err)
		}
	}
}
