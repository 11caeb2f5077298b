package escapement

import (
	"math"
	"testing"

	"github.com/golang/geo/s1"
)

// What stands at an end of a range is in it: the ends are included, as the doc
// comments of the fields say.
func TestEndsOfRanges(t *testing.T) {
	for name, edit := range map[string]func(e *Escapement, p *Pendulum){
		"fewest teeth":      func(e *Escapement, _ *Pendulum) { e.Teeth = 2 },
		"most teeth":        func(e *Escapement, _ *Pendulum) { e.Teeth = 10000 },
		"least arc":         func(e *Escapement, _ *Pendulum) { e.Arc = 1e-6 },
		"widest arc":        func(e *Escapement, _ *Pendulum) { e.Arc, e.Margin = math.Pi, 0 },
		"no drop":           func(e *Escapement, _ *Pendulum) { e.Drop = 0 },
		"nearly all drop":   func(e *Escapement, _ *Pendulum) { e.Drop = 1 - 1e-6 },
		"no friction":       func(e *Escapement, _ *Pendulum) { e.Efficiency = 1 },
		"nearly all lost":   func(e *Escapement, _ *Pendulum) { e.Efficiency = 1e-6 },
		"no margin":         func(e *Escapement, _ *Pendulum) { e.Margin = 0 },
		"late by γ":         func(e *Escapement, _ *Pendulum) { e.Kind, e.Late = DeadBeat{}, s1.Angle(e.HalfArc()) },
		"early by γ":        func(e *Escapement, _ *Pendulum) { e.Kind, e.Late = DeadBeat{}, -s1.Angle(e.HalfArc()) },
		"least limit":       func(e *Escapement, _ *Pendulum) { e.Limit = e.Reach() + e.Margin },
		"widest limit":      func(e *Escapement, _ *Pendulum) { e.Limit = Widest },
		"shortest":          func(_ *Escapement, p *Pendulum) { p.Length = 1e-6 },
		"longest":           func(_ *Escapement, p *Pendulum) { p.Length = 1000 },
		"lightest":          func(_ *Escapement, p *Pendulum) { p.Mass = 1e-9 },
		"heaviest":          func(_ *Escapement, p *Pendulum) { p.Mass = 1e6 },
		"least gravity":     func(_ *Escapement, p *Pendulum) { p.Gravity = 1e-6 },
		"greatest gravity":  func(_ *Escapement, p *Pendulum) { p.Gravity = 1000 },
		"least quality":     func(_ *Escapement, p *Pendulum) { p.Quality = 1 },
		"greatest quality":  func(_ *Escapement, p *Pendulum) { p.Quality = 1e9 },
		"the verge as well": func(e *Escapement, _ *Pendulum) { e.Kind = Verge{} },
	} {
		e, p := bracketClock(Recoil{})
		edit(&e, &p)
		if _, err := New(e, p); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	e, p := bracketClock(Recoil{})
	c := mustNew(t, e, p)
	for _, start := range []SemiArc{tiny, 4 * e.HalfArc()} {
		if _, err := c.Beats(0, start); err != nil {
			t.Errorf("no torque, from %g: %v", start, err)
		}
	}
	if _, err := c.Beats(1e6*c.stiff/c.couple*(1-1e-15), 0.1); err != nil {
		t.Errorf("the greatest couple: %v", err)
	}
	if _, err := c.Beats(1e6*c.stiff/c.couple*(1+1e-9), 0.1); err == nil {
		t.Error("more than the greatest couple")
	}
	if _, err := QualityFromDecay(math.Pi, 1, 3); err != nil {
		t.Errorf("decay from π: %v", err)
	}
}

// The status changes where the arc is the reach, the reach with the margin, and the
// limit; an arc worked out to be one of them is not failed by its rounding, and a
// millionth of a millionth less or more is.
func TestStatusAtItsEdges(t *testing.T) {
	e, p := bracketClock(Recoil{})
	e.Limit = SemiDegrees(6)
	c := mustNew(t, e, p)
	for _, x := range []struct {
		arc          SemiArc
		under, exact Status
		over         Status
	}{
		{e.Reach(), Stops, Short, Short},
		{e.Reach() + e.Margin, Short, Runs, Runs},
		{e.Limit, Runs, Runs, Trips},
	} {
		torque := c.TorqueFor(x.arc)
		for share, want := range map[float64]Status{1 - 1e-12: x.under, 1: x.exact, 1 + 1e-12: x.over} {
			a, s := c.Amplitude(torque * share)
			if s != want {
				t.Errorf("%v times the torque of %v: %v, want %v", share, x.arc, s, want)
			}
			if s.Goes() {
				closeTo(t, "amplitude", float64(a), float64(x.arc), 1e-11)
			}
		}
	}
	if a, s := c.Amplitude(1e9); a != e.Limit || s != Trips {
		t.Errorf("%v, %v", a, s)
	}
	for s, goes := range map[Status]bool{Stops: false, Short: true, Runs: true, Trips: false, Changing: false} {
		if s.Goes() != goes {
			t.Errorf("%v goes: %v", s, !goes)
		}
	}
}

// The couple by the place in the swing, to the right and mirrored to the left, at
// and beside the corners: the doc comment's account of the pallets.
func TestCoupleByPlace(t *testing.T) {
	const a, torque = 0.08, 1e-3
	for _, kind := range kinds {
		e, p := bracketClock(kind)
		if kind == (DeadBeat{}) {
			e.Late = 0.01
		}
		c := mustNew(t, e, p)
		tau := e.Couple(torque)
		release, start := float64(e.HalfArc())+float64(e.Late), float64(e.Late)-float64(e.HalfArc())
		before, past := tau, -tau
		if kind == (DeadBeat{}) {
			before, past = 0, 0
		}
		for _, x := range []struct{ at, want float64 }{
			{-a, before}, {start - 1e-9, before}, {start + 1e-9, tau}, {0, tau}, {release - 1e-9, tau}, {release + 1e-9, past}, {a, past},
		} {
			right := math.Asin(x.at / a)
			if x.at == a {
				right -= 1e-9
			}
			if x.at == -a {
				right += 1e-9
			}
			if got := c.CoupleAt(right, a, torque); math.Abs(got-x.want) > 1e-15 {
				t.Errorf("%v to the right at %g: %g, want %g", kind, x.at, got, x.want)
			}
			if got := c.CoupleAt(right+math.Pi, a, torque); math.Abs(got+x.want) > 1e-15 {
				t.Errorf("%v to the left at %g: %g, want %g", kind, -x.at, got, -x.want)
			}
		}
	}
}

// The series of narrow arcs and the mean of wide ones agree wherever the series serves,
// the last of its terms included.
func TestCircularRateBothWays(t *testing.T) {
	worst := 0.0
	for a := 1e-3; a*a < seriesTo; a += 1e-3 {
		h := math.Sin(a / 4)
		want := agmLess(-2 * h * h)
		worst = max(worst, math.Abs(CircularRate(SemiArc(a))/want-1))
	}
	if worst > 1.2e-15 {
		t.Errorf("they differ by %.2g of themselves", worst)
	}
}

// The agm of 1 and cos(A/2) at arcs where it is known: with a right angle at 90°,
// Gauss's constant 1/agm(1, √2) = 0.8346268416740731 (C. F. Gauss, diary of
// 30 May 1799) gives agm(1, 1/√2) = 1/(√2 × 0.83462684…).
func TestGaussConstant(t *testing.T) {
	closeTo(t, "agm(1, 1/√2)", 1+CircularRate(math.Pi/2), 1/(math.Sqrt2*0.8346268416740731), 1e-15)
	for _, a := range []SemiArc{3.2, 4, 2 * math.Pi} {
		if got := CircularRate(a); got != -1 {
			t.Errorf("over the top at %g: %g", a, got)
		}
	}
	if got := agmLess(math.NaN()); got != -1 {
		t.Errorf("of NaN: %g", got)
	}
	if got := CircularRate(0); got != 0 {
		t.Errorf("at no arc: %g", got)
	}
}
