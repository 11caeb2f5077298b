package shares

import (
	"context"
	"math"

	"evenpull/sim/outcome"
	"evenpull/sim/vary"
)

// OfTrain estimates the shares of inputs, which vary in a model, in the variance of
// figures of its run-down. The error is that of ctx, or tells why no other model can be
// made.
func OfTrain(ctx context.Context, m *vary.Model, inputs []vary.Input, of []outcome.Figure, seed int64) ([]Result, error) {
	p := Problem{Results: len(of), Seed: seed}
	var parts []vary.Part
	for i := range inputs {
		parts = append(parts, inputs[i].Parts...)
		p.Inputs = append(p.Inputs, len(inputs[i].Parts))
	}
	p.Place = func(c int, u float64) float64 { return parts[c].Error.Place(u) }
	drawers, err := vary.Drawers(m, inputs, seed, math.MaxInt32)
	if err != nil {
		return nil, err
	}
	for _, d := range drawers {
		p.Runs = append(p.Runs, func(places, y []float64) bool {
			r, err := d.Run(places, nil)
			if err != nil {
				return false
			}
			for i := range of {
				if y[i] = of[i].Of(&r.Digest); math.IsInf(y[i], 0) {
					y[i] = math.NaN()
				}
			}
			return true
		})
	}
	results, err := Of(ctx, p)
	for _, r := range results {
		for i := range r.Inputs {
			r.Inputs[i].Words = inputs[i].Words
		}
	}
	return results, err
}
