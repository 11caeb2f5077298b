package page

import (
	"strings"
	"testing"

	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
)

// A word is told what it means where it first stands by itself, and nowhere else: in a
// sentence behind it, after what it marks, below the caption of a table.
func TestGlossary(t *testing.T) {
	g := glossary{[]words.Line{{"need", "what it takes"}, {"reserve", "what is left"}, {"fill", "how full"}, {"set-up", "turns first"}}}
	grid := text.Grid{}
	grid.Row("spring", "fill")
	blocks := []Block{paragraph("", "needed; a set-up"), {Row: []Block{{List: items("", "Set-up:", "the Need and the reserve, the reserve")}}}, table("The reserve", 1, grid), paragraph("", "the need, the fill")}
	g.explain(blocks)
	for _, c := range []struct{ got, want string }{
		{blocks[0].Text.Text, "needed; a set-up (turns first)"},
		{blocks[1].Row[0].List[0].Text, "the Need (what it takes) and the reserve (what is left), the reserve"},
		{blocks[2].Table.Note, "fill means how full"},
		{blocks[3].Text.Text, "the need, the fill"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
	g = glossary{[]words.Line{{"set-up", "turns first"}}}
	marked := []Block{{List: items("", "Set-up:", "leave it")}}
	if g.explain(marked); marked[0].List[0].Text != "leave it; set-up means turns first" {
		t.Errorf("%q", marked[0].List[0].Text)
	}
}

// Every word of the glossary is used in some document and told once; words of statisticians
// and of programmers stand in none.
func TestWords(t *testing.T) {
	all := html(t, document(t, true, "three-trains")) + html(t, document(t, false, "too-weak", "strike-quick"))
	for _, bad := range []string{"lasticity", "oefficient of variation", "χ²", "hangs on", "Evenness", "evenness <", ">evenness"} {
		if strings.Contains(strings.ReplaceAll(all, "Experimental Elasticity", ""), bad) {
			t.Errorf("%q is in the page", bad)
		}
	}
	for _, w := range []string{"need (the least torque", "set-up means the turns", "reserve (the torque over the need)", "thin (too little", "semi-arc (the swing"} {
		if n := strings.Count(all, w); n < 1 || n > 2 {
			t.Errorf("%q stands %d times", w, n)
		}
	}
}
