package cut

import (
	"context"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/study/setup"
	"evenpull/sim/vary"
)

// invent makes a clock of its own from the sample: another spring, another cone with
// a hump or a hollow, another set-up, in whole clicks or not, and a need about what
// the spring gives; one in five without one.
func invent(t testing.TB, r *rand.Rand) *scenario.Scenario {
	t.Helper()
	var replace []string
	judged := r.IntN(5) > 0
	if !judged {
		text, _ := scenarios.Text("eight-day")
		replace = []string{text[strings.Index(text, "# The wheels"):], ""}
	}
	s, _ := trial.Compile(t, "eight-day", replace...)
	in := &s.Trains[0]
	in.Mainspring.ThicknessMM = about(r, 0.38, 0.06)
	in.Mainspring.LengthMM = about(r, 1650, 0.08)
	in.Barrel.SetUpTurns = 0.5 + 1.5*r.Float64()
	if r.IntN(3) > 0 {
		in.Barrel.SetUpTurns = math.Round(12*in.Barrel.SetUpTurns) / 12
	}
	hump(in, 0.08*(2*r.Float64()-1), 16*r.Float64(), 9)
	if judged {
		in.Demand.LeastTorqueNM = mean(t, s) / (1.1 + 0.7*r.Float64())
	}
	return s
}

// humped is a clock with little set-up and a cone that is even for it but for a hump:
// a little too strong, and no other set-up does.
func humped(t testing.TB, r *rand.Rand) *scenario.Scenario {
	t.Helper()
	s, _ := trial.Compile(t, "eight-day")
	in := &s.Trains[0]
	in.Mainspring.ThicknessMM, in.Mainspring.LengthMM = about(r, 0.38, 0.003), about(r, 1650, 0.003)
	in.Barrel.SetUpTurns = 0.5
	even, err := Run(context.Background(), s, 0, Options{FromBlank: true, Large: 21e-3, Small: nan})
	if err != nil {
		t.Fatal(err)
	}
	for i := range in.Fusee.DiametersMM {
		in.Fusee.DiametersMM[i] = even.Rows[i].Diameter * 1e3
	}
	hump(in, about(r, 0.086, 0.02), 6, 15)
	in.Demand.LeastTorqueNM = mean(t, s) / about(r, 1.66, 0.001)
	return s
}

// about is a value off by at most a share of itself.
func about(r *rand.Rand, v, share float64) float64 { return v * (1 + share*(2*r.Float64()-1)) }

// hump makes a cone thicker by a share about a fusee turn, with the square of the
// width given.
func hump(in *scenario.Train, share, turn, square float64) {
	for i := range in.Fusee.DiametersMM {
		x := float64(i) - turn
		in.Fusee.DiametersMM[i] *= 1 + share*math.Exp(-x*x/(2*square))
	}
}

// mean is the mean torque of the first train.
func mean(t testing.TB, s *scenario.Scenario) float64 {
	t.Helper()
	clock, err := sim.RunClock(s, sim.Options{TorqueOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	return clock.Trains[0].Torque.Mean
}

// What run, setup and cut say of a hundred clocks agrees, and where cutting is
// advised the cone that is cut does as promised, by a run of a scenario that asks
// for the even cone, through the solver of the spring and not the study.
func TestOneVoice(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 9))
	counts, advised := map[Answer]int{}, map[Answer]int{}
	for i := range 100 {
		s := invent(t, r)
		if i%10 == 0 {
			s = humped(t, r)
		}
		st, err := Run(context.Background(), s, 0, Options{Large: nan, Small: nan})
		if err != nil {
			t.Fatalf("%d: %v", i, err)
		}
		counts[st.Suits()]++
		clock, err := sim.RunClock(s, sim.Options{})
		if err != nil {
			t.Fatal(err)
		}
		agrees(t, i, s, st, &clock.Trains[0].Digest)
		if st.Advised() {
			advised[st.Suits()]++
			promised(t, i, s, st)
		}
		st.Now.Advice.Historic = true
		if st.Advised() {
			t.Errorf("%d: a historic cone is to be cut", i)
		}
	}
	if advised[OtherSpring] < 3 || advised[NotJudged] < 3 || counts[AsItIs] < 10 || counts[WithSetUp] < 10 || counts[OtherSpring] < 10 || counts[NotJudged] < 5 {
		t.Errorf("%v, advised to be cut %v: too few of a kind to tell", counts, advised)
	}
}

// agrees compares a study with a run and with the search for a set-up.
func agrees(t *testing.T, i int, s *scenario.Scenario, st *Study, now *sim.Digest) {
	t.Helper()
	if st.Now.Verdict != now.Verdict || st.Now.Faults != now.Faults || st.Now.Torque.Unevenness != now.Torque.Unevenness {
		t.Errorf("%d: now %v %v, by a run %v %v", i, st.Now.Verdict, st.Now.Faults, now.Verdict, now.Faults)
	}
	good := now.Verdict.Code == rules.Suits && now.Faults == 0
	if good != (st.Suits() == AsItIs) || good && st.Advised() {
		t.Errorf("%d: %v, %v faults by a run; %v, cutting advised %v", i, now.Verdict, now.Faults, st.Suits(), st.Advised())
	}
	found, err := setup.Run(context.Background(), s, 0)
	if err != nil {
		if st.SetUp() != nil || st.Suits() == WithSetUp {
			t.Errorf("%d: %v, and yet %v", i, err, st.Suits())
		}
		return
	}
	if st.First() != found.First() || (st.Search.Advised == nil) != (found.Advised == nil) {
		t.Errorf("%d: first %v, by the search for a set-up %v", i, st.First(), found.First())
	}
	if st.Suits() == WithSetUp && st.SetUp().Spring.SetUp != found.Advised.Spring.SetUp {
		t.Errorf("%d: set up by %v, advised %v", i, st.SetUp().Spring.SetUp, found.Advised.Spring.SetUp)
	}
	if st.First() == rules.AnotherSetUp && st.Advised() {
		t.Errorf("%d: cutting is advised before a set-up that does", i)
	}
	// Nobody is told a set-up that no ratchet has.
	for _, w := range []*Way{&st.Least, &st.After} {
		if clicks := w.Spring.SetUp * w.Clicks; w.Fault == nil && w.Spring.SetUp != now.Spring.SetUp && math.Abs(clicks-math.Round(clicks)) > 1e-9 {
			t.Errorf("%d: a set-up of %v clicks", i, clicks)
		}
	}
}

// promised runs the cone that is advised to be cut.
func promised(t *testing.T, i int, s *scenario.Scenario, st *Study) {
	t.Helper()
	for _, row := range st.Rows {
		if row.Remove > st.Now.Advice.CutAtMost*row.Now*(1+1e-9) {
			t.Errorf("%d: %v of %v comes off at turn %v", i, row.Remove, row.Now, row.FuseeTurn)
		}
	}
	m, err := vary.WithCone(s, 0, st.Cut.Drive.Cone, "going.barrel.set_up_turns")
	if err != nil {
		t.Fatal(err)
	}
	cone, err := m.Run([]float64{st.After.Spring.SetUp})
	if err != nil {
		t.Fatal(err)
	}
	even := s.Clone()
	in := &even.Trains[0]
	in.Barrel.SetUpTurns = st.After.Spring.SetUp
	in.Fusee.Profile, in.Fusee.DiametersMM, in.Fusee.LargeDiameterMM = scenario.Even, nil, st.Rows[len(st.Rows)-1].Diameter*1e3
	asked, err := sim.RunClock(even, sim.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range []*sim.Digest{&cone.Digest, &asked.Trains[0].Digest} {
		if want := st.After.Verdict.Code; want != rules.Suits && want != rules.Unjudged || d.Verdict.Code != want || d.Faults != 0 || !(d.Torque.Unevenness <= st.Now.Advice.CutGain*st.Now.Torque.Unevenness) || !st.Now.Advice.Spares(d.Spare()) {
			t.Errorf("%d: cut it %v, faults %v, unevenness %v, %v turns to spare", i, d.Verdict.Code, d.Faults, d.Torque.Unevenness, d.Spare())
		}
	}
}

// No other click, from the fewest that keep the line taut to the most that leave the
// turns to spare, takes less metal off.
func TestLeastMetalByTheClick(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 4))
	tried := 0
	for i := range 12 {
		s := invent(t, r)
		st, err := Run(context.Background(), s, 0, Options{Large: nan, Small: nan})
		if err != nil || st.Least.Fault != nil {
			t.Fatalf("%d: %v, %v", i, err, st.Least.Fault)
		}
		w, err := st.Train.Drive.Wind()
		if err != nil {
			t.Fatal(err)
		}
		if !st.Now.Advice.Spares(st.Least.Spare()) {
			continue // with no click are so many to spare
		}
		tried++
		for click := 3.0; click < 12*st.Now.Spring.Available; click++ {
			if c, err := w.Within(click/12, 1); err == nil && c.Removed < st.Least.Removed*(1-2e-3) {
				t.Errorf("%d: %v m³ come off with %v clicks, %v with %v", i, c.Removed, click, st.Least.Removed, st.Least.Spring.SetUp*12)
			}
		}
	}
	if tried < 8 {
		t.Errorf("only %d tried", tried)
	}
}
