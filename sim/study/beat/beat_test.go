package beat

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"io"
	"math"
	"strings"
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
	r, err := Follow(tr, o)
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
			if off := (r.Settled.Rate - r.Averaged.Rate.Linear()) * 86400; math.Abs(off) > 0.05 {
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
		if start := deg(r.First[0].Angle); math.Abs(start+5) > 1e-9 {
			t.Errorf("Q %s: the first period starts at %g°", q, start)
		}
		a, b := r.Last[0], r.Last[len(r.Last)-1]
		if math.Abs(-a.Angle/r.Settled.Amplitude.Radians()-1) > 1e-3 {
			t.Errorf("Q %s: the last period starts at %g°, settled are %v", q, deg(a.Angle), r.Settled.Amplitude)
		}
		if math.Abs(a.Angle-b.Angle) > 1e-6*math.Abs(a.Angle) || math.Abs(b.Velocity) > 1e-6 {
			t.Errorf("Q %s: the last period does not close: %+v, %+v", q, a, b)
		}
	}
}

func TestHowItEnds(t *testing.T) {
	cases := []struct {
		sets []string
		o    Options
		want escapement.Status
		says string
	}{
		{nil, Options{}, escapement.Runs, "settles at a semi-arc of"},
		{nil, Options{Periods: 3}, escapement.Changing, "has not settled after 3 periods"},
		{nil, Options{Start: escapement.SemiDegrees(1)}, escapement.Stops, "stops after 0 periods"},
		{[]string{"going.pendulum.mass_g=700"}, Options{}, escapement.Stops, "the swing no longer escapes"},
		{[]string{"going.pendulum.mass_g=420"}, Options{}, escapement.Short, "less than the margin asked for"},
		{[]string{"going.escapement.trip_deg=3.2"}, Options{}, escapement.Trips, "the semi-arc passes 3.20°"},
	}
	for _, c := range cases {
		r := follow(t, train(t, "eight-day", c.sets...), c.o)
		if r.Settled.Status != c.want || !strings.Contains(r.Headline(), c.says) {
			t.Errorf("%v %+v: %v, %q", c.sets, c.o, r.Settled.Status, r.Headline())
		}
		for name, write := range Writers() {
			var b bytes.Buffer
			if err := write(&b, r); err != nil || b.Len() == 0 || strings.Contains(b.String(), "NaN") {
				t.Errorf("%s: %v\n%s", name, err, b.String())
			}
		}
		for _, format := range []string{"svg", "png", "pdf"} {
			if err := Plot(io.Discard, format, r); err != nil {
				t.Errorf("%v as %s: %v", c.sets, format, err)
			}
		}
	}
}

func TestForms(t *testing.T) {
	r := follow(t, train(t, "eight-day"), Options{})
	var b bytes.Buffer
	if err := JSON(&b, r); err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Train    string
		Beats    struct{ Amplitude_deg, Period_s, Rate_s_per_day float64 }
		Approach []struct{ Period, Amplitude_deg float64 }
	}
	if err := json.Unmarshal(b.Bytes(), &doc); err != nil {
		t.Fatal(err)
	}
	if doc.Train != "going" || doc.Beats.Amplitude_deg != r.Settled.Amplitude.Degrees() || doc.Beats.Period_s != r.Settled.Period ||
		doc.Beats.Rate_s_per_day != r.Settled.Rate*86400 || len(doc.Approach) != len(r.Approach) {
		t.Errorf("%+v", doc)
	}
	b.Reset()
	if err := CSV(&b, r); err != nil {
		t.Fatal(err)
	}
	if lines, err := csv.NewReader(&b).ReadAll(); err != nil || len(lines) != len(r.Approach)+1 {
		t.Errorf("%d lines, %v", len(lines), err)
	}
	b.Reset()
	if err := Plot(&b, "svg", r); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"semi-arc, degrees", "periods from the start", "Phase portrait", "first period", "by the averages", "velocity, degrees a second"} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("no %q in the picture", want)
		}
	}
}

func TestWhatCannotBeFollowed(t *testing.T) {
	tr := train(t, "eight-day")
	if _, err := Follow(tr, Options{FuseeTurn: 17, Periods: 1}); !errors.Is(err, sim.ErrTurn) {
		t.Error(err)
	}
	if _, err := Follow(tr, Options{Start: escapement.SemiDegrees(100), Periods: 1}); err == nil {
		t.Error("started at 100°")
	}
	tr.Escapes = false
	if _, err := Follow(tr, Options{Periods: 1}); !errors.Is(err, ErrNoEscapement) {
		t.Error(err)
	}
}
