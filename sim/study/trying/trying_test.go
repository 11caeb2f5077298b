package trying

import (
	"context"
	"fmt"
	"math"
	"strconv"
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/study/sure"
	"evenpull/sim/vary"
)

func benchOf(t testing.TB, sample string) *Bench {
	t.Helper()
	s, _ := trial.Compile(t, sample)
	b, err := New(s, 0)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func try(t testing.TB, b *Bench, q Ask) *Answer {
	t.Helper()
	if q.Fill == 0 {
		q.Fill = math.NaN()
	}
	a, err := b.Try(context.Background(), &q)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// A trial is what a run with the same values set comes to.
func TestTrialIsRun(t *testing.T) {
	for _, sample := range []string{"eight-day", "strike-pleasant"} {
		b := benchOf(t, sample)
		for _, thick := range []float64{0.33, 0.36, 0.41} {
			a := try(t, b, Ask{Set: map[string]float64{b.Key(Thickness): thick, b.Key(SetUp): 0.5}, Draws: sure.Draws})
			s := b.Found.Clone()
			if err := vary.Apply(s, []string{b.Key(Thickness) + "=" + num(thick), b.Key(SetUp) + "=0.5"}); err != nil {
				t.Fatal(err)
			}
			want, err := sim.RunTrain(s, b.Number, sim.Options{Step: sim.QuarterTurn})
			if err != nil {
				t.Fatal(err)
			}
			if want.Verdict.Sureness, err = sure.Of(context.Background(), s, b.Number, sure.Options{Seed: 1}); err != nil {
				t.Fatal(err)
			}
			got := a.Result()
			if got.Torque != want.Torque || fmt.Sprint(got.Verdict) != fmt.Sprint(want.Verdict) || len(got.Rows) != len(want.Rows) {
				t.Errorf("%s at %v: %+v, a run has %+v", sample, thick, got.Torque, want.Torque)
			}
			for i, row := range got.Rows {
				if !(a.Low[i] <= row.FuseeTorque && row.FuseeTorque <= a.Up[i]) {
					t.Errorf("%s at %v: turn %v: %v not within %v to %v", sample, thick, row.FuseeTurn, row.FuseeTorque, a.Low[i], a.Up[i])
				}
			}
		}
	}
}

func num(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

func BenchmarkTry(b *testing.B) {
	for _, sample := range []string{"eight-day", "strike-pleasant"} {
		bench := benchOf(b, sample)
		keys := []string{bench.Key(Thickness), bench.Key(Width), bench.Key(Length), bench.Key(SetUp)}
		for name, q := range map[string]Ask{
			"bare":   {},
			"draws":  {Draws: 200},
			"tracks": {Tracks: keys},
			"drag":   {Draws: 200, Rules: keys, Tracks: keys},
			"rest":   {Draws: sure.Draws, Rules: keys, Tracks: keys},
			"even":   {Draws: sure.Draws, Rules: keys, Tracks: keys, Even: true},
		} {
			q.Set, q.Fill = map[string]float64{keys[0]: 0.37}, math.NaN()
			b.Run(sample+"/"+name, func(b *testing.B) {
				for b.Loop() {
					if _, err := bench.Try(context.Background(), &q); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
