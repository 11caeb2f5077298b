package beat

import (
	"context"
	"errors"
	"math"
	"testing"

	"evenpull/escapement"
	"evenpull/sim"
	"evenpull/sim/internal/trial"
)

func train(t testing.TB, name string, sets ...string) *sim.Train {
	t.Helper()
	s, _ := trial.Compile(t, name)
	if err := s.Apply(sets); err != nil {
		t.Fatal(err)
	}
	trains, err := sim.Compile(s, s.Trains[0].Name)
	if err != nil {
		t.Fatal(err)
	}
	return &trains[0]
}

func follow(t testing.TB, tr *sim.Train, o Options) *Result {
	t.Helper()
	if o.Periods == 0 {
		o.Periods = MaxPeriods
	}
	r, err := Follow(t.Context(), tr, o)
	if err != nil {
		t.Fatal(err)
	}
	return &r
}

// Beats and averages agree, and no energy is lost on the way.
func TestBeatsAgreeWithAverages(t *testing.T) {
	for _, kind := range []string{"recoil", "verge", "deadbeat"} {
		tr := train(t, "eight-day", "going.escapement.kind="+kind)
		for _, turn := range []float64{0, 7.5, 16} {
			r := follow(t, tr, Options{FuseeTurn: turn})
			if r.Settled.Status != escapement.Runs {
				t.Fatalf("%s at %g: %v", kind, turn, r.Settled.Status)
			}
			if off := float64(r.Settled.Amplitude/r.Averaged.Amplitude) - 1; math.Abs(off) > 0.005 {
				t.Errorf("%s at %g: semi-arc %v by beats, %v averaged", kind, turn, r.Settled.Amplitude, r.Averaged.Amplitude)
			}
			most := 0.05
			if kind != "deadbeat" { // what driving the wheel back leaves out of the average
				most += 0.9 / tr.Pendulum.Quality * r.Averaged.Rate.Escapement * 86400
			}
			if off := (r.Settled.Rate - r.Averaged.Rate.Linear()) * 86400; math.Abs(off) > most {
				t.Errorf("%s at %g: rates %.3f s a day apart", kind, turn, off)
			}
			if r.Gap > 1e-9 {
				t.Errorf("%s at %g: %g of the energy unaccounted for", kind, turn, r.Gap)
			}
		}
	}
}

// The approach starts where it was let go, ends where it settles, and is
// bounded however long it takes; the portraits close upon themselves.
func TestApproach(t *testing.T) {
	for q, bob := range map[string]string{"40": "53", "5000": "6600", "200000": "265000"} { // all swing alike
		tr := train(t, "eight-day", "going.pendulum.quality="+q, "going.pendulum.mass_g="+bob)
		r := follow(t, tr, Options{Start: escapement.SemiDegrees(5)})
		if len(r.Approach) > maxArcs+1 || len(r.Approach) < 20 {
			t.Errorf("Q %s: %d arcs for %d periods", q, len(r.Approach), r.Settled.Periods)
		}
		first, last := r.Approach[0], r.Approach[len(r.Approach)-1]
		if first.Period != 0 || math.Abs(first.Arc.Degrees()-5) > 1e-12 {
			t.Errorf("Q %s starts at %+v", q, first)
		}
		if math.Abs(float64(last.Arc/r.Settled.Amplitude)-1) > 1e-3 {
			t.Errorf("Q %s ends at %v, settles at %v", q, last.Arc, r.Settled.Amplitude)
		}
		for i := 1; i < len(r.Approach); i++ {
			// What is kept is every so manyth period, however often it was thinned.
			if step := r.Approach[1].Period; r.Approach[i].Period != float64(i)*step {
				t.Fatalf("Q %s: arc %d is of period %g, not of %g", q, i, r.Approach[i].Period, float64(i)*step)
			}
		}
		if start := r.First[0].Angle * 180 / math.Pi; math.Abs(start+5) > 1e-9 {
			t.Errorf("Q %s: the first period starts at %g°", q, start)
		}
		a, b := r.Last[0], r.Last[len(r.Last)-1]
		if math.Abs(-a.Angle/r.Settled.Amplitude.Radians()-1) > 1e-3 {
			t.Errorf("Q %s: the last period starts at %g°, settled are %v", q, a.Angle*180/math.Pi, r.Settled.Amplitude)
		}
		if math.Abs(a.Angle-b.Angle) > 1e-6*math.Abs(a.Angle) || math.Abs(b.Velocity) > 1e-6 {
			t.Errorf("Q %s: the last period does not close: %+v, %+v", q, a, b)
		}
	}
}

func TestHowItEnds(t *testing.T) {
	for _, c := range []struct {
		sets []string
		o    Options
		want escapement.Status
	}{
		{nil, Options{}, escapement.Runs},
		{nil, Options{Periods: 3}, escapement.Changing},
		{nil, Options{Start: escapement.SemiDegrees(1)}, escapement.Stops},
		{[]string{"going.pendulum.mass_g=700"}, Options{}, escapement.Stops},
		{[]string{"going.pendulum.mass_g=420"}, Options{}, escapement.Short},
		{[]string{"going.escapement.trip_deg=3.2"}, Options{}, escapement.Trips},
	} {
		if r := follow(t, train(t, "eight-day", c.sets...), c.o); r.Settled.Status != c.want {
			t.Errorf("%v %+v: %v", c.sets, c.o, r.Settled.Status)
		}
	}
}

// Swung in stretches, a pendulum comes to what it comes to in one go.
func TestStretches(t *testing.T) {
	tr := train(t, "eight-day", "going.pendulum.quality=20000", "going.pendulum.mass_g=26500")
	clock, err := escapement.New(tr.Escapement, tr.Pendulum)
	if err != nil {
		t.Fatal(err)
	}
	for _, periods := range []int{0, 1, stretch, 2*stretch + 1, MaxPeriods} {
		r, err := Follow(t.Context(), tr, Options{FuseeTurn: 4, Periods: periods})
		if err != nil {
			t.Fatal(err)
		}
		beats, err := clock.Beats(r.Torque, r.Start)
		if err != nil {
			t.Fatal(err)
		}
		want := beats.Settle(periods)
		if r.Settled != want || (want.Periods > 3*stretch) != (periods == MaxPeriods) {
			t.Errorf("%d periods: %+v, in one go %+v", periods, r.Settled, want)
		}
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := Follow(ctx, tr, Options{FuseeTurn: 4, Periods: MaxPeriods}); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}

func TestWhatCannotBeFollowed(t *testing.T) {
	tr := train(t, "eight-day")
	if _, err := Follow(t.Context(), tr, Options{FuseeTurn: 17, Periods: 1}); !errors.Is(err, sim.ErrTurn) {
		t.Error(err)
	}
	if _, err := Follow(t.Context(), tr, Options{Start: escapement.SemiDegrees(100), Periods: 1}); err == nil {
		t.Error("started at 100°")
	}
	tr.Escapes = false
	if _, err := Follow(t.Context(), tr, Options{Periods: 1}); !errors.Is(err, ErrNoEscapement) {
		t.Error(err)
	}
}
