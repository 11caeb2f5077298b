package vary

import (
	"math"
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/outcome"
	"evenpull/sim/scenario"
)

// elasticity is that of a figure in the only key of a model.
func elasticity(t testing.TB, s *scenario.Scenario, key string, of func(*sim.Digest) float64) Slope {
	t.Helper()
	m := model(t, s, Length, key)
	y := of(&mustRun(t, m, m.Nominal()...).Digest)
	return m.Slopes(0, 0, []outcome.Figure{{Of: of}})[0].Elasticity(m.Nominal()[0], y)
}

func mean(r *sim.Digest) float64 { return r.Torque.Mean }

// springRate is the slope of the spring's torque over its turns, N·m a turn, in
// the middle of the run.
func springRate(r *sim.Result) float64 {
	a, b := &r.Rows[len(r.Rows)/4], &r.Rows[len(r.Rows)/2]
	return (a.SpringTorque - b.SpringTorque) / (a.SpringTurns - b.SpringTurns)
}

// The torque of a narrow strip is proportional to its width. The rate of a straight strip, all of it
// free, is 2πEI/L a turn: it goes with the width, the modulus, the cube of the
// thickness and the inverse of the length (S. Timoshenko, Strength of Materials).
func TestElasticitiesOfTheSpring(t *testing.T) {
	set, _ := trial.Compile(t, "eight-day", "width_mm     = 32.0", "bending = \"strip\"\nwidth_mm = 32.0")
	closeTo(t, "mean torque in the width", elasticity(t, set, "going.mainspring.width_mm", mean).Value, 1, 1e-9)
	closeTo(t, "mean torque in the coil friction", elasticity(t, set, "going.mainspring.efficiency", mean).Value, 1, 1e-9)

	// Thin and short: free from wall and arbor from the first turn to the last.
	straight, _ := trial.Compile(t, "eight-day", "yield_mpa    = 1620.0", "natural_form = \"straight\"\nbending = \"strip\"",
		"thickness_mm = 0.38", "thickness_mm = 0.20", "length_mm    = 1650.0", "length_mm    = 1200.0")
	for key, want := range map[string]float64{"width_mm": 1, "modulus_gpa": 1, "thickness_mm": 3, "length_mm": -1} {
		m := model(t, straight, Length, "going.mainspring."+key)
		rate := func(*sim.Digest) float64 { return springRate(&m.result) } // which is that of the run just made
		mustRun(t, m, m.Nominal()...)
		y := springRate(&m.result)
		closeTo(t, "rate of a straight strip in "+key, m.Slopes(0, 0, []outcome.Figure{{Of: rate}})[0].Elasticity(m.Nominal()[0], y).Value, want, 1e-7)
	}
	// A spring that sets gains less from its thickness: between square and cube.
	if e := elasticity(t, set, "going.mainspring.thickness_mm", mean); !(e.Value > 2 && e.Value < 3) || e.Error > 1e-5 {
		t.Errorf("mean torque in the thickness: %+v", e)
	}
}

// The couple that keeps a pendulum swinging goes with its stiffness m g l.
func TestElasticitiesOfTheNeed(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	need := func(r *sim.Digest) float64 { return r.Need.Predicted }
	for key, want := range map[string]float64{"place.gravity_m_s2": 1, "going.pendulum.mass_g": 1, "going.pendulum.length_mm": 1, "going.mesh.centre.efficiency": -1} {
		closeTo(t, "need in "+key, elasticity(t, s, key, need).Value, want, 1e-8)
	}
	// T = 2π√(l/g): the running time goes with the root of the length.
	hours := func(r *sim.Digest) float64 { return r.Runtime }
	closeTo(t, "running time in the length", elasticity(t, s, "going.pendulum.length_mm", hours).Value, 0.5, 1e-9)
}

// The error that comes with a slope holds, on a figure known in closed form, also
// at the end of a range where differences go to one side only.
func TestSlopeErrors(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day", "efficiency   = 0.90", "efficiency   = 1.0")
	m := model(t, s, Length, "going.mainspring.efficiency")
	curved := func(r *sim.Digest) float64 { return math.Exp(3 * r.Torque.Mean) }
	got := m.Slopes(0, 0, []outcome.Figure{{Of: curved}})[0]
	y := &mustRun(t, m, 1).Digest
	want := 3 * y.Torque.Mean * curved(y) // the mean is proportional to the efficiency
	if e := math.Abs(got.Value - want); e > 1e-5*want || e > 2*got.Error+1e-9 {
		t.Errorf("%+v, want %v", got, want)
	}
	// Across a kink no step will do, and the error says so.
	kink := func(r *sim.Digest) float64 { return 1 + math.Abs(r.Spring.EndFloat-1.2e-3) }
	m = model(t, s, Length, "going.mainspring.width_mm")
	if e := m.Slopes(0, 0, []outcome.Figure{{Of: func(r *sim.Digest) float64 { return kink(r) + r.Spring.EndFloat*r.Spring.EndFloat }}})[0]; math.IsNaN(e.Value) {
		t.Errorf("%+v", e)
	}
	// What does not apply has no slope, what does not move has none either.
	none := m.Slopes(0, 0, []outcome.Figure{{Of: func(*sim.Digest) float64 { return math.NaN() }}, {Of: func(*sim.Digest) float64 { return 7 }}})
	if !math.IsNaN(none[0].Value) || none[1] != (Slope{0, 0}) {
		t.Errorf("%+v", none)
	}
	if e := (Slope{2, 0.1}).Elasticity(3, 0); !math.IsNaN(e.Value) {
		t.Errorf("%+v", e)
	}
}

// The error of one-sided differences falls at least with the cube of the step,
// that of central ones with its sixth power: halving the first step of a smooth
// figure shows the order that Richardson's extrapolation gives.
func TestOrderOfSlopes(t *testing.T) {
	f := func(x float64) []float64 { return []float64{math.Exp(x)} }
	for _, c := range []struct {
		factor, order float64
		quotient      func(h float64) []float64
	}{
		{4, 6, func(h float64) []float64 { return quotients(f(1+h), f(1-h), 2*h) }},
		{2, 3, func(h float64) []float64 { return quotients(f(1+h), f(1), h) }},
	} {
		miss := func(h float64) float64 {
			s := slopes{best: []Slope{{math.NaN(), math.Inf(1)}}, middle: f(1), scale: 1}
			s.keep([3][]float64{c.quotient(h), c.quotient(h / 2), c.quotient(h / 4)}, c.factor)
			return math.Abs(s.best[0].Value - math.E)
		}
		if order := math.Log2(miss(0.4) / miss(0.2)); math.Abs(order-c.order) > 0.25 {
			t.Errorf("order %v, want %v", order, c.order)
		}
	}
}
