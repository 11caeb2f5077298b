package measure

import (
	"math"

	"evenpull/sim/bench/book"
)

// Supply is what a spring was found to give at the winding square of a train.
type Supply struct {
	Train, Spring string
	Turns         []Turn   // running down, those with a reading, in order
	Unread        []int    // fusee turns up to the last that no repeat read: left out of everything
	Repeats       []Repeat // one a run of readings
	Apart         bool     // repeats cannot all be compared: some share no turn with the rest, directly or through others
	Mean          Mean
	Min, Max      float64 // N·m, least and greatest of the turns' means; NaN without any
	Unevenness    float64 // (Max − Min)/mean; NaN when the mean is 0
	Drift         Drift
	Winding       []Turn // while winding, likewise; nil when not read
	Efficiency    Efficiency
}

// Repeat is one run of readings.
type Repeat struct {
	N    int     // readings
	Mean float64 // N·m over all turns that any repeat read: see Mean
}

// Mean is the mean torque over the turns, by trapezia, and its 95 % interval.
//
// The repeats are what is counted: readings of one repeat share how the spring
// lay that time. Value is the mean of the repeats' means; Scatter is Student's
// t·s/√n of these. The meter's bound is one error shared by all readings and does
// not average out; the errors of its step are taken as independent from turn to
// turn, where the torque differs, and average out over turns, not over repeats.
//
// A repeat that lacks readings is not averaged over its own turns, where the
// torque may lie higher or lower than elsewhere: turn and repeat each add a part
// to a reading, the parts are fitted by least squares, and the repeat's mean is
// that over all turns. Where nothing is missing that is the plain mean.
type Mean struct {
	Value     float64 // N·m
	Scatter   float64 // N·m, part of HalfWidth; NaN with one repeat, or when they stand apart
	Meter     float64 // N·m, likewise, bound and step
	HalfWidth float64 // N·m; NaN when Scatter is
}

// SupplyOf works out the readings of a spring.
func SupplyOf(t *book.Torque) Supply {
	m := meter{t.MeterRelative, t.MeterResolutionNM}
	known := newTables()
	s := Supply{Train: t.Train, Spring: t.Spring}
	s.Turns, s.Unread = turnsOf(t.RunningDown, m, known)
	s.Winding, _ = turnsOf(t.WindingUp, m, known)
	g := gridOf(s.Turns, t.RunningDown)
	s.Repeats, s.Apart = g.repeats(), !g.connected()
	s.Mean, s.Drift = g.mean(s.Repeats, m), driftOf(s.Repeats)
	if s.Apart { // their means differ by what nothing tells
		s.Mean.Scatter, s.Mean.HalfWidth = math.NaN(), math.NaN()
		s.Drift = driftOf(nil)
	}
	s.span()
	s.Efficiency = efficiencyOf(s.Turns, s.Winding)
	return s
}

// turnsOf works out the turns at which there are readings.
func turnsOf(lists [][]float64, m meter, known tables) (turns []Turn, unread []int) {
	last := 0
	for _, list := range lists {
		last = max(last, len(list))
	}
	readings, repeats := make([]float64, 0, len(lists)), make([]int, 0, len(lists))
	var skipped []int
	for at := range last {
		readings, repeats = readings[:0], repeats[:0]
		for i, list := range lists {
			if at < len(list) && !math.IsNaN(list[at]) {
				readings, repeats = append(readings, list[at]), append(repeats, i+1)
			}
		}
		if len(readings) == 0 {
			skipped = append(skipped, at)
			continue
		}
		unread, skipped = append(unread, skipped...), nil // none is missed after the last
		turns = append(turns, turnOf(at, readings, repeats, m, known))
	}
	return turns, unread
}

// span finds the least and the greatest turn.
func (s *Supply) span() {
	s.Min, s.Max, s.Unevenness = math.NaN(), math.NaN(), math.NaN()
	for i := range s.Turns {
		v := s.Turns[i].Mean
		if i == 0 {
			s.Min, s.Max = v, v
		}
		s.Min, s.Max = min(s.Min, v), max(s.Max, v)
	}
	if s.Mean.Value > 0 {
		s.Unevenness = (s.Max - s.Min) / s.Mean.Value
	}
}
