package text_test

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
	"evenpull/sim/study/plan"
)

// The finding comes first, then a row for each number of turns with the planned one marked;
// in full also one for each turn.
func TestPlan(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st, err := plan.Run(t.Context(), s, 0, plan.Options{Key: "going.mainspring.yield_mpa", Error: math.NaN(), Power: math.NaN(), Law: plan.Usual()})
	if err != nil {
		t.Fatal(err)
	}
	for _, full := range []bool{false, true} {
		said := written(t, func(b *bytes.Buffer) error { return text.Plan(b, st, text.Options{Full: full}) })
		if !strings.HasPrefix(said, "going train: read turn") || !strings.Contains(said, "let-down key") || strings.Count(said, "\n  > ")+strings.Count(said, "\n > ") != 1 {
			t.Errorf("%s", said)
		}
		for i := range st.Choices {
			row := fmt.Sprintf("%d", st.Choices[i].Turns)
			for k := range st.Repeats {
				row += " " + words.PlanCell(st, &st.Choices[i].Plans[k])
			}
			if !strings.Contains(strings.Join(strings.Fields(said), " "), row) {
				t.Errorf("no row %q in\n%s", row, said)
			}
		}
		if n := strings.Count(said, "  read\n"); full && n != len(st.Plan.Turns) || !full && n != 0 {
			t.Errorf("%d turns are to be read in\n%s", n, said)
		}
	}
}
