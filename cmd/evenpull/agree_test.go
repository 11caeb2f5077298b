package main

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"evenpull/scenarios"

	"github.com/santhosh-tekuri/jsonschema/v6"
)

// item is an object of a document, its members by their names with dots.
type item map[string]any

// itemsOf are the objects of a list, each with further members.
func itemsOf(list any, more item) []item {
	objects, _ := list.([]any)
	all := make([]item, len(objects))
	for i, o := range objects {
		all[i] = item{}
		flatten(all[i], "", o)
		for name, v := range more {
			all[i][name] = v
		}
	}
	return all
}

func flatten(into item, at string, v any) {
	o, nested := v.(map[string]any)
	if !nested {
		into[at] = v
		return
	}
	for name, inner := range o {
		flatten(into, strings.TrimPrefix(at+"."+name, "."), inner)
	}
}

// listed makes the list of one member of the document.
func listed(name string) func(item) []item {
	return func(doc item) []item { return itemsOf(doc[name], nil) }
}

// pairsOf are the pairs of assign. The figures of the spring, which CSV names as run
// does, are below another name in the JSON: there "spring" is the label.
func pairsOf(doc item) []item {
	pairs := itemsOf(doc["pairs"], nil)
	for _, p := range pairs {
		for name, v := range p {
			if key, ok := strings.CutPrefix(name, "spring_in_train."); ok {
				p["spring."+key] = v
			}
		}
	}
	return pairs
}

// forms are commands whose CSV, JSON and text are to agree: rows are the lines of the
// CSV in the JSON; a line of the table below head has the figures of columns, "" for
// what is no figure.
var forms = []struct {
	args    string
	samples []string
	rows    func(doc item) []item
	head    string
	columns string
	inTable func(row item) bool // nil: all of them
}{
	{"run SAMPLE --train TRAIN", nil, func(doc item) (all []item) {
		for _, t := range doc["trains"].([]any) {
			train := t.(map[string]any)
			verdict := train["verdict"].(map[string]any)
			turns := itemsOf(train["turns"], item{"train": train["name"], "verdict.code": verdict["code"], "verdict.faults": verdict["faults"]})
			turns[0]["first"] = true // which the table has wherever the run starts
			all = append(all, turns...)
		}
		return all
	}, "fusee  hours  spring  spring", "fusee_turn hours spring_turns spring_torque_nm line_tension_n fusee_torque_nm winding_torque_nm reserve", func(row item) bool {
		turn := row["fusee_turn"].(float64)
		return turn == math.Trunc(turn) || row["first"] == true
	}},
	{"sweep SAMPLE --train TRAIN --steps 9", nil, listed("points"), "value  verdict", "value verdict.code fusee_torque_nm.mean fusee_torque_nm.min fusee_torque_nm.max fusee_torque_nm.unevenness% reserve.mean reserve.min spring.turns_available",
		func(row item) bool { return row["fault"] == nil }},
	{"setup SAMPLE --train TRAIN", nil, listed("curve"), "set-up  unevenness", "spring.set_up_turns fusee_torque_nm.unevenness% fusee_torque_nm.cv% fusee_torque_nm.mean reserve.mean reserve.min spring.turns_to_spare", nil},
	{"choose SAMPLE --train TRAIN", nil, listed("candidates"), "sure  width  thick", "  verdict.code verdict.sure% width_mm thickness_mm  spacers_mm spring.set_up_turns fusee_torque_nm.mean reserve.mean reserve.min fusee_torque_nm.unevenness% spring.turns_to_spare",
		func(row item) bool { return row["refused"] == nil }},
	{"cut SAMPLE --train TRAIN", nil, listed("turns"), "", "", nil},
	{"beat SAMPLE --train TRAIN", nil, listed("approach"), "", "", nil},
	{"coils SAMPLE --train TRAIN --turns 2,2.5 --nodes 24 --friction 0", []string{"eight-day", "strike-quick"}, listed("turns"), "turns  winding", "spring_turns winding_nm running_down_nm spring_torque_nm closed_form_nm closed_form_off% coil_efficiency%", nil},
	{"assign --scenario three-trains", []string{""}, pairsOf, "spring  train     read in", "   fusee_torque_nm.mean fusee_torque_nm.min fusee_torque_nm.unevenness% reserve.mean reserve.min off_middle%", nil},
	{"assign", []string{""}, pairsOf, "", "", nil},
	{"rank SAMPLE --train TRAIN --shares=false", nil, func(doc item) (all []item) {
		for _, r := range append([]any{map[string]any(doc)}, doc["others"].([]any)...) {
			ranking := r.(map[string]any)
			all = append(all, itemsOf(ranking["inputs"], item{"of": ranking["of"], "result": ranking["result"]})...)
		}
		return all
	}, "", "", nil},
	{"spread SAMPLE --runs 200 --shares=false", []string{"eight-day"}, func(doc item) (all []item) {
		for name, r := range doc["results"].(map[string]any) {
			all = append(all, itemsOf([]any{r}, item{"result": name})...)
		}
		return all
	}, "", "", nil},
	{"record --scenario three-trains", []string{""}, func(doc item) (all []item) {
		for _, s := range doc["supplies"].([]any) {
			supply := s.(map[string]any)
			for list, winding := range map[string]bool{"turns": false, "winding": true} {
				all = append(all, itemsOf(supply[list], item{"train": supply["train"], "spring": supply["spring"], "winding": winding})...)
			}
		}
		return all
	}, "", "", nil},
}

// calls are the command lines of a form, for every sample and train that it takes.
func calls(t *testing.T, args string, samples []string) (all []string) {
	t.Helper()
	if samples == nil {
		samples = scenarios.Names()
	}
	for _, name := range samples {
		trains := []string{""}
		if strings.Contains(args, "TRAIN") {
			sc, err := scenarios.Load(name)
			if err != nil {
				t.Fatal(err)
			}
			trains = trains[:0]
			for i := range sc.Trains {
				if sc.Trains[i].Kind == "going" || !strings.HasPrefix(args, "beat") {
					trains = append(trains, sc.Trains[i].Name)
				}
			}
		}
		for _, train := range trains {
			all = append(all, strings.NewReplacer("SAMPLE", name, "TRAIN", train).Replace(args))
		}
	}
	return all
}

// In each command CSV, JSON and text agree for every figure that two of them tell, and
// the JSON is as its schema says.
func TestFormatsAgree(t *testing.T) {
	for _, f := range forms {
		for _, line := range calls(t, f.args, f.samples) {
			said := map[string]string{}
			for _, format := range []string{"json", "csv", "text"} {
				code, out, errs := call(t, "", few(append(strings.Fields(line), "--full", "--format", format))...)
				if code != exitDone {
					t.Fatalf("%s: %s", line, errs)
				}
				said[format] = out
			}
			command, _, _ := strings.Cut(line, " ")
			holdsSchema(t, line, command, said["json"])
			doc := item{}
			if err := json.Unmarshal([]byte(said["json"]), &doc); err != nil {
				t.Fatal(err)
			}
			rows := f.rows(doc)
			csvAgrees(t, line, said["csv"], rows)
			if f.head != "" {
				if f.inTable != nil {
					rows = slices.DeleteFunc(rows, func(row item) bool { return !f.inTable(row) })
				}
				if now, ok := doc["now"]; ok { // a set-up with which the fusee cannot be wound stands below the others
					rows = append(rows, itemsOf([]any{now}, nil)...)
				}
				// A spring that does not fit has no figures to agree.
				fits := slices.DeleteFunc(strings.Split(said["text"], "\n"), func(l string) bool { return strings.Contains(l, "  does not fit  ") })
				tableAgrees(t, line, strings.Join(fits, "\n"), f.head, strings.Split(f.columns, " "), rows)
			}
		}
	}
}

// holdsSchema validates a document, by a validator that is not ours.
func holdsSchema(t *testing.T, line, command, document string) {
	t.Helper()
	_, said, _ := call(t, "", "schema", command)
	s, err := jsonschema.UnmarshalJSON(strings.NewReader(said))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("schema.json", s); err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(document))
	if err != nil {
		t.Fatal(err)
	}
	if err := c.MustCompile("schema.json").Validate(doc); err != nil {
		t.Errorf("%s: %v", line, err)
	}
}

// csvAgrees wants each cell to be the member of its column's name. Lines need not be in
// the order of the items.
func csvAgrees(t *testing.T, line, said string, rows []item) {
	t.Helper()
	lines, err := rowsOf(said)
	if err != nil || len(lines) != len(rows)+1 {
		t.Fatalf("%s: %v, %d lines for %d items", line, err, len(lines), len(rows))
	}
	want := make([]string, len(rows))
	for i, row := range rows {
		cells := make([]string, len(lines[0]))
		for k, name := range lines[0] {
			v, there := row[name]
			if table, _, nested := strings.Cut(name, "."); nested && !there {
				if whole, there := row[table]; !there || whole != nil {
					t.Fatalf("%s: the JSON has no %s", line, name)
				}
			} else if !there {
				t.Fatalf("%s: the JSON has no %s", line, name)
			}
			cells[k] = cellWanted(v)
		}
		want[i] = strings.Join(cells, "\x00")
	}
	got := make([]string, len(rows))
	for i := range got {
		got[i] = strings.Join(lines[i+1], "\x00")
	}
	slices.Sort(got)
	slices.Sort(want)
	for i := range got {
		if got[i] != want[i] {
			t.Fatalf("%s: the CSV has\n%q, the JSON\n%q", line, got[i], want[i])
		}
	}
}

// rowsOf are the lines of a CSV below its remarks.
func rowsOf(said string) ([][]string, error) {
	r := csv.NewReader(strings.NewReader(said))
	r.Comment = '#'
	return r.ReadAll()
}

// cellWanted is a value of JSON as a cell.
func cellWanted(v any) string {
	switch v := v.(type) {
	case nil:
		return ""
	case float64:
		if s := strconv.FormatFloat(v, 'f', 0, 64); v == math.Trunc(v) && math.Abs(v) < 1e6 && !(v == 0 && math.Signbit(v)) {
			return s
		}
		return strconv.FormatFloat(v, 'g', -1, 64)
	case []any:
		texts := make([]string, len(v))
		for i := range v {
			texts[i] = fmt.Sprint(v[i])
		}
		return strings.Join(texts, "; ")
	}
	return fmt.Sprint(v)
}

var gap = regexp.MustCompile(`\s{2,}`)

// tableAgrees wants the lines of a table to have the figures of the rows, rounded.
func tableAgrees(t *testing.T, line, said, head string, columns []string, rows []item) {
	t.Helper()
	_, table, found := strings.Cut(said, head)
	if !found {
		t.Fatalf("%s: no table %q", line, head)
	}
	table, _, _ = strings.Cut(table, "\n\n")
	at, compared := 0, 0
	for _, l := range strings.Split(table, "\n")[2:] {
		cells := gap.Split(strings.TrimLeft(l, " >"), -1)
		if len(cells) < len(columns) || slices.Contains(cells, "refused") {
			continue
		}
		for columns[0] != "" && at < len(rows) && !rounds(cells[0], rows[at][columns[0]]) {
			at++ // of many the table has some
		}
		if at == len(rows) {
			t.Errorf("%s: the JSON has nothing for the line %q", line, l)
			return
		}
		for i, name := range columns {
			name, percent := strings.CutSuffix(name, "%")
			v := rows[at][name]
			if x, ok := v.(float64); ok && percent {
				v = 100 * x
			}
			if lost, _ := rows[at]["turns_lost"].(float64); cells[i] == "binds" && name == "spring.turns_to_spare" && lost > 0 {
				continue // it has turns, by a packing that it does not have
			}
			if name != "" && !rounds(cells[i], v) {
				t.Errorf("%s: %s is %q in the text, %v in the JSON", line, name, cells[i], v)
			}
		}
		at++
		compared++
	}
	if compared == 0 || columns[0] == "" && compared != len(rows) {
		t.Errorf("%s: %d lines of the table %q, %d items", line, compared, head, len(rows))
	}
}

// rounds tells whether a cell is a value rounded, to the last place that it shows or to
// three figures.
func rounds(cell string, v any) bool {
	x, number := v.(float64)
	bound, below := strings.CutPrefix(cell, "< ")
	bound, above := strings.CutPrefix(bound, "> ")
	cell = strings.NewReplacer("−", "-", "+", "").Replace(bound)
	shown, err := strconv.ParseFloat(cell, 64)
	switch {
	case !number:
		return v == nil && cell == "–" || v != nil && strings.HasPrefix(cell, fmt.Sprint(v))
	case err != nil:
		return false
	case below:
		return x < shown
	case above:
		return x > shown
	}
	whole, places, _ := strings.Cut(strings.TrimPrefix(cell, "-"), ".")
	unit := math.Pow10(-len(places))
	if places == "" && len(whole) > 3 {
		unit = math.Pow10(len(whole) - 3)
	}
	return math.Abs(x-shown) <= 0.5*unit*(1+1e-9)
}
