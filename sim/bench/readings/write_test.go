package readings

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"io"
	"math"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim/bench/book"
	"evenpull/sim/bench/measure"
	"evenpull/sim/internal/trial"

	"github.com/golang/geo/r1"
)

func sampleStudy(t testing.TB) (*Study, *book.Book) {
	t.Helper()
	text, _ := scenarios.BenchText(scenarios.DefaultBench)
	b, err := book.Read(strings.NewReader(text), "sample", nil)
	if err != nil {
		t.Fatal(err)
	}
	s, _ := trial.Compile(t, "three-trains")
	st := Of(b, s)
	if st.Explained, err = Explain(*st.Find("C", "going"), s, []string{"going.mainspring.thickness_mm", "going.mainspring.efficiency"}); err != nil {
		t.Fatal(err)
	}
	return st, b
}

func TestJSON(t *testing.T) {
	st, _ := sampleStudy(t)
	var b bytes.Buffer
	if err := JSON(&b, st); err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Needs []struct {
			Train   string
			Least   float64 `json:"least_torque_nm"`
			Between [2]float64
		}
		Supplies []struct {
			Spring     string
			Mean       float64 `json:"mean_nm"`
			Efficiency float64
			Turns      []struct {
				Turn int     `json:"fusee_turn"`
				N    int     `json:"n"`
				Half float64 `json:"half_width_95_nm"`
			}
			Predicted struct {
				RMS float64 `json:"rms_nm"`
				Chi float64 `json:"chi2_per_dof"`
			}
		}
		Fit struct {
			Values []struct {
				Key   string
				Value float64
				SE    float64 `json:"standard_error"`
			}
			Correlation [][]float64
			Status      string
		}
	}
	if err := json.Unmarshal(b.Bytes(), &doc); err != nil {
		t.Fatal(err)
	}
	if n := doc.Needs[0]; n.Train != "going" || !(n.Between[0] < n.Least && n.Least < n.Between[1]) {
		t.Errorf("%+v", n)
	}
	if s := doc.Supplies[2]; s.Spring != "C" || len(s.Turns) != 17 || s.Turns[16].Turn != 16 || s.Turns[0].N != 3 || !(s.Turns[0].Half > 0) ||
		math.Abs(s.Efficiency-0.873) > 0.005 || s.Predicted.RMS > 0.005 || !(s.Predicted.Chi > 0) {
		t.Errorf("%+v", s)
	}
	if f := doc.Fit; f.Status != "converged" || len(f.Values) != 2 || math.Abs(f.Values[0].Value-0.38) > 3*f.Values[0].SE || f.Correlation[0][0] != 1 {
		t.Errorf("%+v", f)
	}
}

func TestTextAndCSV(t *testing.T) {
	st, _ := sampleStudy(t)
	var b bytes.Buffer
	if err := (Text{}).Write(&b, st); err != nil {
		t.Fatal(err)
	}
	for _, says := range []string{"going train needs 0.348 N·m", "does not strike", "spring C in the going train gives 0.431 N·m", "running down over winding up", "χ² per degree of freedom", "converged", "correlation of", "let-down key"} {
		if !strings.Contains(b.String(), says) {
			t.Errorf("no %q in\n%s", says, b.String())
		}
	}
	b.Reset()
	if err := CSV(&b, st); err != nil {
		t.Fatal(err)
	}
	lines, err := csv.NewReader(&b).ReadAll()
	if err != nil || len(lines) != 1+3*34 || lines[18][2] != "true" {
		t.Errorf("%v, %d lines", err, len(lines))
	}
}

// Without a scenario, or with one that lacks the train, what was read still stands.
func TestWithoutPrediction(t *testing.T) {
	text, _ := scenarios.BenchText(scenarios.DefaultBench)
	mixed, err := book.Read(strings.NewReader(text), "sample", nil)
	if err != nil {
		t.Fatal(err)
	}
	other, _ := trial.Compile(t, "strike-quick")
	for name, st := range map[string]*Study{"none": Of(mixed, nil), "other": Of(mixed, other)} {
		var b bytes.Buffer
		if err := (Text{}).Write(&b, st); err != nil || strings.Contains(b.String(), "NaN") {
			t.Errorf("%s: %v", name, err)
		}
		if strings.Contains(b.String(), "no train") != (name == "other") || strings.Contains(b.String(), "against the prediction") {
			t.Errorf("%s:\n%s", name, b.String())
		}
		b.Reset()
		if err := JSON(&b, st); err != nil || !json.Valid(b.Bytes()) {
			t.Errorf("%s: %v", name, err)
		}
		if err := Plot(io.Discard, "svg", st, mixed); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	// Weights alone: the pace of the blows is drawn.
	weights := &book.Book{Weights: mixed.Weights}
	svg := trial.Picture(t, "svg", func(w io.Writer, format string) error { return Plot(w, format, Of(weights, nil), weights) })
	if !bytes.Contains(svg, []byte("the law of a fly")) {
		t.Error("no pace in the picture")
	}
}

func TestGoldenPicture(t *testing.T) {
	st, book := sampleStudy(t)
	trial.Golden(t, "readings", func(w io.Writer, format string) error { return Plot(w, format, st, book) })
}

func TestFind(t *testing.T) {
	st, _ := sampleStudy(t)
	if st.Find("", "going") != nil || st.Find("A", "") == nil || st.Find("A", "striking") != nil || st.Find("D", "") != nil {
		t.Error("the wrong spring was found")
	}
}

// What a striking train takes for the cadence wanted: the scenario's, or what a
// scenario that says nothing wants.
func TestWanted(t *testing.T) {
	st, _ := sampleStudy(t)
	if p := st.Paces[1]; st.Paces[0] != nil || len(p) != 2 || p[0].Interval != 1.6 || p[1].Interval != 0.9 || !(p[0].Torque < p[1].Torque) || p[0].How != measure.Interpolated {
		t.Errorf("%+v", st.Paces)
	}
	quiet, _ := trial.Compile(t, "strike-quick", "blow_interval_s = [ 1.15, 1.75 ]", "")
	if r := quiet.Trains[0].Demand.BlowIntervalS; Wanted(nil, "striking") != (r1.Interval{Lo: r.Lo, Hi: r.Hi}) || Wanted(quiet, "chimes") != Wanted(nil, "") {
		t.Errorf("%v, in a scenario that says nothing %v", Wanted(nil, "striking"), r)
	}
}
