package chart

import (
	"slices"
	"testing"

	"evenpull/sim/bench/measure"

	"gonum.org/v1/plot/plotter"
)

// The law of a fly is drawn from where its pace is 0 up to the greatest torque under
// which blows were timed; a trial without a time has no dot. Figures worked out by hand.
func TestPaceOfTheBlows(t *testing.T) {
	n := &measure.Need{Train: "striking", Cadence: &measure.Cadence{Threshold: 0.2, Slope: 3}, Trials: []measure.Trial{
		{Torque: 0.4, Interval: 2}, {Torque: 0.7, Interval: 0.5}, {Torque: 0.5, Interval: 1}, {Torque: 0.9, Interval: nan}}}
	p := pace(n)
	if want := (plotter.XYs{{X: 0.4, Y: 0.25}, {X: 0.7, Y: 4}, {X: 0.5, Y: 1}}); !slices.Equal(p.layers[1].points, want) {
		t.Errorf("%v", p.layers[1].points)
	}
	law := p.layers[0].points
	if len(law) != 2 || law[0] != (plotter.XY{X: 0.2, Y: 0}) || law[1].X != 0.7 || !(law[1].Y > 1.4999 && law[1].Y < 1.5001) {
		t.Errorf("%v", law)
	}
	if n.Cadence.Threshold = nan; len(pace(n).layers) != 1 {
		t.Error("a law that is not known is drawn")
	}
}
