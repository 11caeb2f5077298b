package words

import (
	"context"
	"math"
	"os"
	"strings"
	"testing"

	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/study/cut"
)

// wantedOf searches a cone for the clock whose fusee is lost, with something changed.
func wantedOf(t *testing.T, change func(t *scenario.Train)) *cut.Study {
	t.Helper()
	text, err := os.ReadFile("../../../cmd/evenpull/testdata/lost-fusee.toml")
	if err != nil {
		t.Fatal(err)
	}
	s, err := scenario.Read(strings.NewReader(string(text)), "lost.toml")
	if err != nil {
		t.Fatal(err)
	}
	change(&s.Trains[0])
	st, err := cut.Run(context.Background(), s, 0, cut.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return st
}

func TestWantedSentences(t *testing.T) {
	for name, c := range map[string]struct {
		change       func(t *scenario.Train)
		answer, says string
		warns        string
	}{
		"found": {func(*scenario.Train) {}, "YES, a cone of 15 turns: with 3.08 turns (37 clicks) of set-up the train suits, unevenness 0.415 %",
			`profile = "even", turns = 15, pitch_mm = 2.10, large_diameter_mm = `, ""},
		"no need known": {func(t *scenario.Train) {
			t.Demand.LeastTorqueNM, t.Fusee.ReserveWanted, t.Escapement, t.Pendulum = math.NaN(), math.NaN(), nil, nil
			t.Fusee.RuntimeAtLeastH, t.Fusee.Turns = math.NaN(), 15
		}, "of set-up it suits a need of up to ", "no need is known: weigh the train (evenpull samples protocol)", ""},
		"too low": {func(t *scenario.Train) { t.Fusee.HeightAtMostMM = 30 }, "NO cone keeps within the limits: nearest is the height of the blank at most 30.0 mm; 34.2 mm would do, with all else as it is",
			"or else: the running time at least 180.0 h; 153.0 h would do", ""},
		"two too many": {func(t *scenario.Train) { t.Fusee.HeightAtMostMM, t.Fusee.ReserveWanted = 30, 4 }, "would do with ", "limits: ", ""},
		"too slim": {func(t *scenario.Train) { t.Fusee.ReserveWanted, t.Demand.LeastTorqueNM = math.NaN(), 0.6 }, "nearest is the running time at least 180.0 h; 135.0 h would do, with all else as it is",
			"or else: the mean reserve at least 1.15; 0.96 would do, but the train then stops", ""},
		"too strong": {func(t *scenario.Train) { t.Demand.LeastTorqueNM = 0.1 }, "NONE THAT SUITS; the best within the limits is one of ", "a need of 0.100 N·m at the fusee, measured", "times the"},
		"askew":      {func(t *scenario.Train) { t.Line.FleetAngleMaxDeg = 0.3 }, "NO cone keeps within the limits without a fault", "the best within them has 15 turns and ", "it may climb out"},
	} {
		st := wantedOf(t, c.change)
		answer, says, warns := CutAnswer(st, rules.Code.String), strings.Join(WantedSays(st), "\n"), strings.Join(CutWarns(st), "\n")
		if !strings.Contains(answer, c.answer) || !strings.Contains(says, c.says) || !strings.Contains(warns, c.warns) || c.warns == "" && warns != "" {
			t.Errorf("%s: %s\n%s\n%s", name, answer, says, warns)
		}
		if head := CutHead(st, rules.Code.String); head != "going train: is there a cone for this spring? "+answer {
			t.Error(head)
		}
	}
}

// Every limit has a key of the format, and is told with its figure.
func TestLimits(t *testing.T) {
	for l := cut.RuntimeAtLeast; l <= cut.SpareAtLeast; l++ {
		key := LimitKey(l)
		if _, known := scenario.Input(key); !known && !strings.HasPrefix(key, "advice.") {
			t.Errorf("%s is no key", key)
		}
		if got := Bound(&cut.Bound{Limit: l, Value: 0.5}); !strings.Contains(got, Either(l.AtMost(), " at most ", " at least ")) {
			t.Error(got)
		}
	}
}
