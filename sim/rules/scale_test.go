package rules

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/golang/geo/r1"
)

// Verdict and margins know no unit: with need and torques liked twice as great, twice
// the torque is judged the same, and limits and what suits are twice as great.
func TestUnitsCancel(t *testing.T) {
	rnd := rand.New(rand.NewPCG(2, 5))
	seen := map[Code]int{}
	for range 3000 {
		need, times := 0.1+rnd.Float64(), 0.2+4*rnd.Float64()
		liked := r1.EmptyInterval()
		if rnd.IntN(3) == 0 {
			liked = r1.Interval{Lo: need * (1 + 0.4*rnd.Float64()), Hi: need * (1.4 + rnd.Float64())}
		}
		scaled := liked
		if !liked.IsEmpty() {
			scaled = r1.Interval{Lo: times * liked.Lo, Hi: times * liked.Hi}
		}
		a := NewStandard(need, DefaultBands(), liked, r1.EmptyInterval())
		b := NewStandard(times*need, DefaultBands(), scaled, r1.EmptyInterval())
		least := need * (0.8 + 1.2*rnd.Float64())
		mean := least * (1 + 0.8*rnd.Float64())
		code := a.Judge(least, mean)
		seen[code]++
		if got := b.Judge(times*least, times*mean); got != code {
			t.Errorf("need %v, least %v, mean %v: %v, %v times as great %v", need, least, mean, code, times, got)
		}
		x, y, p, q := a.Margins(least, mean), b.Margins(times*least, times*mean), a.Limits(), b.Limits()
		for i := range x {
			if math.Abs(x[i]-y[i]) > 1e-12 || math.Abs(times*p[i]-q[i]) > 1e-12*q[i] {
				t.Errorf("limit %d: margins %v and %v, limits %v and %v", i, x[i], y[i], p[i], q[i])
			}
		}
		if s, u := a.Suiting(), b.Suiting(); math.Abs(times*s.Lo-u.Lo) > 1e-12*u.Lo || math.Abs(times*s.Hi-u.Hi) > 1e-12*u.Hi {
			t.Errorf("suits from %v, %v times as great %v", s, times, u)
		}
		if got := b.Reserve(times * least); math.Abs(got-least/need) > 1e-12 {
			t.Errorf("reserve %v, want %v", got, least/need)
		}
	}
	for _, c := range []Code{Stops, Thin, Suits, Strong, Overdriven} {
		if seen[c] < 50 {
			t.Errorf("only %d %v", seen[c], c)
		}
	}
}

// A code that there is not has a name that tells so, and comes after all others.
func TestCodesThatAreNot(t *testing.T) {
	if got := Code(17).String(); got != "code 17" {
		t.Errorf("%q", got)
	}
	order := BestFirst()
	if got := Code(17).Place(); got != len(order) {
		t.Errorf("place %d", got)
	}
	for i, c := range order {
		if c.Place() != i {
			t.Errorf("%v at %d", c, c.Place())
		}
	}
}

// The turns to spare may fall short by the last digit of a search, and no more.
func TestSparesAtItsEdge(t *testing.T) {
	a := DefaultAdvice()
	for left, want := range map[float64]bool{1: true, 1 - 0.9e-6: true, 1 - 1.1e-6: false, 1.5: true, 0.999: false} {
		if a.Spares(left) != want {
			t.Errorf("%v turns left: %v", left, !want)
		}
	}
}
