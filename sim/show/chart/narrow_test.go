package chart

import (
	"context"
	"io"
	"math"
	"slices"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim/internal/trial"
	"evenpull/sim/study/sweep"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
)

// In narrow pictures of every sample no text lies on another or passes the edge, an axis has
// five values at most upwards, and the plot keeps its height whatever the legend takes.
func TestNarrow(t *testing.T) {
	for _, name := range scenarios.Names() {
		s, trains := trial.Compile(t, name)
		for i, r := range trial.Run(t, trains) {
			over := sweep.Axis{Key: r.Name + ".mainspring.thickness_mm", From: math.NaN(), To: math.NaN(), Steps: 41}
			st, err := sweep.Run(context.Background(), s, i, sweep.Options{Over: over})
			if err != nil {
				t.Fatal(err)
			}
			for what, list := range map[string][]*panel{"torque": {torques([]Compared{{Result: &r}})}, "run": panels(&r)[1:], "thickness": thickness(st)} {
				narrow(list)
				for k, p := range list {
					checkWordsWithin(t, levelTextsWithin(t, p, narrowWidth), narrowWidth)
					want := narrowMore
					if k == 0 {
						want = narrowFirst
					}
					if got := p.height - p.underneath(narrowWidth-2*margin); math.Abs((got-want).Points()) > 1e-6 || p.title != "" {
						t.Errorf("%s %s, panel %d: %.0f points high without its legend, want %.0f; title %q", name, what, k, got, want, p.title)
					}
					_, y, _ := p.extents()
					if n := len(newPlot(p).Y.Tick.Marker.Ticks(y.Lo, y.Hi)); n > 6 {
						t.Errorf("%s %s, panel %d: %d values upwards", name, what, k, n)
					}
				}
				if what == "thickness" && (len(list) != 2 || !strings.Contains(list[1].y, "%")) {
					t.Errorf("%s: %d panels of thickness", name, len(list))
				}
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
	if len(p.bands) == 0 || len(p.layers) != 5 || p.layers[0].label != "1: own" || p.layers[2].label != "2: weak" || p.layers[1].words.Labels[0] != "1" || p.layers[3].words.Labels[0] != "2" {
		t.Errorf("%d bands, %+v", len(p.bands), p.layers)
	}
	if a, b := p.layers[0].line, p.layers[2].line; slices.Equal(a.Dashes, b.Dashes) {
		t.Error("two runs are dashed alike")
	}
	p = torques([]Compared{{"1: own", own}, {"2: heavy", heavy}})
	if last := p.layers[len(p.layers)-1]; len(p.bands) != 0 || len(p.layers) != 6 || last.label != "least torque needed by 2: heavy" || last.points[0].Y != 0.37 {
		t.Errorf("%d bands, %+v", len(p.bands), last)
	}
	if got := shortened("1: " + strings.Repeat("long ", 12)); len([]rune(got)) != 46 || !strings.HasSuffix(got, "…") || shortened("short") != "short" {
		t.Errorf("%q", got)
	}
	if Follows(&results(t, "eight-day")[0]) != true || Torques(io.Discard, "bmp", []Compared{{Result: own}}) == nil {
		t.Error("the pendulum is not followed, or a format that is none is taken")
	}
}

// A name too long for an upright axis loses its place, then all but its unit.
func TestUpright(t *testing.T) {
	p := panel{y: torqueLabel}
	for room, want := range map[vg.Length]string{200: torqueLabel, 70: "torque, N·m", 20: "N·m"} {
		if got := p.upright(room); got != want {
			t.Errorf("%.0f: %q, want %q", room, got, want)
		}
	}
	if got := (&panel{y: "s from blow to blow"}).upright(0); got != "s from blow to blow" {
		t.Errorf("%q", got)
	}
	p = panel{}
	for i := range 14 {
		p.ticks = append(p.ticks, plot.Tick{Label: []string{"x", ""}[i%2]})
	}
	p.thinOut()
	named := 0
	for _, tick := range p.ticks {
		if tick.Label != "" {
			named++
		}
	}
	if named != 4 {
		t.Errorf("%d of 7 names are left", named)
	}
}
