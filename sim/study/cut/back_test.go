package cut

import (
	"context"
	"math"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
)

// A new cone turned to the table, whose diameters are to 0.01 mm, and read back as points is
// even to 0.5 % with four diameters a turn, and with one a turn as even as is told of it: over
// the groove bottoms, and over lands as high as the groove is deep; for gut, and for a chain,
// half of whose height lies in a groove as wide as it is.
func TestTurnedToTheTable(t *testing.T) {
	cones := 0
	for _, step := range []float64{1, 0.25} {
		worst := 0.0
		for number := range uint64(24) {
			s := trial.Invent(t, number)
			in := &s.Trains[0]
			if number%2 == 0 {
				in.Line.Kind, in.Line.WidthMM = chain, 0.8*in.Line.ThicknessMM
			}
			st, err := Run(context.Background(), s, 0, Options{FromBlank: true, Large: nan, Small: nan, Step: step})
			if err != nil {
				continue // no even cone from that end
			}
			cones++
			for _, over := range []string{scenario.OverGroove, scenario.OverLands} {
				uneven := turned(t, s, st, over)
				worst = math.Max(worst, uneven)
				if limit := map[float64]float64{1: st.Whole + 0.003, 0.25: 0.005}[step]; uneven > limit {
					t.Errorf("clock %d, step %v, over %s: unevenness %v, want %v", number, step, over, uneven, limit)
				}
			}
		}
		t.Logf("step %v: unevenness %.2f %% at the most", step, 100*worst)
	}
	if cones < 30 {
		t.Errorf("%d cones only", cones)
	}
}

// turned is the unevenness of the train with a cone turned to the rows of a study, measured
// over groove or lands.
func turned(t testing.TB, s *scenario.Scenario, st *Study, over string) float64 {
	t.Helper()
	f := &s.Trains[0].Fusee
	was := *f
	defer func() { *f = was }()
	f.Profile, f.Over, f.LandHeightMM, f.DiametersMM, f.Points = scenario.Measured, over, st.Groove.Depth/mm, nil, nil
	for _, r := range st.Rows {
		d := r.Diameter
		if over == scenario.OverLands {
			d = r.OverLands
		}
		f.Points = append(f.Points, scenario.Point{Turn: r.FuseeTurn, DiameterMM: math.Round(100*d/mm) / 100})
	}
	return run(t, s).Torque.Unevenness
}
