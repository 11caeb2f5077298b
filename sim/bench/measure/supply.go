package measure

import (
	"math"
	"slices"

	"evenpull/fusee/numeric"
	"evenpull/sim/bench/book"

	"gonum.org/v1/gonum/floats"
)

// Supply is what a spring was found to give at the winding square of a train.
type Supply struct {
	Train, Spring string    // its name, and the label of the spring
	Turns         []Turn    // running down, those with a reading, in order
	Unread        []float64 // fusee turns up to the last that no repeat read: left out of everything
	Repeats       []Repeat  // one a run of readings
	Apart         bool      // repeats cannot all be compared: some share no turn with the rest, directly or through others
	Mean          Mean
	Min, Max      float64 // N·m, least and greatest of the turns' means; NaN without any
	Unevenness    float64 // (Max − Min)/mean; NaN when the mean is 0
	ByScatter     float64 // the unevenness that scatter alone would show where there is none; NaN when scatter is not known
	Drift         Drift
	Winding       []Turn // while winding, likewise; nil when not read
	Efficiency    Efficiency
	Down, Up      Set   // the readings of both ways as sets of runs
	Runs          []Run // how runs differ from each other: those of every set that the same meter read
	meter         meter
	own           []Run // those of this set
}

// Repeat is one run of readings.
type Repeat struct {
	N    int     // readings
	Mean float64 // N·m over all turns that any repeat read: see Mean
}

// Mean is the mean torque over the turns, by trapezia, and its 95 % interval.
//
// Run-downs differ as wholes, so that they are what is counted. Value is the mean of
// their means; Scatter is Student's t·s/√n with the standard deviation of run-downs,
// as a share of the mean, pooled over all sets that the same meter read. The meter's
// bound is one error shared by all readings and does not average out; the errors of
// its step are taken as independent from turn to turn, where the torque differs, and
// average out over turns, not over repeats.
//
// A repeat that lacks readings is not averaged over its own turns, where the
// torque may lie higher or lower than elsewhere: turn and repeat each add a part
// to a reading, the parts are fitted by least squares, and the repeat's mean is
// that over all turns. Where nothing is missing that is the plain mean.
type Mean struct {
	Value     float64 // N·m
	Scatter   float64 // N·m, part of HalfWidth; NaN without a degree of freedom, or when repeats stand apart
	Meter     float64 // N·m, likewise, bound and step
	HalfWidth float64 // N·m; NaN when Scatter is
	Between   float64 // standard deviation of run-downs as a share of their mean, pooled; NaN without a degree of freedom
	Freedom   int     // degrees of freedom of Between: run-downs less one, over all sets
}

// SupplyOf works out the readings of a spring that stand alone.
func SupplyOf(t *book.Torque) Supply {
	known := newTables()
	s := []Supply{supplyOf(t, known)}
	gather(s, known)
	return s[0]
}

// supplyOf works out all but what other sets tell too.
func supplyOf(t *book.Torque, known tables) Supply {
	s := Supply{Train: t.Train, Spring: t.Spring, meter: meter{t.MeterRelative, t.MeterResolutionNM}}
	first := t.FirstTurn
	if math.IsNaN(first) {
		first = 0
	}
	s.Turns, s.Unread = turnsOf(t.RunningDown, first, s.meter, known)
	s.Winding, _ = turnsOf(t.WindingUp, first, s.meter, known)
	down, up := gridOf(s.Turns, t.RunningDown, first), gridOf(s.Winding, t.WindingUp, first)
	s.Down, s.Up, s.own = setOf(&down), setOf(&up), runsOf(&down, &up)
	s.Repeats, s.Apart = down.repeats(), down.groups() > 1
	s.Drift = driftOf(s.Repeats)
	if s.Apart { // their means differ by what nothing tells
		s.Drift = driftOf(nil)
	}
	s.Mean.Value = down.level
	s.Mean.Meter = math.Hypot(s.meter.bound(down.level), s.meter.tick()*floats.Norm(down.weight, 2))
	s.span(known)
	s.Efficiency = efficiencyOf(s.Turns, s.Winding)
	return s
}

// turnsOf works out the turns at which there are readings, those of the lists from the
// first on.
func turnsOf(lists [][]float64, first float64, m meter, known tables) (turns []Turn, unread []float64) {
	last := 0
	for _, list := range lists {
		last = max(last, len(list))
	}
	readings, repeats := make([]float64, 0, len(lists)), make([]int, 0, len(lists))
	var skipped []float64
	for at := range last {
		readings, repeats = readings[:0], repeats[:0]
		for i, list := range lists {
			if at < len(list) && !math.IsNaN(list[at]) {
				readings, repeats = append(readings, list[at]), append(repeats, i+1)
			}
		}
		if len(readings) == 0 {
			skipped = append(skipped, first+float64(at))
			continue
		}
		unread, skipped = append(unread, skipped...), nil // none is missed after the last
		turns = append(slices.Grow(turns, last-at), turnOf(first+float64(at), readings, repeats, m, known))
	}
	return turns, unread
}

// span finds the least and the greatest turn, and how far apart they look.
func (s *Supply) span(known tables) {
	s.Min, s.Max, s.Unevenness, s.ByScatter = math.NaN(), math.NaN(), math.NaN(), math.NaN()
	for i := range s.Turns {
		v := s.Turns[i].Mean
		if i == 0 {
			s.Min, s.Max = v, v
		}
		s.Min, s.Max = min(s.Min, v), max(s.Max, v)
	}
	if s.Mean.Value > 0 {
		s.Unevenness = (s.Max - s.Min) / s.Mean.Value
		s.ByScatter = known.normalRange(len(s.Turns)) * s.Down.Scatter / math.Sqrt(s.readings()) / s.Mean.Value
	}
}

// readings is how many there are at a turn, in the mean.
func (s *Supply) readings() float64 {
	n := 0
	for i := range s.Turns {
		n += s.Turns[i].N
	}
	return float64(n) / float64(len(s.Turns))
}

// rule is fine enough for the range of 1000 values to 1e-9.
var rule = numeric.NewGauss(48)

// normalRange is how far the least and the greatest of n values, normal with a
// standard deviation of 1, lie apart in the mean: ∫ 1 − Φⁿ − (1 − Φ)ⁿ dx (L. H. C.
// Tippett, Biometrika 17 (1925) 364–387; the d₂ of control charts).
func normalRange(n int) float64 {
	const beyond = 9 // standard deviations, where even 1000 values add less than 1e-15
	return 2 * rule.Over(0, beyond, func(x float64) float64 {
		above := math.Erfc(x/math.Sqrt2) / 2
		return 1 - power(1-above, n) - power(above, n)
	})
}

// power is x to the n, n at least 0, by squares: faster than math.Pow.
func power(x float64, n int) float64 {
	product := 1.0
	for ; n > 0; n /= 2 {
		if n%2 == 1 {
			product *= x
		}
		x *= x
	}
	return product
}
