package data

import (
	"context"
	"encoding/csv"
	"encoding/json"
	"io"
	"math"
	"slices"
	"strings"
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/outcome"
	"evenpull/sim/study/setup"
)

// holds tells whether a part of a document holds every figure of a digest under its
// own name, with its own value.
func holds(t testing.TB, what string, doc any, d *sim.Digest) {
	t.Helper()
	for _, f := range outcome.All() {
		at := doc
		for _, key := range strings.Split(f.Name, ".") {
			table, ok := at.(map[string]any)
			if !ok {
				t.Fatalf("%s: no %s", what, f.Name)
			}
			if at, ok = table[key]; !ok {
				t.Fatalf("%s: no %s", what, f.Name)
			}
		}
		if want := f.Of(d); math.IsNaN(want) && at != nil || !math.IsNaN(want) && at != want {
			t.Errorf("%s: %s is %v, want %v", what, f.Name, at, want)
		}
	}
	if code := doc.(map[string]any)["verdict"].(map[string]any)["code"]; code != nil && code != d.Verdict.Code.String() {
		t.Errorf("%s: verdict %v, want %v", what, code, d.Verdict.Code)
	}
}

func parsed(t testing.TB, said string) map[string]any {
	t.Helper()
	var doc map[string]any
	if err := json.Unmarshal([]byte(said), &doc); err != nil {
		t.Fatal(err)
	}
	return doc
}

func TestSetUp(t *testing.T) {
	for _, name := range []string{"eight-day", "too-weak", "strike-quick"} {
		s, _ := trial.Compile(t, name)
		st, err := setup.Run(context.Background(), s, 0)
		if err != nil {
			t.Fatal(err)
		}
		said := written(t, func(w io.Writer) error { return SetUp().JSON(w, Origin{}, st) })
		validate(t, written(t, func(w io.Writer) error { return SetUp().Schema(w, "setup") }), said)
		doc := parsed(t, said)
		holds(t, "now", doc["now"], &st.Now)
		holds(t, "best", doc["best"], &st.Best)
		if st.Advised != nil {
			holds(t, "advised", doc["advised"], st.Advised)
		} else if doc["advised"] != nil {
			t.Error("a set-up that is not advised")
		}
		for i, d := range st.Curve {
			holds(t, "curve", doc["curve"].([]any)[i], &d)
		}
		rng := doc["range"].([]any)
		if doc["train"] != st.Now.Name || doc["most_set_up_turns"] != st.Most || rng[0] != st.Range.Lo || rng[1] != st.Range.Hi || len(doc["cautions"].([]any)) != 1 || doc["advice"] == nil {
			t.Errorf("%s: %v", name, doc["train"])
		}
		lines, err := csv.NewReader(strings.NewReader(written(t, func(w io.Writer) error { return SetUp().CSV(w, Origin{}, st) }))).ReadAll()
		if err != nil || len(lines) != len(st.Curve)+1 {
			t.Fatal(err, len(lines))
		}
		for i := range st.Curve {
			for _, f := range outcome.All() {
				if got := lines[i+1][slices.Index(lines[0], f.Name)]; got != cellOf(f.Of(&st.Curve[i])) {
					t.Errorf("%s, click %d: %s is %s", name, i, f.Name, got)
				}
			}
		}
	}
}
