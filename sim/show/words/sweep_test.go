package words

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/study/sweep"
	"evenpull/sim/vary"
)

const thickness = "going.mainspring.thickness_mm"

// swept is a sweep over the thickness of the eight-day clock's mainspring, with
// nothing found.
func swept(t testing.TB) *sweep.Study {
	t.Helper()
	_, trains := trial.Compile(t, "eight-day")
	of, err := outcome.Named(outcome.MeanTorque)
	if err != nil {
		t.Fatal(err)
	}
	st := &sweep.Study{
		Over: sweep.Axis{Key: thickness, From: 0.3, To: 0.5, Steps: 5, Value: 0.38, Quantity: scenario.Quantity{Key: thickness, Words: "thickness of the going mainspring", Unit: "mm"}},
		Of:   of, Exponent: vary.Slope{Value: math.NaN(), Error: math.NaN()}, Points: make([]sweep.Point, 5),
	}
	st.Own.Digest = &trial.Run(t, trains)[0].Digest
	for i := range st.Points {
		own := *st.Own.Digest
		st.Points[i] = sweep.Point{Value: st.Over.At(i), Value2: math.NaN(), Digest: &own}
		st.Points[i].Faults = 0
	}
	return st
}

func against(st *sweep.Study) *sweep.Study {
	const key = "place.gravity_m_s2"
	st.Against = &sweep.Axis{Key: key, From: 9, To: 10, Steps: 2, Value: 9.81, Quantity: scenario.Quantity{Key: key, Words: "acceleration of gravity", Unit: "m/s²"}}
	return st
}

func same(t *testing.T, got []string, want ...string) {
	t.Helper()
	if !slices.Equal(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

func TestSweepHead(t *testing.T) {
	st := swept(t)
	same(t, []string{SweepHead(st, Verdict), SweepTitle(st)},
		"going train at 0.38 mm: SUITS; swept: thickness of the going mainspring from 0.3 mm to 0.5 mm", "going train: SUITS at 0.38 mm")
	st.Hold = vary.Fill
	against(st)
	same(t, []string{SweepHead(st, Small), SweepTitle(st)},
		"going train at 0.38 mm and 9.81 m/s²: suits; swept: thickness of the going mainspring from 0.3 mm to 0.5 mm, against acceleration of gravity from 9 m/s² to 10 m/s²; the strip is cut so that it fills the barrel as before",
		"going train: mean torque at the fusee; every strip cut to the same fill")
}

// A border stands below, between and above with the verdicts that it parts.
func TestSweepChanges(t *testing.T) {
	st := swept(t)
	st.Points[0].Digest, st.Points[0].Fault = sweep.Point{}.Digest, "too thin to be had"
	same(t, SweepSays(st), "it suits wherever in the range it can be built")
	st.Changes = []sweep.Change{{At: 0.312345, Below: rules.Stops, Above: rules.Thin}, {At: 0.35, Below: rules.Thin, Above: rules.Suits}, {At: 41.2345, Below: rules.Suits, Above: rules.Unjudged}}
	same(t, SweepSays(st), "below 0.3123 mm it stops, to 0.35 mm it is thin, to 41.235 mm it suits, above that it is not judged")
	against(st).Points[1].Verdict.Code = rules.Overdriven
	same(t, SweepSays(st), "of the area it suits over 60 %, is overdriven over 20 %")
	for i := range st.Points {
		st.Points[i].Fault = "no"
	}
	same(t, SweepSays(st))
}

// 1.01^2.5 = 1.02519, 1.01^−2 = 0.98030, 1.01^3 = 1.0303 (by hand).
func TestSweepExponent(t *testing.T) {
	st := swept(t)
	says := func(e, err float64) string {
		st.Exponent = vary.Slope{Value: e, Error: err}
		list := SweepSays(st)
		return list[len(list)-1]
	}
	const here = "here 1 % more of it changes the mean torque at the fusee by "
	same(t, []string{says(2.5, 0.005), says(-2, 0.0123)},
		here+"+2.52 % (as its power 2.50); the rule of thumb says its cube, +3.03 % (common practice, no source)",
		here+"−1.97 % (as its power −2.00, give or take 0.0123); the rule of thumb says its cube, +3.03 % (common practice, no source)")
	st.Over.Key = "going.mainspring.width_mm"
	same(t, []string{says(1, 0)}, here+"+1.00 % (as its power 1.00); the rule of thumb says its first power, +1.00 % (common practice, no source)")
	st.Over.Key = "going.line.thickness_mm"
	same(t, []string{says(1, 0)}, here+"+1.00 % (as its power 1.00)")
	// The rule is one of the torque.
	st.Over.Key = thickness
	st.Of, _ = outcome.Named(outcome.LeastReserve)
	same(t, []string{says(1, 0)}, "here 1 % more of it changes the least reserve by +1.00 % (as its power 1.00)")
}

func TestSweepWarns(t *testing.T) {
	st := swept(t)
	same(t, SweepWarns(st))
	st.Limits = []sweep.Limit{{At: 0.31, Fault: "it is too thin"}, {At: 0.48, Above: true, Fault: "it is too long"}}
	st.Points[0].Fault, st.Points[4].Fault = "it is too thin", "it is too long"
	binds, slack := "there is no set-up: the torque falls away at the end of the run and the line may go slack and leave its groove", "the line needs 42.0 mm of barrel and has 39.0"
	for i, at := range []int{1, 3} {
		st.Points[at].Faults = 1 << 1
		if i == 1 {
			st.Points[at].Faults |= 1 << 2
			st.Points[at].Line.Room, st.Points[at].BarrelRoom = 42e-3, 39e-3
		}
	}
	same(t, SweepWarns(st), "below 0.31 mm it cannot be built: it is too thin", "above 0.48 mm it cannot be built: it is too long",
		"fault from 0.35 mm to 0.45 mm, at 2 of the points; at the first: "+binds, "fault at 0.45 mm: "+slack)
	st.Limits = nil
	against(st)
	same(t, SweepWarns(st), "40 % of the area cannot be built, such as: it is too long",
		"fault over 40 % of the area, such as: "+binds, "fault at 0.45 mm: "+slack)
}

// Values are written to four figures, and so that neighbours differ.
// Where a verdict changes is told to a tenth of how far the input may be off, as far as one
// digit tells it; else as any value of the axis.
func TestBorderAt(t *testing.T) {
	for _, c := range []struct {
		e    scenario.ReadingError
		v    float64
		want string
	}{
		{scenario.ReadingError{PlusMinus: 0.01}, 0.34331, "0.343 mm"}, {scenario.ReadingError{PlusMinus: 0.1}, 0.34331, "0.34 mm"},
		{scenario.ReadingError{PlusMinus: 0.25}, 0.34331, "0.34 mm"}, {scenario.ReadingError{PlusMinus: 0.01}, 0.346, "0.346 mm"},
		{scenario.ReadingError{Percent: 8}, 1612.7, "1610 mm"}, {scenario.ReadingError{}, 0.34331, "0.3433 mm"},
	} {
		a := &sweep.Axis{From: 0.3, To: 0.4, Steps: 41}
		a.Quantity.Unit, a.Quantity.Usual = "mm", c.e
		if got := borderAt(a, c.v); got != c.want {
			t.Errorf("%+v: %q, want %q", c.e, got, c.want)
		}
	}
}

func TestAxisValues(t *testing.T) {
	for _, c := range []struct {
		from, to float64
		steps    int
		v        float64
		want     string
	}{
		{0.285, 0.475, 41, 0.38, "0.38"}, {0.285, 0.475, 41, 0.28975, "0.2898"}, {0, 1, 2, 0, "0"}, {-1, 1, 21, -0.5, "−0.5"}, {0, 1, 2, 0.0123456, "0.01235"},
		{1000, 2000, 11, 1500, "1500"}, {1000, 2000, 3, 1500.4, "1500"}, {0, 10, 101, 2.5, "2.5"}, {0, 10, 10_001, 2.501, "2.501"}, {1, 1.001, 11, 1.0001, "1.0001"},
		{0, 1e5, 3, 12345.6, "12346"}, {0, 100, 3, -12.3456, "−12.35"}, {0, 100, 3, 1.23456, "1.235"}, {5e-324, 1, 2, 5e-324, "0"}, {9, 10, 2, 9.80665, "9.807"},
	} {
		if got := AxisValue(&sweep.Axis{From: c.from, To: c.to, Steps: c.steps}, c.v); got != c.want {
			t.Errorf("%v: %s, want %s", c, got, c.want)
		}
	}
}

// What a sweep of the sample finds comes out whole.
func TestSweepOfASample(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st, err := sweep.Run(context.Background(), s, 0, sweep.Options{Over: sweep.Axis{Key: thickness, From: math.NaN(), To: math.NaN(), Steps: 41}})
	if err != nil {
		t.Fatal(err)
	}
	says := SweepSays(st)
	if len(says) != 2 || !strings.Contains(says[0], "to 0.414 mm it suits") || !strings.Contains(says[1], "as its power 2.56") || !strings.Contains(strings.Join(SweepWarns(st), "\n"), "at the first: the spring binds") {
		t.Errorf("%s\n%s", strings.Join(says, "\n"), strings.Join(SweepWarns(st), "\n"))
	}
}

func TestResultsInWords(t *testing.T) {
	torque, uneven := outcome.Quantity{Unit: "N·m"}, outcome.Quantity{Share: true}
	pure := outcome.Quantity{}
	same(t, []string{Valued(&torque, 0.4294), Valued(&uneven, 0.0198), Valued(&pure, 1.4), Valued(&torque, math.NaN()), Value(&uneven, 1e-6), ValueUnit(&uneven)},
		"0.429 N·m", "1.98 %", "1.40", "– N·m", "< 0.01", "%")
	same(t, []string{Changed(&torque, 0.0123), Changed(&torque, -0.0123), Changed(&uneven, -0.001), Changed(&pure, 0), Changed(&pure, math.NaN())},
		"+0.0123", "−0.0123", "−0.100 %", "0", "not built")
}

func TestInputs(t *testing.T) {
	q := scenario.Quantity{Key: thickness, Words: "thickness of the going mainspring", Unit: "mm"}
	pure := scenario.Quantity{Words: "drag on the third arbor of the going train"}
	same(t, []string{Input(q.Words, "going"), Input(q.Words, "striking"), InputLabel(&q), InputLabel(&pure), Input(pure.Words, "going")},
		"thickness of the mainspring", "thickness of the going mainspring", "thickness of the going mainspring, mm", "drag on the third arbor of the going train", "drag on the third arbor")
}
