package fusee

import "testing"

// A cone from just inside each limit can be cut, one from just outside cannot: by
// winding it, not by the search for the limits.
func TestEvenEnds(t *testing.T) {
	const spare = 0.05
	cuts := func(w *Wound, shape Shape, end float64) bool {
		d := w.drive
		d.Cone.Shape, d.Cone.End = shape, end
		even, err := d.Wind()
		if err != nil || even.curve.Turns()-d.Barrel.SetUp-even.SpringTurns() < spare {
			return false
		}
		d.Cone = even.CutCone()
		return d.Stout() == nil
	}
	found := 0
	for _, w := range append(cones(t, 40), mustWind(t, clockDrive(t))) {
		small, large := w.EvenEnds(spare)
		if small.IsEmpty() != large.IsEmpty() {
			t.Errorf("small end %v, large end %v", small, large)
		}
		if small.IsEmpty() {
			continue
		}
		found++
		const in = 1e-4
		if !cuts(&w, EvenByLarge, large.Lo*(1+in)) || !cuts(&w, EvenByLarge, large.Hi*(1-in)) || cuts(&w, EvenByLarge, large.Lo*(1-in)) || cuts(&w, EvenByLarge, large.Hi*(1+in)) {
			t.Errorf("large end %v", large)
		}
		if !cuts(&w, EvenBySmall, small.Lo*(1+in)) || !cuts(&w, EvenBySmall, small.Hi*(1-in)) || cuts(&w, EvenBySmall, small.Lo*(1-in)) || cuts(&w, EvenBySmall, small.Hi*(1+in)) {
			t.Errorf("small end %v", small)
		}
	}
	if found < 10 {
		t.Errorf("only %d drives have an even cone", found)
	}
	d := clockDrive(t)
	d.Barrel.SetUp = 0
	w := mustWind(t, d)
	if small, large := w.EvenEnds(spare); !small.IsEmpty() || !large.IsEmpty() {
		t.Errorf("without set-up: %v, %v", small, large)
	}
	slack := mustWind(t, clockDrive(t))
	if small, _ := slack.EvenEnds(50); !small.IsEmpty() {
		t.Errorf("50 turns to spare: %v", small)
	}
}
