package data

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/outcome"
	"evenpull/sim/show/words"

	"github.com/santhosh-tekuri/jsonschema/v6"
)

// thing has a member of every kind.
type thing struct {
	x       float64
	n       int
	yes     bool
	name    string
	says    []string
	numbers []float64
	part    *thing
	parts   []thing
}

func things() Document[thing] {
	plain := Object[thing]{
		Number("x", "a number", "mm", func(t *thing) float64 { return t.x }),
		Whole("n", "a count", func(t *thing) int { return t.n }),
		Flag("yes", "a flag", func(t *thing) bool { return t.yes }),
		Text("name", "a name", func(t *thing) string { return t.name }),
		Texts("says", "sentences", func(t *thing) []string { return t.says }),
	}
	whole := append(slices.Clone(plain), Numbers("numbers", "several", "s", func(t *thing) []float64 { return t.numbers }),
		Sub("part", "a part", plain, func(t *thing) *thing { return t.part }), List("parts", "parts", plain, func(t *thing) []thing { return t.parts }))
	whole = append(whole, Object[thing]{Within(Object[thing]{Number("inner", "of the part", "", func(t *thing) float64 { return t.x })}, func(t *thing) *thing { return t.part })[0]}...)
	return Document[thing]{whole, rows(whole, func(t *thing) []thing { return []thing{*t} })}
}

func written(t testing.TB, write func(io.Writer) error) string {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestObjects(t *testing.T) {
	full := thing{1.5, 3, true, `a "b" <c>`, []string{"one", "two"}, []float64{1, math.NaN()}, &thing{x: -2e-3, name: "p"}, []thing{{x: 7}}}
	for _, c := range []struct {
		of   thing
		want string
		csv  string
	}{
		{full, `{"x":1.5,"n":3,"yes":true,"name":"a \"b\" <c>","says":["one","two"],"numbers":[1,null],"part":{"x":-0.002,"n":0,"yes":false,"name":"p","says":[]},"parts":[{"x":7,"n":0,"yes":false,"name":null,"says":[]}],"inner":-0.002}`,
			`1.5,3,true,"a ""b"" <c>",one; two,-0.002,0,false,p,,-0.002`},
		{thing{x: math.Inf(1)}, `{"x":null,"n":0,"yes":false,"name":null,"says":[],"numbers":[],"part":null,"parts":[],"inner":null}`, `,0,false,,,,,,,,`},
	} {
		var got bytes.Buffer
		if err := json.Compact(&got, []byte(written(t, func(w io.Writer) error { return things().JSON(w, Origin{}, &c.of) }))); err != nil || got.String() != strings.Replace(c.want, "{", `{"evenpull":{"command":null,"version":null,"commit":null,"title":null,"files":[],"set":[],"seed":null},`, 1) {
			t.Errorf("%v\n%s, want\n%s", err, got.String(), c.want)
		}
		lines := strings.Split(written(t, func(w io.Writer) error { return things().CSV(w, Origin{}, &c.of) }), "\n")
		if lines[0] != "x,n,yes,name,says,part.x,part.n,part.yes,part.name,part.says,inner" || lines[1] != c.csv {
			t.Errorf("%q, want %q", lines, c.csv)
		}
	}
}

// A document is what its schema says, by a validator that is not ours.
func validate(t testing.TB, schema, document string) {
	t.Helper()
	s, err := jsonschema.UnmarshalJSON(strings.NewReader(schema))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("schema.json", s); err != nil {
		t.Fatal(err)
	}
	sch, err := c.Compile("schema.json")
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(document))
	if err != nil {
		t.Fatal(err)
	}
	if err := sch.Validate(doc); err != nil {
		t.Error(err)
	}
}

func TestSchemaHolds(t *testing.T) {
	schema := func(title string) string {
		return written(t, func(w io.Writer) error { return things().Schema(w, title) })
	}
	for _, of := range []thing{{}, {x: math.NaN(), part: &thing{}, parts: []thing{{}, {}}, numbers: []float64{1}}} {
		validate(t, schema("things"), written(t, func(w io.Writer) error { return things().JSON(w, Origin{}, &of) }))
	}
	said := schema("things")
	for _, want := range []string{`"$schema": "https://json-schema.org/draft/2020-12/schema"`, `"title": "things"`, `"description": "a number"`, `"unit": "mm"`, `"required": [`} {
		if !strings.Contains(said, want) {
			t.Errorf("no %s in %s", want, said)
		}
	}
	// What does not hold is told.
	s, _ := jsonschema.UnmarshalJSON(strings.NewReader(said))
	c := jsonschema.NewCompiler()
	_ = c.AddResource("s.json", s)
	sch := c.MustCompile("s.json")
	for _, bad := range []string{`{}`, `{"x":"1","n":0,"yes":false,"name":null,"says":[],"numbers":[],"part":null,"parts":[],"inner":null}`,
		`{"x":1,"n":0.5,"yes":false,"name":null,"says":[],"numbers":[],"part":null,"parts":[],"inner":null}`, `{"x":1,"n":0,"yes":false,"name":null,"says":[1],"numbers":[],"part":null,"parts":[{}],"inner":null}`} {
		doc, _ := jsonschema.UnmarshalJSON(strings.NewReader(bad))
		if sch.Validate(doc) == nil {
			t.Errorf("%s holds", bad)
		}
	}
}

func clock(t testing.TB, name string) *sim.Clock {
	t.Helper()
	s, _ := trial.Compile(t, name)
	c, err := sim.RunClock(s, sim.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// Every figure of the table is a column of a digest under its own name, with its
// own value: no two can be swapped.
func TestDigestColumns(t *testing.T) {
	for _, name := range scenarios.Names() {
		var list []sim.Digest
		for _, r := range clock(t, name).Trains {
			list = append(list, r.Digest)
		}
		lines, err := csv.NewReader(strings.NewReader(written(t, func(w io.Writer) error {
			return rows(Digest(), func(l *[]sim.Digest) []sim.Digest { return *l }).write(w, &list)
		}))).ReadAll()
		if err != nil || len(lines) != len(list)+1 {
			t.Fatal(err, len(lines))
		}
		for i := range list {
			if got := lines[i+1][slices.Index(lines[0], "verdict.code")]; got != list[i].Verdict.Code.String() {
				t.Errorf("%s: verdict %q", name, got)
			}
			for _, f := range outcome.All() {
				at := slices.Index(lines[0], f.Name)
				if at < 0 {
					t.Fatalf("no column %s", f.Name)
				}
				if want := f.Of(&list[i]); lines[i+1][at] != cellOf(want) {
					t.Errorf("%s: %s is %q, want %v", name, f.Name, lines[i+1][at], want)
				}
			}
		}
	}
}

func cellOf(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return ""
	}
	return strconv.FormatFloat(v, 'g', -1, 64)
}

// The rows of a run's CSV are its rows, column by column, each from its own field.
func TestRunCSV(t *testing.T) {
	c := clock(t, "three-trains")
	c.Trains[1].Faults |= 1 << sim.NoFloat // in a middle train
	lines, err := csv.NewReader(strings.NewReader(written(t, func(w io.Writer) error { return Run().CSV(w, Origin{}, c) }))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]func(*sim.Result, *sim.Row) float64{
		"fusee_turn": func(_ *sim.Result, r *sim.Row) float64 { return r.FuseeTurn }, "hours": func(_ *sim.Result, r *sim.Row) float64 { return r.Hours },
		"spring_turns": func(_ *sim.Result, r *sim.Row) float64 { return r.SpringTurns }, "spring_torque_nm": func(_ *sim.Result, r *sim.Row) float64 { return r.SpringTorque },
		"line_tension_n": func(_ *sim.Result, r *sim.Row) float64 { return r.LineTension }, "fusee_torque_nm": func(_ *sim.Result, r *sim.Row) float64 { return r.FuseeTorque },
		"winding_torque_nm": func(_ *sim.Result, r *sim.Row) float64 { return r.WindingTorque }, "fly_rev_per_s": func(_ *sim.Result, r *sim.Row) float64 { return r.FlySpeed },
		"blow_interval_s": func(_ *sim.Result, r *sim.Row) float64 { return r.BlowInterval }, "strike_twelve_s": func(_ *sim.Result, r *sim.Row) float64 { return r.Twelve },
		"reserve":         func(res *sim.Result, r *sim.Row) float64 { return r.FuseeTorque / res.Need.Used },
		"fleet_angle_deg": func(_ *sim.Result, r *sim.Row) float64 { return math.Atan(r.Fleet) * 180 / math.Pi },
		"amplitude_deg":   func(res *sim.Result, r *sim.Row) float64 { return onlyGoing(res, r.Amplitude*180/math.Pi) }, "rate_s_per_day": func(res *sim.Result, r *sim.Row) float64 { return onlyGoing(res, r.Rate*86400) },
		"escape_torque_nm": func(res *sim.Result, r *sim.Row) float64 { return onlyGoing(res, r.LastTorque) },
	}
	texts := map[string]func(*sim.Result) string{
		"train": func(r *sim.Result) string { return r.Name }, "verdict.code": func(r *sim.Result) string { return r.Verdict.Code.String() },
		"verdict.faults": func(r *sim.Result) string { return strings.Join(words.Faults(&r.Digest), "; ") },
	}
	if len(lines[0]) != len(want)+len(texts) {
		t.Errorf("%q", lines[0])
	}
	at := 1
	for i := range c.Trains {
		for k := range c.Trains[i].Rows {
			for col, name := range lines[0] {
				cell := lines[at][col]
				if text, is := texts[name]; is {
					if cell != text(&c.Trains[i]) || name == "verdict.faults" && (cell == "") == (i == 1) {
						t.Fatalf("line %d: %s is %q", at, name, cell)
					}
					continue
				}
				v := want[name](&c.Trains[i], &c.Trains[i].Rows[k])
				got, err := strconv.ParseFloat(cell, 64)
				if math.IsNaN(v) != (cell == "") || cell != "" && (err != nil || math.Abs(got-v) > 1e-12*math.Abs(v)) {
					t.Errorf("line %d: %s is %q, want %v", at, name, cell, v)
				}
			}
			at++
		}
	}
}

func onlyGoing(r *sim.Result, v float64) float64 {
	if r.Kind != sim.Going {
		return math.NaN()
	}
	return v
}

func TestRunSchema(t *testing.T) {
	schema := written(t, func(w io.Writer) error { return Run().Schema(w, "run") })
	for _, name := range scenarios.Names() {
		validate(t, schema, written(t, func(w io.Writer) error { return Run().JSON(w, Origin{}, clock(t, name)) }))
	}
	for _, f := range outcome.All() {
		_, key, nested := strings.Cut(f.Name, ".")
		if !nested {
			key = f.Name
		}
		if !strings.Contains(schema, fmt.Sprintf("%q: {", key)) || !strings.Contains(schema, f.Words) {
			t.Errorf("the schema lacks %s", f.Name)
		}
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, io.ErrShortWrite }

func TestErrorsAreTold(t *testing.T) {
	if things().JSON(full{}, Origin{}, &thing{}) == nil || things().CSV(full{}, Origin{}, &thing{}) == nil || things().Schema(full{}, "") == nil {
		t.Error("a full disk is no error")
	}
}
