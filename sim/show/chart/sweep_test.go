package chart

import (
	"context"
	"io"
	"math"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim/internal/trial"
	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/study/sweep"
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
	return func(w io.Writer, format string) error { return Sweep(w, format, st) }
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
		if stripe.From != at || stripe.To <= stripe.From {
			t.Errorf("a stripe from %v to %v after %v", stripe.From, stripe.To, at)
		}
		at = stripe.To
		for _, p := range st.Points {
			if p.Value > stripe.From && p.Value < stripe.To && (p.Verdict.Code != stripe.Code || p.Built() != (stripe.Name == "")) {
				t.Errorf("%s at %v in a stripe %s %q", p.Verdict.Code, p.Value, stripe.Code, stripe.Name)
			}
		}
	}
	if at != st.Over.To {
		t.Errorf("the stripes end at %v", at)
	}
	wantInPicture(t, sweepDrawn(st), "OVERDRIVEN at 0.46 mm", "thickness of the striking mainspring, mm", "s from blow to blow", "slowest wanted", "cannot be built", "least torque needed", "as the scenario has it")
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
		outcome.Unevenness:  {"unevenness, (greatest − least)/mean, %", "torque at the fusee, N·m", "reserve", "semi-arc, degrees"},
		outcome.MeanReserve: {"mean reserve", "torque at the fusee, N·m", "reserve", "unevenness, %", "semi-arc, degrees"},
	} {
		st := sweepOf(t, s, sweep.Options{Over: sweep.Axis{Key: "going.mainspring.thickness_mm", From: unset, To: unset, Steps: 5}, Of: resultNamed(t, name)})
		list := sweepPanels(st)
		if len(list) != len(panels) {
			t.Fatalf("%s: %d panels", name, len(list))
		}
		for i, p := range list {
			g := p.(*Graph)
			if g.Y != panels[i] || (len(g.Stripes) > 0) != (i == 0) || g.Low != (i > 0) || (g.Title != "") != (i == 0) || (len(g.Dots) == 1) != (i == 0) {
				t.Errorf("%s: panel %d is %q: %+v", name, i, g.Y, g)
			}
			for _, l := range g.Lines {
				for k, pt := range l.Points {
					if pt.X != st.Points[k].Value {
						t.Errorf("%s at %v", l.Label, pt.X)
					}
				}
			}
		}
		first := list[0].(*Graph)
		if y := first.Lines[0].Points[2].Y; y != st.Of.Shown(st.Of.Of(&st.Own.Digest)) || first.Dots[0].Points[0].Y != y || first.Dots[0].Points[0].X != 0.38 {
			t.Errorf("%s: %v at the scenario's own value, marked at %v", name, y, first.Dots[0])
		}
	}
}

// Every line is what it is called, by the table of results.
func TestSweepLines(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st := sweepOf(t, s, sweep.Options{Over: sweep.Axis{Key: "going.mainspring.thickness_mm", From: 0.3, To: 0.4, Steps: 3}})
	lines := map[string]Curve{}
	for _, p := range sweepPanels(st) {
		g := p.(*Graph)
		for _, l := range g.Lines {
			lines[l.Label] = l
		}
		for _, a := range g.Areas {
			lines["lower"], lines["upper"] = Curve{Points: a.Lower}, Curve{Points: a.Upper}
		}
	}
	for label, name := range map[string]string{
		"mean torque at the fusee": outcome.MeanTorque, "lower": outcome.LeastTorque, "upper": outcome.MostTorque, "least torque needed": "least_torque_nm.used",
		"mean reserve": outcome.MeanReserve, "least reserve": outcome.LeastReserve, "unevenness, (greatest − least)/mean": outcome.Unevenness, "mean semi-arc of the pendulum": "amplitude_deg.mean",
	} {
		f, l := resultNamed(t, name), lines[label]
		if len(l.Points) != 3 {
			t.Fatalf("no line %s", label)
		}
		for i, p := range l.Points {
			if want := f.Shown(f.Of(&st.Points[i].Digest)); math.Abs(p.Y-want) > 1e-12*math.Abs(want) && !(math.IsNaN(p.Y) && math.IsNaN(want)) {
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
	m := sweepMap(st)
	order := []rules.Code{rules.Stops, rules.Thin, rules.Suits, rules.Strong, rules.Overdriven}
	if len(m.Borders) != 4 || len(m.Dots) != 1 || m.Z != "mean torque at the fusee, N·m" || m.X != "thickness of the going mainspring, mm" || m.Y != "set-up of the going mainspring, turns" {
		t.Fatalf("%+v", m)
	}
	met := map[rules.Code]bool{}
	for j := range m.Ys {
		for i := range m.Xs {
			p := &st.Points[j*len(m.Xs)+i]
			if m.Xs[i] != p.Value || m.Ys[j] != p.Value2 || p.Built() && m.At(i, j) != p.Torque.Mean {
				t.Fatalf("the point at %v, %v is %v, %v", m.Xs[i], m.Ys[j], p.Value, p.Value2)
			}
			met[p.Verdict.Code] = true
			for k, b := range m.Borders {
				beyond := false // the verdict is past the border
				for _, c := range order[k+1:] {
					beyond = beyond || c == p.Verdict.Code
				}
				if v := b.At(i, j); p.Built() && (v > 0) != beyond || !p.Built() && !math.IsNaN(v) {
					t.Errorf("%s at %v, %v: %v where it is %s", b.Label, p.Value, p.Value2, v, p.Verdict.Code)
				}
			}
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
		if !math.IsNaN(st.Own.Need.Used) || strings.Contains(svg, "NaN") || strings.Contains(svg, "as the scenario has it") == (o.Over.From > 0) || strings.Contains(svg, "reserve") {
			t.Errorf("%+v: a wrong picture", o.Over)
		}
	}
}
