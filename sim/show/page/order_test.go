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

// Every text of a picture keeps the width that it was laid out with: in the metrics of
// Times Roman, which its font has, a takes 444, a space 250, < 564 and b 500
// thousandths of the size (Adobe's font metrics of the core fonts, from memory).
func TestHoldWidths(t *testing.T) {
	const before = `<text x="1" y="2"
	style="font-family:Liberation Serif;font-size:10px">a &lt; b</text><text x="3" style="font-size:10px"> </text>`
	const after = `<text textLength="20.1" lengthAdjust="spacingAndGlyphs" x="1" y="2"
	style="font-family:Liberation Serif;font-size:10px">a &lt; b</text><text x="3" style="font-size:10px"> </text>`
	if got := string(holdWidths([]byte(before))); got != after {
		t.Errorf("%s", got)
	}
	for _, p := range document(t, false, "eight-day").Pictures {
		if texts, held := strings.Count(string(p.SVG), "<text"), strings.Count(string(p.SVG), "textLength="); texts == 0 || texts != held {
			t.Errorf("%s: %d texts, %d of a width", p.ID, texts, held)
		}
	}
}
