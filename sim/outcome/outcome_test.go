package outcome_test

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/internal/trial"
	. "evenpull/sim/outcome"
	"evenpull/sim/show/data"
)

// Every name leads to the figure of that name in the JSON of a run.
func TestNamesAreThoseOfTheJSON(t *testing.T) {
	seen := map[string]bool{}
	for _, name := range scenarios.Names() {
		s, trains := trial.Compile(t, name)
		results := trial.Run(t, trains)
		var text bytes.Buffer
		if err := data.Run().JSON(&text, data.Origin{}, &sim.Clock{Title: s.Title, Trains: results}); err != nil {
			t.Fatal(err)
		}
		var doc struct{ Trains []map[string]any }
		if err := json.Unmarshal(text.Bytes(), &doc); err != nil {
			t.Fatal(err)
		}
		for i := range results {
			for _, o := range All() {
				got, want := o.Of(&results[i].Digest), inJSON(t, doc.Trains[i], o.Name)
				if !(math.Abs(got-want) <= 1e-12*math.Abs(want)) && !(math.IsNaN(got) && math.IsNaN(want)) {
					t.Errorf("%s, %s: %v, in the JSON %v", name, o.Name, got, want)
				}
				seen[o.Name] = seen[o.Name] || !math.IsNaN(got)
			}
		}
	}
	for name, had := range seen {
		if !had && name != "let_off_amplitude_deg" {
			t.Errorf("no sample has a %s", name)
		}
	}
}

// inJSON follows a dotted name; .mean, .min and .max of what stands only in the
// rows are worked out from them.
func inJSON(t *testing.T, train map[string]any, name string) float64 {
	t.Helper()
	table, key, _ := strings.Cut(name, ".")
	if v, ok := train[table].(map[string]any); ok {
		return number(v[key])
	}
	if v, ok := train[table]; ok {
		return number(v)
	}
	var area, last, at float64
	first, most, least := math.NaN(), math.Inf(-1), math.Inf(1)
	for i, row := range train["turns"].([]any) {
		cells := row.(map[string]any)
		v, ok := cells[table]
		if !ok {
			t.Fatalf("the JSON has no %s", name)
		}
		x, turn := number(v), number(cells["fusee_turn"])
		most, least = math.Max(most, x), math.Min(least, x)
		if i == 0 {
			first = turn
		} else {
			area += (x + last) / 2 * (turn - at)
		}
		last, at = x, turn
	}
	return map[string]float64{"mean": area / (at - first), "min": least, "max": most}[key]
}

func number(v any) float64 {
	if x, ok := v.(float64); ok {
		return x
	}
	return math.NaN()
}

func TestNamed(t *testing.T) {
	if o, err := Named(MeanTorque); err != nil || o.Unit != "N·m" || o.Label() != "mean torque at the fusee, N·m" {
		t.Errorf("%+v, %v", o, err)
	}
	for name, says := range map[string]string{
		"fusee_torque.mean": "did you mean fusee_torque_nm.mean?", "runtime": "did you mean runtime_h?",
		"colour": `there are spring.turns_ideal, spring.turns_available, spring.turns_by_handbook, spring.turns_used and 67 more: "evenpull schema run" has all`,
		"torque": "there are fusee_torque_nm.mean, fusee_torque_nm.min, fusee_torque_nm.max, fusee_torque_nm.unevenness and", "arc": "there are amplitude_deg.mean,",
		"rate_": "there are rate_s_per_day.mean,",
	} {
		if _, err := Named(name); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := Several(MeanTorque, "x"); err == nil {
		t.Error("a name that is none was taken")
	}
	o, _ := Named(Unevenness)
	if o.Shown(0.5) != 50 || !strings.HasSuffix(o.Label(), ", %") {
		t.Error("a share is not shown in percent")
	}
}
