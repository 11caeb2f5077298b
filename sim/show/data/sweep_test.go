package data

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"errors"
	"io"
	"math"
	"slices"
	"strings"
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/outcome"
	"evenpull/sim/show/words"
	"evenpull/sim/study/sweep"
	"evenpull/sim/vary"
)

const thickness = "going.mainspring.thickness_mm"

// sheet is a CSV: the lines as cells by their column.
func sheet(t testing.TB, write func(io.Writer) error) (header []string, lines []map[string]string) {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b); err != nil {
		t.Fatal(err)
	}
	all, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, cells := range all[1:] {
		line := map[string]string{}
		for i, c := range cells {
			line[all[0][i]] = c
		}
		if len(line) != len(cells) {
			t.Fatalf("two columns of one name in %v", all[0])
		}
		lines = append(lines, line)
	}
	return all[0], lines
}

// document is a JSON.
func document(t testing.TB, write func(io.Writer) error) map[string]any {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b); err != nil {
		t.Fatal(err)
	}
	var doc map[string]any
	if err := json.Unmarshal(b.Bytes(), &doc); err != nil {
		t.Fatal(err)
	}
	return doc
}

// runColumns are the columns of a digest.
func runColumns() []string {
	return append([]string{"verdict.code", "verdict.sure", "verdict.else", "verdict.decides", "verdict.decides_sure", "verdict.decides_within", "verdict.decides_with", "verdict.decides_with_sure",
		"verdict.reasons", "verdict.faults", "verdict.loads_off", "verdict.notes"}, outcome.Names()...)
}

// sureness is what a digest tells of how sure its verdict is.
func sureness(d *sim.Digest) map[string]any {
	s := d.Verdict.Sureness
	by, nan := &s.Decides, math.NaN()
	all := map[string]any{"verdict.sure": nan, "verdict.else": s.Else.String(), "verdict.decides": by.Inputs[0].Key, "verdict.decides_sure": nan,
		"verdict.decides_within": nan, "verdict.decides_with": strings.Join(by.With(), "; "), "verdict.decides_with_sure": nan}
	if s.Draws > 0 {
		all["verdict.sure"] = s.Same
	}
	if by.Inputs[0].Key != "" {
		all["verdict.decides_sure"], all["verdict.decides_within"], all["verdict.decides_with_sure"] = by.Alone, by.Inputs[0].Within, by.All
	}
	return all
}

// wantRun compares what a line has of a run with the figures of that name; all
// empty where there is none.
func wantRun(t *testing.T, line map[string]string, d *sim.Digest) {
	t.Helper()
	want := map[string]string{}
	for _, name := range runColumns() {
		want[name] = ""
		if f, err := outcome.Named(name); err == nil && d != nil {
			want[name] = cellOf(f.Of(d))
		}
	}
	if d != nil {
		for name, v := range sureness(d) {
			if f, is := v.(float64); is {
				v = cellOf(f)
			}
			want[name] = v.(string)
		}
		want["verdict.code"], want["verdict.loads_off"] = d.Verdict.Code.String(), d.Verdict.LoadsOff.String()
		want["verdict.reasons"], want["verdict.faults"], want["verdict.notes"] = strings.Join(words.Reasons(d), "; "), strings.Join(words.Faults(d), "; "), strings.Join(words.Notes(d), "; ")
	}
	for name, w := range want {
		if got, there := line[name]; !there || got != w {
			t.Errorf("%s: %q, want %q", name, got, w)
		}
	}
}

// wantRunJSON is wantRun for an object.
func wantRunJSON(t *testing.T, of map[string]any, d *sim.Digest) {
	t.Helper()
	for _, f := range outcome.All() {
		table, key, nested := strings.Cut(f.Name, ".")
		v, there := of[table]
		if sub, ok := v.(map[string]any); nested && ok {
			v, there = sub[key]
		}
		if !there {
			t.Errorf("no %s", f.Name)
		}
		if d == nil || math.IsNaN(f.Of(d)) {
			if v != nil {
				t.Errorf("%s: %v where nothing applies", f.Name, v)
			}
		} else if v != f.Of(d) {
			t.Errorf("%s: %v, want %v", f.Name, v, f.Of(d))
		}
	}
	verdict, _ := of["verdict"].(map[string]any)
	if d == nil {
		if of["verdict"] != nil {
			t.Errorf("verdict %v", of["verdict"])
		}
	} else if verdict["code"] != d.Verdict.Code.String() || len(verdict["reasons"].([]any)) != len(words.Reasons(d)) {
		t.Errorf("verdict %v", verdict)
	}
}

func sweepOf(t testing.TB, sample string, o sweep.Options) *sweep.Study {
	t.Helper()
	s, _ := trial.Compile(t, sample)
	st, err := sweep.Run(context.Background(), s, 0, o)
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// samplesOfSweeps are a sweep with points that cannot be built, one of a striking
// train, and a map.
func samplesOfSweeps(t testing.TB) []*sweep.Study {
	nan := math.NaN()
	uneven, err := outcome.Named(outcome.Unevenness)
	if err != nil {
		t.Fatal(err)
	}
	return []*sweep.Study{
		sweepOf(t, "eight-day", sweep.Options{Over: sweep.Axis{Key: thickness, From: 0.2, To: 3, Steps: 12}}),
		sweepOf(t, "strike-quick", sweep.Options{Over: sweep.Axis{Key: "striking.line.efficiency", From: 0.7, To: 1.2, Steps: 5}, Of: uneven, Hold: vary.Fill}),
		sweepOf(t, "eight-day", sweep.Options{Over: sweep.Axis{Key: thickness, From: nan, To: nan, Steps: 3}, Against: &sweep.Axis{Key: "place.gravity_m_s2", From: 9.7, To: 9.9, Steps: 4}}),
	}
}

func TestSweepCSV(t *testing.T) {
	for _, st := range samplesOfSweeps(t) {
		header, lines := sheet(t, func(w io.Writer) error { return Sweep().CSV(w, Origin{}, st) })
		if want := append([]string{"value", "value2", "fault"}, runColumns()...); !slices.Equal(header, want) || len(lines) != len(st.Points) {
			t.Fatalf("%d lines of %v, want %v", len(lines), header, want)
		}
		for i, line := range lines {
			p := &st.Points[i]
			if line["value"] != cellOf(p.Value) || line["value2"] != cellOf(p.Value2) || line["fault"] != p.Fault {
				t.Errorf("%v at %v, %v", line["value"], p.Value, p.Value2)
			}
			if p.Built() {
				wantRun(t, line, p.Run())
			} else {
				wantRun(t, line, nil)
			}
		}
	}
}

func TestSweepJSON(t *testing.T) {
	unbuilt := 0
	for _, st := range samplesOfSweeps(t) {
		doc := document(t, func(w io.Writer) error { return Sweep().JSON(w, Origin{}, st) })
		want := map[string]any{
			"train": st.Own.Name, "over": st.Over.Key, "unit": textOrNull(st.Over.Quantity.Unit), "value": st.Over.Value, "against": nil, "unit2": nil, "value2": nil,
			"hold": st.Hold.String(), "of": st.Of.Name, "exponent": st.Exponent.Value, "exponent_error": st.Exponent.Error,
		}
		if a := st.Against; a != nil {
			want["against"], want["unit2"], want["value2"] = a.Key, a.Quantity.Unit, a.Value
		}
		for key, w := range want {
			if got, there := doc[key]; !there || got != w {
				t.Errorf("%s: %v, want %v", key, got, w)
			}
		}
		own := doc["own"].(map[string]any)
		wantRunJSON(t, own, st.Own.Digest)
		if own["value"] != st.Over.Value || own["value2"] != want["value2"] || own["fault"] != nil {
			t.Errorf("own %v", own)
		}
		points := doc["points"].([]any)
		for i := range st.Points {
			p, got := &st.Points[i], points[i].(map[string]any)
			if got["value"] != p.Value || p.Built() != (got["fault"] == nil) || !p.Built() && got["fault"] != p.Fault {
				t.Errorf("a point %v, want %v", got, p.Value)
			}
			if p.Built() {
				wantRunJSON(t, got, p.Run())
			} else {
				unbuilt++
				wantRunJSON(t, got, nil)
			}
		}
		for i, c := range st.Changes {
			if got := doc["verdict_changes"].([]any)[i].(map[string]any); got["at"] != c.At || got["below"] != c.Below.String() || got["above"] != c.Above.String() {
				t.Errorf("a change %v, want %v", got, c)
			}
		}
		for i, l := range st.Limits {
			if got := doc["limits"].([]any)[i].(map[string]any); got["at"] != l.At || got["cannot_be_built"] != map[bool]string{true: "above", false: "below"}[l.Above] || got["fault"] != l.Fault {
				t.Errorf("a limit %v, want %v", got, l)
			}
		}
		if n := len(doc["verdict_changes"].([]any)); n != len(st.Changes) || len(doc["limits"].([]any)) != len(st.Limits) || len(points) != len(st.Points) || !strings.Contains(doc["cautions"].([]any)[0].(string), "eye protection") {
			t.Errorf("%d changes, %d points, cautions %v", n, len(points), doc["cautions"])
		}
	}
	if unbuilt == 0 {
		t.Error("every point could be built")
	}
}

func textOrNull(s string) any {
	if s == "" {
		return nil
	}
	return s
}

// A document is laid out as encoding/json indents it.
func TestLayout(t *testing.T) {
	for _, st := range samplesOfSweeps(t) {
		var flat, want bytes.Buffer
		got := written(t, func(w io.Writer) error { return Sweep().JSON(w, Origin{}, st) })
		if err := errors.Join(json.Compact(&flat, []byte(got)), json.Indent(&want, flat.Bytes(), "", "  ")); err != nil {
			t.Fatal(err)
		}
		if got != want.String()+"\n" {
			t.Errorf("%.600s\nwant\n%.600s", got, want.String())
		}
	}
}

// What goes wrong with the file shows.
func TestJSONOfAFullDisk(t *testing.T) {
	if err := Sweep().JSON(full{}, Origin{}, samplesOfSweeps(t)[2]); err == nil {
		t.Error("no error")
	}
}
