package fit

import (
	"math"
	"math/rand/v2"
	"testing"
)

// family is a model with its derivatives by hand, for problems drawn at random.
type family struct {
	name  string
	m     int
	f     func(b []float64, x float64) float64
	slope func(b []float64, x float64, d []float64)
}

var families = []family{
	{
		"sum of exponentials", 3,
		func(b []float64, x float64) float64 { return b[0] + b[1]*math.Exp(-b[2]*x) },
		func(b []float64, x float64, d []float64) {
			e := math.Exp(-b[2] * x)
			d[0], d[1], d[2] = 1, e, -b[1]*x*e
		},
	},
	{
		"parabola", 3,
		func(b []float64, x float64) float64 { return b[0] + b[1]*x + b[2]*x*x },
		func(_ []float64, x float64, d []float64) { d[0], d[1], d[2] = 1, x, x*x },
	},
	{
		"power", 2,
		func(b []float64, x float64) float64 { return b[0] * math.Pow(1+x, b[1]) },
		func(b []float64, x float64, d []float64) {
			p := math.Pow(1+x, b[1])
			d[0], d[1] = p, b[0]*p*math.Log1p(x)
		},
	},
	{
		"ratio", 2,
		func(b []float64, x float64) float64 { return b[0] * x / (b[1] + x) },
		func(b []float64, x float64, d []float64) {
			d[0], d[1] = x/(b[1]+x), -b[0]*x/((b[1]+x)*(b[1]+x))
		},
	},
}

// drawn is a problem of the family: parameters of 0.5 to 3, a start up to half
// away from them, readings with errors, and bounds that often bind.
func drawn(fam family, random *rand.Rand) (p Problem, x []float64) {
	n := fam.m + 1 + random.IntN(30)
	truth := make([]float64, fam.m)
	p.Start, p.Lo, p.Hi = make([]float64, fam.m), make([]float64, fam.m), make([]float64, fam.m)
	for k := range truth {
		truth[k] = 0.5 + 2.5*random.Float64()
		p.Start[k] = truth[k] * (0.5 + random.Float64())
		p.Lo[k], p.Hi[k] = min(p.Start[k], truth[k]*(1.05-random.Float64()/2)), max(p.Start[k], truth[k]*(0.95+random.Float64()/2))
	}
	sd := math.Pow(10, -1-3*random.Float64())
	for i := range n {
		x = append(x, 4*(float64(i)+random.Float64())/float64(n))
		p.SD = append(p.SD, sd*(0.5+random.Float64()))
		p.Y = append(p.Y, fam.f(truth, x[i])+p.SD[i]*random.NormFloat64())
	}
	p.Predict = over(x, fam.f)
	return p, x
}

// downhill is the cosine between the weighted residuals and each column of
// derivatives, taken by hand: 0 at a least sum of squares.
func downhill(fam family, p Problem, x, b []float64) []float64 {
	g, norm, rr, d := make([]float64, fam.m), make([]float64, fam.m), 0.0, make([]float64, fam.m)
	for i := range x {
		r := (p.Y[i] - fam.f(b, x[i])) / p.SD[i]
		rr += r * r
		fam.slope(b, x[i], d)
		for k := range d {
			g[k] += r * d[k] / p.SD[i]
			norm[k] += d[k] * d[k] / (p.SD[i] * p.SD[i])
		}
	}
	for k := range g {
		g[k] /= math.Sqrt(norm[k] * rr)
	}
	return g
}

// At the solution of any problem the gradient is nothing, or presses on the bound
// that a parameter ended on (the conditions of Karush, Kuhn and Tucker).
func TestGradientIsNothing(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	count := map[Status]int{}
	for range 500 {
		fam := families[random.IntN(len(families))]
		p, x := drawn(fam, random)
		r := mustSolve(t, fenced(t, p))
		count[r.Status]++
		for k, g := range downhill(fam, p, x, r.B) {
			switch {
			case r.B[k] == p.Lo[k] && g <= 1e-6, r.B[k] == p.Hi[k] && g >= -1e-6:
			case math.Abs(g) > 1e-6:
				t.Errorf("%s: %v after %d steps, parameter %d of %v, cosine %g", fam.name, r.Status, r.Iterations, k+1, r.B, g)
			}
		}
	}
	t.Log(count)
	if count[Converged] < 50 || count[AtBound] < 50 || count[NotConverged]+count[Failed] > 0 {
		t.Errorf("%v", count)
	}
}

// Of simulated fits the true parameters lie within three standard errors in more
// than 99 of 100: 99.73 % of a normal distribution do.
func TestCoverage(t *testing.T) {
	const fits, n, sd = 500, 25, 0.05
	within, deviations := 0, make([]float64, n)
	fill(deviations, sd)
	for seed := range uint64(fits) {
		x, y := noisy(seed, n, sd)
		r := mustSolve(t, Problem{Predict: over(x, dying), Y: y, SD: deviations, Start: []float64{2.7, 0.25, 1.45, 0.5}})
		for k, want := range dyingTruth {
			if r.Status == Converged && math.Abs(r.B[k]-want) <= 3*r.StandardError[k] {
				within++
			}
		}
	}
	t.Logf("%d of %d", within, fits*len(dyingTruth))
	if share := float64(within) / float64(fits*len(dyingTruth)); share < 0.99 {
		t.Errorf("%.4f of the parameters lie within three standard errors", share)
	}
}

// FuzzSolve fits anything to anything: nothing panics, no bound is passed, the sum
// of squares does not rise, and no error is negative.
func FuzzSolve(f *testing.F) {
	f.Add(1.0, 2.0, 0.5, 1.0, 3.0, 10.0, 5.0)
	f.Add(0.0, 0.0, -1.0, 1.0, 0.0, 0.0, 0.0)
	f.Add(1e300, 1e-300, 0.0, 1e308, 1e200, -1e200, 1e-320)
	f.Add(-3.0, 700.0, -5.0, 900.0, 1.0, 2.0, 4.0)
	f.Add(1.0, 1.0, 1.0, math.Nextafter(1, 2), 1.0, 2.0, 3.0)
	f.Fuzz(func(t *testing.T, b0, b1, lo, hi, y0, y1, y2 float64) {
		x := []float64{0.5, 1, 3}
		p := Problem{Y: []float64{y0, y1, y2}, Start: []float64{b0, b1}, Lo: []float64{-inf, lo}, Hi: []float64{inf, hi}}
		p.Predict = over(x, func(b []float64, x float64) float64 { return b[0] * math.Exp(b[1]*x) })
		r, err := Solve(fenced(t, p))
		if err != nil || r.Status == Failed {
			return
		}
		before := 0.0
		for i := range x {
			d := p.Y[i] - b0*math.Exp(b1*x[i])
			before += d * d
		}
		if !(r.RSS <= before*(1+1e-9)) || r.StandardError[0] < 0 || r.StandardError[1] < 0 {
			t.Errorf("%v: the sum of squares goes from %v to %v, errors %v", r.Status, before, r.RSS, r.StandardError)
		}
	})
}

// Readings moved a little move the parameters as Response says, weighted or not, and
// those on a bound not at all; and response × variances × response is the covariance
// of readings that are independent (JCGM 100:2008, 5.1.2).
func TestResponse(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 12))
	tried, held := 0, 0
	for range 200 {
		fam := families[random.IntN(len(families))]
		p, _ := drawn(fam, random)
		if random.IntN(3) == 0 {
			p.SD = nil
		}
		r := mustSolve(t, p)
		if r.Status != Converged && r.Status != AtBound {
			continue
		}
		i := random.IntN(len(p.Y))
		moved, step := p, 1e-5*math.Max(r.ResidualSD, 1e-6)
		moved.Start, moved.Y = r.B, append([]float64(nil), p.Y...)
		moved.Y[i] += step
		to := mustSolve(t, moved)
		for k := range r.B {
			response := r.Response.At(k, i)
			if r.B[k] == p.Lo[k] || r.B[k] == p.Hi[k] {
				held++
				if !math.IsNaN(response) {
					t.Errorf("%s: %v on a bound", fam.name, response)
				}
				continue
			}
			if r.Status == AtBound || math.IsNaN(response) {
				continue // what is on a bound may leave it
			}
			tried++
			variance := 0.0
			for j := range p.Y {
				sd := 1.0
				if p.SD != nil {
					sd = p.SD[j]
				}
				variance += math.Pow(r.Response.At(k, j)*sd, 2)
			}
			if p.SD == nil {
				variance *= r.ChiSquarePerDOF
			}
			closeTo(t, fam.name+" variance", variance, r.Covariance.At(k, k), 1e-5)
			if by := (to.B[k] - r.B[k]) / step; math.Abs(by-response) > 0.05*math.Sqrt(variance)/math.Max(1e-300, r.ResidualSD) {
				t.Errorf("%s: parameter %d moves by %v, response %v", fam.name, k, by, response)
			}
		}
	}
	if tried < 100 || held < 10 {
		t.Errorf("%d tried, %d on bounds", tried, held)
	}
}
