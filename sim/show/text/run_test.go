package text_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/rules"
	"evenpull/sim/show/data"
	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
)

func sample(t testing.TB, name string, replace ...string) *sim.Clock {
	t.Helper()
	s, _ := trial.Compile(t, name, replace...)
	c, err := sim.RunClock(s, sim.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func written(t testing.TB, write func(*bytes.Buffer) error) string {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// The contract of the JSON, key by key: what a program may rely on.
var contract = []string{
	"scenario", "assumed", "trains.name", "trains.kind",
	"trains.verdict.code", "trains.verdict.reasons", "trains.verdict.faults",
	"trains.spring.turns_available", "trains.spring.turns_used", "trains.spring.set_up_turns", "trains.spring.free_coils",
	"trains.spring.fill", "trains.spring.peak_stress_mpa", "trains.spring.stored_energy_j", "trains.spring.searle", "trains.spring.end_float_mm",
	"trains.line.on_fusee_mm", "trains.line.barrel_turns", "trains.line.max_tension_n", "trains.line.max_fleet_angle_deg",
	"trains.turns_lost", "trains.fusee_torque_nm.mean", "trains.fusee_torque_nm.min", "trains.fusee_torque_nm.max",
	"trains.fusee_torque_nm.unevenness", "trains.fusee_torque_nm.cv",
	"trains.least_torque_nm.predicted", "trains.least_torque_nm.measured", "trains.least_torque_nm.used",
	"trains.reserve.mean", "trains.reserve.min", "trains.reserve.max", "trains.hours_per_fusee_turn", "trains.runtime_h",
	"trains.turns.fusee_turn", "trains.turns.hours", "trains.turns.spring_turns", "trains.turns.spring_torque_nm",
	"trains.turns.line_tension_n", "trains.turns.fusee_torque_nm", "trains.turns.escape_torque_nm", "trains.turns.amplitude_deg",
	"trains.turns.rate_s_per_day", "trains.turns.fly_rev_per_s", "trains.turns.blow_interval_s", "trains.turns.strike_twelve_s",
}

// paths gathers every key of a JSON value, of the first item of each list.
func paths(v any, at string, into map[string]any) {
	switch v := v.(type) {
	case map[string]any:
		for k, sub := range v {
			paths(sub, strings.TrimPrefix(at+"."+k, "."), into)
		}
		return
	case []any:
		if len(v) > 0 {
			if _, isMap := v[0].(map[string]any); isMap {
				paths(v[0], at, into)
				return
			}
		}
	}
	into[at] = v
}

func TestJSONKeepsItsContract(t *testing.T) {
	for _, name := range scenarios.Names() {
		r := sample(t, name)
		said := written(t, func(b *bytes.Buffer) error { return data.Run().JSON(b, data.Origin{}, r) })
		var doc any
		if err := json.Unmarshal([]byte(said), &doc); err != nil {
			t.Fatal(err)
		}
		got := map[string]any{}
		paths(doc, "", got)
		for _, key := range contract {
			v, ok := got[key]
			if !ok {
				t.Errorf("%s: no %s", name, key)
			}
			if _, isText := v.(string); isText && !slices.Contains([]string{"scenario", "trains.name", "trains.kind", "trains.verdict.code"}, key) {
				t.Errorf("%s: %s is the text %q", name, key, v)
			}
		}
		if strings.Contains(said, "NaN") || strings.Contains(said, "Inf") {
			t.Errorf("%s: a number that JSON has not", name)
		}
	}
}

// JSON, CSV and text tell the same figures.
func TestFormatsAgree(t *testing.T) {
	r := sample(t, "three-trains")
	var doc struct {
		Trains []struct {
			Name    string
			Verdict struct {
				Code   string
				Faults []string
			}
			Turns []map[string]*float64
		}
	}
	if err := json.Unmarshal([]byte(written(t, func(b *bytes.Buffer) error { return data.Run().JSON(b, data.Origin{}, r) })), &doc); err != nil {
		t.Fatal(err)
	}
	lines, err := csv.NewReader(strings.NewReader(written(t, func(b *bytes.Buffer) error { return data.Run().CSV(b, data.Origin{}, r) }))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	said := written(t, func(b *bytes.Buffer) error { return text.Run(b, r, text.Options{Full: true}) })
	at := 1
	for _, train := range doc.Trains {
		for _, turn := range train.Turns {
			if lines[at][0] != train.Name {
				t.Fatalf("line %d of the CSV is of %s, want %s", at+1, lines[at][0], train.Name)
			}
			for i, key := range lines[0][1:] {
				cell := lines[at][i+1]
				if whole := map[string]string{"verdict.code": train.Verdict.Code, "verdict.faults": strings.Join(train.Verdict.Faults, "; ")}; strings.HasPrefix(key, "verdict.") {
					if cell != whole[key] {
						t.Errorf("%s is %q in JSON and %q in CSV", key, whole[key], cell)
					}
					continue
				}
				if turn[key] == nil {
					if cell != "" {
						t.Errorf("%s is null in JSON and %s in CSV", key, cell)
					}
					continue
				}
				if v, err := strconv.ParseFloat(cell, 64); err != nil || v != *turn[key] {
					t.Errorf("%s is %v in JSON and %s in CSV", key, *turn[key], cell)
				}
			}
			if x := *turn["fusee_turn"]; x == math.Round(x) {
				row := regexp.MustCompile(`(?m)^ +` + strconv.Itoa(int(x)) + ` .* ` + regexp.QuoteMeta(words.Figure(*turn["fusee_torque_nm"])) + ` `)
				if !row.MatchString(said) {
					t.Errorf("the text has no row for turn %g with %s", x, words.Figure(*turn["fusee_torque_nm"]))
				}
			}
			at++
		}
	}
	if at != len(lines) {
		t.Errorf("the CSV has %d lines, the JSON %d turns", len(lines)-1, at-1)
	}
}

// The verdict comes first, then its reasons, the faults, the figures, the rows,
// what was assumed, and the caution last.
func TestTextInOrder(t *testing.T) {
	said := written(t, func(b *bytes.Buffer) error { return text.Run(b, sample(t, "too-strong"), text.Options{Full: true}) })
	at := 0
	for _, piece := range []string{"going train: OVERDRIVEN", "  - the mean torque", "! fault: the spring binds solid", "torque at the fusee", "  arbor ", "  fusee  hours", "Assumed", "Caution: Wound"} {
		i := strings.Index(said[at:], piece)
		if i < 0 {
			t.Fatalf("no %q after what comes before it in\n%s", piece, said)
		}
		at += i
	}
	for i, line := range strings.Split(said, "\n") {
		if n := len([]rune(line)); n > 110 { // the table
			t.Errorf("line %d has %d columns: %s", i+1, n, line)
		}
		if strings.HasSuffix(line, " ") {
			t.Errorf("line %d ends in a blank", i+1)
		}
	}
	if strings.Contains(said, "\x1b") {
		t.Error("colour without being asked for")
	}
	coloured := written(t, func(b *bytes.Buffer) error {
		return text.Run(b, sample(t, "too-strong"), text.Options{Colour: true, Full: true})
	})
	if plain := regexp.MustCompile("\x1b\\[[0-9;]*m").ReplaceAllString(coloured, ""); plain != said || plain == coloured {
		t.Error("colour changes the words, or there is none")
	}
}

// A drive alone, of which neither need nor hours are known.
func TestTextOfDriveAlone(t *testing.T) {
	whole, _ := scenarios.Text("eight-day")
	r := sample(t, "eight-day", whole[strings.Index(whole, "# The wheels"):], "")
	r.Assumed, r.Note = nil, ""
	got := written(t, func(b *bytes.Buffer) error { return text.Run(b, r, text.Options{AllRows: true}) })
	for _, want := range []string{"NOT JUDGED", "hours not known", "demand.least_torque_nm", "15.75"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
	for _, not := range []string{"NaN", "reserve", "  arbor", "semi-arc", "least needed"} {
		if strings.Contains(got, not) {
			t.Errorf("%q in\n%s", not, got)
		}
	}
	if j := written(t, func(b *bytes.Buffer) error { return data.Run().JSON(b, data.Origin{}, r) }); !strings.Contains(j, `"code": null`) || !strings.Contains(j, `"hours": null`) {
		t.Error("what is not known must be null")
	}
}

// Of several trains the one that runs down first comes first.
func TestWhichRunsDownFirst(t *testing.T) {
	r := sample(t, "three-trains", "blows_per_12h = 120", "blows_per_12h = 144")
	list := r.DownFirst()
	if len(list) != 3 || list[0].Name != "quarters" || list[1].Name != "striking" || list[2].Name != "going" {
		t.Errorf("%+v", list)
	}
	said := written(t, func(b *bytes.Buffer) error { return text.Run(b, r, text.Options{}) })
	// 120 blows a turn at 144 in 12 hours: 10 hours a turn, 160 in all.
	if !strings.Contains(said, "first to stop: quarters after 160 h, striking after 192 h, going after 192 h") {
		t.Error(said)
	}
	if one := written(t, func(b *bytes.Buffer) error { return text.Run(b, sample(t, "eight-day"), text.Options{}) }); strings.Contains(one, "first to stop") {
		t.Error("one train alone stops first")
	}
}

// A striking train tells its blows, and where the work of one goes.
func TestStriking(t *testing.T) {
	r := sample(t, "strike-quick")
	var doc struct {
		Trains []struct {
			Blow_interval_s map[string]float64
			Strike          struct {
				Blows_in_run                                    int
				Least_torque_nm, Slow_torque_nm, Fast_torque_nm float64
				Fly_radius_mm, Fly_radius_middle_mm             float64
				Work_of_a_blow_j                                map[string]float64
			}
			Turns []map[string]*float64
		}
	}
	if err := json.Unmarshal([]byte(written(t, func(b *bytes.Buffer) error { return data.Run().JSON(b, data.Origin{}, r) })), &doc); err != nil {
		t.Fatal(err)
	}
	k := doc.Trains[0].Strike
	if k.Blows_in_run != 1248 || !(k.Least_torque_nm < k.Slow_torque_nm && k.Slow_torque_nm < k.Fast_torque_nm) || !(k.Fly_radius_middle_mm > k.Fly_radius_mm) {
		t.Errorf("%+v", k)
	}
	sum := 0.0
	for key, v := range k.Work_of_a_blow_j {
		if key != "spring" {
			sum += v
		}
	}
	if spring := k.Work_of_a_blow_j["spring"]; math.Abs(sum/spring-1) > 1e-9 {
		t.Errorf("a blow takes %g J and %g J are accounted for", spring, sum)
	}
	for _, key := range []string{"blow_interval_s", "fly_rev_per_s", "strike_twelve_s"} {
		if v := doc.Trains[0].Turns[0][key]; v == nil || *v <= 0 {
			t.Errorf("the rows have no %s", key)
		}
	}
	said := written(t, func(b *bytes.Buffer) error { return text.Run(b, r, text.Options{Full: true}) })
	for _, want := range []string{"a blow every", "twelve from rest, first blow to last, in", "blows in the run", "mm outer radius in place of 15.0", "turns/s", "78 blows in 12 h (the hours by count)"} {
		if !strings.Contains(strings.Join(strings.Fields(said), " "), want) {
			t.Errorf("no %q in\n%s", want, said)
		}
	}
	stalled := written(t, func(b *bytes.Buffer) error {
		return text.Run(b, sample(t, "strike-quick", "mass_g = 30.0", "mass_g = 900.0"), text.Options{})
	})
	if !strings.Contains(stalled, "stalls at every turn") || strings.Contains(stalled, "NaN") {
		t.Error(stalled)
	}
	stalledJSON := written(t, func(b *bytes.Buffer) error {
		return data.Run().JSON(b, data.Origin{}, sample(t, "strike-quick", "mass_g = 30.0", "mass_g = 900.0"))
	})
	for _, want := range []string{`"blows_in_run": 0`, `"work_of_a_blow_j": null`, `"goes_h": 0`} {
		if !strings.Contains(stalledJSON, want) {
			t.Errorf("a train that stalls has no %s", want)
		}
	}
}

// failing is a writer that is full.
type failing struct{}

func (failing) Write([]byte) (int, error) { return 0, errFull }

var errFull = strconv.ErrRange

func TestWritersTellErrors(t *testing.T) {
	r := sample(t, "three-trains")
	if err := data.Run().JSON(failing{}, data.Origin{}, r); err == nil {
		t.Error("JSON")
	}
	if err := data.Run().CSV(failing{}, data.Origin{}, r); err == nil {
		t.Error("CSV")
	}
	if err := text.Run(failing{}, r, text.Options{}); err == nil {
		t.Error("text")
	}
}

// In short a run fits a screen of 80 columns: 40 lines for one train, 70 for three; it has
// the reasons, the faults, a row at both ends, what was assumed, the caution and the next step.
func TestRunFitsAScreen(t *testing.T) {
	for _, name := range scenarios.Names() {
		c := sample(t, name)
		most := map[bool]int{true: 40, false: 70}[len(c.Trains) == 1]
		said := written(t, func(b *bytes.Buffer) error { return text.Run(b, c, text.Options{Again: " " + name}) })
		if n := strings.Count(said, "\n"); n > most {
			t.Errorf("%s takes %d lines:\n%s", name, n, said)
		}
		for line := range strings.Lines(said) {
			if n := len([]rune(strings.TrimSuffix(line, "\n"))); n > 80 {
				t.Errorf("%s: %d columns: %s", name, n, line)
			}
		}
		flat := strings.Join(strings.Fields(said), " ")
		for i := range c.Trains {
			d := &c.Trains[i].Digest
			want := append(words.Reasons(d), words.Faults(d)...)
			want = append(want, words.Minds(d)...)
			rows := c.Trains[i].Rows
			for _, row := range []sim.Row{rows[0], rows[len(rows)-1]} {
				want = append(want, strconv.FormatFloat(row.FuseeTurn, 'g', 4, 64)+" "+words.Figure(row.Hours)+" "+words.Two(row.SpringTurns))
			}
			for _, s := range want {
				if !strings.Contains(flat, s) {
					t.Errorf("%s: no %q in\n%s", name, s, said)
				}
			}
		}
		wrong := c.Trains[0].Verdict.Code != rules.Suits || c.Trains[0].Faults != 0
		if !strings.Contains(flat, "Assumed: "+words.AssumedMost(c)) || !strings.Contains(said, "let-down key") || len(c.Trains) == 1 && strings.Contains(flat, "Next: evenpull choose "+name+",") != wrong {
			t.Errorf("%s:\n%s", name, said)
		}
	}
}
