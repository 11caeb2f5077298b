package drawing

import (
	"bytes"
	"context"
	"io"
	"math"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
	"evenpull/sim/show/canvas"
	"evenpull/sim/study/cut"
)

func study(t testing.TB, name string, number int, o cut.Options) *cut.Study {
	t.Helper()
	s, _ := trial.Compile(t, name)
	return worked(t, s, number, o)
}

func studyOf(t testing.TB, name string, replace ...string) *cut.Study {
	t.Helper()
	s, _ := trial.Compile(t, name, replace...)
	return worked(t, s, 0, cut.Options{})
}

func worked(t testing.TB, s *scenario.Scenario, number int, o cut.Options) *cut.Study {
	o.Anyway = true
	t.Helper()
	if o.Large == 0 {
		o.Large = math.NaN()
	}
	o.Small = math.NaN()
	st, err := cut.Run(context.Background(), s, number, o)
	if err != nil {
		t.Fatal(err)
	}
	return st
}

func paper(t testing.TB, name string) Paper {
	t.Helper()
	p, known := PaperOf(name)
	if !known {
		t.Fatalf("no paper %q", name)
	}
	return p
}

// files are those of a drawing.
func files(t testing.TB, st *cut.Study, name, format string) (list [][]byte) {
	t.Helper()
	all, err := Cone(st, paper(t, name), canvas.Form{Format: format})
	if err != nil {
		t.Fatal(err)
	}
	for _, write := range all {
		list = append(list, trial.Picture(t, format, func(w io.Writer, _ string) error { return write(w) }))
	}
	return list
}

// draws draws the first sheet on A4.
func draws(st *cut.Study) func(io.Writer, string) error { return drawsSheet(st, 0) }

// drawsSheet draws a sheet, with the dots of a screen.
func drawsSheet(st *cut.Study, number int) func(io.Writer, string) error {
	return func(w io.Writer, format string) error {
		return coneOf(st, Papers()[0]).write(w, canvas.Form{Format: format}, number, number+1)
	}
}

// leftChain is a sample with a chain and a left-hand groove, measured over the lands.
func leftChain(t testing.TB) *cut.Study {
	t.Helper()
	const pitch = "pitch_mm           = 2.2"
	s, _ := trial.Compile(t, "eight-day", `"gut"  `, `"chain"`, pitch, "hand = \"left\"\nover = \"lands\"\nland_height_mm = 0.8\npivot_mm = 4\ngreat_wheel_mm = 48\n"+pitch)
	return worked(t, s, 0, cut.Options{})
}

// longCone has 45.5 turns of a pitch.
func longCone(t testing.TB, pitch float64) *cut.Study {
	t.Helper()
	s, _ := trial.Compile(t, "eight-day")
	in := &s.Trains[0]
	in.Mainspring.LengthMM, in.Barrel.InsideDiameterMM, in.Barrel.OutsideDiameterMM = 9000, 105, 110
	f := &in.Fusee
	f.Turns, f.Profile, f.DiametersMM, f.SmallDiameterMM, f.LargeDiameterMM, f.CentreDistanceMM, f.PitchMM = 45.5, scenario.Cone, nil, 20, 40, 110, pitch
	return worked(t, s, 0, cut.Options{})
}

func TestGoldenCone(t *testing.T) {
	trial.Golden(t, "cone-drawing", draws(study(t, "strike-quick", 0, cut.Options{})))
	trial.Golden(t, "cone-blank", draws(study(t, "eight-day", 0, cut.Options{FromBlank: true, Large: 18e-3})))
	trial.Golden(t, "cone-chain", draws(leftChain(t)))
	trial.Golden(t, "cone-long", draws(longCone(t, 2.2)))
	trial.Golden(t, "cone-part", drawsSheet(longCone(t, 7), 1))
}

// What must be read with the drawing stands on it.
func TestDrawingWords(t *testing.T) {
	for _, c := range []struct {
		st        *cut.Study
		has, lack []string
	}{
		{study(t, "too-strong", 0, cut.Options{}), []string{"far too strong", "NO: as it is the train is OVERDRIVEN", "Another spring comes first", "! as it is the spring binds", "Take the line and the spring off first.", "let-down key", "mainspring winder", "eye protection", "never stand in its way", "Solid: an even cone", "to remove", "wind clockwise", "great-wheel end", "Right-hand groove, "}, []string{"Solid: to cut"}},
		{study(t, "three-trains", 2, cut.Options{}), []string{"nothing to cut", "YES, as it is", "let-down key"}, []string{"Solid", "to remove", "Ø now", "off first"}},
		{study(t, "strike-quick", 0, cut.Options{}), []string{"NO: as it is the train", "not advised", "Solid: an even cone"}, []string{"Solid: to cut"}},
		{study(t, "eight-day", 0, cut.Options{Step: 0.5}), []string{">15.5<", ">3.95<"}, []string{"pivots of"}},
		{study(t, "eight-day", 0, cut.Options{FromBlank: true, Large: 18e-3}), []string{"cone from blank", "The new cone", "blank 40.9 mm"}, []string{"Dashed", "Ø now", "to remove", "now "}},
		{leftChain(t), []string{"Left-hand groove", "wind anticlockwise", "(clockwise, seen from the great-wheel end)", "pivots of Ø 4.00 mm", "0.80 deep"}, []string{"Right-hand"}},
	} {
		svg := string(bytes.Join(files(t, c.st, "A4", "svg"), nil))
		for _, want := range c.has {
			if !strings.Contains(svg, want) {
				t.Errorf("%s: no %q", c.st.Title, want)
			}
		}
		for _, not := range c.lack {
			if strings.Contains(svg, not) {
				t.Errorf("%s: %q", c.st.Title, not)
			}
		}
	}
}

// Every format, many turns and none that are whole.
func TestDrawings(t *testing.T) {
	for _, format := range []string{"svg", "png", "pdf"} {
		for _, number := range []int{0, 1, 2} {
			st := study(t, "three-trains", number, cut.Options{})
			if len(trial.Picture(t, format, draws(st))) < 1000 {
				t.Errorf("%s of train %d is empty", format, number)
			}
		}
	}
	if svg := string(trial.Picture(t, "svg", drawsSheet(longCone(t, 2.2), 1))); !strings.Contains(svg, ">45.5<") || strings.Contains(svg, "NaN") {
		t.Error("a wrong drawing of 45.5 turns")
	}
}

// The groove is told as it is to be cut: round with its depth, or square.
func TestGrooveWords(t *testing.T) {
	st := study(t, "strike-quick", 0, cut.Options{})
	st.Groove.Width, st.Groove.Depth = 1.5e-3, 0.75e-3
	for square, want := range map[bool]string{false: "Groove: right-hand, round, 1.50 mm wide and 0.75 mm deep for a line 1.60 mm thick.", true: "Groove: right-hand, square, 1.50 mm wide, as the chain is, and 0.75 mm deep for its height of 1.60 mm."} {
		st.Groove.Square = square
		if svg := string(trial.Picture(t, "svg", draws(st))); !strings.Contains(svg, ">"+want+" Arbor") {
			t.Errorf("no %q in the drawing", want)
		}
	}
}

// What is not advised to be cut, and not asked for, is drawn as it is, and says so.
func TestNotAdvisedIsDrawnAsItIs(t *testing.T) {
	st := study(t, "eight-day", 0, cut.Options{})
	st.Anyway = false
	svg := string(bytes.Join(files(t, st, "A4", "svg"), nil))
	for _, want := range []string{"cone as it is: cutting is not advised", "29.20", "measure what there is"} {
		if !strings.Contains(svg, want) {
			t.Errorf("no %q", want)
		}
	}
	for _, not := range []string{"to remove", "Dashed", "off first", "28.66"} {
		if strings.Contains(svg, not) {
			t.Errorf("%q", not)
		}
	}
	if st.Uncut || st.Nothing || st.Rows[16].Diameter == st.Rows[16].Now {
		t.Error("the study itself was changed")
	}
}
