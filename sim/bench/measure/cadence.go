package measure

import (
	"cmp"
	"math"
	"slices"

	"evenpull/sim/bench/fit"

	"gonum.org/v1/gonum/stat"
)

// Cadence is how the blows follow the torque.
//
// A fly turns as fast as its drag, with the square of its speed, takes up what
// torque the hammers leave: 1/interval² = Slope·(torque − Threshold). The line
// is fitted by least squares to the trials that struck. Where a heavier weight did not strike
// faster, neighbours are made one Knot, their mean, until all rise (pool-adjacent-violators: M.
// Ayer et al., Ann. Math. Stat. 26, 1955, from memory).
type Cadence struct {
	Slope     float64   // 1/(s²·N·m); NaN with fewer than two different torques
	Threshold float64   // N·m; NaN unless Slope is above 0
	R2        float64   // share of the spread of 1/interval² that the line takes up; NaN when there is none
	N         int       // trials that were timed
	Residuals []float64 // 1/s², measured less fitted 1/interval², NaN where nothing was timed: one a trial
	Knots     []Knot    // rising in torque and in pace, at least one
	Pooled    [][]int   // trials, from 0, made one knot because the heavier did not strike faster
}

// Knot is a torque at which the pace is known.
type Knot struct {
	Torque float64 // N·m
	Square float64 // 1/s², of 1/interval
	trials []int
}

// How tells where a torque for an interval comes from.
type How uint8

// Where a torque for an interval comes from.
const (
	Unknown      How = iota // nothing tells
	Interpolated            // lies between trials
	Extrapolated            // lies beyond them, along the fitted line
	StopsBefore             // the train stops before it strikes as slowly: the least that strikes
)

var hows = [...]string{"unknown", "interpolated", "extrapolated", "stops_before"}

// String is the origin as results write it.
func (h How) String() string { return hows[min(int(h), len(hows)-1)] }

// Pace is the torque for an interval.
type Pace struct {
	Torque float64 // N·m; NaN when Unknown
	How    How
}

// alike is the share by which two 1/interval² may differ through rounding alone.
const alike = 1e-12

// cadenceOf needs a trial with an interval.
func cadenceOf(trials []Trial) *Cadence {
	c := &Cadence{Slope: math.NaN(), Threshold: math.NaN(), R2: math.NaN(), Residuals: make([]float64, len(trials))}
	var torques, squares []float64
	for i, t := range trials {
		c.Residuals[i] = math.NaN()
		if math.IsNaN(t.Interval) {
			continue
		}
		square := 1 / (t.Interval * t.Interval)
		torques, squares = append(torques, t.Torque), append(squares, square)
		c.Knots = append(c.Knots, Knot{t.Torque, square, []int{i}})
	}
	c.N = len(torques)
	c.rise()
	intercept, slope, _, _, _, err := fit.Linear(torques, squares, nil)
	if err != nil {
		return c
	}
	c.Slope = slope
	if slope > 0 {
		c.Threshold = -intercept / slope
	}
	if stat.Variance(squares, nil) > 0 {
		c.R2 = stat.RSquared(torques, squares, nil, intercept, slope)
	}
	for i, t := range trials {
		c.Residuals[i] = 1/(t.Interval*t.Interval) - intercept - slope*t.Torque
	}
	return c
}

// rise sorts the knots and pools neighbours that do not rise into their mean
// until all do (pool-adjacent-violators: M. Ayer et al., Ann. Math. Stat. 26
// (1955), from memory).
func (c *Cadence) rise() {
	slices.SortStableFunc(c.Knots, func(a, b Knot) int { return cmp.Compare(a.Torque, b.Torque) })
	rising := c.Knots[:0]
	for _, k := range c.Knots {
		for len(rising) > 0 && !(rising[len(rising)-1].Torque < k.Torque && rising[len(rising)-1].Square < k.Square) {
			k = pool(rising[len(rising)-1], k)
			rising = rising[:len(rising)-1]
		}
		rising = append(rising, k)
	}
	c.Knots = rising
	for _, k := range rising {
		if len(k.trials) > 1 {
			c.Pooled = append(c.Pooled, k.trials)
		}
	}
}

func pool(a, b Knot) Knot {
	na, nb := float64(len(a.trials)), float64(len(b.trials))
	return Knot{
		Torque: (na*a.Torque + nb*b.Torque) / (na + nb),
		Square: (na*a.Square + nb*b.Square) / (na + nb),
		trials: slices.Concat(a.trials, b.trials),
	}
}

// TorqueFor is the torque that strikes at an interval (s, above 0): between two
// trials by the straight line in 1/interval² that joins them, beyond them from
// the outermost with the slope of the fitted line. It is Unknown where no blows
// were timed or the line tells nothing.
func (n *Need) TorqueFor(interval float64) Pace {
	if n.Cadence == nil || !(interval > 0) {
		return Pace{math.NaN(), Unknown}
	}
	square := 1 / (interval * interval)
	p := n.Cadence.between(square)
	if p.How == Unknown && n.Cadence.Slope > 0 {
		p = Pace{n.Cadence.beyond(square), Extrapolated}
	}
	if p.How != Extrapolated || p.Torque > n.Bracket.Between.Lo {
		return p
	}
	if b := n.Bracket; b.HasLower() && b.HasUpper() {
		return Pace{b.Least, StopsBefore}
	}
	return Pace{math.NaN(), Unknown} // the line would strike under no weight, or under one that did not
}

// between interpolates.
func (c *Cadence) between(square float64) Pace {
	for i, k := range c.Knots {
		switch {
		case math.Abs(square-k.Square) <= alike*k.Square:
			return Pace{k.Torque, Interpolated}
		case i > 0 && c.Knots[i-1].Square < square && square < k.Square:
			last := c.Knots[i-1]
			return Pace{last.Torque + (square-last.Square)*(k.Torque-last.Torque)/(k.Square-last.Square), Interpolated}
		}
	}
	return Pace{math.NaN(), Unknown}
}

// beyond goes on from the outermost trial with the slope of the fitted line, so
// that the torque is continuous where the trials end.
func (c *Cadence) beyond(square float64) float64 {
	end := c.Knots[0]
	if square > end.Square {
		end = c.Knots[len(c.Knots)-1]
	}
	return end.Torque + (square-end.Square)/c.Slope
}
