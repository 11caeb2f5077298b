package choose

import (
	"io"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
)

func TestGoldenPicture(t *testing.T) {
	st := sampleStudy(t)
	trial.Golden(t, "choose", func(w io.Writer, format string) error { return Plot(w, format, st) })
}

// The target is drawn as far as the run goes and no farther, since the names of the
// bands stand beyond it; and it lies about the mean that is aimed at.
func TestTargetLeavesTheNames(t *testing.T) {
	st := sampleStudy(t)
	g := st.graph()
	area := &g.Areas[len(g.Areas)-1]
	if area.Label != "mean aimed at" || len(g.Lines) != leading || len(g.Levels) != 1 {
		t.Fatalf("%q, %d lines, %d levels", area.Label, len(g.Lines), len(g.Levels))
	}
	for i := range area.Lower {
		if x := area.Lower[i].X; x < 0 || x > st.Train.Drive.Cone.Turns || area.Upper[i].X != x {
			t.Errorf("it reaches to turn %v", x)
		}
		closeTo(t, "target", (area.Lower[i].Y+area.Upper[i].Y)/2, st.Target.Mean, 1e-12)
	}
	s, _ := trial.Compile(t, "eight-day")
	for _, a := range study(t, s, 0, drawer(t), Options{Reserve: 50, EndShake: nan}).graph().Areas {
		if a.Label != "" {
			t.Errorf("%s flattens the lines", a.Label)
		}
	}
	s.Trains[0].Line.BreakingN = 100
	if title := study(t, s, 0, drawer(t), asIs).graph().Title; !strings.HasSuffix(title, "suits by its torque, but has a fault") {
		t.Error(title)
	}
}
