package page

import (
	"strings"
	"testing"
)

// What to order goes by what would do: nothing for a train that suits, first
// another set-up where that cures it, else a spring.
func TestToOrder(t *testing.T) {
	d := document(t, false, "eight-day", "too-weak", "too-strong")
	for i, want := range []struct{ order, setUp string }{
		{"nothing; if it has to be replaced: width", "leave the set-up as it is: the most even takes only"},
		{"nothing before the set-up above was tried", "advised: "},
		{"in place of the spring it has: width", "leave the set-up as it is: the most even leaves only"},
	} {
		order, setUp := said(t, d, i, toOrder), said(t, d, i, "Set-up:")
		if !strings.HasPrefix(order, want.order) || !strings.HasPrefix(setUp, want.setUp) || !strings.Contains(order, "; set up by 1.") {
			t.Errorf("%d: to order %q; set-up %q", i, order, setUp)
		}
	}
}

// Clocks of one title bear the names of their files.
func TestToldApart(t *testing.T) {
	d := document(t, false, "eight-day", "eight-day")
	first, _, _ := strings.Cut(d.Title, " / ")
	if head := tableIn(t, d, "compare", 0)[0]; !strings.HasSuffix(first, "(eight-day)") || head[2] != "1: "+first {
		t.Errorf("%q, %q", first, head)
	}
}
