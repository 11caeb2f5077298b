package dossier

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/bench/assign"
	"evenpull/sim/bench/book"
	"evenpull/sim/internal/trial"
	"evenpull/sim/internal/trial/bench"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/show/words"
	"evenpull/sim/stock"
	"evenpull/sim/study/choose"
	"evenpull/sim/study/cut"
	"evenpull/sim/study/setup"
)

// clocks are invented for the test of one voice; fewer when in haste.
func clocks() uint64 {
	if testing.Short() {
		return 40
	}
	return 500
}

// voice is one clock and what every command says of it.
type voice struct {
	t      *testing.T
	number uint64
	s      *scenario.Scenario
	run    *sim.Digest
	setup  *setup.Study // nil where with any set-up the spring binds
}

// One voice: of 500 invented clocks no command says otherwise than another. What is
// advised or ordered, done as it says, gets the same figures and verdict from a run,
// and nothing against it from the others.
func TestOneVoice(t *testing.T) {
	text, _ := scenarios.StockText(scenarios.DefaultStock)
	list, err := stock.Read(strings.NewReader(text), "shop-drawer")
	if err != nil {
		t.Fatal(err)
	}
	advised, ordered, cuts, judged := 0, 0, 0, 0
	for number := range clocks() {
		v := voice{t: t, number: number, s: trial.Invent(t, number)}
		v.run = v.runs(v.s)
		v.setup, err = setup.Run(context.Background(), v.s, 0)
		if err != nil && !errors.Is(err, setup.ErrNoRoom) {
			t.Fatal(err)
		}
		advised += v.settingUp()
		ordered += v.ordering(list)
		cuts += v.cutting()
		judged += v.assigning()
	}
	n := int(clocks())
	if advised < n/10 || ordered < n/2 || cuts == 0 && !testing.Short() || judged < n/2 {
		t.Errorf("of %d clocks %d set-ups advised, %d springs ordered, %d cones cut, %d pairs judged: too few to tell", n, advised, ordered, cuts, judged)
	}
}

// runs is the run of a scenario's train.
func (v *voice) runs(s *scenario.Scenario) *sim.Digest {
	v.t.Helper()
	clock, err := sim.RunClock(s, sim.Options{})
	if err != nil {
		v.t.Fatalf("clock %d: %v", v.number, err)
	}
	return &clock.Trains[0].Digest
}

// same wants a study's digest to be that of a run. At rest and wound home the couple goes
// with a square root, which makes 1e-8 of a rounding, and more of it near nothing.
func (v *voice) same(what string, got, run *sim.Digest) {
	v.t.Helper()
	tol := 1e-9
	if run.Faults.Has(sim.Binds) || run.Faults.Has(sim.NoSetUp) {
		tol = 1e-5
	}
	for _, c := range [][2]float64{{got.Torque.Mean, run.Torque.Mean}, {got.Torque.Min, run.Torque.Min}, {got.Torque.Unevenness, run.Torque.Unevenness}, {got.Spare(), run.Spare()}, {got.Need.Used, run.Need.Used}, {got.TurnsLost, run.TurnsLost}} {
		if !(math.Abs(c[0]-c[1]) <= tol*math.Max(math.Abs(c[1]), 1e-3)) && !(math.IsNaN(c[0]) && math.IsNaN(c[1])) {
			v.t.Errorf("clock %d, %s: %v, by a run %v", v.number, what, c[0], c[1])
		}
	}
	if got.Verdict != run.Verdict || got.Faults != run.Faults {
		v.t.Errorf("clock %d, %s: %v %v, by a run %v %v", v.number, what, got.Verdict, got.Faults.List(), run.Verdict, run.Faults.List())
	}
}

// leftAlone wants setup to have nothing against a scenario.
func (v *voice) leftAlone(what string, s *scenario.Scenario) {
	v.t.Helper()
	st, err := setup.Run(context.Background(), s, 0)
	if err != nil {
		v.t.Errorf("clock %d, %s: %v", v.number, what, err)
		return
	}
	if st.Advised != nil || len(words.SetUpWarns(st)) > 0 {
		v.t.Errorf("clock %d, %s: %s; %q", v.number, what, words.SetUpAdvice(st), words.SetUpWarns(st))
	}
}

// settingUp does what setup advises.
func (v *voice) settingUp() int {
	if v.setup == nil {
		return 0
	}
	v.same("setup, now", &v.setup.Now, v.run)
	to := v.setup.Advised
	if to == nil {
		return 0
	}
	s := v.s.Clone()
	s.Trains[0].Barrel.SetUpTurns = to.Spring.SetUp
	done := v.runs(s)
	v.same("set up as advised", to, done)
	v.leftAlone("set up as advised", s)
	if now, then := v.run.Standing(), done.Standing(); now.Beats(&then) || !done.Advice.Spares(done.Spare()) {
		v.t.Errorf("clock %d: advised to be set up worse", v.number)
	}
	return 1
}

// first is what comes first by the run and setup alone.
func (v *voice) first() rules.Step {
	if v.setup != nil {
		return v.setup.First()
	}
	now := v.run.Standing()
	return v.run.Advice.First(&now, &now)
}

// ordering fits every spring that may be ordered as choose says.
func (v *voice) ordering(list *stock.Stock) int {
	st, err := choose.Run(context.Background(), v.s, 0, list, choose.Options{Reserve: math.NaN(), EndShake: math.NaN()})
	if err != nil {
		v.t.Fatal(err)
	}
	if st.First != v.first() {
		v.t.Errorf("clock %d: choose begins with %v, setup with %v", v.number, st.First, v.first())
	}
	v.same("choose, the present spring", &st.Present.Digest, v.run)
	ordered := 0
	for i := range st.Candidates {
		c := &st.Candidates[i]
		if !c.Orders() {
			continue
		}
		ordered++
		s := v.s.Clone()
		in := &s.Trains[0].Mainspring
		in.WidthMM, in.ThicknessMM, in.LengthMM, in.FreeCoils, in.YieldMPa = c.WidthMM, c.ThicknessMM, c.Length(), math.NaN(), st.Steel/1e6
		if scenario.Given(c.YieldMPa) {
			in.YieldMPa = c.YieldMPa
		}
		s.Trains[0].Barrel.SetUpTurns = c.Digest.Spring.SetUp
		fitted := v.runs(s)
		v.same("spring "+c.Label, &c.Digest, fitted)
		v.leftAlone("spring "+c.Label, s)
		if is := fitted.Standing(); !is.Sound() {
			v.t.Errorf("clock %d: spring %s is ordered and does not suit", v.number, c.Label)
		}
	}
	return min(ordered, 1)
}

// cutting asks cut.
func (v *voice) cutting() int {
	st, err := cut.Run(context.Background(), v.s, 0, cut.Options{})
	if err != nil {
		v.t.Fatal(err)
	}
	v.same("cut, now", &st.Now, v.run)
	now := v.run.Standing()
	yes := strings.HasPrefix(words.CutAnswer(st, words.Verdict), "YES")
	switch {
	case st.First() != v.first():
		v.t.Errorf("clock %d: cut begins with %v, setup with %v", v.number, st.First(), v.first())
	case now.Sound() && (!yes || st.Advised()):
		v.t.Errorf("clock %d suits, and cut says %s", v.number, words.CutAnswer(st, words.Verdict))
	case yes && v.first() == rules.AnotherSpring:
		v.t.Errorf("clock %d: another spring is wanted, and cut says %s", v.number, words.CutAnswer(st, words.Verdict))
	}
	if !st.Advised() {
		return 0
	}
	if after := st.After.Standing(); v.first() != rules.AnotherSpring || !after.Sound() || st.After.Share > v.run.Advice.CutAtMost {
		v.t.Errorf("clock %d: cutting is advised, %+v", v.number, after)
	}
	return 1
}

// assigning reads what the run predicts as if it came from a meter.
func (v *voice) assigning() int {
	clock, err := sim.RunClock(v.s, sim.Options{Step: 1})
	if err != nil {
		v.t.Fatal(err)
	}
	r := &clock.Trains[0]
	var read []float64
	for i := range r.Rows {
		if turn := r.Rows[i].FuseeTurn; turn == math.Round(turn) {
			read = append(read, r.Rows[i].FuseeTorque)
		}
	}
	if r.TurnsLost > 0 || len(read) < 3 {
		return 0 // readings begin at turn 0
	}
	b := &book.Book{Title: "t", Torques: []book.Torque{{Train: r.Name, Spring: "A", RunningDown: [][]float64{read, read}}}}
	st, err := assign.Of(context.Background(), b, bench.Clock(v.t, b, v.s))
	if err != nil || len(st.Pairs) != 1 || !st.Pairs[0].Whole {
		return 0
	}
	p := &st.Pairs[0]
	margins := v.run.Margins()
	for _, m := range margins {
		if math.Abs(m) < 1e-6 {
			return 0 // at a border either will do
		}
	}
	if p.Verdict.Code != v.run.Verdict.Code || p.Faults != v.run.Faults || math.Abs(p.Reserve(p.Torque.Mean)/v.run.Reserve(v.run.Torque.Mean)-1) > 1e-6 {
		v.t.Errorf("clock %d: assign says %v, run %v", v.number, p.Verdict.Code, v.run.Verdict.Code)
	}
	return 1
}
