package drawing

import (
	"bytes"
	"context"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
	"evenpull/sim/study/cut"
)

func study(t testing.TB, name string, number int, o cut.Options) *cut.Study {
	t.Helper()
	s, _ := trial.Compile(t, name)
	return worked(t, s, number, o)
}

func worked(t testing.TB, s *scenario.Scenario, number int, o cut.Options) *cut.Study {
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

func draws(st *cut.Study) func(io.Writer, string) error {
	return func(w io.Writer, format string) error { return Cone(w, format, st) }
}

func TestGoldenCone(t *testing.T) {
	trial.Golden(t, "cone-drawing", draws(study(t, "strike-quick", 0, cut.Options{})))
	trial.Golden(t, "cone-blank", draws(study(t, "eight-day", 0, cut.Options{FromBlank: true, Large: 18e-3})))
}

var (
	svgWidth = regexp.MustCompile(`<svg width="([\d.]+)pt" height="([\d.]+)pt"\s+viewBox="0 0 ([\d.]+) ([\d.]+)"`)
	// A block of the scale bar: a filled path of four corners.
	block = regexp.MustCompile(`<path d="M([\d.]+),([\d.]+)L([\d.]+),[\d.]+L[\d.]+,([\d.]+)L[\d.]+,[\d.]+Z" style="fill:#101010`)
)

// A pt is 1/72 of an inch (CSS Values and Units, from memory), an inch 25.4 mm (NIST SP 811), and a
// lying A4 sheet 297 by 210 mm (ISO 216).
func TestDrawingIsTrueToSize(t *testing.T) {
	st := study(t, "strike-quick", 0, cut.Options{})
	svg := string(trial.Picture(t, "svg", draws(st)))
	head := svgWidth.FindStringSubmatch(svg)
	if head == nil {
		t.Fatalf("no size in %s", svg[:400])
	}
	number := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	mmPerUnit := number(head[1]) / number(head[3]) * 25.4 / 72
	if w, h := number(head[1])*25.4/72, number(head[2])*25.4/72; math.Abs(w-297) > 0.01 || math.Abs(h-210) > 0.01 {
		t.Errorf("the page is %v by %v mm, not A4", w, h)
	}
	blocks := block.FindAllStringSubmatch(svg, -1)
	if len(blocks) != 3 { // of the five, every other
		t.Fatalf("%d black blocks", len(blocks))
	}
	if bar := (number(blocks[2][3]) - number(blocks[0][1])) * mmPerUnit; math.Abs(bar-50) > 0.01 {
		t.Errorf("the bar measures %v mm", bar)
	}
	// A PDF's unit is 1/72 of an inch (ISO 32000-1, 8.3.2.3, from memory).
	if pdf := trial.Picture(t, "pdf", draws(st)); !bytes.Contains(pdf, []byte("/MediaBox [0 0 841.89 595.28]")) {
		t.Error("the PDF's page is not A4")
	}
	for _, want := range []string{"Check that this bar measures 50 mm", "cannot be undone", "Ø 26.70", "35.2 mm = 16 turns of 2.20 mm"} {
		if !strings.Contains(svg, want) {
			t.Errorf("no %q in the drawing", want)
		}
	}
}

// What must be read with the drawing stands on it.
func TestDrawingWords(t *testing.T) {
	for _, c := range []struct {
		st        *cut.Study
		has, lack []string
	}{
		{study(t, "too-strong", 0, cut.Options{}), []string{"far too strong", "NO: as it is the train is OVERDRIVEN", "Another spring comes first", "! as it is the spring binds", "Take the line and the spring off first.", "let-down key", "mainspring winder", "eye protection", "in line with a spring", "Solid: an even cone", "to remove"}, []string{"Solid: to cut"}},
		{study(t, "three-trains", 2, cut.Options{}), []string{"nothing to cut", "YES, as it is", "let-down key"}, []string{"Solid", "to remove", "Ø to cut", "off first"}},
		{study(t, "strike-quick", 0, cut.Options{}), []string{"NO: as it is the train", "not advised", "Solid: an even cone"}, []string{"Solid: to cut"}},
		{study(t, "eight-day", 0, cut.Options{Step: 0.5}), []string{">15.5<", ">34.10<"}, []string{">15.25<"}},
	} {
		svg := string(trial.Picture(t, "svg", draws(c.st)))
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
	// A large barrel with a long spring, and 45.5 turns.
	s, _ := trial.Compile(t, "eight-day")
	in := &s.Trains[0]
	in.Mainspring.LengthMM, in.Barrel.InsideDiameterMM, in.Barrel.OutsideDiameterMM = 9000, 105, 110
	f := &in.Fusee
	f.Turns, f.Profile, f.DiametersMM, f.SmallDiameterMM, f.LargeDiameterMM, f.CentreDistanceMM = 45.5, scenario.Cone, nil, 20, 40, 110
	odd := worked(t, s, 0, cut.Options{})
	trial.Golden(t, "cone-long", draws(odd))
	if svg := string(trial.Picture(t, "svg", draws(odd))); !strings.Contains(svg, ">45.5<") || strings.Contains(svg, "NaN") {
		t.Error("a wrong drawing of 45.5 turns")
	}
}

// The groove is told as it is to be cut: round with its depth, or square.
func TestGrooveWords(t *testing.T) {
	st := study(t, "strike-quick", 0, cut.Options{})
	st.Groove.Width, st.Groove.Depth = 1.5e-3, 0.75e-3
	for square, want := range map[bool]string{false: "Groove: right-hand, round, 1.50 mm wide and 0.75 mm deep for a line 1.60 mm thick.", true: "Groove: right-hand, square, 1.50 mm wide, as the chain is, and 0.75 mm deep for its height of 1.60 mm."} {
		st.Groove.Square = square
		if svg := string(trial.Picture(t, "svg", draws(st))); !strings.Contains(svg, ">"+want+"<") {
			t.Errorf("no %q in the drawing", want)
		}
	}
}
