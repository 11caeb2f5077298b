package cut

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math"
	"strconv"
	"strings"
	"testing"

	"evenpull/scenarios"
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
			Now   float64 `json:"unevenness_now"`
			After float64 `json:"unevenness_after"`
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

// Lengths are written to 1e-9 mm, and no diameter to cut is above the present one.
func TestCSVIsRounded(t *testing.T) {
	for _, name := range []string{"eight-day", "too-weak", "too-strong", "strike-quick"} {
		var b bytes.Buffer
		if err := CSV(&b, study(t, name, 0, Options{Step: 0.15})); err != nil {
			t.Fatal(err)
		}
		lines, err := csv.NewReader(&b).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		for _, cells := range lines[1:] {
			var v [5]float64
			for i := range v {
				if v[i], err = strconv.ParseFloat(cells[i], 64); err != nil {
					t.Fatal(err)
				}
				if _, places, _ := strings.Cut(cells[i], "."); len(places) > 9 && !strings.Contains(places, "e") {
					t.Errorf("%s: %s", name, cells[i])
				}
			}
			if v[2] > v[3] || v[4] < 0 {
				t.Errorf("%s: %v", name, cells)
			}
		}
	}
}

func TestText(t *testing.T) {
	drive, _ := scenarios.Text("eight-day") // and no need is known of the drive alone
	for _, c := range []struct {
		name    string
		o       Options
		says    []string
		replace []string
	}{
		{"eight-day", Options{}, []string{"does this cone suit this spring? YES, as it is", "best set-up alone", "cut, with the present set-up", "common practice, no source", "need not be cut", "let-down key", "cannot be undone", "eye protection", "--keep-set-up cuts it for these", "turn 15.66 lies between the whole turns that were measured", "measure there first"}, nil},
		{"too-strong", Options{}, []string{"NOT AS IT IS, only when it is cut", "1.89 fusee turns are lost", "fewer turns to spare", "less even because it winds those turns too", "keeps the set-up of 1.25 turns, with which the train suits", "it is strong", "more than a tenth of the diameter", "rather fit a spring that suits the cone", "Caution: Cutting a fusee", "Caution: Take the line"}, nil},
		{"too-weak", Options{KeepSetUp: true}, []string{"with another set-up and nothing cut", "an even cone with 0.50 turns of set-up would take", "the train stops, as it does now", "with 1.25 turns, without --keep-set-up, it suits"}, nil},
		{"eight-day", Options{FromBlank: true, Large: 18e-3}, []string{"a new cone from blank", "metal is missing"}, nil},
		{"eight-day", Options{}, []string{"EVEN ENOUGH, but the train stops: the spring, not the cone, is at fault", "nothing is advised to be cut"}, []string{"least_torque_nm = 0.33", "least_torque_nm = 0.5"}},
		{"eight-day", Options{}, []string{"NOT JUDGED", "YES, as it is", "weights on a pulley at the winding square", "demand.least_torque_nm"}, []string{drive[strings.Index(drive, "# The wheels"):], ""}},
		{"strike-quick", Options{}, []string{"NO: fit another spring (evenpull choose)", "nothing is advised to be cut"}, nil},
		{"eight-day", Options{}, []string{"NO: fit another spring", "no even cone can be cut within this one", "want a spring with more turns"}, []string{"length_mm    = 1650.0", "length_mm    = 300.0"}},
	} {
		var b bytes.Buffer
		if err := (Text{}).Write(&b, study(t, c.name, 0, c.o, c.replace...)); err != nil {
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
