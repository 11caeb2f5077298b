package choose_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
	"evenpull/sim/show/words"
	"evenpull/sim/stock"
	"evenpull/sim/study/choose"
	"evenpull/sim/study/setup"
)

// invented is a clock made of a sample by changing sizes, steel, set-up and need at
// random; nil where no such clock can be run.
func invented(t testing.TB, r *rand.Rand) *scenario.Scenario {
	t.Helper()
	names := []string{"eight-day", "too-strong", "too-weak", "strike-quick", "strike-pleasant", "three-trains"}
	s, _ := trial.Compile(t, names[r.IntN(len(names))])
	s.Trains = s.Trains[:1]
	in := &s.Trains[0]
	wild := r.Float64() // some differ little from their sample
	by := func(v *float64, share float64) { *v *= 1 + wild*share*(2*r.Float64()-1) }
	for _, v := range []*float64{&in.Mainspring.ThicknessMM, &in.Mainspring.LengthMM, &in.Barrel.InsideDiameterMM, &in.Barrel.ArborDiameterMM, &in.Mainspring.Efficiency} {
		by(v, 0.1)
	}
	in.Barrel.InsideDiameterMM = min(in.Barrel.InsideDiameterMM, in.Barrel.OutsideDiameterMM-2)
	scale := 1.0
	by(&scale, 0.15)
	for i := range in.Fusee.DiametersMM {
		in.Fusee.DiametersMM[i] *= scale
	}
	if in.Barrel.SetUpTurns += 0.6*r.Float64() - 0.3; r.IntN(3) == 0 {
		in.Barrel.SetUpTurns = 3 * r.Float64()
	}
	if r.IntN(3) > 0 { // whole clicks, as most have
		in.Barrel.SetUpTurns = math.Round(in.Barrel.SetUpTurns*12) / 12
	}
	switch r.IntN(4) {
	case 0: // it never set
		in.Mainspring.YieldMPa, in.Mainspring.FreeCoils = math.NaN(), math.NaN()
	case 1:
		in.Mainspring.YieldMPa, in.Mainspring.FreeCoils = math.NaN(), 4+4*r.Float64()
	default:
		in.Mainspring.YieldMPa = 1300 + 700*r.Float64()
	}
	if scenario.Given(in.Demand.LeastTorqueNM) {
		by(&in.Demand.LeastTorqueNM, 0.3)
	}
	if scenario.Given(in.Line.BreakingN) {
		by(&in.Line.BreakingN, 0.4)
	}
	if err := s.CheckTrain(0); err != nil {
		return nil
	}
	if _, err := sim.RunClock(s, sim.Options{}); err != nil {
		return nil
	}
	return s
}

// about is a stock of springs of about the size of the clock's own.
func about(s *scenario.Scenario, n int, r *rand.Rand) *stock.Stock {
	own := &s.Trains[0].Mainspring
	list := &stock.Stock{EndShakeMM: stock.EndShakeMM, Source: "about"}
	for i := range n {
		sp := stock.Spring{Label: fmt.Sprint(i), WidthMM: own.WidthMM - math.Round(10*r.Float64())/2, ThicknessMM: math.Round(100*own.ThicknessMM*(0.8+0.4*r.Float64())) / 100,
			LengthMM: math.Round(own.LengthMM * (0.7 + 0.7*r.Float64())), YieldMPa: math.NaN(), ModulusGPa: math.NaN(), MayBeCut: r.IntN(4) > 0}
		if r.IntN(3) == 0 {
			sp.YieldMPa = 1400 + math.Round(500*r.Float64())
		}
		if r.IntN(6) == 0 {
			sp.ModulusGPa = 195 + math.Round(20*r.Float64())
		}
		list.Springs = append(list.Springs, sp)
	}
	return list
}

// fitted is the clock with a strip of a size in mm put in as a choice says.
func fitted(s *scenario.Scenario, st *choose.Study, width, thickness, length, yield, modulus, setUp float64) *scenario.Scenario {
	c := s.Clone()
	in := &c.Trains[0]
	sp := &in.Mainspring
	sp.WidthMM, sp.ThicknessMM, sp.LengthMM = width, thickness, length
	sp.FreeCoils, sp.YieldMPa = math.NaN(), st.Steel/1e6
	if scenario.Given(yield) {
		sp.YieldMPa = yield
	}
	if scenario.Given(modulus) {
		sp.ModulusGPa = modulus
	}
	in.Barrel.SetUpTurns = setUp
	return c
}

// speaksAlike wants a spring that may be ordered, put in as told, to have the same
// figures from a run, to suit without a fault, and setup to have nothing against it.
func speaksAlike(t *testing.T, what string, s *scenario.Scenario, want *sim.Digest) {
	t.Helper()
	clock, err := sim.RunClock(s, sim.Options{})
	if err != nil {
		t.Errorf("%s: %v", what, err)
		return
	}
	got := &clock.Trains[0].Digest
	for _, pair := range [][2]float64{{got.Torque.Mean, want.Torque.Mean}, {got.Torque.Min, want.Torque.Min}, {got.Torque.Max, want.Torque.Max}, {got.Torque.Unevenness, want.Torque.Unevenness},
		{got.Spring.Available, want.Spring.Available}, {got.Spare(), want.Spare()}, {got.Spring.Stored, want.Spring.Stored}, {got.Need.Used, want.Need.Used}, {got.Line.MaxWindingTension, want.Line.MaxWindingTension}} {
		if !(math.Abs(pair[0]-pair[1]) <= 1e-9*math.Abs(pair[0])) && !(math.IsNaN(pair[0]) && math.IsNaN(pair[1])) {
			t.Errorf("%s: %v, by a run %v", what, pair[1], pair[0])
		}
	}
	if is := got.Standing(); got.Verdict != want.Verdict || got.Faults != want.Faults || !is.Sound() || !got.Advice.Spares(is.Spare) {
		t.Errorf("%s: %+v, by a run %+v", what, want.Standing(), is)
	}
	st, err := setup.Run(context.Background(), s, 0)
	if err != nil {
		t.Errorf("%s: %v", what, err)
		return
	}
	if st.Advised != nil || len(words.SetUpWarns(st)) > 0 {
		t.Errorf("%s: %s; %q", what, words.SetUpAdvice(st), words.SetUpWarns(st))
	}
}

// What is ordered, put in as it says, has the same figures from a run, suits without a
// fault, and setup leaves it as it is.
func TestOneVoice(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 100))
	clocks, orders, ideals, cut, kept := 0, 0, 0, 0, 0
	for clocks < 40 {
		s := invented(t, r)
		if s == nil {
			continue
		}
		clocks++
		st, err := choose.Run(context.Background(), s, 0, about(s, 12, r), choose.Options{Reserve: math.NaN(), EndShake: math.NaN()})
		if err != nil {
			t.Fatal(err)
		}
		for i := range st.Candidates {
			c := &st.Candidates[i]
			if !c.Orders() {
				continue
			}
			orders++
			if c.Length() != c.LengthMM {
				cut++
			}
			if c.Digest.Standing().Clicks == st.Present.Digest.Standing().Clicks {
				kept++
			}
			in := fitted(s, st, c.WidthMM, c.ThicknessMM, c.Length(), c.YieldMPa, c.ModulusGPa, c.Digest.Spring.SetUp)
			speaksAlike(t, fmt.Sprintf("clock %d, spring %s", clocks, c.Label), in, &c.Digest)
		}
		for i := range st.Ideals {
			if id := &st.Ideals[i]; id.Ordered.Known() {
				ideals++
				o := &id.Ordered
				speaksAlike(t, fmt.Sprintf("clock %d, %v mm wide", clocks, id.Width), fitted(s, st, id.Width, o.Thickness, o.Length, math.NaN(), math.NaN(), o.Digest.Spring.SetUp), &o.Digest)
			}
		}
	}
	t.Logf("%d springs to order, %d of them cut, %d with the present set-up; %d to have made", orders, cut, kept, ideals)
	if orders < 80 || ideals < 50 || cut < 5 || kept < 8 {
		t.Errorf("only %d springs to order, %d of them cut, %d with the present set-up; %d to have made", orders, cut, kept, ideals)
	}
}
