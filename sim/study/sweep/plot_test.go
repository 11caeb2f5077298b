package sweep

import (
	"io"
	"math"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim/internal/trial"
)

func svg(t testing.TB, st *Study) string {
	t.Helper()
	return string(trial.Picture(t, "svg", func(w io.Writer, format string) error { return Plot(w, format, st) }))
}

func TestGoldenPictures(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	thickness := Axis{Key: "going.mainspring.thickness_mm", From: nan, To: nan, Steps: 41}
	st := study(t, s, 0, Options{Over: thickness})
	trial.Golden(t, "thickness", func(w io.Writer, format string) error { return Plot(w, format, st) })
	two := study(t, s, 0, Options{Over: thickness, Against: &Axis{Key: "going.mainspring.width_mm", From: 28, To: 40, Steps: 41}})
	trial.Golden(t, "map", func(w io.Writer, format string) error { return Plot(w, format, two) })
}

func TestPictures(t *testing.T) {
	s, _ := trial.Compile(t, "strike-quick")
	st := study(t, s, 0, Options{Over: Axis{Key: "striking.mainspring.thickness_mm", From: 0.2, To: 1.5, Steps: 30}})
	picture := svg(t, st)
	for _, want := range []string{"OVERDRIVEN at 0.46 mm", "striking.mainspring.thickness_mm, mm", "s from blow to blow", "slowest wanted", "cannot be built", "least torque needed", "as the scenario has it"} {
		if !strings.Contains(picture, want) {
			t.Errorf("no %q in the picture", want)
		}
	}
	// Stripes join without gaps from end to end, each with the verdict of its points.
	at := st.Over.From
	for _, stripe := range st.stripes() {
		if stripe.From != at || stripe.To <= stripe.From {
			t.Errorf("a stripe from %v to %v after %v", stripe.From, stripe.To, at)
		}
		at = stripe.To
		for _, p := range st.Points {
			if p.Value > stripe.From && p.Value < stripe.To && (p.Verdict != stripe.Code || p.Built() != (stripe.Name == "")) {
				t.Errorf("%s at %v in a stripe %s %q", p.Verdict, p.Value, stripe.Code, stripe.Name)
			}
		}
	}
	if at != st.Over.To {
		t.Errorf("the stripes end at %v", at)
	}
	// A clock of which no need is known, one that cannot be built anywhere, and a
	// range that the scenario's own value is not in.
	text, _ := scenarios.Text("eight-day")
	drive, _ := trial.Compile(t, "eight-day", text[strings.Index(text, "# The wheels"):], "")
	for _, o := range []Options{
		{Over: Axis{Key: "going.mainspring.thickness_mm", From: nan, To: nan, Steps: 5}},
		{Over: Axis{Key: "going.mainspring.length_mm", From: 1e5, To: 2e5, Steps: 3}},
		{Over: Axis{Key: "going.mainspring.thickness_mm", From: 0.4, To: 0.41, Steps: 5}, Against: &Axis{Key: "going.line.thickness_mm", From: -1, To: 3, Steps: 5}},
	} {
		if picture := svg(t, study(t, drive, 0, o)); strings.Contains(picture, "NaN") || strings.Contains(picture, "as the scenario has it") == (o.Over.From > 0) {
			t.Errorf("%+v: a wrong picture", o.Over)
		}
	}
	if !math.IsNaN(study(t, drive, 0, Options{Over: Axis{Key: "going.mainspring.width_mm", From: nan, To: nan, Steps: 5}}).Own.Need) {
		t.Error("a need is known")
	}
}
