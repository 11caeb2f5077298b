package words

import (
	"math"
	"strings"
	"testing"

	strip "evenpull/fusee/mainspring/coils"

	"evenpull/sim/study/coils"
)

// coiled is a loop of two windings, with given couples running down, of a run that reckons with
// 0.9 N·m, and of a strip of which some is pressed.
func coiled(down ...float64) *coils.Result {
	r := &coils.Result{Train: "going", Options: coils.Options{Friction: 0.1}, Loop: &strip.Loop{Rest: 0.081, Solid: 8.5}}
	for i, couple := range down {
		press := []float64{0, Pressed, Pressed, 0}
		s := &strip.Shape{Turns: float64(2*i + 1), Couple: couple, Along: []float64{0, 1, 2, 4}, Inner: press[i%2:][:3], Wall: make([]float64, 4)}
		s.Inner = append(s.Inner, 0)
		r.Loop.Windings = append(r.Loop.Windings, strip.Winding{Down: s})
		r.Closed, r.Used = append(r.Closed, 1), append(r.Used, 0.9)
	}
	return r
}

// What is found is told with its sign, in whole percents.
func TestFoundCoils(t *testing.T) {
	for _, c := range []struct {
		off  []float64
		want string
	}{
		{[]float64{0.95, 1.09}, "from 5 % less to 9 % more than the"}, {[]float64{1.05, 1.114}, "5 to 11 % more than the"}, {[]float64{1.002, 1.03}, "0 to 3 % more than the"},
		{[]float64{0.9, 0.96}, "4 to 10 % less than the"}, {[]float64{0.97, 0.999}, "0 to 3 % less than the"}, {[]float64{1.04, 1.041}, "4 % more than the"}, {[]float64{0.92, 0.921}, "8 % less than the"},
		{[]float64{0.998, 1.002}, "to 1 % the"}, {[]float64{0.96, 1.04}, "from 4 % less to 4 % more than the"},
	} {
		r := coiled(0.9*c.off[0], 0.9*c.off[1])
		want := "going train: running down, the strip gives " + c.want + " couple that a run reckons with"
		if got := strings.ReplaceAll(FoundCoils(r), "\u00a0", " "); got != want {
			t.Errorf("%v: %q, want %q", c.off, got, want)
		}
	}
}

// Where the closed form gives nothing, nothing is over it.
func TestCoilsAtNothing(t *testing.T) {
	r := coiled(0.3, 0.99)
	r.Closed[0], r.Used[0] = 0, 0
	if got := FoundCoils(r); !strings.Contains(got, "gives 10\u00a0% more") || !math.IsNaN(r.OfRun(0)) {
		t.Errorf("%q", got)
	}
	r.Closed[1], r.Used[1] = 0, 0
	if got := FoundCoils(r); !strings.HasSuffix(got, "gives no couple") {
		t.Errorf("%q", got)
	}
}

// By hand: of a strip of 4 m, from 1 to 4 m is pressed at 1 turn, and from 0 to 2 m at 3.
func TestFoundCoilShapes(t *testing.T) {
	if got, want := strings.ReplaceAll(FoundCoilShapes(coiled(1, 1)), "\u00a0", " "), "going train, running down: the coils press along 75 % of the strip at 1 turn, 50 % at 3 turns"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got := FoundCoilShapes(coiled(1)); strings.Contains(got, ", 75") || !strings.HasSuffix(got, "at 1 turn") {
		t.Errorf("%q", got)
	}
	for want, got := range map[string]string{
		"under 0.01 N/mm": CoilsStep(0, 10), "0.1 to 1 N/mm": CoilsStep(100, 1000), "over 10 N/mm": CoilsStep(1e4, math.Inf(1)),
		"at rest, 0.08 turns": CoilsAtRest(coiled(1)), "solid, 8.5 turns": CoilsSolid(coiled(1)), "a run takes 90.0 % of the closed form": CoilsUsed(coiled(1)),
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
