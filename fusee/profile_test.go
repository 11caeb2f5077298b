package fusee

import (
	"errors"
	"math"
	"slices"
	"testing"

	"evenpull/fusee/numeric"

	"gonum.org/v1/gonum/interp"
)

// The cubic must be that of gonum, point for point, whatever its ends are like.
func TestMeasuredIsGonumsCubic(t *testing.T) {
	var p Profile
	for _, radii := range [][]float64{
		{9, 12}, {9, 9.4, 9}, {9, 9.1, 12, 12.1}, {12, 9, 14, 1}, {9, 11, 10.9, 10.9, 13, 12.9}, {5, 5.1, 15, 2, 2.2}, {9, 9.4, 10.6, 10.7, 12.9, 15, 15, 18.2},
	} {
		var err error
		if p, err = Measured(radii); err != nil {
			t.Fatal(err)
		}
		at := make([]float64, len(radii))
		for i := range at {
			at[i] = float64(i)
		}
		var want interp.FritschButland
		if err := want.Fit(at, radii); err != nil {
			t.Fatal(err)
		}
		for x := 0.0; x <= at[len(at)-1]; x += 0.01 {
			r, dr, _ := p.At(x)
			closeTo(t, "radius", r, want.Predict(x), 1e-12)
			if math.Abs(dr-want.PredictDerivative(x)) > 1e-10 {
				t.Errorf("%v: slope at %g: %g, want %g", radii, x, dr, want.PredictDerivative(x))
			}
		}
	}
	// Rising readings give a rising cone: no bump that was not measured.
	for x := 0.0; x < 7; x += 0.01 {
		a, _, _ := p.At(x)
		if b, _, _ := p.At(x + 0.01); b < a-1e-12 {
			t.Errorf("the cone falls at %g", x)
		}
	}
}

func TestProfileArea(t *testing.T) {
	d := clockDrive(t)
	cone, err := Straight(9*mm, 18*mm, 12.5)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range []Profile{d.Cone.Profile, cone} {
		for _, to := range []float64{0.3, 1, 7.77, p.Turns()} {
			radius := func(x float64) float64 { r, _, _ := p.At(x); return r }
			want := numeric.Adaptive(0, to, 1e-15, radius, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15)
			_, _, got := p.At(to)
			closeTo(t, "area", got, want, 1e-12)
		}
	}
	r, dr, area := cone.At(12.5)
	closeTo(t, "large end", r, 18*mm, 1e-12)
	closeTo(t, "slope", dr, 9*mm/12.5, 1e-12)
	closeTo(t, "mean radius", area/12.5, 13.5*mm, 1e-12)
	if past, _, _ := cone.At(99); past != r {
		t.Errorf("past its end the cone is %g", past)
	}
	if before, _, _ := cone.At(-1); before != 9*mm {
		t.Errorf("before its start the cone is %g", before)
	}
}

// A profile made in a room is none the worse for what was there before, whether that was
// longer or shorter; only the last one holds.
func TestRoom(t *testing.T) {
	var room Room
	var before Profile
	for i, radii := range [][]float64{{9, 11, 10.9, 10.9, 13, 12.9}, {5, 5.1, 15, 2, 2.2}, {9, 12}, {9, 9.4, 10.6, 10.7, 12.9, 15, 15, 18.2}} {
		p, err := room.Measured(radii)
		if err != nil {
			t.Fatal(err)
		}
		want, _ := Measured(radii)
		for theta := -1.0; theta < 9; theta += 0.1 {
			r, dr, area := p.At(theta)
			wantR, wantDr, wantArea := want.At(theta)
			if r != wantR || dr != wantDr || area != wantArea {
				t.Errorf("%v at %v: %v, %v, %v, want %v, %v, %v", radii, theta, r, dr, area, wantR, wantDr, wantArea)
			}
		}
		if i == 1 && &p.pieces[0] != &before.pieces[0] {
			t.Error("the room was not used again")
		}
		before = p
	}
	if _, err := room.Measured([]float64{1, 0}); !errors.Is(err, ErrProfile) {
		t.Error(err)
	}
}

func TestBadProfiles(t *testing.T) {
	for _, radii := range [][]float64{nil, {1}, {1, 0}, {1, -2}, {1, math.NaN()}, {1, math.Inf(1)}} {
		if _, err := Measured(radii); !errors.Is(err, ErrProfile) {
			t.Errorf("%v: %v", radii, err)
		}
	}
	for _, c := range [][3]float64{{0, 1, 1}, {1, 0, 1}, {1, 1, 0}, {1, math.Inf(1), 1}, {math.NaN(), 1, 1}} {
		if _, err := Straight(c[0], c[1], c[2]); !errors.Is(err, ErrProfile) {
			t.Errorf("%v: %v", c, err)
		}
	}
}

// An even cone that was cut once gives the same torque to its own spring, and a
// cone given by its profile is left alone.
func TestCutCone(t *testing.T) {
	even := 0
	for i, w := range family(t, 200) {
		d := w.drive
		d.Cone = w.CutCone()
		if w.drive.Cone.Shape == Cut {
			if d.Cone.Turns != w.drive.Cone.Turns || &d.Cone.Profile.pieces[0] != &w.drive.Cone.Profile.pieces[0] {
				t.Errorf("drive %d: a cut cone was cut again", i)
			}
			continue
		}
		even++
		cut := mustWind(t, d)
		closeTo(t, "mean", cut.MeanTorque(), w.MeanTorque(), 1e-5)
		for k := range 400 {
			theta := math.Max(w.start, cut.start) + (w.Turns()-w.start)*float64(k)/400
			tol := 1e-6
			if w.start > 0 {
				tol = 2e-5
				if theta < w.start+0.1 {
					tol = 0.01
				}
			}
			if theta <= w.Turns() {
				closeTo(t, "torque", cut.At(theta).Torque, w.At(theta).Torque, tol)
			}
		}
	}
	if even < 50 {
		t.Errorf("only %d even cones", even)
	}
}

// An empty profile is no cone, and none of its methods panics.
func TestEmptyProfile(t *testing.T) {
	var p Profile
	for _, theta := range []float64{-1, 0, 3, math.NaN(), math.Inf(1)} {
		if r, dr, area := p.At(theta); r != 0 || dr != 0 || area != 0 {
			t.Errorf("at %g: %g, %g, %g", theta, r, dr, area)
		}
	}
	c := Cone{Turns: 5, Pitch: 2 * mm}
	if c.Volume() != 0 || c.GrooveLength(mm) != 0 || p.Turns() != 0 {
		t.Errorf("%g m³, %g m, %g turns", c.Volume(), c.GrooveLength(mm), p.Turns())
	}
	d := Drive{Cone: c}
	if _, r := p.thinnest(); r != 0 {
		t.Errorf("thinnest %g", r)
	}
	if err := d.Stout(); !errors.Is(err, ErrThin) {
		t.Errorf("stout: %v", err)
	}
}

// The turns of the radii that were given are told, also where pieces lie in between.
func TestGiven(t *testing.T) {
	p, err := Measured([]float64{1, 2, 3, 5})
	if got := p.Given(); err != nil || !slices.Equal(got, []float64{0, 1, 2, 3}) {
		t.Errorf("%v, %v", got, err)
	}
	p, err = Through([]Point{{0, 0.01}, {2.5, 0.02}, {4, 0.03}}, 0)
	if got := p.Given(); err != nil || !slices.Equal(got, []float64{0, 2.5, 4}) {
		t.Errorf("%v, %v", got, err)
	}
}
