package measure

import (
	"math"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

const (
	confidence  = 0.95
	normal95    = 1.96 // standard normal, 97.5 %, to the figures of the contract
	alpha       = 1 - confidence
	leastGrubbs = 3 // readings
)

// Turn is what was read at one fusee turn.
//
// HalfWidth is half the 95 % interval of the mean, the root of the squares of
// Student's t·s/√n, of the meter's bound as a rectangular distribution, 1.96·a/√3
// with a the bound's share of the mean, and of the meter's step, 1.96·q/√12 (JCGM
// 100:2008, 4.2.3, 4.3.7, F.2.2.1). One reading alone has no scatter to tell of:
// then SD, Repeats and HalfWidth are NaN.
type Turn struct {
	FuseeTurn float64 // paid out: 0 is fully wound
	N         int     // readings
	Mean      float64 // N·m
	SD        float64 // N·m, of one reading
	Repeats   float64 // N·m, the part of HalfWidth that comes from the repeats
	Meter     float64 // N·m, the part that comes from the meter, bound and step
	HalfWidth float64 // N·m
	Outlier   *Outlier
}

// Outlier is a reading that lies further off than chance explains, by Grubbs'
// two-sided test at 5 % (F. E. Grubbs, Technometrics 11 (1969) 1–21) on three
// readings or more. It stays in every figure.
type Outlier struct {
	Repeat      int     // from 1
	Value       float64 // N·m
	G, Critical float64 // its distance from the mean in standard deviations, and the greatest that chance explains
}

// Outlying is the reading that lies off; NaN where there is none.
func (t *Turn) Outlying() float64 {
	if t.Outlier == nil {
		return math.NaN()
	}
	return t.Outlier.Value
}

// student is the t that 95 % of Student's distribution with some degrees of
// freedom, at least 1, lie within.
func student(dof int) float64 { return quantile(1-alpha/2, float64(dof)) }

// HalfWidth is half a 95 % interval: of a standard error with its degrees of freedom,
// and of the meter's standard uncertainty. NaN without a degree of freedom.
func HalfWidth(standard float64, freedom int, meter float64) float64 {
	if freedom < 1 {
		return math.NaN()
	}
	return math.Hypot(student(freedom)*standard, normal95*meter)
}

func quantile(p, dof float64) float64 {
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: dof}.Quantile(p)
}

// grubbs is the critical value for n readings, at least 3: that of
// (n−1)/√n·√(t²/(n−2+t²)), with t at α/(2n) and n − 2 degrees of freedom.
func grubbs(n int) float64 {
	k := float64(n)
	t := quantile(1-alpha/(2*k), k-2)
	return (k - 1) / math.Sqrt(k) * math.Sqrt(t*t/(k-2+t*t))
}

// meter is the instrument: its bound as a share, its step in N·m.
type meter struct{ share, step float64 }

// bound is the part of a 95 % half width that the bound makes.
func (m meter) bound(mean float64) float64 { return normal95 * m.share * math.Abs(mean) / math.Sqrt(3) }

// tick is the part that the step makes.
func (m meter) tick() float64 { return normal95 * m.step / math.Sqrt(12) }

// tables keeps what depends on a number of readings, runs or turns alone, which few
// numbers share among many turns and springs.
type tables struct {
	ofStudent, ofGrubbs, ofRange map[int]float64
}

func newTables() tables {
	return tables{map[int]float64{}, map[int]float64{}, map[int]float64{}}
}

func (t tables) student(dof int) float64   { return lookUp(t.ofStudent, dof, student) }
func (t tables) grubbs(n int) float64      { return lookUp(t.ofGrubbs, n, grubbs) }
func (t tables) normalRange(n int) float64 { return lookUp(t.ofRange, n, normalRange) }

func lookUp(m map[int]float64, n int, f func(int) float64) float64 {
	v, ok := m[n]
	if !ok {
		v = f(n)
		m[n] = v
	}
	return v
}

// turnOf works out the readings at one place of the lists, at the fusee turn given, of which there is at least one;
// repeats are the numbers of the repeats they belong to.
func turnOf(at float64, readings []float64, repeats []int, m meter, known tables) Turn {
	n := len(readings)
	mean, sd := meanSD(readings)
	t := Turn{FuseeTurn: at, N: n, Mean: mean, SD: sd, Repeats: math.NaN(), Meter: math.Hypot(m.bound(mean), m.tick())}
	if n > 1 {
		t.Repeats = known.student(n-1) * sd / math.Sqrt(float64(n))
	}
	t.HalfWidth = math.Hypot(t.Repeats, t.Meter)
	if n >= leastGrubbs {
		t.Outlier = outlierOf(&t, readings, repeats, m, known.grubbs(n))
	}
	return t
}

// meanSD is mean and standard deviation; of readings that are all the same the
// latter is 0 whatever rounding makes of their mean, of one alone NaN.
func meanSD(x []float64) (mean, sd float64) {
	mean, sd = stat.MeanStdDev(x, nil)
	same := true
	for _, v := range x {
		same = same && v == x[0]
	}
	switch {
	case len(x) == 0:
		return math.NaN(), math.NaN()
	case len(x) == 1:
		return x[0], math.NaN()
	case same:
		return x[0], 0
	}
	return mean, sd
}

// outlierOf judges the reading furthest from the mean. The variance of the
// meter's step, q²/12, is added to that of the readings: rounded alike they look
// closer than they are, and of three, two of them alike, any third would look far.
func outlierOf(t *Turn, readings []float64, repeats []int, m meter, critical float64) *Outlier {
	far := 0
	for i, v := range readings {
		if math.Abs(v-t.Mean) > math.Abs(readings[far]-t.Mean) {
			far = i
		}
	}
	if g := math.Abs(readings[far]-t.Mean) / math.Hypot(t.SD, m.step/math.Sqrt(12)); g > critical {
		return &Outlier{repeats[far], readings[far], g, critical}
	}
	return nil
}
