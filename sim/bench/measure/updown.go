package measure

import (
	"math"

	"github.com/golang/geo/r1"
	"gonum.org/v1/gonum/stat/distuv"
)

const (
	equalSteps  = 0.01 // share by which steps of an up-and-down sequence may differ
	leastSeldom = 3    // trials of the less frequent outcome that a mean is made of (common practice, no source)
	leastSpread = 0.3  // of the moment below which the spread is not known (Dixon and Mood)
)

// UpDown is the least torque by an up-and-down sequence of trials: equal steps, each
// next trial a step up after one that stopped and a step down after one that ran (W.
// J. Dixon, A. M. Mood, J. Am. Stat. Assoc. 43 (1948) 109–126, from memory). The
// least torque then differs from trial to trial, as with the phase of the teeth, and
// is taken as normal.
type UpDown struct {
	Mean     float64 // N·m, under which half of the trials run
	SD       float64 // N·m, of the least torque from trial to trial
	Coarse   bool    // the steps are too wide to tell SD, which is then the most it may be
	Step     float64 // N·m
	N        int     // trials of the less frequent outcome, which the figures are made of
	Standard float64 // N·m, standard error of Mean
}

// upDownOf is nil where trials are no such sequence, or one too short.
func upDownOf(trials []Trial) *UpDown {
	u := UpDown{Step: stepOf(trials)}
	if math.IsNaN(u.Step) {
		return nil
	}
	ran := 0
	for _, t := range trials {
		if t.Runs {
			ran++
		}
	}
	seldom := 2*ran <= len(trials) // runs are the less frequent
	if u.N = min(ran, len(trials)-ran); u.N < leastSeldom {
		return nil
	}
	low := math.Inf(1)
	for _, t := range trials {
		if t.Runs == seldom {
			low = min(low, t.Torque)
		}
	}
	n, first, second := float64(u.N), 0.0, 0.0
	for _, t := range trials {
		if t.Runs == seldom {
			level := math.Round((t.Torque - low) / u.Step)
			first, second = first+level, second+level*level
		}
	}
	half := 0.5
	if seldom {
		half = -0.5
	}
	moment := (n*second - first*first) / (n * n)
	u.Coarse = moment <= leastSpread
	u.Mean = low + u.Step*(first/n+half)
	u.SD = 1.620 * u.Step * (math.Max(moment, leastSpread) + 0.029)
	u.Standard = precision(u.Step/u.SD) * u.SD / math.Sqrt(n)
	return &u
}

// stepOf is the step (N·m) of an up-and-down sequence; NaN when trials are none.
func stepOf(trials []Trial) float64 {
	if len(trials) < 2 {
		return math.NaN()
	}
	step := math.Abs(trials[1].Torque - trials[0].Torque)
	for i := 1; i < len(trials); i++ {
		up := trials[i].Torque - trials[i-1].Torque
		if trials[i-1].Runs {
			up = -up
		}
		if !(math.Abs(up-step) <= equalSteps*step && step > 0) {
			return math.NaN()
		}
	}
	return step
}

// precision is the standard error of the mean in units of SD/√N, which Dixon and Mood
// draw as G: by the information of the trials at each level, where they stand as
// often as the balance of going up and coming down has it. The steps are in units of
// SD, and the mean on a level; half-way between two it is the same for steps up to 2.
func precision(step float64) float64 {
	normal := distuv.UnitNormal
	information, weight, all := 0.0, 1.0, 0.0 // weight of the level at the mean
	for level := 0; weight > 1e-12; level++ {
		x := step * float64(level)
		runs, density := normal.CDF(x), normal.Prob(x)
		both := 2.0 // levels above and below
		if level == 0 {
			both = 1
		}
		information += both * weight * density * density / (runs * (1 - runs))
		all += both * weight
		weight *= (1 - runs) / normal.CDF(x+step)
	}
	return math.Sqrt(all / (2 * information))
}

// bracket is what the sequence says of the least torque: its 95 % interval, by
// Student's t.
func (u *UpDown) bracket() Bracket {
	half := student(u.N-1) * u.Standard
	return Bracket{Least: u.Mean, Uncertainty: u.Standard, Between: r1.Interval{Lo: math.Max(0, u.Mean-half), Hi: u.Mean + half}}
}
