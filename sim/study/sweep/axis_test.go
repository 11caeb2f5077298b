package sweep

import (
	"context"
	"errors"
	"math"
	"testing"
	"unsafe"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/outcome"
	"evenpull/sim/rules"
)

// Left out, the range is a quarter of the value to both sides, and the least and
// the greatest number of steps are taken.
func TestAxis(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	a := Axis{Key: "going.mainspring.thickness_mm", From: nan, To: nan, Steps: 2}
	if err := a.fill(s); err != nil || math.Abs(a.From-0.285) > 1e-15 || math.Abs(a.To-0.475) > 1e-15 || a.Value != 0.38 || a.Quantity.Unit != "mm" || a.Quantity.Key != a.Key {
		t.Errorf("%v: %+v", err, a)
	}
	for steps, fits := range map[int]bool{1: false, 2: true, 10_001: true, 10_002: false} {
		a := Axis{Key: "going.mainspring.thickness_mm", From: 0.1, To: 1, Steps: steps}
		if err := a.fill(s); (err == nil) != fits || !fits && !errors.Is(err, ErrRange) {
			t.Errorf("%d steps: %v", steps, err)
		}
	}
	for _, c := range []struct {
		v    float64
		want bool
	}{{0.1, true}, {1, true}, {0.5, true}, {0.09, false}, {1.1, false}} {
		if a := (Axis{From: 0.1, To: 1, Value: c.v}); a.Holds() != c.want {
			t.Errorf("%v within the range: %v", c.v, !c.want)
		}
	}
}

// The values are the decimals that one would write, from end to end, and the
// scenario's own is among them exactly.
func TestAxisAt(t *testing.T) {
	a := Axis{From: 0.285, To: 0.475, Steps: 41, Value: 0.38 + 1e-12}
	for i, want := range map[int]float64{0: 0.285, 1: 0.28975, 7: 0.31825, 20: a.Value, 33: 0.44175, 40: 0.475} {
		if got := a.At(i); got != want {
			t.Errorf("step %d is %v, want %v", i, got, want)
		}
	}
	a = Axis{From: -1000, To: 2000, Steps: 10, Value: 0.1}
	for i, want := range map[int]float64{0: -1000, 1: -666.66666667, 3: 0, 9: 2000} {
		if got := a.At(i); got != want {
			t.Errorf("step %d is %v, want %v", i, got, want)
		}
	}
	// The scenario's own value is met where it differs by rounding only.
	a.Value = 2e-6
	if got := a.At(3); got != a.Value {
		t.Errorf("step 3 is %v, want %v", got, a.Value)
	}
	// The ends stay as they are, whatever their decimals; what is between has eleven of
	// them here: (1/3 + π)/2 = 1.737462993461…, worked by hand.
	a = Axis{From: 1 / 3.0, To: math.Pi, Steps: 3}
	if a.At(0) != a.From || a.At(1) != 1.73746299346 || a.At(2) != a.To {
		t.Errorf("%v, %v, %v", a.At(0), a.At(1), a.At(2))
	}
	// A range of 10¹³ is told in tens.
	if a := (Axis{From: 0, To: 1e13, Steps: 4}); a.At(1) != 3_333_333_333_330 {
		t.Errorf("%v", a.At(1))
	}
	// Ranges whose decimals are beyond what a number holds still give their middle.
	if a := (Axis{From: 1e-300, To: 3e-300, Steps: 3}); math.Abs(a.At(1)/2e-300-1) > 1e-15 {
		t.Errorf("%v", a.At(1))
	}
	if a := (Axis{From: -1.5e308, To: 1.5e308, Steps: 3}); math.IsNaN(a.At(1)) {
		t.Errorf("%v", a.At(1))
	}
	// Of a range that no decimals tell apart the steps still rise to its end.
	a = Axis{From: 1, To: 1 + 1e-15, Steps: 3, Value: 5}
	if x, y := a.At(1), a.At(2); !(x >= 1 && y >= x) || y != a.To {
		t.Errorf("%v, %v", x, y)
	}
}

// What a sweep found is counted over its points.
func TestFound(t *testing.T) {
	st := &Study{Points: make([]Point, 5)}
	for i := range st.Points {
		st.Points[i].Value, st.Points[i].Digest = 5-float64(i), new(sim.Digest)
	}
	st.Points[1].Faults, st.Points[3].Faults, st.Points[2].Fault = 1<<sim.NoFloat|1<<sim.Binds, 1<<sim.NoFloat, "not to be had"
	spans := st.FaultSpans()
	if len(spans) != 2 || spans[0] != (FaultSpan{sim.Binds, &st.Points[1], 4, 4, 1}) || spans[1] != (FaultSpan{sim.NoFloat, &st.Points[1], 2, 4, 2}) {
		t.Errorf("%+v", spans)
	}
	if n, why := st.Unbuilt(); n != 1 || why != "not to be had" || st.Verdicts()[0] != 4 {
		t.Errorf("%d %s, %v", n, why, st.Verdicts())
	}
}

// A study is of the mean torque unless it is of something else, whose exponent it
// gives: the reserve over a need goes with the need to the power −1.
func TestOf(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	over := Axis{Key: "going.demand.least_torque_nm", From: nan, To: nan, Steps: 3}
	reserve, err := outcome.Named(outcome.LeastReserve)
	if err != nil {
		t.Fatal(err)
	}
	st := study(t, s, 0, Options{Over: over, Of: reserve})
	if math.Abs(st.Exponent.Value+1) > 1e-8 || st.Of.Name != outcome.LeastReserve {
		t.Errorf("%s goes with the power %v", st.Of.Name, st.Exponent.Value)
	}
	for i := range st.Points {
		if p := &st.Points[i]; st.Result(p) != p.Reserve(p.Torque.Min) {
			t.Errorf("at %v: %v", p.Value, st.Result(p))
		}
	}
	if !math.IsNaN(st.Result(&Point{Fault: "none"})) {
		t.Error("a train that cannot be built has a result")
	}
	if st := study(t, s, 0, Options{Over: over}); st.Of.Name != outcome.MeanTorque || math.Abs(st.Exponent.Value) > 1e-9 {
		t.Errorf("%s goes with the power %v", st.Of.Name, st.Exponent.Value)
	}
	// The caller's second axis stays as it was, and the largest map that may be is taken.
	against := &Axis{Key: "place.gravity_m_s2", From: nan, To: nan, Steps: 3}
	m := study(t, s, 0, Options{Over: over, Against: against})
	if !math.IsNaN(against.From) || m.Against.From >= m.Against.To || m.Own.Value2 != m.Against.Value || m.Own.Value != 0.33 {
		t.Errorf("%+v, %+v", against, m.Own.Value2)
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	over.Steps, against.Steps = 500, 500
	if _, err := Run(ctx, s, 0, Options{Over: over, Against: against}); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}

// A map keeps little of each point, so that the largest does not fill the memory.
func TestLittleIsKept(t *testing.T) {
	if size := unsafe.Sizeof(Point{}); size > 120 {
		t.Errorf("%d bytes a point", size)
	}
}

// The extremes of a result are those of the points that suit without a fault.
func TestExtremes(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	of, _ := outcome.Named(outcome.Unevenness)
	st := study(t, s, 0, Options{Over: Axis{Key: "going.mainspring.thickness_mm", From: 0.3, To: 0.46, Steps: 9}, Against: &Axis{Key: "going.barrel.set_up_turns", From: 0, To: 3, Steps: 7}, Of: of})
	least, most := st.Extremes()
	var lo, hi float64
	n := 0
	for i := range st.Points {
		p := &st.Points[i]
		if d := p.Run(); p.Built() && d.Verdict.Code == rules.Suits && d.Faults == 0 {
			if v := d.Torque.Unevenness; n == 0 {
				lo, hi = v, v
			} else {
				lo, hi = min(lo, v), max(hi, v)
			}
			n++
		}
	}
	if n < 3 || st.Result(least) != lo || st.Result(most) != hi || lo >= hi {
		t.Errorf("%d points, %v to %v; told %v to %v", n, lo, hi, st.Result(least), st.Result(most))
	}
	for i := range st.Points {
		st.Points[i].Fault = "not to be had"
	}
	if least, most = st.Extremes(); least != nil || most != nil {
		t.Error("a point that cannot be built")
	}
}
