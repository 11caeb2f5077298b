package choose

import (
	"context"
	"errors"
	"fmt"
	"math"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/stock"
)

// byHand runs a train with a spring put into its scenario.
func byHand(t testing.TB, s *scenario.Scenario, number int, sets map[string]float64) *sim.Result {
	t.Helper()
	c := s.Clone()
	var list []string
	for key, v := range sets {
		list = append(list, s.Trains[number].Name+"."+key+"="+strconv.FormatFloat(v, 'g', -1, 64))
	}
	slices.Sort(list)
	if err := c.Apply(list); err != nil {
		t.Fatal(err)
	}
	tr, err := sim.CompileTrain(c, number)
	if err != nil {
		t.Fatal(err)
	}
	var r sim.Result
	if err := tr.RunInto(&r, sim.Options{}); err != nil {
		t.Fatal(err)
	}
	return &r
}

// setsOf are the values of a candidate as it is fitted.
func setsOf(c *Candidate) map[string]float64 {
	sets := map[string]float64{"mainspring.width_mm": c.WidthMM, "mainspring.thickness_mm": c.ThicknessMM, "mainspring.length_mm": c.Length(), "barrel.set_up_turns": c.Digest.Spring.SetUp}
	if scenario.Given(c.YieldMPa) {
		sets["mainspring.yield_mpa"] = c.YieldMPa
	}
	if scenario.Given(c.ModulusGPa) {
		sets["mainspring.modulus_gpa"] = c.ModulusGPa
	}
	return sets
}

// What is told of a fitted spring is what run tells of the scenario with it.
func TestFittedIsARun(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st := sampleStudy(t)
	fitted := 0
	for i := range st.Candidates {
		c := &st.Candidates[i]
		if !c.Fits() {
			if c.Digest != (sim.Digest{}) || c.Orders() {
				t.Errorf("%s is refused and has figures", c.Label)
			}
			continue
		}
		fitted++
		if r := byHand(t, s, 0, setsOf(c)); fmt.Sprint(r.Digest) != fmt.Sprint(c.Digest) {
			t.Errorf("%s: %+v, by a run %+v", c.Label, c.Digest, r.Digest)
		}
		// Printed is what was computed: whole millimetres, whole clicks.
		if l := c.Length(); l > c.LengthMM || l != c.LengthMM && (l != math.Round(l) || !c.MayBeCut) || c.Digest.Spring.SetUp != math.Round(c.Digest.Spring.SetUp*12)/12 {
			t.Errorf("%s is cut to %v mm, set up by %v", c.Label, l, c.Digest.Spring.SetUp)
		}
		if c.Digest.TurnsLost > 0 || c.Digest.Spare() < 1-1e-6 {
			t.Errorf("%s: %v turns left, %v lost", c.Label, c.Digest.Spare(), c.Digest.TurnsLost)
		}
	}
	if fitted < 10 {
		t.Errorf("only %d are fitted", fitted)
	}
}

// Width, spacers and end shake fill the barrel exactly.
func TestSpacers(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	for _, shake := range []float64{0, 0.3, 1, 1.2, 3} {
		st := study(t, s, 0, drawer(t), Options{Reserve: nan, EndShake: shake})
		for i := range st.Candidates {
			c := &st.Candidates[i]
			if sum := micro(c.Spacers + c.WidthMM + shake); sum != 33.2 {
				t.Errorf("%s: %v + %v + %v = %v", c.Label, c.Spacers, c.WidthMM, shake, sum)
			}
			if wide := c.WidthMM+shake > 33.2+1e-9; wide != (c.Refused.Why == TooWide) || wide != (c.Spacers < 0) || wide && math.Abs(c.Refused.Figure-(c.WidthMM+shake-33.2)) > 1e-9 {
				t.Errorf("%s with an end shake of %v: %+v", c.Label, shake, c.Refused)
			}
		}
		for i := range st.Ideals {
			if id := &st.Ideals[i]; micro(id.Spacers+id.Width+shake) != 33.2 {
				t.Errorf("%v + %v + %v", id.Spacers, id.Width, shake)
			}
		}
	}
}

// The sample shows what its remarks say.
func TestSampleDrawer(t *testing.T) {
	st := sampleStudy(t)
	want := map[string]Why{"B1": TooWide, "C1": TooLong, "C2": TooFewTurns, "D1": TooFewTurns}
	for i := range st.Candidates {
		c := &st.Candidates[i]
		if c.Refused.Why != want[c.Label] {
			t.Errorf("%s: %+v", c.Label, c.Refused)
		}
		if c.Rank != i+1 || i == 0 && c.Behind != rules.NoRule {
			t.Errorf("%d: rank %d, behind by %v", i, c.Rank, c.Behind)
		}
	}
	// Six suit; of those that keep the present set-up A1 is the most even.
	suit, order := st.Suits()
	if st.Candidates[0].Label != "A1" || st.Candidates[1].Label != "A4" || st.Candidates[1].Behind != rules.LeastUneven || suit != 6 || order != 6 || st.Stopped() || st.First != rules.Nothing {
		t.Errorf("best %s, %d suit, %d to order, first %v", st.Candidates[0].Label, suit, order, st.First)
	}
	inOrder(t, st)
}

// What is tried first is what setup finds: the two samples differ in it.
func TestFirst(t *testing.T) {
	for name, want := range map[string]rules.Step{"eight-day": rules.Nothing, "too-weak": rules.AnotherSetUp, "too-strong": rules.AnotherSpring} {
		s, _ := trial.Compile(t, name)
		st := study(t, s, 0, drawer(t), asIs)
		if st.First != want || st.SetUp == nil || (st.SetUp.Advised != nil) != (want == rules.AnotherSetUp) {
			t.Errorf("%s: first %v, want %v", name, st.First, want)
		}
		made, err := ToHave(context.Background(), s, 0, asIs)
		if err != nil || made.First != want || fmt.Sprint(made.Ideals) != fmt.Sprint(st.Ideals) || len(made.Candidates) > 0 {
			t.Errorf("%s: %v; springs to have made without a list differ", name, err)
		}
	}
}

// The same on any number of cores.
func TestCores(t *testing.T) {
	on := func(n int) *Study {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(n))
		return sampleStudy(t)
	}
	one := on(1)
	for _, n := range []int{2, 5} {
		if many := on(n); spell(many) != spell(one) {
			t.Errorf("%d cores tell something else than one", n)
		}
	}
}

// spell writes out all that a study holds, but for the train it was made from.
func spell(st *Study) string {
	return fmt.Sprintf("%+v %+v %+v %+v", st.Target, st.Present, st.Candidates, st.Ideals)
}

// Stopped, it tells what it has; before anything is done, that it was stopped.
func TestStopped(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	ctx, stop := context.WithCancel(context.Background())
	o := asIs
	calls := 0
	o.Progress = func(done int) {
		if calls++; done != calls {
			t.Errorf("%d done at call %d", done, calls)
		}
		if done == 3 {
			stop()
		}
	}
	st, err := Run(ctx, s, 0, drawer(t), o)
	if err != nil || !st.Stopped() || len(st.Candidates) < 3 || len(st.Candidates) > 3+runtime.GOMAXPROCS(0) {
		t.Fatalf("%v, %d candidates", err, len(st.Candidates))
	}
	if _, err := Run(ctx, s, 0, drawer(t), asIs); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}

func TestRefusedOptions(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	for _, c := range []struct {
		list           *stock.Stock
		reserve, shake float64
		want           error
	}{
		{listOf(), nan, nan, ErrEmpty},
		{drawer(t), 0, nan, ErrReserve}, {drawer(t), -1, nan, ErrReserve}, {drawer(t), math.Inf(1), nan, ErrReserve}, {drawer(t), 101, nan, ErrReserve},
		{drawer(t), nan, -0.1, ErrShake}, {drawer(t), nan, 21, ErrShake}, {drawer(t), nan, math.Inf(1), ErrShake},
	} {
		if _, err := Run(context.Background(), s, 0, c.list, Options{Reserve: c.reserve, EndShake: c.shake}); !errors.Is(err, c.want) {
			t.Errorf("%v %v: %v, want %v", c.reserve, c.shake, err, c.want)
		}
	}
	// Without escapement and demand nothing is known to choose by.
	text, _ := scenarios.Text("eight-day")
	from, to := strings.Index(text, "[train.escapement]"), strings.Index(text, "# How well each value")
	bare, err := scenario.Read(strings.NewReader(text[:from]+text[to:]), "bare")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Run(context.Background(), bare, 0, drawer(t), asIs); !errors.Is(err, ErrNoNeed) || !strings.Contains(err.Error(), "demand.least_torque_nm") {
		t.Errorf("%v", err)
	}
}
