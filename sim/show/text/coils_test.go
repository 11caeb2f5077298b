package text_test

import (
	"bytes"
	"strings"
	"testing"

	"evenpull/sim/internal/trial/bench"
	"evenpull/sim/show/text"
)

// A screen has every winding or, of too many, those of whole turns, and says how many more
// there are; in full all are there.
func TestCoilsTable(t *testing.T) {
	for _, c := range []struct {
		windings, rows int
		full           bool
		more           string
	}{{20, 20, false, ""}, {30, 15, false, "15 windings more"}, {30, 30, true, ""}} {
		r := bench.Coils(c.windings)
		said := written(t, func(b *bytes.Buffer) error { return text.Coils(b, r, text.Options{Full: c.full}) })
		_, table, _ := strings.Cut(said, "turns  winding")
		table, foot, _ := strings.Cut(table, "\n\n")
		foot = strings.Join(strings.Fields(foot), " ")
		lines := strings.Split(table, "\n")[2:]
		if len(lines) != c.rows || strings.Contains(foot, "windings more") != (c.more != "") || !strings.Contains(foot, c.more) {
			t.Errorf("%d windings, full %v: %d rows\n%s", c.windings, c.full, len(lines), said)
		}
		for line := range strings.Lines(said) {
			if n := len([]rune(strings.TrimRight(line, "\n"))); n > 80 {
				t.Errorf("%d columns: %s", n, line)
			}
		}
		if !c.full && c.windings == 20 { // by hand: 1.1 / 0.949, 1.1 × 0.949, 1.1, 1.111
			if got := strings.Join(strings.Fields(lines[1]), " "); got != "1 1.16 1.04 1.10 1.11 +1.0 94.9" {
				t.Errorf("the line of one turn: %s", got)
			}
		}
	}
	r := bench.Coils(30) // none of which is whole
	for i := range r.Options.Turns {
		r.Options.Turns[i] += 0.25
	}
	if said := written(t, func(b *bytes.Buffer) error { return text.Coils(b, r, text.Options{}) }); strings.Contains(said, "windings more") || strings.Count(said, "+1.0") != 29 {
		t.Errorf("no whole turn:\n%s", said)
	}
}
