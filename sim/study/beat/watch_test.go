package beat

import (
	"math"
	"testing"

	"evenpull/escapement"
)

// notes keep everything that is swung.
type notes struct {
	ledger escapement.Ledger
	legs   [][]escapement.Leg // of each swing
	now    []escapement.Leg
	arcs   []escapement.SemiArc
}

func (n *notes) Leg(l escapement.Leg) {
	n.ledger.Leg(l)
	n.now = append(n.now, l)
}

func (n *notes) Beat(b escapement.Beat) {
	n.legs, n.now = append(n.legs, n.now), nil
	n.arcs = append(n.arcs, b.Arc)
}

// period are the legs of two swings that follow one another.
func (n *notes) period(number int) []escapement.Leg {
	return append(append([]escapement.Leg{}, n.legs[2*number]...), n.legs[2*number+1]...)
}

// What is kept of the approach, its first and last period and the energy is what
// swings step by step give: every arc while they are fewer than 2000, then every
// second, every fourth.
func TestKeptIsWhatWasSwung(t *testing.T) {
	tr := train(t, "eight-day", "going.pendulum.quality=200000", "going.pendulum.mass_g=265000")
	clock, err := escapement.New(tr.Escapement, tr.Pendulum)
	if err != nil {
		t.Fatal(err)
	}
	for periods, every := range map[int]int{1: 1, 2: 1, 1999: 1, 2000: 2, 3999: 2, 4003: 4} {
		r := follow(t, tr, Options{FuseeTurn: 4, Periods: periods})
		beats, err := clock.Beats(r.Torque, r.Start)
		if err != nil {
			t.Fatal(err)
		}
		n := notes{ledger: clock.NewLedger(r.Torque)}
		beats.Watch(&n)
		for range 2 * periods {
			beats.Step()
		}
		if len(r.Approach) != periods/every+1 || r.Approach[0] != (Arc{0, r.Start}) {
			t.Fatalf("%d periods: %d arcs, from %+v", periods, len(r.Approach), r.Approach[0])
		}
		for i, a := range r.Approach[1:] {
			if p := (i + 1) * every; a != (Arc{float64(p), n.arcs[2*p-1]}) {
				t.Fatalf("%d periods: arc %d is %+v, swung %v", periods, i+1, a, n.arcs[2*p-1])
			}
		}
		closeTo(t, r.First, n.period(0))
		closeTo(t, r.Last, n.period(periods-1))
		if want := math.Abs(n.ledger.Gap() / n.ledger.Train); r.Gap != want || want > 1e-9 {
			t.Errorf("%d periods: %g of the energy unaccounted for, by a ledger %g", periods, r.Gap, want)
		}
	}
}

// closeTo checks a portrait: 41 points of each leg, its ends among them, evenly in
// time.
func closeTo(t *testing.T, got []Point, legs []escapement.Leg) {
	t.Helper()
	if len(got) != 41*len(legs) {
		t.Fatalf("%d points of %d legs", len(got), len(legs))
	}
	for i, p := range got {
		l := &legs[i/41]
		x, v := l.At(l.Seconds * float64(i%41) / 40)
		if p != (Point{x, v}) {
			t.Fatalf("point %d is %+v, want %v, %v", i, p, x, v)
		}
	}
}

// A pendulum let go too close to rest for a single tooth to pass takes nothing from
// the train, so that nothing is unaccounted for.
func TestNothingSwung(t *testing.T) {
	r := follow(t, train(t, "eight-day"), Options{Start: escapement.SemiDegrees(0.1)})
	if r.Settled.Status != escapement.Stops || r.Settled.Periods != 0 || r.Gap != 0 || len(r.Approach) != 1 || r.First != nil || r.Last != nil {
		t.Errorf("%+v", r)
	}
}

// Left out, the turn is the start of the run, as far as the spring let the fusee be
// wound, and the semi-arc the one that the least torque keeps up.
func TestLeftOut(t *testing.T) {
	for _, turns := range []string{"1.25", "4.5"} {
		tr := train(t, "eight-day", "going.barrel.set_up_turns="+turns)
		r := follow(t, tr, Options{FuseeTurn: math.NaN(), Periods: 1})
		w, err := tr.Drive.Wind()
		if err != nil {
			t.Fatal(err)
		}
		if r.FuseeTurn != w.Start() || (r.FuseeTurn > 0) != (turns == "4.5") {
			t.Errorf("set up %s turns: followed at %v, the run starts at %v", turns, r.FuseeTurn, w.Start())
		}
		clock, err := escapement.New(tr.Escapement, tr.Pendulum)
		if err != nil {
			t.Fatal(err)
		}
		if off := clock.TorqueFor(r.Start)/clock.LeastTorque() - 1; math.Abs(off) > 1e-12 {
			t.Errorf("let go at %v°, which wants %v times the least torque", r.Start.Degrees(), 1+off)
		}
	}
	tr := train(t, "eight-day")
	tr.Drive.Barrel.SetUp = 400
	if _, err := Follow(t.Context(), tr, Options{FuseeTurn: math.NaN(), Periods: 1}); err == nil {
		t.Error("a spring set up by more turns than it has is followed")
	}
}
