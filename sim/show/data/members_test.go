package data

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"os"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
)

// told lists the members that a schema tells of, in order: path, types, unit, words.
// A run is told once, where it is asked for, and the origin.
func told(t *testing.T, b *strings.Builder, at string, raw json.RawMessage, whole bool) {
	t.Helper()
	var s struct {
		Type                                    any
		Description, Unit                       string
		Items, AdditionalProperties, Properties json.RawMessage
	}
	if err := json.Unmarshal(raw, &s); err != nil {
		t.Fatal(err)
	}
	fmt.Fprintf(b, "%s\t%v\t%s\t%s\n", at, s.Type, s.Unit, s.Description)
	for suffix, inner := range map[string]json.RawMessage{"[]": s.Items, "{}": s.AdditionalProperties} {
		if inner != nil {
			told(t, b, at+suffix, inner, whole)
		}
	}
	if s.Properties == nil {
		return
	}
	in := json.NewDecoder(strings.NewReader(string(s.Properties)))
	_, _ = in.Token() // the bracket
	run := map[string]bool{}
	for _, m := range Digest() {
		run[m.name] = true
	}
	_, isRun := properties(t, s.Properties)["verdict"]
	for in.More() {
		name, err := in.Token()
		if err != nil {
			t.Fatal(err)
		}
		var inner json.RawMessage
		if err := in.Decode(&inner); err != nil {
			t.Fatal(err)
		}
		if key := strings.TrimSuffix(name.(string), "_in_train"); isRun && !whole && run[key] && (key != "spring" || strings.Contains(string(inner), "turns_left")) {
			fmt.Fprintf(b, "%s.%s\tas of a run\n", at, name)
			continue
		}
		if name == "evenpull" {
			fmt.Fprintf(b, "%s.%s\tthe origin\n", at, name)
			continue
		}
		told(t, b, fmt.Sprintf("%s.%s", at, name), inner, whole)
	}
}

func properties(t *testing.T, raw json.RawMessage) (all map[string]json.RawMessage) {
	t.Helper()
	if err := json.Unmarshal(raw, &all); err != nil {
		t.Fatal(err)
	}
	return all
}

// Every document has the members of the list, in its order, with these types, units
// and words: what programs read is not changed by accident.
func TestMembers(t *testing.T) {
	var b strings.Builder
	for _, d := range []struct {
		name   string
		schema func(io.Writer, string) error
	}{
		{"ORIGIN", origin().describe}, {"RUN", Digest().describe}, {"run", Run().Schema}, {"sweep", Sweep().Schema}, {"rank", Rank().Schema}, {"spread", Spread().Schema}, {"setup", SetUp().Schema},
		{"record", Record().Schema}, {"assign", Assign().Schema}, {"choose", Choose().Schema}, {"choose-all", Give().Schema}, {"cut", Cut().Schema}, {"beat", Beat().Schema}, {"coils", Coils().Schema}, {"plan", Plan().Schema},
	} {
		told(t, &b, d.name, json.RawMessage(written(t, func(w io.Writer) error { return d.schema(w, "") })), d.name == "RUN")
	}
	const file = "testdata/members.txt"
	if trial.Regenerating() {
		if err := os.WriteFile(file, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	got := strings.Split(b.String(), "\n")
	for i, line := range strings.Split(string(want), "\n") {
		if i >= len(got) || got[i] != line {
			t.Fatalf("line %d: %q, want %q", i+1, got[min(i, len(got)-1)], line)
		}
	}
	if b.String() != string(want) {
		t.Errorf("%d lines more", len(got)-strings.Count(string(want), "\n")-1)
	}
}

// What a run says of a striking train, by hand: blows are those of the whole turns that
// it strikes, and the work of a blow is what the spring gives for it.
func TestStrikeJSON(t *testing.T) {
	c := clock(t, "strike-pleasant")
	c.Note = "a note"
	doc := treeOf(t, Run(), c)
	r := &c.Trains[0]
	strike := items(doc["trains"])[0].(map[string]any)["strike"].(map[string]any)
	blows := r.Train.Striker.BlowsPerTurn() * r.GoesFor()
	if got := strike["blows_in_run"].(float64); doc["note"] != "a note" || doc["scenario"] != c.Title || got < blows-1 || got > blows {
		t.Errorf("%v of %v blows, note %v", got, blows, doc["note"])
	}
	for name, metres := range map[string]float64{"fly_radius_mm": r.Train.FlyRadius(), "fly_radius_middle_mm": r.MiddleFly()} {
		if got := strike[name].(float64); math.Abs(got/1000-metres) > 1e-12 {
			t.Errorf("%s: %v, want %v m", name, got, metres)
		}
	}
	energy := items(strike["fly_energy_j"])
	if least, most := energy[0].(float64), energy[1].(float64); !(0 <= least && least < most) {
		t.Errorf("energy of the fly %v", energy)
	}
	work := strike["work_of_a_blow_j"].(map[string]any)
	sum := 0.0
	for _, part := range []string{"hammers", "tails", "fly", "wheels", "loads"} {
		sum += work[part].(float64)
	}
	if given := work["spring"].(float64); !(given > 0) || sum < given*0.98 || sum > given*1.02 {
		t.Errorf("the spring gives %v, %v is taken", given, sum)
	}
}
