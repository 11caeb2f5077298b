package chart

import (
	"bytes"
	"context"
	"io"
	"math"
	"slices"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim/internal/trial"
	"evenpull/sim/show/canvas/seen"
	"evenpull/sim/study/sweep"
)

// In narrow pictures of every sample all can be read, and no sentence stands above.
func TestNarrow(t *testing.T) {
	for _, name := range scenarios.Names() {
		s, trains := trial.Compile(t, name)
		for i, r := range trial.Run(t, trains) {
			over := sweep.Axis{Key: r.Name + ".mainspring.thickness_mm", From: math.NaN(), To: math.NaN(), Steps: 41}
			st, err := sweep.Run(context.Background(), s, i, sweep.Options{Over: over})
			if err != nil {
				t.Fatal(err)
			}
			for what, write := range map[string]func(io.Writer) error{
				"torque":    func(w io.Writer) error { return Torques(w, "svg", []Compared{{Result: &r}}) },
				"run":       func(w io.Writer) error { return Follow(w, "svg", &r) },
				"thickness": func(w io.Writer) error { return Thickness(w, "svg", st) },
			} {
				var b bytes.Buffer
				if err := write(&b); err != nil {
					t.Fatal(err)
				}
				sheet, err := seen.Read(b.Bytes())
				if err != nil || math.Abs(sheet.Wide-narrowWidth.Points()) > 0.05 || strings.Contains(b.String(), "SUITS") || strings.Contains(b.String(), "strike of twelve from") {
					t.Errorf("%s %s: %v, %v points wide, or with a sentence", name, what, err, sheet.Wide)
				}
				for _, fault := range sheet.Illegible() {
					t.Errorf("%s %s: %s", name, what, fault)
				}
			}
			if list := thickness(st); len(list) != 2 || !strings.Contains(list[1].y, "%") {
				t.Errorf("%s: %d panels of thickness", name, len(list))
			}
		}
	}
}

// Runs are drawn over each other with their numbers; bands and needs stand there once where
// they are the same, and needs that differ with the name of theirs.
func TestTorques(t *testing.T) {
	own, weak := &results(t, "eight-day")[0], &results(t, "too-weak")[0]
	heavy := &results(t, "eight-day", "least_torque_nm = 0.33", "least_torque_nm = 0.37")[0]
	p := torques([]Compared{{"1: own", own}, {"2: weak", weak}})
	if len(p.bands) == 0 || len(p.layers) != 7 || p.layers[0].label != "1: own" || p.layers[3].label != "2: weak" || p.layers[2].notes[0].words != "1" || p.layers[5].notes[0].words != "2" || len(p.layers[4].points) != 1 {
		t.Errorf("%d bands, %+v", len(p.bands), p.layers)
	}
	if a, b := p.layers[0].line, p.layers[3].line; slices.Equal(a.Dashes, b.Dashes) {
		t.Error("two runs are dashed alike")
	}
	p = torques([]Compared{{"1: own", own}, {"2: heavy", heavy}})
	if last := p.layers[len(p.layers)-1]; len(p.bands) != 0 || len(p.layers) != 8 || last.label != "least torque needed by 2: heavy" || last.points[0].Y != 0.37 {
		t.Errorf("%d bands, %+v", len(p.bands), last)
	}
	if got := shortened("1: " + strings.Repeat("long ", 12)); len([]rune(got)) != 46 || !strings.HasSuffix(got, "…") || shortened("short") != "short" {
		t.Errorf("%q", got)
	}
	if Follows(&results(t, "eight-day")[0]) != true || Torques(io.Discard, "bmp", []Compared{{Result: own}}) == nil {
		t.Error("the pendulum is not followed, or a format that is none is taken")
	}
}
