package cut

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
)

func TestJSON(t *testing.T) {
	for _, o := range []Options{{}, {FromBlank: true}} {
		st := study(t, "three-trains", 1, o)
		var b bytes.Buffer
		if err := JSON(&b, st); err != nil {
			t.Fatal(err)
		}
		var doc struct {
			Train string
			Blank bool    `json:"from_blank"`
			Now   float64 `json:"evenness_now"`
			After float64 `json:"evenness_after"`
			SetUp float64 `json:"set_up_turns"`
			Line  float64 `json:"line_mm"`
			Turns []struct {
				Turn     float64 `json:"fusee_turn"`
				Diameter float64 `json:"diameter_mm"`
				Now      float64 `json:"now_mm"`
				Remove   float64 `json:"remove_mm"`
				Torque   float64 `json:"torque_nm"`
			}
			Present  map[string]any `json:"cut_present_set_up"`
			Cautions []string
		}
		if err := json.Unmarshal(b.Bytes(), &doc); err != nil {
			t.Fatal(err)
		}
		if doc.Train != "striking" || doc.Blank != o.FromBlank || len(doc.Turns) != 17 || (doc.Present == nil) != o.FromBlank || len(doc.Cautions) != 3 ||
			!(doc.Now > 0.1 && doc.After < 1e-4 && doc.SetUp > 0.25 && doc.Line > 500) {
			t.Errorf("%+v", doc)
		}
		for i, r := range doc.Turns {
			// The sample's cone is straight, from 12 to 22 mm in 16 turns.
			if now := 12 + 10*r.Turn/16; r.Turn != float64(i) || math.Abs(r.Now-now) > 1e-9 || math.Abs(r.Now-r.Diameter-r.Remove) > 1e-9 {
				t.Errorf("%+v", r)
			}
			if math.Abs(r.Torque/doc.Turns[0].Torque-1) > 1e-4 {
				t.Errorf("torque %v, %v at turn 0", r.Torque, doc.Turns[0].Torque)
			}
		}
	}
}

func TestCSV(t *testing.T) {
	var b bytes.Buffer
	if err := CSV(&b, study(t, "too-strong", 0, Options{Step: 0.5})); err != nil {
		t.Fatal(err)
	}
	lines, err := csv.NewReader(&b).ReadAll()
	if err != nil || len(lines) != 34 || lines[0][2] != "diameter_mm" || lines[33][0] != "16" || lines[33][1] != "35.2" {
		t.Fatalf("%v: %d lines, %q", err, len(lines), lines[len(lines)-1])
	}
	// The first turns cannot be wound as it is: there is no torque to tell.
	if lines[1][5] != "" || lines[1][6] == "" {
		t.Errorf("%q", lines[1])
	}
}

func TestText(t *testing.T) {
	for _, c := range []struct {
		name string
		o    Options
		says []string
	}{
		{"eight-day", Options{}, []string{"does this cone suit this spring? YES, as it is", "best set-up alone", "cut, with the present set-up", "common practice, no source", "need not be cut", "let-down key", "cannot be undone", "eye protection"}},
		{"too-strong", Options{}, []string{"NOT AS IT IS, only when it is cut", "1.89 fusee turns are lost", "--keep-set-up cuts it for these", "fewer turns to spare"}},
		{"too-weak", Options{KeepSetUp: true}, []string{"with another set-up and nothing cut", "keeps the set-up of 0.50 turns", "the train stops, as it does now"}},
		{"eight-day", Options{FromBlank: true, Large: 18e-3}, []string{"a new cone from blank", "metal is missing"}},
	} {
		var b bytes.Buffer
		if err := (Text{}).Write(&b, study(t, c.name, 0, c.o)); err != nil {
			t.Fatal(err)
		}
		flat := strings.Join(strings.Fields(b.String()), " ")
		for _, says := range c.says {
			if !strings.Contains(flat, says) {
				t.Errorf("%s %+v: no %q in\n%s", c.name, c.o, says, b.String())
			}
		}
		if strings.Contains(flat, "NaN") || strings.Contains(flat, "−0.00") {
			t.Errorf("%s: %s", c.name, b.String())
		}
	}
}

func draws(st *Study, draw func(io.Writer, string, *Study) error) func(io.Writer, string) error {
	return func(w io.Writer, format string) error { return draw(w, format, st) }
}

func TestGoldenPictures(t *testing.T) {
	st := study(t, "strike-quick", 0, Options{})
	trial.Golden(t, "plot", draws(st, Plot))
	trial.Golden(t, "drawing", draws(st, Drawing))
	trial.Golden(t, "blank", draws(study(t, "eight-day", 0, Options{FromBlank: true, Large: 18e-3}), Drawing))
}

var (
	svgWidth = regexp.MustCompile(`<svg width="([\d.]+)pt" height="([\d.]+)pt"\s+viewBox="0 0 ([\d.]+) ([\d.]+)"`)
	// A block of the scale bar: a filled path of four corners.
	block = regexp.MustCompile(`<path d="M([\d.]+),([\d.]+)L([\d.]+),[\d.]+L[\d.]+,([\d.]+)L[\d.]+,[\d.]+Z" style="fill:#101010`)
)

// A pt is 1/72 of an inch (CSS Values and Units, from memory), an inch 25.4 mm, and a
// lying A4 sheet 297 by 210 mm (ISO 216).
func TestDrawingIsTrueToSize(t *testing.T) {
	st := study(t, "strike-quick", 0, Options{})
	svg := string(trial.Picture(t, "svg", draws(st, Drawing)))
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
	if pdf := trial.Picture(t, "pdf", draws(st, Drawing)); !bytes.Contains(pdf, []byte("/MediaBox [0 0 841.89 595.28]")) {
		t.Error("the PDF's page is not A4")
	}
	for _, want := range []string{"Check that this bar measures 50 mm", "cannot be undone", "Ø 28.70", "35.2 mm = 16 turns of 2.20 mm"} {
		if !strings.Contains(svg, want) {
			t.Errorf("no %q in the drawing", want)
		}
	}
}

// Every format, many turns and none that are whole.
func TestDrawings(t *testing.T) {
	for _, format := range []string{"svg", "png", "pdf"} {
		for _, number := range []int{0, 1, 2} {
			st := study(t, "three-trains", number, Options{})
			if len(trial.Picture(t, format, draws(st, Drawing))) < 1000 || len(trial.Picture(t, format, draws(st, Plot))) < 1000 {
				t.Errorf("%s of train %d is empty", format, number)
			}
		}
	}
	// A large barrel with a long spring, and 45.5 turns.
	s, _ := trial.Compile(t, "eight-day")
	in := &s.Trains[0]
	in.Mainspring.LengthMM, in.Barrel.InsideDiameterMM, in.Barrel.OutsideDiameterMM = 9000, 105, 110
	in.Fusee = scenario.Fusee{Turns: 45.5, Profile: scenario.Cone, SmallDiameterMM: 20, LargeDiameterMM: 40, PitchMM: 2.2, CentreDistanceMM: 110}
	odd, err := Run(context.Background(), s, 0, Options{Large: nan, Small: nan})
	if err != nil {
		t.Fatal(err)
	}
	trial.Golden(t, "long", draws(odd, Drawing))
	if svg := string(trial.Picture(t, "svg", draws(odd, Drawing))); !strings.Contains(svg, ">45.5<") || strings.Contains(svg, "NaN") {
		t.Error("a wrong drawing of 45.5 turns")
	}
}
