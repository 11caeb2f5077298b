package study

import (
	"strings"
	"testing"
)

// What to order goes by what would do: nothing for a train that suits, first
// another set-up where that cures it, else a spring.
func TestToOrder(t *testing.T) {
	d := document(t, false, "eight-day", "too-weak", "too-strong")
	for i, want := range []string{"nothing; if it has to be replaced: width", "nothing before the set-up above was tried", "in place of the spring it has: width"} {
		p := &d.Clocks[i].Parts[0]
		if !strings.HasPrefix(p.ToOrder, want) || !strings.Contains(p.SetUp, "most even with") {
			t.Errorf("%s: to order %q; set-up %q", d.Clocks[i].Title, p.ToOrder, p.SetUp)
		}
	}
}

// Clocks of one title bear the names of their files.
func TestToldApart(t *testing.T) {
	d := document(t, false, "eight-day", "eight-day")
	if !strings.HasSuffix(d.Clocks[0].Title, "(eight-day)") || d.Compare.Results.Rows[0][2] != "1: "+d.Clocks[0].Title {
		t.Errorf("%q, %q", d.Clocks[0].Title, d.Compare.Results.Rows[0])
	}
}
