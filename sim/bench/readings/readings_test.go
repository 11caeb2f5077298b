package readings

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"evenpull/sim"
	"evenpull/sim/bench/book"
	"evenpull/sim/bench/fit"
	"evenpull/sim/bench/measure"
	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
)

func closeTo(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol*math.Max(1e-300, math.Abs(want))) {
		t.Errorf("%s = %.10g, want %.10g", what, got, want)
	}
}

// with is the scenario with values set.
func with(t testing.TB, s *scenario.Scenario, sets ...string) *scenario.Scenario {
	t.Helper()
	c := s.Clone()
	if err := c.Apply(sets); err != nil {
		t.Fatal(err)
	}
	return c
}

// read makes readings of a run at whole turns: some repeats, each reading changed
// by a function of its own.
func read(r *sim.Result, train string, repeats int, winding bool, change func(v float64) float64) *book.Torque {
	t := &book.Torque{Train: train, Spring: "S"}
	for range repeats {
		var down, up []float64
		for turn := range int(r.Train.Drive.Cone.Turns) + 1 {
			if row := rowAt(r, float64(turn)); row != nil {
				down, up = append(down, change(row.FuseeTorque)), append(up, change(row.WindingTorque))
			}
		}
		t.RunningDown = append(t.RunningDown, down)
		if winding {
			t.WindingUp = append(t.WindingUp, up)
		}
	}
	return t
}

func springOf(t *book.Torque) Spring {
	s := measure.SupplyOf(t)
	return Spring{&s, t.MeterRelative, t.MeterResolutionNM}
}

func same(v float64) float64 { return v }

// Readings that are the prediction leave nothing; readings that are 5 % more leave
// 5 %.
func TestCompare(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	r := trial.RunOf(t, s, 0)
	c, err := Compare(springOf(read(r, "going", 3, true, same)), s)
	if err != nil || len(c.Points) != 34 || c.RMS > 1e-15 || math.Abs(c.Ratio-1) > 1e-15 || !math.IsNaN(c.ChiSquarePerDOF) {
		t.Errorf("%+v, %v", c, err)
	}
	more := read(r, "going", 2, false, func(v float64) float64 { return 1.05 * v })
	more.MeterResolutionNM, more.MeterRelative = 0.012, 0.01
	c, err = Compare(springOf(more), s)
	if err != nil {
		t.Fatal(err)
	}
	squares := 0.0
	for i := range c.Points {
		p := &c.Points[i]
		closeTo(t, "residual", p.Residual(), 0.05*p.Predicted, 1e-12)
		closeTo(t, "its uncertainty", p.SD, 0.012/math.Sqrt(12), 1e-9) // no scatter: the meter's step alone
		squares += p.Residual() * p.Residual()
	}
	closeTo(t, "ratio", c.Ratio, 1.05, 1e-12)
	closeTo(t, "rms", c.RMS, math.Sqrt(squares/17), 1e-12)
	closeTo(t, "χ²", c.ChiSquarePerDOF, squares/17*12/(0.012*0.012), 1e-9)
	closeTo(t, "meter", c.Meter, 0.01/math.Sqrt(3), 1e-12)
	closeTo(t, "least reserve", c.Reserve.Min, 1.05*r.Torque.Min/0.33, 1e-9)
	var none *scenario.NoTrainError
	if _, err := Compare(springOf(read(r, "chimes", 2, false, same)), s); !errors.As(err, &none) || !strings.Contains(err.Error(), "going") {
		t.Errorf("%v", err)
	}
}

// A run that starts late has no prediction for the turns before.
func TestTurnsLost(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	lost := with(t, s, "going.mainspring.thickness_mm=0.475")
	c, err := Compare(springOf(read(trial.RunOf(t, s, 0), "going", 2, false, same)), lost)
	if err != nil || !math.IsNaN(c.Points[0].Predicted) || math.IsNaN(c.RMS) || math.IsNaN(c.Ratio) {
		t.Errorf("%v, %v", err, c)
	}
}

// Exact readings of a changed clock give the changed values back.
func TestExplainExactly(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	for _, c := range []struct {
		keys    []string
		sets    []string
		values  []float64
		winding bool
	}{
		{[]string{"going.mainspring.thickness_mm"}, []string{"going.mainspring.thickness_mm=0.40"}, []float64{0.40}, false},
		{[]string{"going.mainspring.thickness_mm", "going.mainspring.efficiency"}, []string{"going.mainspring.thickness_mm=0.37", "going.mainspring.efficiency=0.86"}, []float64{0.37, 0.86}, true},
		{[]string{"going.barrel.set_up_turns", "going.barrel.arbor_diameter_mm", "going.line.efficiency"},
			[]string{"going.barrel.set_up_turns=1.5", "going.barrel.arbor_diameter_mm=15.6", "going.line.efficiency=0.95"}, []float64{1.5, 15.6, 0.95}, false},
		{[]string{"going.mainspring.width_mm", "going.mainspring.efficiency"}, []string{"going.mainspring.width_mm=31", "going.mainspring.efficiency=0.93"}, []float64{31, 0.93}, true},
	} {
		e, err := Explain(t.Context(), springOf(read(trial.RunOf(t, with(t, s, c.sets...), 0), "going", 2, c.winding, same)), s, c.keys)
		if err != nil || e.Status != fit.Converged {
			t.Errorf("%v: %v, %v", c.keys, e, err)
			continue
		}
		for i, want := range c.values {
			closeTo(t, c.keys[i], e.Inputs[i].Value, want, 1e-6)
		}
		if e.RMS > 1e-7 || e.After.Ratio < 1-1e-6 {
			t.Errorf("%v: %v N·m left", c.keys, e.RMS)
		}
	}
}

// χ² is 1 a degree of freedom in the mean, however far run-downs differ as wholes:
// against the fit, and against the true prediction.
func TestChiSquareIsHonest(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	r := trial.RunOf(t, s, 0)
	random := rand.New(rand.NewPCG(1, 2))
	const cases = 400
	fitted, compared := 0.0, 0.0
	for range cases {
		k, offset := 0, 0.0
		sp := springOf(read(r, "going", 5, false, func(v float64) float64 {
			if k++; k%34 == 1 {
				offset = 0.01 * random.NormFloat64()
			}
			return v*(1+offset) + 0.004*random.NormFloat64()
		}))
		e, err := Explain(t.Context(), sp, s, []string{"going.mainspring.thickness_mm"})
		if err != nil {
			t.Fatal(err)
		}
		c, err := Compare(sp, s)
		if err != nil {
			t.Fatal(err)
		}
		fitted, compared = fitted+e.ChiSquarePerDOF/cases, compared+c.ChiSquarePerDOF/cases
	}
	// With a variance from 64 degrees of freedom χ² is 64/62 in the mean; three standard
	// errors of the mean of 400 are 0.06.
	if !(math.Abs(fitted-64.0/62) <= 0.06 && math.Abs(compared-64.0/62) <= 0.08) {
		t.Errorf("χ² %.3f and %.3f a degree of freedom", fitted, compared)
	}
}
