package coils

import (
	"context"
	"errors"
	"math"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim"

	"evenpull/fusee/mainspring"
	strip "evenpull/fusee/mainspring/coils"
)

func trainOf(t *testing.T) *sim.Train {
	t.Helper()
	sc, err := scenarios.Load(scenarios.Default)
	if err != nil {
		t.Fatal(err)
	}
	all, err := sim.Compile(sc)
	if err != nil {
		t.Fatal(err)
	}
	return &all[0]
}

// The mainspring of a train is wound as asked, beside what the closed form says of it.
func TestFollow(t *testing.T) {
	told := 0
	r, err := Follow(t.Context(), trainOf(t), Options{
		Turns: []float64{2, 3}, Friction: 0.1, End: mainspring.Braced, Nodes: strip.Fewest,
		Told: func(done, of int) {
			if told++; done != told || done > of {
				t.Errorf("%d of %d", done, of)
			}
		},
	})
	if err != nil {
		t.Fatal(err)
	}
	if told != r.Loop.Shapes || len(r.Loop.Windings) != 2 || !(r.Loop.Rest > 0 && r.Loop.Solid < r.ClosedSolid) {
		t.Errorf("%d told; %+v", told, r)
	}
	for i, w := range r.Loop.Windings {
		if math.Abs(w.Free.Couple-r.Closed[i]) > 0.04*r.Closed[i] || w.Up.Turns != r.Options.Turns[i] || w.Down.Turns != w.Up.Turns {
			t.Errorf("%v turns: %.4g N·m, closed form %.4g", w.Up.Turns, w.Free.Couple, r.Closed[i])
		}
	}
}

// Left out, the windings are every half turn that fits between rest and solid.
func TestHalves(t *testing.T) {
	if got := halves(0.06, 3.05); len(got) != 5 || got[0] != 0.5 || got[4] != 2.5 {
		t.Error(got)
	}
	if got := halves(0.6, 3.2); len(got) != 5 || got[0] != 1 || got[4] != 3 {
		t.Error(got)
	}
}

// Windings that cannot be are refused with those that can.
func TestWindings(t *testing.T) {
	for _, c := range []struct {
		turns []float64
		want  string
	}{
		{[]float64{}, "windings that cannot be: 0 of them; want 1 to 200"},
		{make([]float64, 201), "windings that cannot be: 201 of them; want 1 to 200"},
		{[]float64{0.1}, "windings that cannot be: 0.1 turns; want 0.17 to 8.4, from where the strip rests to where it is solid"},
		{[]float64{2, 8.45}, "windings that cannot be: 8.45 turns; want 0.17 to 8.4, from where the strip rests to where it is solid"},
		{[]float64{math.NaN()}, "windings that cannot be: NaN turns; want 0.17 to 8.4, from where the strip rests to where it is solid"},
		{[]float64{2, 2}, "windings that cannot be: 2 turns after 2; want them to rise"},
	} {
		if err := fits(c.turns, 0.0601, 8.509); !errors.Is(err, ErrWindings) || err.Error() != c.want {
			t.Errorf("%v: %v", c.turns, err)
		}
	}
	if err := fits([]float64{0.2, 4, 8.4}, 0.0601, 8.509); err != nil {
		t.Error(err)
	}
}

// What the spring or the caller refuses is told.
func TestFollowFails(t *testing.T) {
	train := trainOf(t)
	if _, err := Follow(t.Context(), train, Options{Friction: 2}); !errors.Is(err, strip.ErrSpring) {
		t.Error(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	stop()
	if _, err := Follow(ctx, train, Options{Turns: []float64{2}, Nodes: strip.Fewest}); !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
	train.Drive.Spring.Length = 100
	if _, err := Follow(t.Context(), train, Options{}); err == nil {
		t.Error("a strip of 100 m was wound")
	}
}
