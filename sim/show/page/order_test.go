package page

import (
	"strings"
	"testing"
)

// What to do goes by what would do: nothing to order for a train that suits, first another
// set-up where that cures it, else a spring, which is not told again behind.
func TestToOrder(t *testing.T) {
	d := document(t, false, "eight-day", "too-weak", "too-strong")
	for i, want := range []struct{ order, setUp string }{
		{"", "leave it at 1.25 turns (15 clicks)"},
		{"nothing before that set-up was tried", "1.25 turns (15 clicks) in place of 0.50 turns (6 clicks): the train then suits (sure to "},
		{"a mainspring of the same steel and with the same ends, width × thickness × length ", "leave it at "},
	} {
		order, setUp := said(t, d, i, "To order:"), said(t, d, i, "Set-up:")
		if !strings.HasPrefix(order, want.order) || (order == "") != (want.order == "") || !strings.HasPrefix(setUp, want.setUp) {
			t.Errorf("%d: to order %q; set-up %q", i, order, setUp)
		}
		behind := d.order(&d.clocks[i].Trains[0])
		if len(behind) != 1 || !strings.Contains(behind[0].Text, "; set up by 1.") {
			t.Errorf("%d: %q", i, behind)
		}
		if _, size, found := strings.Cut(order, " length "); found {
			if size, _, _ = strings.Cut(size, ","); strings.Contains(behind[0].Text, size) {
				t.Errorf("%s stands in %q too", size, behind[0].Text)
			}
		}
	}
}

// Clocks of one title bear the names of their files.
func TestToldApart(t *testing.T) {
	d := document(t, false, "eight-day", "eight-day")
	if first := d.Head[0].Text.Mark; !strings.HasSuffix(first, "(eight-day)") || !strings.HasPrefix(first, "1: ") {
		t.Errorf("%q", first)
	}
}
