package words_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"evenpull/escapement"
	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/internal/trial/bench"
	"evenpull/sim/rules"
	"evenpull/sim/show/words"
	"evenpull/sim/study/beat"
	"evenpull/sim/study/cut"
)

// Wherever springs are handled the caution is that for the strongest of them.
func TestCautionsNameTheStrongest(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	clock, err := sim.RunClock(s, sim.Options{})
	if err != nil {
		t.Fatal(err)
	}
	most := 0.0
	for i := range clock.Trains {
		most = max(most, clock.Trains[i].Spring.Stored)
	}
	record, pairs := bench.Record(t), bench.Assign(t, bench.Book(t), bench.Scenario(t))
	for _, c := range []struct {
		what   string
		list   []string
		stored float64
	}{{"run", words.Cautions(clock), most}, {"record", words.RecordCautions(record), record.Stored()}, {"assign", words.AssignCautions(pairs), pairs.Stored()}} {
		if len(c.list) != 1 || !strings.Contains(c.list[0], "let-down key") || !strings.Contains(c.list[0], "holds "+words.Figure(c.stored)+" J") {
			t.Errorf("%s: %q, want %v J", c.what, c.list, c.stored)
		}
	}
	if list := words.Cautions(&sim.Clock{}); list == nil || len(list) > 0 {
		t.Errorf("no train: %q", list)
	}
	if got := words.Caution(math.NaN()); !strings.HasPrefix(got, "A wound mainspring") || !strings.Contains(got, "let-down key") {
		t.Error(got)
	}
	st := &cut.Study{}
	st.Now.Spring.Stored, st.After.Spring.Stored = 12, 13
	list := words.CutCautions(st)
	wantAll(t, "cut", strings.Join(list, "\n"), "holds 13.0 J", "lathe")
}

// What drove a swing is told in mN·m and degrees.
func TestBeatSays(t *testing.T) {
	r := bench.Beat(t, beat.Options{FuseeTurn: 4, Start: escapement.SemiDegrees(3.5)})
	r.Torque, r.Gap = 0.0123, 2.3e-7
	says := words.BeatSays(r)
	wantAll(t, "torque", says[0], "wheel 12.3 mN·m", "at 3.50°")
	wantAll(t, "balance", says[1], "agree to a millionth")
	r.Gap = 2.3e-5
	wantAll(t, "gap", words.BeatSays(r)[1], "2e-05 is not accounted for")
	r.Settled.Status, r.Settled.Periods, r.FuseeTurn = escapement.Runs, 12, 4
	head := words.BeatHead(r)
	wantAll(t, "head", head, "turn 4: settles", fmt.Sprintf("%.3f°", r.Settled.Amplitude.Degrees()), "after 12 periods")
}

// A cone to cut and a spring off its thickness are told with their figures.
func TestCutFigures(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st, err := cut.Run(t.Context(), s, 0, cut.Options{Anyway: true, Large: math.NaN(), Small: math.NaN()})
	if err != nil {
		t.Fatal(err)
	}
	off := func(o *cut.Off, unevenness, mean, lost float64, code rules.Code) {
		o.Torque.Unevenness, o.Torque.Mean, o.TurnsLost, o.Verdict.Code = unevenness, mean, lost, code
	}
	off(&st.Sensitivity.Thinner, 0.02, 0.4, 0, rules.Thin)
	off(&st.Sensitivity.Thicker, 0.03, 0.5, 1.5, rules.Strong)
	st.After.Line.OnFusee, st.After.Line.Room, st.After.Line.Spread, st.After.BarrelRoom, st.Span = 0.9, 10e-3, 20e-3, 39e-3, 50e-3
	st.After.Deepest, st.After.DeepestAt, st.After.Touch, st.Between = 0.5e-3, 15.75, 8, false
	st.Whole, st.Step = 6e-5, 1
	all := strings.Join(words.CutSays(st), "\n")
	wantAll(t, "cut", all, "thinner: unevenness 2.00 %, mean 0.400 N·m, it is thin; 0.01 mm thicker: unevenness 3.00 %, mean 0.500 N·m, it is strong, and 1.50 fusee turns are lost",
		"900 mm on the fusee and 50 mm from there to the barrel when wound", "takes 20.0 of the 39.0 mm", "up to 0.500 mm of diameter come off, at fusee turn 15.75, and nothing at turn 8",
		"leaving 0.50 mm of land at a pitch of 2.20 mm", "would be < 0.01 %; --step 0.25")
	st.Sensitivity.Thicker.Fault = fmt.Errorf("too long")
	st.Span, st.Whole, st.After.Deepest = math.NaN(), 5e-5, cut.LeastCount
	all = strings.Join(words.CutSays(st), "\n")
	wantAll(t, "cut", all, "0.01 mm thicker: cannot be built", "900 mm on the fusee, besides")
	for _, not := range []string{"whole turns", "come off", "NaN"} {
		if strings.Contains(all, not) {
			t.Errorf("%q in %s", not, all)
		}
	}
	st.After.Missing, st.After.MissingAt, st.After.Verdict.Code = cut.LeastCount, 3, rules.Unjudged
	if warns := words.CutWarns(st); len(warns) > 0 {
		t.Errorf("%q", warns)
	}
	st.After.Missing, st.Groove.Land = 2e-3, cut.LeastLand
	wantAll(t, "missing", strings.Join(words.CutWarns(st), "\n"), "up to 2.00 mm thicker than the present one, at fusee turn 3;")
	if n := len(words.CutWarns(st)); n != 1 {
		t.Errorf("%d warnings", n)
	}
	st.Groove.Land = -0.1e-3
	wantAll(t, "land", strings.Join(words.CutWarns(st), "\n"), "the groove is 0 mm; less than 0.200")
}

// What a choice takes unless told is what the rules have.
func TestChooseAssumed(t *testing.T) {
	wantAll(t, "assumed", words.ChooseAssumed(), fmt.Sprintf("a mean reserve of %v aimed at", rules.TargetReserve), fmt.Sprintf("%v mm of end shake", rules.EndShake))
	for v, want := range map[float64]string{math.NaN(): "–", math.Inf(1): "–", 0.004: "0.00", -0.004: "0.00", -0.0051: "-0.01", 1.234: "1.23"} {
		if got := words.Two(v); got != want {
			t.Errorf("%v: %s, want %s", v, got, want)
		}
	}
}
