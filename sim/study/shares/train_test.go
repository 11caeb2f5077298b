package shares_test

import (
	"math"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/outcome"
	"evenpull/sim/scenario"
	"evenpull/sim/study/shares"
	"evenpull/sim/vary"
)

// The mean torque is in proportion to the width of a narrow spring, to an efficiency and,
// nearly, to a power of the thickness: for small tolerances the shares of the inputs,
// first-order and total-order alike, are the parts of the sum of the delta method (JCGM
// 100, 5.1.2): σ = a/2 of a normal tolerance, a/√3 of a uniform one (4.3.7).
func TestOfTrain(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day", "width_mm     = 32.0", "bending = \"strip\"\nwidth_mm = 32.0")
	inputs, parts, sum := []vary.Input{}, []float64{}, 0.0
	of, err := outcome.Several(outcome.MeanTorque, "runtime_h", "blow_interval_s.mean")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		key string
		e   scenario.ReadingError
	}{
		{"going.mainspring.width_mm", scenario.ReadingError{PlusMinus: 0.1}},
		{"going.mainspring.thickness_mm", scenario.ReadingError{PlusMinus: 0.0003, Uniform: true}},
		{"going.line.efficiency", scenario.ReadingError{Percent: 0.1}},
		{"going.demand.least_torque_nm", scenario.ReadingError{PlusMinus: 0.02}},
	} {
		q, err := s.Quantity(c.key)
		if err != nil {
			t.Fatal(err)
		}
		m, err := vary.Reading(s, 0, vary.Length, c.key)
		if err != nil {
			t.Fatal(err)
		}
		value := m.Nominal()[0]
		_, hi := c.e.Around(value)
		sd := (hi - value) / 2
		if c.e.Uniform {
			sd = (hi - value) / math.Sqrt(3)
		}
		part := math.Pow(m.Slopes(0, hi-value, of[:1])[0].Value*sd, 2)
		inputs, parts, sum = append(inputs, vary.Input{Key: c.key, Parts: []vary.Part{{Quantity: q, Value: value, Error: c.e}}}), append(parts, part), sum+part
	}
	m, err := vary.Draws(s, 0, vary.Length, nil, inputs)
	if err != nil {
		t.Fatal(err)
	}
	all, err := shares.OfTrain(t.Context(), m, inputs, of, 1)
	if err != nil || len(all) != 3 {
		t.Fatal(err, len(all))
	}
	for i, in := range all[0].Inputs {
		if want := parts[i] / sum; math.Abs(in.First.Value-want) > 0.01 || math.Abs(in.Total.Value-want) > 0.005 {
			t.Errorf("%s: %+v, want %v", inputs[i].Key, in, want)
		}
	}
	// What nothing moves has no shares, and what no run has is left out.
	if r := all[1]; !math.IsNaN(r.Joint.Value) || r.Failed != 0 {
		t.Errorf("%+v", r)
	}
	if r := all[2]; !math.IsNaN(r.Inputs[0].Total.Value) || r.Failed != r.Pairs {
		t.Errorf("%+v", r)
	}
}

// BenchmarkShares is the shares in the least reserve of the eight-day clock.
func BenchmarkShares(b *testing.B) {
	s, _ := trial.Compile(b, "eight-day")
	inputs, err := vary.Inputs(s, 0)
	if err != nil {
		b.Fatal(err)
	}
	of, err := outcome.Several(outcome.LeastReserve)
	if err != nil {
		b.Fatal(err)
	}
	m, err := vary.Draws(s, 0, vary.Length, nil, inputs)
	if err != nil {
		b.Fatal(err)
	}
	m.For(of)
	b.ReportAllocs()
	var all []shares.Result
	for b.Loop() {
		if all, err = shares.OfTrain(b.Context(), m, inputs, of, 1); err != nil {
			b.Fatal(err)
		}
	}
	runs := shares.Scrambles * shares.Points * (len(inputs) + 2)
	if again := (all[0].Pairs - shares.Scrambles*shares.Points*len(inputs)) / (shares.Scrambles * (shares.MostPoints - shares.Points)); again > 0 {
		runs += shares.Scrambles * shares.MostPoints * (again + 2)
	}
	b.ReportMetric(float64(runs), "runs")
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(runs), "ns/run")
}
