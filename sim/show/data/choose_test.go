package data_test

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim/internal/trial"
	"evenpull/sim/outcome"
	"evenpull/sim/show/chart"
	"evenpull/sim/show/data"
	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
	"evenpull/sim/stock"
	"evenpull/sim/study/choose"
)

// TestChooseWithoutList: springs to have made, without a stock list, are told too.
func TestChooseWithoutList(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st, err := choose.ToHave(context.Background(), s, 0, choose.Options{Reserve: math.NaN(), EndShake: math.NaN()})
	if err != nil {
		t.Fatal(err)
	}
	var j, c, p, drawn bytes.Buffer
	if err := errors.Join(data.Choose().JSON(&j, data.Origin{}, st), data.Choose().CSV(&c, data.Origin{}, st), text.Choose(&p, st, text.Options{Full: true}), chart.Usual(chart.Choose)(&drawn, "svg", st)); err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Order      *string
		Candidates []any
		Ideals     []any
	}
	if err := json.Unmarshal(j.Bytes(), &doc); err != nil || doc.Order != nil || len(doc.Candidates) != 0 || len(doc.Ideals) == 0 || strings.Count(c.String(), "\n") != 1 {
		t.Errorf("%v: %.300s", err, j.String())
	}
}

// TestCellsAreNotComputed: a label that a spreadsheet would take for a formula has an
// apostrophe before it in CSV, and a negative number has none. What begins a formula: =,
// +, -, @, a tab and a carriage return (OWASP, CSV injection, from memory).
func TestCellsAreNotComputed(t *testing.T) {
	labels := []string{"=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "plain", "a=1", "'=1", "–1", ""}
	st := &choose.Study{Lost: true}
	for _, label := range labels {
		k := choose.Candidate{}
		k.Label, k.Spacers, k.CutTo = label, -1.5, math.NaN()
		st.Candidates = append(st.Candidates, k)
	}
	var c bytes.Buffer
	if err := data.Choose().CSV(&c, data.Origin{}, st); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&c).ReadAll()
	if err != nil || len(rows) != len(labels)+1 {
		t.Fatal(err, len(rows))
	}
	for i, row := range rows[1:] {
		want := labels[i]
		if i < 6 {
			want = "'" + want
		}
		if row[0] != want || row[slices.Index(rows[0], "spacers_mm")] != "-1.5" {
			t.Errorf("%q: %q", labels[i], row[:8])
		}
	}
}

// JSON, CSV and text tell the same of every spring, and nothing of one that is refused.
func TestChooseAgrees(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	drawer, _ := scenarios.StockText(scenarios.DefaultStock)
	list, err := stock.Read(strings.NewReader(drawer), "drawer")
	if err != nil {
		t.Fatal(err)
	}
	list.Springs = append(list.Springs, stock.Spring{Label: "long", WidthMM: 32, ThicknessMM: 0.4, LengthMM: 3700, YieldMPa: math.NaN(), ModulusGPa: math.NaN(), MayBeCut: true})
	st, err := choose.Run(context.Background(), s, 0, list, choose.Options{Reserve: math.NaN(), EndShake: math.NaN()})
	if err != nil {
		t.Fatal(err)
	}
	var j, c, p bytes.Buffer
	if err := data.Choose().JSON(&j, data.Origin{}, st); err != nil {
		t.Fatal(err)
	}
	if err := data.Choose().CSV(&c, data.Origin{}, st); err != nil {
		t.Fatal(err)
	}
	if err := text.Choose(&p, st, text.Options{Full: true}); err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Order, First       string
		Candidates, Ideals []map[string]any
		Ideal, Present     map[string]any
	}
	if err := json.Unmarshal(j.Bytes(), &doc); err != nil || doc.First != "nothing" || len(doc.Candidates) != 16 || len(doc.Ideals) != 4 || doc.Ideal["thickness_mm"] != doc.Ideals[0]["thickness_mm"] {
		t.Fatalf("%v: %.300s", err, j.String())
	}
	rows, err := csv.NewReader(&c).ReadAll()
	if err != nil || len(rows) != 17 {
		t.Fatalf("%v, %d rows", err, len(rows))
	}
	refused, cut := 0, 0
	all := st.All()
	for i := range all {
		k, d := &all[i], doc.Candidates[i]
		cells := map[string]string{}
		for col, name := range rows[0] {
			cells[name] = rows[i+1][col]
		}
		own := map[string]any{"label": k.Label, "rank": float64(k.Rank), "width_mm": k.WidthMM, "thickness_mm": k.ThicknessMM, "length_mm": k.LengthMM, "cut_to_mm": k.CutTo, "spacers_mm": k.Spacers,
			"refused": words.ChooseRefused(st, k), "order": words.ChooseOrder(k), "loses": words.ChooseBehind(st, k)}
		if k.Own {
			own["rank"], own["loses"] = math.NaN(), d["loses"]
		}
		for name, want := range own {
			same(t, k.Label+" "+name, want, d[name], cells[name])
		}
		if k.CutTo == k.CutTo {
			cut++
		}
		for _, f := range outcome.All() {
			v := f.Of(&k.Digest)
			if !k.Fits() {
				v = math.NaN()
			}
			same(t, k.Label+" "+f.Name, v, within(d, f.Name), cells[f.Name])
		}
		if k.Own {
			if own := lineOf(p.String(), 0, k.Label); d["own"] != true || cells["own"] != "true" || !strings.Contains(own, k.Digest.Verdict.Code.String()) || d["order"] != nil {
				t.Errorf("%s: %v, %q", k.Label, d["own"], own)
			}
			continue
		}
		line := strings.Fields(lineOf(p.String(), k.Rank, k.Label))
		if !k.Fits() {
			refused++
			if d["verdict"] != nil || d["spring"] != nil || cells["verdict.code"] != "" || strings.Join(line[2:5], " ") != "does not fit" {
				t.Errorf("%s is refused and has figures", k.Label)
			}
			continue
		}
		same(t, k.Label+" verdict", k.Digest.Verdict.Code.String(), within(d, "verdict.code"), cells["verdict.code"])
		r := k.Digest.Torque
		for col, want := range map[int]string{2: k.Digest.Verdict.Code.String(), 3: words.InHundred(&k.Digest), 8: words.Two(k.Digest.Spring.SetUp), 9: words.Figure(r.Mean), 10: words.Two(r.Mean / 0.33), 11: words.Two(r.Min / 0.33), 12: words.Share(r.Unevenness), 13: words.Two(k.Digest.Spare())} {
			if line[col] != want {
				t.Errorf("%s: %s in the text, want %s", k.Label, line[col], want)
			}
		}
	}
	if refused != 4 || cut != 1 || doc.Order != words.ChooseOrder(&st.Candidates[0]) {
		t.Errorf("%d refused, %d cut, order %q", refused, cut, doc.Order)
	}
	for i := range st.Ideals {
		id, d := &st.Ideals[i], doc.Ideals[i]
		same(t, "ideal", id.Thickness, d["thickness_mm"], "-")
		same(t, "ideal", id.Digest.Torque.Mean, within(d, outcome.MeanTorque), "-")
		same(t, "ideal", words.IdealOrder(id), d["order"], "-")
		if o, ok := d["ordered"].(map[string]any); ok != id.Ordered.Known() || ok && (o["length_mm"] != id.Ordered.Length || within(o, outcome.MeanTorque) != id.Ordered.Digest.Torque.Mean) {
			t.Errorf("ordered %v, want %+v", o, id.Ordered)
		}
	}
	same(t, "present", st.Present.Digest.Torque.Mean, within(doc.Present, outcome.MeanTorque), "-")
}

// within is the value of a name with a dot.
func within(d map[string]any, name string) any {
	table, key, nested := strings.Cut(name, ".")
	if !nested {
		return d[name]
	}
	if inner, ok := d[table].(map[string]any); ok {
		return inner[key]
	}
	return nil
}

// lineOf is the row of a spring in the table of the text.
func lineOf(page string, rank int, label string) string {
	for line := range strings.Lines(page) {
		if f := strings.Fields(line); len(f) > 5 && f[0] == strconv.Itoa(rank) && f[1] == label || rank == 0 && strings.HasPrefix(strings.TrimSpace(line), "–  "+label) {
			return line
		}
	}
	return ""
}

// same wants a value to be that of the JSON and of the cell; "-": no cell.
func same(t *testing.T, what string, want, got any, cell string) {
	t.Helper()
	number, isNumber := want.(float64)
	says, isText := want.(string)
	switch {
	case isNumber && (math.IsNaN(number) || math.IsInf(number, 0)), isText && says == "":
		if got != nil || cell != "" && cell != "-" {
			t.Errorf("%s: %v, %q; want nothing", what, got, cell)
		}
	case isNumber:
		if v, err := strconv.ParseFloat(cell, 64); got != want || cell != "-" && (err != nil || v != number) {
			t.Errorf("%s: %v, %q; want %v", what, got, cell, want)
		}
	case got != want || cell != "-" && cell != says:
		t.Errorf("%s: %v, %q; want %v", what, got, cell, want)
	}
}
