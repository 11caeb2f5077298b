package words_test

import (
	"strings"
	"testing"

	"evenpull/escapement"
	"evenpull/sim/internal/trial/bench"
	"evenpull/sim/show/words"
	"evenpull/sim/study/beat"
)

func TestBeatHead(t *testing.T) {
	for _, c := range []struct {
		sets []string
		o    beat.Options
		says string
	}{
		{nil, beat.Options{FuseeTurn: 7.5}, "going train at fusee turn 7.5: settles at a semi-arc of"},
		{nil, beat.Options{Periods: 3}, "has not settled after 3 periods"},
		{nil, beat.Options{Periods: 1}, "after 1 period:"},
		{nil, beat.Options{Start: escapement.SemiDegrees(1)}, "stops after 0 periods: the swing no longer escapes"},
		{[]string{"going.pendulum.mass_g=420"}, beat.Options{}, "less than the margin asked for"},
		{[]string{"going.escapement.trip_deg=3.2"}, beat.Options{}, "the semi-arc passes 3.20°"},
	} {
		if got := words.BeatHead(bench.Beat(t, c.o, c.sets...)); !strings.Contains(got, c.says) {
			t.Errorf("%q, want %q", got, c.says)
		}
	}
}
