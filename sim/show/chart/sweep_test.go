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
	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/study/sweep"

	"gonum.org/v1/plot/plotter"
)

var unset = math.NaN()

func sweepOf(t testing.TB, s *scenario.Scenario, o sweep.Options) *sweep.Study {
	t.Helper()
	st, err := sweep.Run(context.Background(), s, 0, o)
	if err != nil {
		t.Fatal(err)
	}
	return st
}

func sweepDrawn(st *sweep.Study) func(io.Writer, string) error {
	return usual(Sweep, st)
}

func resultNamed(t testing.TB, name string) outcome.Figure {
	t.Helper()
	f, err := outcome.Named(name)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func TestGoldenSweeps(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	thickness := sweep.Axis{Key: "going.mainspring.thickness_mm", From: unset, To: unset, Steps: 41}
	trial.Golden(t, "sweep-thickness", sweepDrawn(sweepOf(t, s, sweep.Options{Over: thickness})))
	width := &sweep.Axis{Key: "going.mainspring.width_mm", From: 28, To: 40, Steps: 41}
	trial.Golden(t, "sweep-map", sweepDrawn(sweepOf(t, s, sweep.Options{Over: thickness, Against: width, Of: resultNamed(t, outcome.MeanReserve)})))
}

// Stripes join without gaps from end to end, each with the verdict of its points.
func TestSweepStripes(t *testing.T) {
	s, _ := trial.Compile(t, "strike-quick")
	st := sweepOf(t, s, sweep.Options{Over: sweep.Axis{Key: "striking.mainspring.thickness_mm", From: 0.2, To: 1.5, Steps: 30}})
	at := st.Over.From
	for _, stripe := range sweepStripes(st) {
		if stripe.Lo != at || stripe.Hi <= stripe.Lo {
			t.Errorf("a stripe from %v to %v after %v", stripe.Lo, stripe.Hi, at)
		}
		at = stripe.Hi
		for _, p := range st.Points {
			name := "cannot be built"
			if p.Built() {
				name = p.Verdict.Code.String()
			}
			if p.Value > stripe.Lo && p.Value < stripe.Hi && (stripe.name != name || p.Built() && stripe.tint != tints[p.Verdict.Code]) {
				t.Errorf("%s at %v in a stripe %q", name, p.Value, stripe.name)
			}
		}
	}
	if at != st.Over.To {
		t.Errorf("the stripes end at %v", at)
	}
	panels := sweepPanels(st)
	var blows []string
	for _, l := range panels[len(panels)-1].layers {
		blows = append(blows, l.label)
	}
	if !slices.Equal(blows, []string{"mean interval from blow to blow", "slowest wanted", "fastest wanted"}) {
		t.Errorf("%q", blows)
	}
	wantInPicture(t, sweepDrawn(st), "OVERDRIVEN at 0.46 mm; it suits from", "thickness of the striking mainspring, mm", "s from blow to blow", "slowest wanted", "cannot be built", "least torque needed", "as it is now")
}

func wantInPicture(t *testing.T, draw func(io.Writer, string) error, says ...string) {
	t.Helper()
	svg := string(trial.Picture(t, "svg", draw))
	for _, want := range says {
		if !strings.Contains(svg, want) {
			t.Errorf("no %q in the picture", want)
		}
	}
	if strings.Contains(svg, "NaN") {
		t.Error("NaN in the picture")
	}
}

// What the sweep is of comes first, and no panel comes twice.
func TestSweepOfAnotherResult(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	for name, panels := range map[string][]string{
		outcome.MeanTorque:  {"torque at the fusee, N·m", "reserve", "unevenness, %", "semi-arc, degrees"},
		outcome.Unevenness:  {"unevenness of the torque, %", "torque at the fusee, N·m", "reserve", "semi-arc, degrees"},
		outcome.MeanReserve: {"mean reserve", "torque at the fusee, N·m", "reserve", "unevenness, %", "semi-arc, degrees"},
	} {
		st := sweepOf(t, s, sweep.Options{Over: sweep.Axis{Key: "going.mainspring.thickness_mm", From: unset, To: unset, Steps: 5}, Of: resultNamed(t, name)})
		list := sweepPanels(st)
		if len(list) != len(panels) {
			t.Fatalf("%s: %d panels", name, len(list))
		}
		for i, p := range list {
			marked := p.layers[len(p.layers)-1].glyph == nowMark
			if p.y != panels[i] || slices.ContainsFunc(p.stripes, func(s shade) bool { return s.name != "" }) != (i == 0) || (p.height == lowPlot) != (i > 0) || (p.finding != "") != (i == 0) || marked != (i == 0) {
				t.Errorf("%s: panel %d is %q: %+v", name, i, p.y, p)
			}
			for _, l := range p.layers {
				for k, pt := range l.points {
					if l.fill == nil && l.glyph.Shape == nil && !l.limit && pt.X != st.Points[k].Value {
						t.Errorf("%s at %v", l.label, pt.X)
					}
				}
			}
		}
		first := list[0].layers
		is := slices.IndexFunc(first, func(l layer) bool { return l.label == st.Of.Words })
		own := first[len(first)-1].points[0]
		if y := first[is].points[2].Y; y != st.Of.Shown(st.Of.Of(st.Own.Digest)) || own.Y != y || own.X != 0.38 {
			t.Errorf("%s: %v at the scenario's own value, marked at %v", name, y, own)
		}
	}
}

// Every line is what it is called, by the table of results.
func TestSweepLines(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st := sweepOf(t, s, sweep.Options{Over: sweep.Axis{Key: "going.mainspring.thickness_mm", From: 0.3, To: 0.4, Steps: 3}})
	lines := map[string]plotter.XYs{}
	for _, p := range sweepPanels(st) {
		for _, l := range p.layers {
			lines[l.label] = l.points
		}
	}
	outline := runs(lines["from the least to the greatest"])[0]
	lines["lower"], lines["upper"] = outline[:3], outline[3:]
	slices.Reverse(lines["upper"])
	for label, name := range map[string]string{
		"mean torque at the fusee": outcome.MeanTorque, "lower": outcome.LeastTorque, "upper": outcome.MostTorque, "least torque needed": "least_torque_nm.used",
		"mean reserve": outcome.MeanReserve, "least reserve": outcome.LeastReserve, "unevenness of the torque": outcome.Unevenness, "mean semi-arc of the pendulum": "amplitude_deg.mean",
	} {
		f, l := resultNamed(t, name), lines[label]
		if len(l) != 3 {
			t.Fatalf("no line %s", label)
		}
		for i, p := range l {
			if want := f.Shown(f.Of(st.Points[i].Run())); math.Abs(p.Y-want) > 1e-12*math.Abs(want) && !(math.IsNaN(p.Y) && math.IsNaN(want)) {
				t.Errorf("%s: %v, want %v", label, p.Y, want)
			}
		}
	}
}

// Borders of a map pass 0 between points of different verdicts, and only there.
func TestMapBorders(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st := sweepOf(t, s, sweep.Options{
		Over:    sweep.Axis{Key: "going.mainspring.thickness_mm", From: 0.25, To: 0.55, Steps: 30},
		Against: &sweep.Axis{Key: "going.barrel.set_up_turns", From: 0, To: 3, Steps: 12},
	})
	p := sweepMap(st)
	if p.scaleName != "mean torque at the fusee, N·m" || p.x != "thickness of the going mainspring, mm" || p.y != "set-up of the going mainspring, turns" ||
		p.xs != ext(0.25, 0.55) || p.ys != ext(0, 3) || p.layers[len(p.layers)-1].glyph != nowMark {
		t.Fatalf("%+v", p)
	}
	lines := p.layers[len(p.layers)-5:]
	order := []rules.Code{rules.Stops, rules.Thin, rules.Suits, rules.Strong, rules.Overdriven}
	met := map[rules.Code]bool{}
	beyond := func(q *sweep.Point, k int) bool { return slices.Index(order, q.Run().Verdict.Code) > k }
	for k, name := range []string{"stops | thin", "thin | suits", "suits | strong", "strong | overdriven"} {
		want, got := 0, 0 // sides of the grid between two sides of the border, and points of the line
		count := func(q, next *sweep.Point) {
			if q.Built() && next.Built() && beyond(q, k) != beyond(next, k) {
				want++
			}
		}
		n := st.Over.Steps
		for i := range st.Points {
			q := &st.Points[i]
			if q.Built() {
				met[q.Run().Verdict.Code] = true
			}
			if (i+1)%n != 0 {
				count(q, &st.Points[i+1])
			}
			if i+n < len(st.Points) {
				count(q, &st.Points[i+n])
			}
		}
		for _, run := range runs(lines[k].points) {
			got += len(run)
			if len(run) > 2 && run[0] == run[len(run)-1] {
				got-- // closed
			}
		}
		if lines[k].label != name || got != want || want == 0 {
			t.Errorf("%s, called %s, passes %d sides of the grid, want %d", name, lines[k].label, got, want)
		}
	}
	for _, c := range order {
		if !met[c] {
			t.Errorf("nowhere %s", c)
		}
	}
}

// A clock of which no need is known, one that cannot be built anywhere, and a range
// that the scenario's own value is not in.
func TestPoorSweeps(t *testing.T) {
	text, _ := scenarios.Text("eight-day")
	drive, _ := trial.Compile(t, "eight-day", text[strings.Index(text, "# The wheels"):], "")
	for _, o := range []sweep.Options{
		{Over: sweep.Axis{Key: "going.mainspring.thickness_mm", From: unset, To: unset, Steps: 5}},
		{Over: sweep.Axis{Key: "going.mainspring.length_mm", From: 1e5, To: 2e5, Steps: 3}},
		{Over: sweep.Axis{Key: "going.mainspring.thickness_mm", From: 0.4, To: 0.41, Steps: 5}, Against: &sweep.Axis{Key: "going.line.thickness_mm", From: -1, To: 3, Steps: 5}},
	} {
		st := sweepOf(t, drive, o)
		svg := string(trial.Picture(t, "svg", sweepDrawn(st)))
		if !math.IsNaN(st.Own.Need.Used) || strings.Contains(svg, "NaN") || strings.Contains(svg, "as it is now") == (o.Over.From > 0) || strings.Contains(svg, "reserve") {
			t.Errorf("%+v: a wrong picture", o.Over)
		}
	}
}
