package vary

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"runtime"
	"strconv"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
)

func closeTo(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol*math.Max(1e-300, math.Abs(want))) {
		t.Errorf("%s = %.12g, want %.12g", what, got, want)
	}
}

func model(t testing.TB, s *scenario.Scenario, hold Hold, keys ...string) *Model {
	t.Helper()
	m, err := New(s, 0, hold, keys...)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func mustRun(t testing.TB, m *Model, x ...float64) *sim.Result {
	t.Helper()
	r, err := m.Run(x)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// byHand sets the value in a copy of the scenario and compiles the whole anew.
func byHand(t testing.TB, s *scenario.Scenario, number int, key string, v float64) (*sim.Result, error) {
	t.Helper()
	c := s.Clone()
	if err := Apply(c, []string{key + "=" + strconv.FormatFloat(v, 'g', -1, 64)}); err != nil {
		return nil, err
	}
	tr, err := sim.CompileTrain(c, number)
	if err != nil {
		return nil, err
	}
	var r sim.Result
	return &r, tr.RunInto(&r, sim.Options{})
}

// Varying any quantity of any sample gives what setting it and compiling the
// whole scenario anew gives.
func TestRunIsARun(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	tried, refused := 0, 0
	half, _ := trial.Compile(t, "strike-quick", "length_mm    = 1400.0", "")
	counted, _ := trial.Compile(t, "eight-day", "length_mm    = 1650.0", "solid_turns = 8.3", "yield_mpa    = 1620.0", "free_coils = 6.9")
	samples := []*scenario.Scenario{pivotedSample(t), half, counted}
	for _, name := range scenarios.Names() {
		s, _ := trial.Compile(t, name)
		samples = append(samples, s)
	}
	for _, s := range samples {
		name := s.Title
		for number := range s.Trains {
			for _, q := range s.Quantities() {
				even := s.Trains[number].Fusee.Profile == scenario.Even && !strings.Contains(q.Key, ".fusee.")
				if even || !Concerns(s, number, q.Key) || s == counted && q.Key == "going.mainspring.length_mm" {
					continue // an even cone is not cut anew; beside a length that is set the count tells the packing
				}
				m, err := New(s, number, Length, q.Key)
				if err != nil {
					t.Fatalf("%s: %v", q.Key, err)
				}
				for range 4 {
					x := m.Nominal()[0] * (0.6 + 0.8*random.Float64())
					got, err := m.Run([]float64{x})
					want, wantErr := byHand(t, s, number, q.Key, x)
					tried++
					if (err == nil) != (wantErr == nil) {
						t.Errorf("%s, %s = %v: %v, by hand %v", name, q.Key, x, err, wantErr)
					} else if err != nil {
						refused++
					} else if got.Torque != want.Torque || got.Verdict != want.Verdict || len(got.Rows) != len(want.Rows) ||
						!alike(got.Need.Used, want.Need.Used) || !alike(got.Need.Predicted, want.Need.Predicted) || !alike(got.Swing.Rate.Mean, want.Swing.Rate.Mean) || !alike(got.Cadence.Interval.Mean, want.Cadence.Interval.Mean) || got.Spring.EndFloat != want.Spring.EndFloat || got.Line.Room != want.Line.Room {
						t.Errorf("%s, %s = %v: %+v, by hand %+v", name, q.Key, x, got.Torque, want.Torque)
					}
				}
			}
		}
	}
	if tried < 500 || refused < 10 || refused > tried/2 {
		t.Errorf("%d tried, %d refused", tried, refused)
	}
}

// alike tells whether two figures are the same, or both do not apply.
func alike(a, b float64) bool { return a == b || a != a && b != b }

// After values that cannot be built the next ones are built as if nothing had been.
func TestRunAfterAFault(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	m := model(t, s, Length, "going.mainspring.length_mm", "going.mesh.centre.efficiency")
	want := mustRun(t, m, 1650, 0.93).Torque
	for _, bad := range [][]float64{{9000, 0.93}, {1650, 7}, {-1, -1}, {math.NaN(), 0.9}, {math.Inf(1), 0.9}} {
		if _, err := m.Run(bad); err == nil {
			t.Errorf("%v was built", bad)
		} else if why := Why(err); strings.Contains(why, ".toml") || strings.Contains(why, "eight-day:") || !strings.Contains(why, "want") || WhyKey(err) == "" {
			t.Errorf("%v: %q at %q", bad, why, WhyKey(err))
		}
		if got := mustRun(t, m, 1650, 0.93).Torque; got != want {
			t.Errorf("after %v: %+v, before %+v", bad, got, want)
		}
	}
}

func TestRunAllocatesNothing(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	m := model(t, s, Fill, "going.mainspring.thickness_mm", "going.barrel.inside_height_mm", "going.pendulum.mass_g", "going.demand.least_torque_nm")
	x := append([]float64(nil), m.Nominal()...)
	if n := testing.AllocsPerRun(100, func() {
		x[0] *= 1.0001
		mustRun(t, m, x...)
	}); n > 0 {
		t.Errorf("%v allocations a run", n)
	}
}

// A cone that is made anew in every run is that of its own diameters, and leaves the
// scenario's own as it was.
func TestOwnConeStays(t *testing.T) {
	const key = "going.fusee.diameters_mm.9"
	s, _ := trial.Compile(t, "eight-day")
	m := model(t, s, Length, key)
	x := append([]float64(nil), m.Nominal()...)
	own, digest := m.Own()
	for range 20 {
		x[0] *= 1.003
		got := mustRun(t, m, x...)
		want, err := byHand(t, s, 0, key, x[0])
		if err != nil || got.Torque != want.Torque || got.Torque == digest.Torque {
			t.Fatalf("%v mm: %+v, want %+v, %v; own %+v", x, got.Torque, want.Torque, err, digest.Torque)
		}
	}
	if r, err := own.Run(sim.Options{}); err != nil || r.Torque != digest.Torque {
		t.Errorf("own: %+v, before %+v, %v", r.Torque, digest.Torque, err)
	}
	if n := testing.AllocsPerRun(100, func() {
		x[0] *= 0.9999
		mustRun(t, m, x...)
	}); n > 0 {
		t.Errorf("%v allocations a run", n)
	}
}

// What is assumed from another value follows it, unless it is varied itself.
func TestAssumedValuesFollow(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day", "outside_length_mm   = 39.0     # room for the line\n", "")
	m := model(t, s, Length, "going.barrel.inside_height_mm")
	if r := mustRun(t, m, 40); r.Train.Drive.Barrel.Length != 40e-3 {
		t.Errorf("the barrel is %v m long", r.Train.Drive.Barrel.Length)
	}
	m = model(t, s, Length, "going.barrel.inside_height_mm", "going.barrel.outside_length_mm")
	if r := mustRun(t, m, 40, 38); r.Train.Drive.Barrel.Length != 38e-3 {
		t.Errorf("the barrel is %v m long", r.Train.Drive.Barrel.Length)
	}
}

func TestHoldFill(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	m := model(t, s, Fill, "going.mainspring.thickness_mm", "going.barrel.arbor_diameter_mm", "going.mainspring.length_mm")
	x := m.Nominal()
	fill := mustRun(t, m, x...).Spring.Fill
	for _, by := range []float64{0.9, 1.1} {
		closeTo(t, "fill", mustRun(t, m, x[0]*by, x[1]/by, x[2]).Spring.Fill, fill, 1e-12)
		// A length that varies itself varies about the one that fills as before.
		closeTo(t, "fill by length", mustRun(t, m, x[0]*by, x[1], x[2]*by).Spring.Fill, fill*by, 1e-12)
	}
	kept := model(t, s, Length, "going.mainspring.thickness_mm")
	closeTo(t, "fill at one length", mustRun(t, kept, 0.418).Spring.Fill, fill*1.1, 1e-12)
	if Fill.String() != "fill" || Length.String() != "length" {
		t.Error("the names have changed")
	}
}

// A spring known by its coils, or by its turns from rest to solid, is the same as one of
// the flow stress and the packing that these tell of, also at another thickness; the
// coils at its own are those that it shows.
func TestCoilsFollowTheSteel(t *testing.T) {
	set, _ := trial.Compile(t, "eight-day")
	m := model(t, set, Length, "going.mainspring.thickness_mm")
	coils := mustRun(t, m, 0.38).Spring.FreeCoils
	known, _ := trial.Compile(t, "eight-day", "yield_mpa    = 1620.0", "free_coils = "+strconv.FormatFloat(coils, 'g', -1, 64))
	counted, _ := trial.Compile(t, "eight-day", "yield_mpa    = 1620.0", "solid_turns = "+strconv.FormatFloat(mustRun(t, m, 0.38).Spring.Available, 'g', -1, 64)+
		"\nfree_coils = "+strconv.FormatFloat(coils, 'g', -1, 64))
	for _, s := range []*scenario.Scenario{known, counted} {
		k := model(t, s, Length, "going.mainspring.thickness_mm", "going.mainspring.length_mm")
		for _, h := range []float64{0.34, 0.38, 0.42} {
			got, want := mustRun(t, k, h, 1650), mustRun(t, m, h)
			closeTo(t, "coils", got.Spring.FreeCoils, want.Spring.FreeCoils, 1e-9)
			closeTo(t, "turns", got.Spring.Available, want.Spring.Available, 1e-9)
			closeTo(t, "mean torque", got.Torque.Mean, want.Torque.Mean, 1e-9)
			closeTo(t, "unevenness", got.Torque.Unevenness, want.Torque.Unevenness, 1e-7)
		}
		if short := mustRun(t, k, 0.38, 1500).Spring.FreeCoils; !(short < coils) {
			t.Errorf("a strip cut shorter shows %v coils, before %v", short, coils)
		}
	}
	k := model(t, counted, Length, "going.mainspring.free_coils", "going.mainspring.solid_turns")
	if got := mustRun(t, k, 6, 8.5).Spring; math.Abs(got.FreeCoils-6) > 1e-9 || math.Abs(got.Available-8.5) > 1e-9 {
		t.Errorf("varied themselves: %v coils, %v turns", got.FreeCoils, got.Available)
	}
	// A strip that shows none has nothing to follow.
	none, _ := trial.Compile(t, "eight-day", "yield_mpa    = 1620.0", "free_coils = 0")
	if r := mustRun(t, model(t, none, Length, "going.mainspring.thickness_mm"), 0.42); r.Spring.FreeCoils != 0 {
		t.Errorf("%v coils", r.Spring.FreeCoils)
	}
}

// evenSample is the eight-day clock with a cone asked to be even.
func evenSample(t testing.TB) *scenario.Scenario {
	s, _ := trial.Compile(t, "eight-day", `profile = "measured"`, `profile = "even"
large_diameter_mm = 31.5 #`, "diameters_mm = [", "# [",
		"13.0, 13.4, 13.7, 14.1, 14.5, 14.9, 15.3, 15.9, 16.3,", "", "17.0, 17.6, 18.5, 19.2, 20.4, 21.9, 24.4, 29.2,", "", "\n]\n", "\n")
	return s
}

// An even cone stays as it was cut while the spring changes, and is cut anew for
// another fusee.
func TestEvenConeStays(t *testing.T) {
	s := evenSample(t)
	m := model(t, s, Length, "going.mainspring.thickness_mm")
	if e := mustRun(t, m, 0.38).Torque.Unevenness; e > 1e-5 {
		t.Errorf("its own spring is uneven by %v", e)
	}
	if e := mustRun(t, m, 0.42).Torque.Unevenness; e < 0.01 {
		t.Errorf("another spring is even to %v: the cone was cut anew", e)
	}
	m = model(t, s, Length, "going.fusee.large_diameter_mm", "going.mainspring.thickness_mm")
	if e := mustRun(t, m, 30, 0.42).Torque.Unevenness; e > 1e-9 {
		t.Errorf("the cone was not cut anew: %v", e)
	}
}

// pivotedSample has a chain, pivots, and a cone known by a few points over its lands,
// whose groove follows the thickness of the chain.
func pivotedSample(t testing.TB) *scenario.Scenario {
	t.Helper()
	s, _ := trial.Compile(t, "eight-day")
	err := s.Apply([]string{"going.line.kind=chain", "going.line.width_mm=1.2", "going.barrel.arbor_pivot_mm=9", "going.fusee.pivot_mm=4", "going.fusee.great_wheel_mm=48",
		"going.fusee.points=[[0, 14.6], [8, 17.9], [13, 22.0], [16, 30.8]]", "going.fusee.over=lands"})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// A cone that was asked to be even is cut for the pivots of the scenario, and stays so
// when others are tried.
func TestEvenConeStaysWithPivots(t *testing.T) {
	s := pivotedSample(t)
	if err := s.Apply([]string{"going.fusee.profile=even", "going.fusee.large_diameter_mm=29.2", "going.fusee.over=groove"}); err != nil {
		t.Fatal(err)
	}
	for _, key := range []string{"going.fusee.pivot_mm", "going.fusee.great_wheel_mm", "going.fusee.pull_angle_deg", "going.barrel.pivot_friction", "going.line.thickness_mm"} {
		m := model(t, s, Length, key)
		own := m.Nominal()[0]
		if e := mustRun(t, m, own).Torque.Unevenness; e > 1e-5 {
			t.Errorf("%s: its own pivots leave it uneven by %v", key, e)
		}
		if e := mustRun(t, m, 0.5*own).Torque.Unevenness; e < 5e-5 {
			t.Errorf("%s: even to %v: the cone was cut anew", key, e)
		}
	}
}

func TestNewFails(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	var f scenario.Fault
	if _, err := New(s, 0, Length, "going.mainspring.thicknes_mm"); !errors.As(err, &f) || !strings.Contains(f.Want, "thickness_mm") {
		t.Errorf("%v", err)
	}
	if err := s.Set("going.barrel.set_up_turns", "9.5"); err != nil {
		t.Fatal(err)
	}
	var apart *sim.Error
	if _, err := New(s, 0, Length, "going.mainspring.width_mm"); !errors.As(err, &apart) {
		t.Errorf("%v", err)
	}
}

// Each does every number once, with the same results on any number of cores, and
// stops when it is told to.
func TestEach(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	m := model(t, s, Length, "going.mainspring.thickness_mm")
	const n = 500
	all := func(cores int) [n]float64 {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(cores))
		var got [n]float64
		if err := m.Each(context.Background(), n, func(m *Model, i int) {
			got[i] += mustRun(t, m, 0.3+0.0002*float64(i)).Torque.Mean
		}); err != nil {
			t.Fatal(err)
		}
		return got
	}
	one := all(1)
	if one[0] == 0 || one[0] >= one[n-1] {
		t.Errorf("from %v to %v", one[0], one[n-1])
	}
	for _, cores := range []int{2, 7} {
		if all(cores) != one {
			t.Errorf("%d cores give other results than one", cores)
		}
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if err := m.Each(ctx, n, func(*Model, int) { t.Error("it went on") }); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}
