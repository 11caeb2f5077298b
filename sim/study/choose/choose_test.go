package choose

import (
	"context"
	"errors"
	"math"
	"reflect"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
	"evenpull/sim/show/words"
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
	sets := map[string]float64{"mainspring.width_mm": c.WidthMM, "mainspring.thickness_mm": c.ThicknessMM, "mainspring.length_mm": c.CutTo, "barrel.set_up_turns": c.SetUp}
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
		if c.Refused != "" {
			continue
		}
		fitted++
		r := byHand(t, s, 0, setsOf(c))
		if c.Mean != r.Torque.Mean || c.Unevenness != r.Torque.Unevenness || c.Verdict != r.Verdict.Code || !slices.Equal(c.Reasons, words.Reasons(&r.Digest)) || c.Stored != r.Spring.Stored {
			t.Errorf("%s: %+v, by a run %+v", c.Label, c, r.Torque)
		}
		if r.TurnsLost > 0 || c.Left < spare-1e-9 || c.Left != r.Spring.Available-r.Spring.Used-c.SetUp {
			t.Errorf("%s: %v turns left, %v lost", c.Label, c.Left, r.TurnsLost)
		}
		// Printed is what was computed: whole millimetres, twentieths of a turn.
		if c.CutTo != math.Round(c.CutTo) || c.SetUp != math.Round(c.SetUp*20)/20 || c.CutTo > c.LengthMM || !c.MayBeCut && c.CutTo != c.LengthMM {
			t.Errorf("%s is cut to %v mm, set up by %v", c.Label, c.CutTo, c.SetUp)
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
			if sum := micro(c.Spacers + c.WidthMM + shake); sum != 37.2 {
				t.Errorf("%s: %v + %v + %v = %v", c.Label, c.Spacers, c.WidthMM, shake, sum)
			}
			if wide := c.WidthMM+shake > 37.2+1e-9; wide != strings.HasPrefix(c.Refused, "too wide by") || wide != (c.Spacers < 0) {
				t.Errorf("%s with an end shake of %v: %q", c.Label, shake, c.Refused)
			}
		}
		for _, id := range st.Ideals {
			if micro(id.Spacers+id.Width+shake) != 37.2 {
				t.Errorf("%v + %v + %v", id.Spacers, id.Width, shake)
			}
		}
	}
}

// The sample shows what its remarks say.
func TestSampleDrawer(t *testing.T) {
	st := sampleStudy(t)
	want := map[string]string{"B1": "too wide by 1.80 mm", "C1": "too long by", "C2": "too few turns", "D1": "too few turns"}
	for i := range st.Candidates {
		c := &st.Candidates[i]
		if says, refused := want[c.Label]; refused != (c.Refused != "") || !strings.HasPrefix(c.Refused, says) {
			t.Errorf("%s: %q", c.Label, c.Refused)
		}
		if c.Rank != i+1 || (c.Loses == "") != (i == 0) {
			t.Errorf("%d: rank %d, %q", i, c.Rank, c.Loses)
		}
	}
	suit, sound := st.Suits()
	if st.Candidates[0].Label != "A1" || suit < 4 || sound < 4 || st.Stopped() || len(st.Cautions) != 3 || !strings.Contains(st.Cautions[0], "let-down key") {
		t.Errorf("best %s, %d suit, %v", st.Candidates[0].Label, suit, st.Cautions)
	}
	if c := st.Candidates[1]; c.Label != "A2" || !strings.Contains(c.Loses, "the same as A1") {
		t.Errorf("%s: %s", c.Label, c.Loses)
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
		if many := on(n); !reflect.DeepEqual(spell(many), spell(one)) {
			t.Errorf("%d cores tell something else than one", n)
		}
	}
}

func spell(st *Study) string {
	var b strings.Builder
	if err := JSON(&b, st); err != nil {
		return err.Error()
	}
	return b.String()
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
	var b strings.Builder
	if err := (Text{}).Write(&b, st); err != nil || !strings.Contains(b.String(), "stopped early") || !strings.Contains(b.String(), "of the 14 springs") {
		t.Errorf("%v: %s", err, b.String())
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
