package chart

import (
	"context"
	"io"
	"math"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/study/cut"
)

func cutPicture(t testing.TB, name string, number int, o cut.Options) func(io.Writer, string) error {
	t.Helper()
	s, _ := trial.Compile(t, name)
	if o.Large == 0 {
		o.Large = math.NaN()
	}
	o.Small = math.NaN()
	st, err := cut.Run(context.Background(), s, number, o)
	if err != nil {
		t.Fatal(err)
	}
	return usual(Cut, st)
}

func TestGoldenCut(t *testing.T) {
	trial.Golden(t, "cut", cutPicture(t, "strike-quick", 0, cut.Options{}))
}

func TestCutPictures(t *testing.T) {
	for _, c := range []struct {
		name      string
		number    int
		o         cut.Options
		has, lack []string
	}{
		{"too-strong", 0, cut.Options{}, []string{"does this cone suit this spring? NO", "what would come off<", "were it cut<", "turns lost", "as measured", "diameter over the groove bottom, mm", "least torque needed", "suits"}, []string{"metal is missing"}},
		{"eight-day", 0, cut.Options{FromBlank: true, Large: 18e-3}, []string{"what comes off; below 0: metal is missing"}, nil},
		{"too-weak", 0, cut.Options{}, []string{"YES, with another set-up and nothing cut", "with 1.25 turns (15 clicks) of set-up<", "were it cut<"}, []string{">cut<"}},
		{"three-trains", 2, cut.Options{}, []string{"quarters train", "as it is now"}, []string{"what comes off", ">cut<", "as measured"}},
	} {
		draw := cutPicture(t, c.name, c.number, c.o)
		svg := string(trial.Picture(t, "svg", draw))
		for _, want := range c.has {
			if !strings.Contains(svg, want) {
				t.Errorf("%s: no %q", c.name, want)
			}
		}
		for _, not := range append(c.lack, "NaN") {
			if strings.Contains(svg, not) {
				t.Errorf("%s: %q", c.name, not)
			}
		}
		for _, format := range []string{"png", "pdf"} {
			if len(trial.Picture(t, format, draw)) < 1000 {
				t.Errorf("%s of %s is empty", format, c.name)
			}
		}
	}
}
