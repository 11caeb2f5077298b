package main

import (
	"encoding/json"
	"regexp"
	"strings"
	"testing"

	"evenpull/sim/outcome"
)

// printed is a table as people read it: its whole heads, the members of the JSON that
// its cells have ("" for none to compare, "?" before one whose cell may be missing), and
// the items that its lines may be of.
type printed struct {
	heads   []string
	columns string
	rows    []item
	most    bool // the lines are those of the first items, or fewer
}

// tables are those of the commands that tell more than one, in the order of the text.
var tables = []struct {
	args    string
	samples []string
	of      func(doc item) []printed
}{
	{"rank SAMPLE --train TRAIN --shares=false --of reserve.min --of fusee_torque_nm.unevenness", nil, rankTables},
	{"spread SAMPLE --runs 200 --shares=false", []string{"eight-day"}, spreadTables},
	{"cut SAMPLE --train TRAIN --anyway", nil, cutTables},
	{"cut SAMPLE --train TRAIN --from-blank", []string{"eight-day"}, cutTables},
	{"record --scenario three-trains --full", []string{""}, recordTables},
	{"record --full", []string{""}, recordTables},
}

func rankTables(doc item) (all []printed) {
	for _, r := range append([]any{map[string]any(doc)}, doc["others"].([]any)...) {
		all = append(all, printed{[]string{"input  value    moved by  less makes  more makes  by 1 %"},
			" value ?unit  minus plus elasticity", itemsOf(r.(map[string]any)["inputs"], nil), true})
	}
	return all
}

func spreadTables(doc item) []printed {
	var results []item
	of := doc["results"].(map[string]any)
	for _, f := range outcome.All() {
		if d, ok := of[f.Name]; ok && d.(map[string]any)["n"] != 0.0 {
			more := item{"words": f.Words}
			if f.Unit != "" {
				more["unit"] = f.Unit
			}
			results = append(results, itemsOf([]any{d}, more)...)
		}
	}
	return []printed{
		{[]string{"input  value    may be off  by its  alone  in all"}, "  ?unit    ", itemsOf(doc["inputs"], nil), false},
		{[]string{"result    as it is  mean  strays  half lie  95 % lie", "below  between  and"}, "words ?unit own mean sd p50 p025 p975", results, false},
	}
}

func cutTables(doc item) []printed {
	ways := []any{doc["now"], doc["set_up"]}
	switch {
	case doc["from_blank"] == true:
		ways = append(ways, doc["after"])
	case doc["nothing_to_cut"] == false || doc["cannot_be_cut"] != nil:
		ways = append(ways, doc["cut_present_set_up"], doc["cut_least_metal"])
	}
	return []printed{
		{[]string{"set-up  unevenness  mean  reserve  reserve  to spare  metal off  sure", "turns  %  N·m  mean  least  turns  mm³  verdict  in 100"},
			" spring.set_up_turns fusee_torque_nm.unevenness% fusee_torque_nm.mean reserve.mean reserve.min spring.turns_to_spare removed_mm3 verdict.code verdict.sure%", itemsOf(ways, nil), false},
		{[]string{"fusee  along  groove  lands  now  to remove  torque now  torque after  free line  fleet", "turn  mm  mm  mm  mm  mm  N·m  N·m  mm  °"},
			"fusee_turn along_mm diameter_mm over_lands_mm now_mm remove_mm now_fusee_torque_nm fusee_torque_nm free_span_mm fleet_angle_deg", itemsOf(doc["turns"], nil), false},
	}
}

func recordTables(doc item) (all []printed) {
	for _, n := range doc["needs"].([]any) {
		all = append(all, printed{[]string{"weight, g  torque, N·m"}, "mass_g torque_nm ", itemsOf(n.(map[string]any)["trials"], nil), false})
	}
	for _, s := range doc["supplies"].([]any) {
		supply := s.(map[string]any)
		for _, way := range []struct{ list, says string }{{"turns", "running down"}, {"winding", "winding up"}} {
			rows := itemsOf(supply[way.list], nil)
			heads := []string{"turn  reads  mean  scatter  ±", "N·m  N·m  N·m  " + way.says}
			columns := "fusee_turn n mean_nm sd_nm half_width_95_nm ?outlier_nm"
			if supply["predicted"] != nil {
				heads[0], heads[1] = heads[0]+"  predicted  apart", heads[1]+"  N·m  N·m"
				columns += " predicted_nm residual_nm"
			}
			if len(rows) > 0 {
				all = append(all, printed{heads, columns, rows, false})
			}
		}
	}
	return all
}

// Each cell of the tables is what the JSON has, rounded, and below the head that its
// column has.
func TestTablesAgree(t *testing.T) {
	for _, f := range tables {
		for _, line := range calls(t, f.args, f.samples) {
			doc, said := docAndText(t, line)
			left := strings.Split(said, "\n")
			for _, p := range f.of(doc) {
				left = p.agrees(t, line, left)
			}
		}
	}
}

// docAndText is what a command says as JSON and as text.
func docAndText(t *testing.T, line string) (doc item, said string) {
	t.Helper()
	code, out, errs := call(t, "", few(append(strings.Fields(line), "--format", "json"))...)
	if code != exitDone {
		t.Fatalf("%s: %s", line, errs)
	}
	if err := json.Unmarshal([]byte(out), &doc); err != nil {
		t.Fatal(err)
	}
	if code, said, errs = call(t, "", few(append(strings.Fields(line), "--full", "--format", "text"))...); code != exitDone {
		t.Fatalf("%s: %s", line, errs)
	}
	return doc, said
}

// cellsOf are the cells of a line, as they stand apart.
func cellsOf(line string) []string { return gap.Split(strings.TrimSpace(line), -1) }

// agrees compares the next table that has the heads, and gives the lines below it.
func (p *printed) agrees(t *testing.T, line string, lines []string) []string {
	t.Helper()
	flat := func(s string) string { return strings.Join(strings.Fields(s), " ") }
	headed := func(at int) bool {
		for i, h := range p.heads {
			if at+i >= len(lines) || flat(lines[at+i]) != flat(h) {
				return false
			}
		}
		return true
	}
	at := 0
	for ; !headed(at); at++ {
		if at == len(lines) {
			t.Fatalf("%s: no table %q", line, p.heads)
		}
	}
	n := 0
	for at += len(p.heads); at < len(lines) && n < len(p.rows) && len(cellsOf(lines[at])) > 2; at, n = at+1, n+1 {
		p.lineAgrees(t, line, lines[at], p.row(cellsOf(lines[at])[0], n))
	}
	if n == 0 || !p.most && n != len(p.rows) {
		t.Errorf("%s: %d lines of %q, %d items", line, n, p.heads, len(p.rows))
	}
	return lines[at:]
}

// row is the item of a line: that of its name, where the items have names, else that of
// its place.
func (p *printed) row(name string, n int) item {
	for _, row := range p.rows {
		if row["words"] == name {
			return row
		}
	}
	return p.rows[n]
}

// lineAgrees compares the cells of one line.
func (p *printed) lineAgrees(t *testing.T, line, said string, row item) {
	t.Helper()
	columns := strings.Split(p.columns, " ")
	cells := cellsOf(said)
	share := false // figures of the line are in percent
	for i, k := 0, 0; i < len(columns); i++ {
		name, optional := strings.CutPrefix(columns[i], "?")
		name, percent := strings.CutSuffix(name, "%")
		v := row[name]
		if optional && len(cells) < len(columns) {
			if v != nil {
				t.Errorf("%s: no %s in %q, %v in the JSON", line, name, said, v)
			}
			continue
		}
		if k >= len(cells) {
			t.Errorf("%s: no %s in %q", line, name, said)
			return
		}
		cell := cells[k]
		k++
		if name == "unit" && cell == "%" {
			share = true
			continue
		}
		if lost, _ := row["turns_lost"].(float64); name == "spring.turns_to_spare" && lost > 0 != (cell == "binds") {
			t.Errorf("%s: %q, and %v turns are lost", line, said, lost)
		} else if cell == "binds" {
			continue
		}
		if name != "" && !p.tells(cell, v, percent || share) {
			t.Errorf("%s: %s is %q in the text %q, %v in the JSON", line, name, cell, said, v)
		}
	}
}

// tells tells whether a cell is a value: a number rounded, with its unit or its error
// behind it, or a text in any case.
func (p *printed) tells(cell string, v any, percent bool) bool {
	cell = strings.TrimPrefix(cell, "far off: ")
	x, number := v.(float64)
	if !number {
		return v == nil && (cell == "–" || cell == "not built" || cell == "cannot be had") || v != nil && strings.HasPrefix(strings.ToLower(cell), strings.ToLower(v.(string)))
	}
	if percent || strings.HasSuffix(cell, " %") {
		x *= 100
	}
	if below, ok := strings.CutPrefix(cell, "< "); ok {
		return rounds("< "+below, x)
	}
	if cell == "–" {
		return x == 0 // no metal comes off
	}
	figure, _, _ := strings.Cut(cell, " ")
	return rounds(figure, x)
}

// The lines of beat are what the JSON has, beat by beat and averaged.
func TestBeatAgrees(t *testing.T) {
	for _, line := range calls(t, "beat SAMPLE --train TRAIN", nil) {
		doc, said := docAndText(t, line)
		flat := itemsOf([]any{map[string]any(doc)}, nil)[0]
		linear, _ := flat["averaged.escapement_s_per_day"].(float64)
		damping, _ := flat["averaged.damping_s_per_day"].(float64)
		lines := strings.Split(said, "\n")
		at := 0
		for at < len(lines) && strings.Join(cellsOf(lines[at]), "|") != "beat by beat|averaged" {
			at++
		}
		for i, want := range [][]any{
			{"semi-arc", flat["beats.amplitude_deg"], flat["averaged.amplitude_deg"]},
			{"period", flat["beats.period_s"]},
			{"rate, no circular error", flat["beats.rate_s_per_day"], linear + damping},
			{"circular error", "left out", flat["averaged.circular_s_per_day"]},
			{"rate in all", flat["averaged.rate_s_per_day"]},
		} {
			if at+1+i >= len(lines) {
				t.Fatalf("%s: no table in %q", line, said)
			}
			cells := cellsOf(lines[at+1+i])
			agree := len(cells) == len(want)
			for k := 0; agree && k < len(cells); k++ {
				figure := strings.TrimSuffix(strings.Fields(cells[k])[0], "°")
				x, number := want[k].(float64)
				agree = cells[k] == want[k] || number && rounds(figure, x) || want[k] == nil && figure == "stands"
			}
			if !agree {
				t.Errorf("%s: %q, the JSON has %v", line, cells, want)
			}
		}
		if found := inText(t, `settles at a semi-arc of ([\d.]+)° after (\d+) periods`, said); len(found) > 0 {
			if !rounds(found[0][1], flat["beats.amplitude_deg"]) || !rounds(found[0][2], flat["beats.periods"]) {
				t.Errorf("%s: %q, the JSON has %v", line, found[0][0], doc["beats"])
			}
		}
	}
}

// The sentences of a record that begin a train's need and a spring have the figures of
// the JSON.
func TestRecordSentencesAgree(t *testing.T) {
	const line = "record --scenario three-trains --full"
	doc, said := docAndText(t, line)
	said = said[strings.Index(said, "going train needs")+1:] // the needs stand twice: first alone
	said = said[strings.Index(said, "going train needs"):]
	needs := inText(t, `(\w+) train needs ([\d.]+) N·m at the winding square, between ([\d.]+) and ([\d.]+)`, said)
	supplies := inText(t, `spring (\w+) in the (\w+) train gives ([\d.]+) N·m in the mean ± ([\d.]+); unevenness ([\d.]+) %`, said)
	if len(needs) != len(doc["needs"].([]any)) || len(supplies) != len(doc["supplies"].([]any)) {
		t.Fatalf("%d needs, %d springs in\n%s", len(needs), len(supplies), said)
	}
	for i, n := range itemsOf(doc["needs"], nil) {
		between := n["between"].([]any)
		if f := needs[i]; f[1] != n["train"] || !rounds(f[2], n["least_torque_nm"]) || !rounds(f[3], between[0]) || !rounds(f[4], between[1]) {
			t.Errorf("%q, the JSON has %v, %v", f[0], n["least_torque_nm"], between)
		}
	}
	for i, s := range itemsOf(doc["supplies"], nil) {
		uneven := 100 * s["fusee_torque_nm.unevenness"].(float64)
		if f := supplies[i]; f[1] != s["spring"] || f[2] != s["train"] || !rounds(f[3], s["fusee_torque_nm.mean"]) || !rounds(f[4], s["half_width_95_nm"]) || !rounds(f[5], uneven) {
			t.Errorf("%q, the JSON has %v", f[0], s)
		}
	}
}

// inText finds what a pattern matches in a text whose lines are wrapped.
func inText(t *testing.T, pattern, said string) [][]string {
	t.Helper()
	return regexp.MustCompile(pattern).FindAllStringSubmatch(strings.Join(strings.Fields(said), " "), -1)
}
