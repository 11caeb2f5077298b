package setup

import (
	"testing"

	"evenpull/sim"
	"evenpull/sim/rules"
)

// studied is the search over a curve, a set-up a click, from the present one.
func studied(now sim.Digest, curve ...sim.Digest) *Study {
	st := &Study{Now: now, Curve: curve}
	st.best()
	return st
}

// The range ends where the unevenness is more than 10 % above the best, or above
// 0.1 %; the best is the first of equals, and one that leaves the turns to spare.
func TestRange(t *testing.T) {
	at := func(clicks int, uneven, left float64) sim.Digest {
		return place(clicks, rules.Suits, 0, uneven, left)
	}
	now := at(0, 0.5, 2)
	for name, c := range map[string]struct {
		curve        []sim.Digest
		best, lo, hi float64 // clicks
	}{
		"in the middle":   {[]sim.Digest{at(0, 0.23, 2), at(1, 0.21, 2), at(2, 0.2, 2), at(3, 0.219, 2), at(4, 0.23, 2)}, 2, 1, 3},
		"to both ends":    {[]sim.Digest{at(0, 0.21, 2), at(1, 0.2, 2), at(2, 0.21, 2)}, 1, 0, 2},
		"the first":       {[]sim.Digest{at(0, 0.2, 2), at(1, 0.2, 2), at(2, 0.5, 2)}, 0, 0, 1},
		"trifles":         {[]sim.Digest{at(0, 0.0009, 2), at(1, 0.0001, 2), at(2, 0.001, 2), at(3, 0.0011, 2)}, 1, 0, 2},
		"turns to spare":  {[]sim.Digest{at(0, 0.3, 1.1), at(1, 0.2, 0.9)}, 0, 0, 0},
		"none spares":     {[]sim.Digest{at(0, 0.3, 0.8), at(1, 0.2, 0.7), at(2, 0.25, 0.6)}, 1, 1, 1},
		"a later spares":  {[]sim.Digest{at(0, 0.1, 0.8), at(1, 0.2, 1.1)}, 1, 1, 1},
		"nothing but one": {[]sim.Digest{at(0, 0.3, 2)}, 0, 0, 0},
	} {
		st := studied(now, c.curve...)
		if st.Best.Spring.SetUp != c.best/12 || st.Range.Lo != c.lo/12 || st.Range.Hi != c.hi/12 {
			t.Errorf("%s: best %v clicks, range %v to %v", name, st.Best.Spring.SetUp*12, st.Range.Lo*12, st.Range.Hi*12)
		}
	}
}

// A present set-up between two clicks is the best where no click is less uneven, and
// lies in the range.
func TestPresentIsBest(t *testing.T) {
	curve := []sim.Digest{place(0, rules.Suits, 0, 0.3, 2), place(1, rules.Suits, 0, 0.2, 2)}
	now := place(1, rules.Suits, 0, 0.2, 2)
	now.Spring.SetUp, now.Spring.Ideal = 1.5/12, 1.5/12+2
	if st := studied(now, curve...); st.Best.Spring.SetUp != 1.5/12 || st.Range.Lo != 1.0/12 || st.Range.Hi != 1.5/12 {
		t.Errorf("as good: best %+v, range %v", st.Best.Spring, st.Range)
	}
	for name, change := range map[string]func(*sim.Digest){
		"more uneven":    func(d *sim.Digest) { d.Torque.Unevenness = 0.21 },
		"binds":          func(d *sim.Digest) { d.TurnsLost = 0.1 },
		"leaves too few": func(d *sim.Digest) { d.Spring.Ideal = d.Spring.SetUp + 0.5 },
		"nearly as good": func(d *sim.Digest) { d.Torque.Unevenness = 0.2000001 },
	} {
		other := now
		change(&other)
		if st := studied(other, curve...); st.Best.Spring.SetUp != 1.0/12 || st.Range.Hi != 1.0/12 {
			t.Errorf("%s: best %+v, range %v", name, st.Best.Spring, st.Range)
		}
	}
}

// No set-up more than 10 % above the present one, which is the best, is in the range.
func TestRangeAboutThePresent(t *testing.T) {
	now := place(1, rules.Suits, 0, 0.2, 2)
	now.Spring.SetUp, now.Spring.Ideal = 1.5/12, 1.5/12+2
	st := studied(now, place(0, rules.Suits, 0, 0.5, 2), place(1, rules.Suits, 0, 0.3, 2), place(2, rules.Suits, 0, 0.4, 2))
	if st.Best.Spring.SetUp != 1.5/12 || st.Range.Lo != 1.5/12 || st.Range.Hi != 1.5/12 {
		t.Errorf("best %v, range %v", st.Best.Spring.SetUp, st.Range)
	}
}

// Near the best is called trifling where nobody could tell the difference.
func TestTrifling(t *testing.T) {
	for uneven, want := range map[float64]bool{0.0008: true, 0.00092: false, 0.02: false} {
		st := Study{Best: place(0, rules.Suits, 0, uneven, 2)}
		if st.Trifling() != want {
			t.Errorf("%v: %v", uneven, !want)
		}
	}
}

// The curve has every click with which the fusee can be wound.
func TestCurveHasEveryClick(t *testing.T) {
	st, _ := search(t, "eight-day", 0)
	if want := Clicks(st.Most, 12); len(st.Curve) != want || st.Curve[1].Spring.SetUp != 1.0/12 || st.Curve[0].Spring.SetUp != 0 {
		t.Errorf("%d set-ups, want %d; the second %v turns", len(st.Curve), want, st.Curve[1].Spring.SetUp)
	}
}
