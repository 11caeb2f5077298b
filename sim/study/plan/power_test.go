package plan

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"evenpull/sim/bench/measure"
	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// The power of the two-sided t test of two means at 5 %, for a difference of d standard
// deviations and n of each (J. Cohen, Statistical Power Analysis for the Behavioral Sciences,
// 2nd ed. 1988, tables 2.3 and 2.4, to two figures; from memory).
func TestPowerOfTables(t *testing.T) {
	for _, c := range []struct {
		d, n, want float64
	}{
		{0.5, 64, 0.80}, {0.8, 26, 0.80}, {1, 17, 0.80}, {0.2, 393, 0.80}, {0.8, 25, 0.79},
		{0.2, 50, 0.17}, {0.2, 100, 0.29}, {0.5, 10, 0.18}, {0.5, 20, 0.33}, {0.5, 30, 0.47}, {0.5, 40, 0.60}, {0.5, 50, 0.70}, {0.5, 100, 0.94}, {0.8, 10, 0.39}, {0.8, 20, 0.69}, {0.8, 30, 0.86}, {0.8, 40, 0.94},
	} {
		if got := power(math.Sqrt(2/c.n)/c.d, 0, int(2*(c.n-1))); math.Abs(got-c.want) > 0.011 {
			t.Errorf("%v: %.4f, want %v", c, got, c.want)
		}
	}
}

// Limits: nothing to tell is found in 5 %, all where nothing errs, and with two degrees of
// freedom and many the share is that of the normal law.
func TestPowerLimits(t *testing.T) {
	for name, c := range map[string]struct {
		runs, meter float64
		freedom     int
		want        float64
	}{
		"by chance": {1e4, 0, 4, 0.05}, "nothing errs": {0, 0, 2, 1}, "wide apart": {0.01, 0, 2, 1},
		"normal":        {1 / 2.8, 0, 100_000, 0.7995}, // Φ(2.8 − 1.96)
		"by meter":      {0, 1 / 2.8, 2, 0.7995},
		"meter and all": {0.6 / 2.8, 0.8 / 2.8, 100_000, 0.7995},
	} {
		if got := power(c.runs, c.meter, c.freedom); math.Abs(got-c.want) > 2e-3 {
			t.Errorf("%s: %.4f, want %v", name, got, c.want)
		}
	}
	if v := power(1, 0, 0); !math.IsNaN(v) {
		t.Errorf("one run-down tells %v", v)
	}
}

// The mean over what the run-downs may look to scatter is that which Gauss' quadrature gives,
// over the density of chi-squared (worked out by gonum).
func TestPowerIsTheMean(t *testing.T) {
	for _, c := range []struct {
		runs, meter float64
		freedom     int
	}{{0.3, 0, 4}, {0.2, 0.2, 6}, {0.5, 0.1, 10}} {
		law, errs := distuv.ChiSquared{K: float64(c.freedom)}, distuv.Normal{Mu: 1, Sigma: math.Hypot(c.runs, c.meter)}
		want := quad.Fixed(func(x float64) float64 {
			half := measure.HalfWidth(c.runs*math.Sqrt(x/float64(c.freedom)), c.freedom, c.meter)
			return law.Prob(x) * (errs.CDF(-half) + errs.Survival(half))
		}, 0, 80, 400, quad.Legendre{}, 0)
		if got := power(c.runs, c.meter, c.freedom); math.Abs(got-want) > 7e-5 {
			t.Errorf("%+v: %v, want %v", c, got, want)
		}
	}
}

// against is a spring that is thinner or thicker.
func against(t testing.TB, set string) *Other {
	t.Helper()
	s, _ := trial.Compile(t, "eight-day")
	if err := vary.Apply(s, []string{set}); err != nil {
		t.Fatal(err)
	}
	return &Other{s, 0}
}

// As many experiments as promised tell two springs apart: both are read as planned, by one
// meter that is out by a share, each run-down has its figure, and the t test of both means
// is made.
func TestPowerHolds(t *testing.T) {
	const experiments = 4000
	for _, c := range []struct {
		set     string
		repeats int
		law     Law
	}{
		{thickness + "=0.3825", 3, Usual()}, {thickness + "=0.3775", 5, Usual()}, {flow + "=1560", 2, Usual()},
		{thickness + "=0.381", 4, Usual()}, {"going.barrel.set_up_turns=1.2", 3, Law{Scatter: 0.006, Offset: 0.004, MeterRelative: 0.02}},
	} {
		o := Options{Against: against(t, c.set), Error: math.NaN(), Power: math.NaN(), Repeats: c.repeats, Law: c.law}
		st := planned(t, o)
		b := bench{random: rand.New(rand.NewPCG(11, uint64(c.repeats))), law: c.law}
		other := bench{random: b.random, law: c.law}
		squares := 0.0
		for _, at := range st.At {
			b.torque, other.torque = append(b.torque, at.Torque), append(other.torque, at.Torque-at.Slope)
			if at.Read {
				squares += at.Slope * at.Slope
			}
		}
		figures := func(b *bench, meter float64) (list []float64) {
			for _, run := range b.reads(&st.Plan, meter).RunningDown {
				sum := 0.0
				for _, at := range st.At {
					if at.Read {
						sum += at.Slope * run[at.FuseeTurn] / squares
					}
				}
				list = append(list, sum)
			}
			return list
		}
		apart := 0
		for range experiments {
			meter := b.meter()
			x, y := figures(&b, meter), figures(&other, meter)
			s := math.Sqrt((stat.Variance(x, nil) + stat.Variance(y, nil)) / float64(c.repeats))
			if math.Abs(stat.Mean(x, nil)-stat.Mean(y, nil)) > measure.HalfWidth(s, 2*(c.repeats-1), 0) {
				apart++
			}
		}
		found := float64(apart) / experiments
		t.Logf("%s, %v in %d: promised %.3f, found %.3f", c.set, st.Plan.Turns, c.repeats, st.Plan.Power, found)
		if math.Abs(found-st.Plan.Power) > 0.03 {
			t.Errorf("%s: promised %.3f, found %.3f", c.set, st.Plan.Power, found)
		}
	}
}

// The power asked for is reached, and with one run-down fewer it is not.
func TestPowerAskedFor(t *testing.T) {
	for _, want := range []float64{0.5, 0.8, 0.99} {
		o := Options{Against: against(t, thickness+"=0.3815"), Error: math.NaN(), Power: want, Law: Usual()}
		st := planned(t, o)
		if !st.Reached() || !(st.Plan.Power >= want) || st.Plan.Repeats < 2 {
			t.Fatalf("%v: %+v", want, st.Plan)
		}
		for _, p := range st.sizes(st.Plan.Repeats - 1) {
			if p.Power >= want {
				t.Errorf("%v: one run-down fewer does it too", want)
			}
		}
	}
	// Of springs that pull alike but for a hair it is never reached.
	o := Options{Against: against(t, thickness+"=0.3800001"), Error: math.NaN(), Power: 0.8, Law: Usual()}
	if st := planned(t, o); st.Reached() || !(st.Plan.Power < 0.06) {
		t.Errorf("%+v", st.Plan)
	}
	// One run-down of each tells nothing.
	one := Options{Against: against(t, thickness+"=0.381"), Error: math.NaN(), Power: math.NaN(), Law: Usual()}
	if st := planned(t, one); !math.IsNaN(st.sizes(1)[0].Power) || st.For != nil || st.Against == "" {
		t.Errorf("%+v", st)
	}
}

// Two springs are read in one clock: where the cone is as if cut for a spring, the other one
// is read through it too, and pulls unevenly.
func TestOneCone(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	number := slices.IndexFunc(s.Trains, func(tr scenario.Train) bool { return tr.Fusee.Profile == scenario.Even })
	other := s.Clone()
	if err := vary.Apply(other, []string{s.Trains[number].Name + ".mainspring.yield_mpa=1400"}); err != nil {
		t.Fatal(err)
	}
	st, err := Run(t.Context(), s, number, Options{Against: &Other{other, number}, Error: math.NaN(), Power: math.NaN(), Law: Usual()})
	if err != nil {
		t.Fatal(err)
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, at := range st.At {
		share := at.Slope / at.Torque
		lo, hi = min(lo, share), max(hi, share)
	}
	if !(hi-lo > 0.003) {
		t.Errorf("the springs differ by %v to %v of the torque at every turn", lo, hi)
	}
}
