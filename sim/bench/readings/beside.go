package readings

import (
	"fmt"
	"math"

	"evenpull/sim"
	"evenpull/sim/bench/book"
	"evenpull/sim/bench/measure"
	"evenpull/sim/internal/document"
	"evenpull/sim/scenario"
)

// What readings are asked about by (common practice, no source).
const (
	wrongWay  = 0.05 // rms of the logarithms from which on readings lie far from the prediction
	rightWay  = 0.25 // share of it that readings the other way round leave at most
	leastRead = 5    // turns
	twice     = 0.04 // share within which a need is twice or half another
)

// Beside checks a book against a scenario: what book.Book.Beside does and, where nothing
// is wrong by that, whether readings begin run down, and whether a pulley's radius was given
// as its diameter. What is wrong comes as scenario.Faults, all at once.
func Beside(b *book.Book, s *scenario.Scenario) error {
	if err := b.Beside(s); err != nil {
		return err
	}
	st := Of(b, s)
	var faults scenario.Faults
	for i := range st.Springs {
		if !math.IsNaN(b.Torques[i].FirstTurn) || st.Trains[i] == nil {
			continue // it says where its readings begin
		}
		if asIs, reversed := bothWays(st.Springs[i].Turns, st.Trains[i]); reversed < rightWay*asIs && asIs > wrongWay {
			faults = append(faults, b.Fault("torque", i, "running_down", fmt.Sprintf("found readings that differ in shape from the prediction by %.2g %%, and by %.2g %% the other way round", 100*asIs, 100*reversed),
				"want the reading fully wound first and that run down last; or first_turn = 0, which says that they are"))
		}
	}
	return append(faults, st.pulleys(s)...).Sorted()
}

// bothWays is how far readings differ in shape from a prediction, rms of the logarithms
// about their mean, as they stand and the other way round; NaN where too few can be compared.
func bothWays(turns []measure.Turn, r *sim.Result) (asIs, reversed float64) {
	if len(turns) == 0 {
		return math.NaN(), math.NaN()
	}
	ends := turns[0].FuseeTurn + turns[len(turns)-1].FuseeTurn
	apart := func(place func(turn float64) float64) float64 {
		sum, squares, n := 0.0, 0.0, 0.0
		for i := range turns {
			d := math.Log(turns[i].Mean / predicted(r, &Point{FuseeTurn: place(turns[i].FuseeTurn)}))
			if !math.IsNaN(d) && !math.IsInf(d, 0) {
				sum, squares, n = sum+d, squares+d*d, n+1
			}
		}
		if n < leastRead || n < float64(len(turns))/2 {
			return math.NaN()
		}
		return math.Sqrt(math.Max(0, squares/n-sum*sum/(n*n)))
	}
	return apart(func(turn float64) float64 { return turn }), apart(func(turn float64) float64 { return ends - turn })
}

// pulleys asks about the pulley where weights tell twice, or half, the need that the scenario
// has measured, of two trains or more and of every one.
func (st *Study) pulleys(s *scenario.Scenario) (faults scenario.Faults) {
	share := 0.0
	for i := range st.Needs {
		n := &st.Needs[i]
		number, err := s.Train(n.Train)
		if err != nil {
			continue
		}
		has := s.Trains[number].Demand.LeastTorqueNM
		ratio := n.Bracket.Least / has
		if math.IsNaN(ratio) || math.IsNaN(n.Bracket.Uncertainty) {
			continue
		}
		power := math.Round(math.Log2(ratio))
		if math.Abs(power) != 1 || math.Abs(ratio/math.Exp2(power)-1) > twice || share != 0 && share != power {
			return nil
		}
		share = power
		key, times, want := "pulley_radius_mm", "twice", "its diameter, given as its radius? pulley_diameter_mm"
		if power < 0 {
			key, times, want = "pulley_diameter_mm", "half", "its radius, given as its diameter? pulley_radius_mm"
		}
		faults = append(faults, st.Book.Fault("weights", i, key, fmt.Sprintf("found a pulley by which the %s train needs %s the %s N·m that the scenario has", n.Train, times, document.Figure(has)), want))
	}
	if len(faults) < 2 {
		return nil
	}
	return faults
}
