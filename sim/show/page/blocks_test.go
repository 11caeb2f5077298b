package page

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
	"evenpull/sim/study/dossier"
	"evenpull/sim/study/sure"
)

// outline is what stands in a list of blocks, a line each.
func outline(blocks []Block, indent string) string {
	var b strings.Builder
	for _, k := range blocks {
		switch {
		case k.Heading != "":
			fmt.Fprintf(&b, "%sheading %s\n", indent, k.Heading)
		case k.Text != nil:
			fmt.Fprintf(&b, "%stext %s%s\n", indent, k.Text.Class, k.Text.Mark)
		case k.List != nil:
			fmt.Fprintf(&b, "%slist\n", indent)
		case k.Pairs != nil:
			fmt.Fprintf(&b, "%spairs\n", indent)
		case k.Table != nil:
			head, _, _ := strings.Cut(k.Table.Caption, ",")
			fmt.Fprintf(&b, "%stable %d %s\n", indent, k.Table.Heads, head)
		case k.Picture != nil:
			fmt.Fprintf(&b, "%spicture %s\n", indent, k.Picture.ID)
		case k.Quoted != nil:
			fmt.Fprintf(&b, "%squoted %s\n", indent, k.Quoted.Caption)
		case k.Section != nil:
			fmt.Fprintf(&b, "%ssection %s, %s\n%s", indent, k.Section.ID, k.Section.Class, outline(k.Section.Blocks, indent+"  "))
		}
	}
	return b.String()
}

// Everything of three trains and a bench book stands in its order.
func TestOrder(t *testing.T) {
	d := document(t, true, "three-trains")
	for id, want := range map[string]string{
		"verdicts": `text mind
section clock-1-train-1-verdict, verdict suits
  list
section clock-1-train-2-verdict, verdict suits
  list
section clock-1-train-3-verdict, verdict suits
  list
table 1 When each train has run down
`,
		"clock-1-train-3": `picture clock-1-train-3-drawing
heading Figures
pairs
picture clock-1-train-3-torque
heading The run-down
table 2 The run-down
table 1 Torque at every arbor
table 1 Every figure of the run
heading What if the spring were thicker or thinner, all else as it is
list
picture clock-1-train-3-thickness
heading What to order
text The spring it has:
text To order:
list
table 2 The spring to have made
heading What matters most
table 1 The inputs that the mean torque depends on most; elasticity: how many % it changes for 1 % more
picture clock-1-train-3-rank
`,
		"bench": `picture bench-readings
quoted Bench record in figures
heading Which barrel belongs to which train
quoted Which barrel belongs to which train
`,
		"assumed":  "list\n",
		"cautions": "text \ntext \ntext \n",
	} {
		if got := outline(section(t, d, id).Blocks, ""); got != want {
			t.Errorf("%s has\n%s", id, got)
		}
	}
	var ids []string
	for _, s := range d.Sections {
		ids = append(ids, s.ID)
	}
	if want := "verdicts clock-1-train-1 clock-1-train-2 clock-1-train-3 bench assumed equations limits words cautions"; strings.Join(ids, " ") != want {
		t.Errorf("%s", ids)
	}
	if len(d.Pictures) != 3*4+1 {
		t.Errorf("%d pictures", len(d.Pictures))
	}
	if got := outline(document(t, false, "eight-day", "too-strong").Head, ""); got != "text Eight-day going train that suits its spring (invented)\ntext note\ntext The same train with a spring far too strong (invented)\ntext note\n" {
		t.Errorf("%s", got)
	}
}

// Equations and limits are those of the trains there are; the cautions name the
// strongest spring, and the energy it holds.
func TestRemarks(t *testing.T) {
	for name, want := range map[string][4]int{"eight-day": {8, 5, 1, 0}, "three-trains": {9, 6, 1, 1}} {
		d := document(t, false, name)
		equations, limits := section(t, d, "equations").Blocks[0].List, section(t, d, "limits").Blocks[0].List
		got := [4]int{len(equations), len(limits)}
		for _, it := range slices.Concat(equations, limits) {
			if strings.HasPrefix(it.Text, "Escapement and pendulum: ") {
				got[2]++
			}
			if strings.HasPrefix(it.Text, "Striking: ") {
				got[3]++
			}
		}
		if got != want {
			t.Errorf("%s: %v", name, got)
		}
	}
	d := document(t, false, "three-trains")
	most, of := d.clocks[0].Run.MostStored()
	if first := section(t, d, "cautions").Blocks[0].Text.Text; !strings.Contains(first, "that of the "+of+" train holds most. Wound, this spring holds ") || most < 1 {
		t.Errorf("%s", first)
	}
	if len(section(t, d, "words").Blocks[0].Pairs) < 10 {
		t.Error("no words are told")
	}
}

// What cannot be drawn or said is told, the first of it.
func TestFirstError(t *testing.T) {
	first, second := errors.New("first"), errors.New("second")
	var d Document
	draw(&d, "a", "", "", func(io.Writer, string, int) error { return first }, 0)
	draw(&d, "b", "", "", func(io.Writer, string, int) error { return second }, 0)
	quote(&d, "", func(io.Writer, int, text.Options) error { return second }, 0)
	if d.err != first {
		t.Error(d.err)
	}
	d.err = nil
	quote(&d, "", func(io.Writer, int, text.Options) error { return second }, 0)
	quote(&d, "", func(io.Writer, int, text.Options) error { return first }, 0)
	if d.err != second {
		t.Error(d.err)
	}
	if b := quote(&d, "what", func(w io.Writer, n int, _ text.Options) error { fmt.Fprintf(w, "  %d\n\n", n); return nil }, 7); *b.Quoted != (Quoted{"what", "  7"}) {
		t.Errorf("%+v", *b.Quoted)
	}
}

// What goes wrong with a picture on the way is the error of the whole document.
func TestBuildTellsTheError(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	c, err := dossier.OfClock(context.Background(), s, &sure.Options{Draws: 20, Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	broken := *c.Trains[0].Result
	broken.Train.Drive.Spring.Thickness = 0
	_, want := broken.Train.Drive.Wind()
	c.Trains[0].Result = &broken
	if _, err := Build([]*dossier.Clock{c}, nil, Origin{}); err == nil || want == nil || err.Error() != want.Error() {
		t.Errorf("%v, want %v", err, want)
	}
}

// A picture stands in a page without the head of its file, with its box and its
// words; text that is no picture is refused.
func TestInline(t *testing.T) {
	got, err := inline(&Picture{ID: "p", Alt: `a "b" & <c>`, SVG: []byte("<?xml version=\"1.0\"?>\n<svg width=\"2in\" viewBox=\"0 0 144 72\"\nversion=\"1.1\">\n<text>x</text></svg>\n")})
	const want = `<svg id="p" viewBox="0 0 144 72" role="img" aria-labelledby="p-t"><title id="p-t">a &#34;b&#34; &amp; &lt;c&gt;</title>
<text>x</text></svg>
`
	if err != nil || string(got) != want {
		t.Errorf("%v: %s", err, got)
	}
	for _, bad := range []string{"", "no picture", `<svg viewBox="0 0 1 1"`} {
		if _, err := inline(&Picture{ID: "p-3", SVG: []byte(bad)}); err == nil || err.Error() != "the picture p-3 is no SVG, or cut off" {
			t.Errorf("%q: %v", bad, err)
		}
		d := Document{Head: []Block{{Picture: &Picture{ID: "p", SVG: []byte(bad)}}}}
		if err := HTML(io.Discard, &d); err == nil {
			t.Errorf("%q stands in a page", bad)
		}
	}
}

// In Markdown every mark is escaped as CommonMark has it: a backslash before ASCII
// punctuation, or a character reference.
func TestMarks(t *testing.T) {
	for in, want := range map[string]string{
		" \\ | < > & * _ ` # [ ]\n\r. ": "\\\\ &#124; &lt; &gt; &amp; \\* \\_ \\` \\# \\[ \\]  .", "~ $ { }": `\~ \$ \{ \}`,
		"- x": `\- x`, "+": `\+`, "---": `\---`, "==": `\==`, "1. x": `1\. x`, "12) x": `12\) x`, "0.5": "0.5", "-3.2": "-3.2", "+2 %": "+2 %", "a - b": "a - b",
	} {
		if got := escape(in); got != want {
			t.Errorf("%q: %q, want %q", in, got, want)
		}
	}
	for in, want := range map[string]string{"": "```", "a `b`": "```", "```\n````` x": "``````"} {
		if got := fence(in); got != want {
			t.Errorf("%q: %q", in, got)
		}
	}
	g := text.Grid{Right: map[int]bool{1: true}}
	g.Row("  a", "b")
	g.Row("mm", "%")
	g.Row(" 1", "2")
	d := Document{Title: "T", Head: []Block{paragraph("clock", ""), {Text: &Item{Class: "note", Text: "so"}}}, Sections: []Section{{Title: "S", Blocks: []Block{
		{Text: &Item{Text: "read", To: "there"}}, {List: items("", "Note:", "a", "b")}, {Pairs: []words.Line{{"term", "said"}, {"", "more"}}}, table("cap", 2, g),
		{Picture: &Picture{ID: "p", Alt: "[x]"}}, {Quoted: &Quoted{"c", "1\n 2"}}, {Section: &Section{Title: "in", Word: "SUITS", Blocks: []Block{{Heading: "H"}}}},
	}}}, Again: Section{Title: "again", Blocks: []Block{{Quoted: &Quoted{Text: "run"}}}}}
	var b bytes.Buffer
	if err := Markdown(&b, &d, "di r)"); err != nil {
		t.Fatal(err)
	}
	const want = "# T\n\n**clock**\n\n*so*\n\n## S\n\n[read](#there)\n\n- **Note:** a\n- **Note:** b\n\n- **term**: said\n  more\n\n**cap**\n\n| a | b |\n|---|---:|\n| mm | % |\n| 1 | 2 |\n\n" +
		"![\\[x\\]](di%20r%29/p.svg)\n\n```text\n1\n 2\n```\n\n### in: SUITS\n\n### H\n\n## again\n\n```sh\nrun\n```\n\n"
	if b.String() != want {
		t.Errorf("%q", b.String())
	}
}

// Results that do not differ stand in the order of their table, for every train that
// some clock has; what a clock has not is a dash.
func TestSideBySide(t *testing.T) {
	labels := func(rows [][]string, train string) []string {
		var list []string
		for _, row := range rows[1:] {
			if row[0] == train {
				list = append(list, row[1])
			}
		}
		return list
	}
	alike := tableIn(t, document(t, false, "three-trains", "three-trains"), "compare", 0)
	want := []string{"verdict", "mean reserve", "least reserve", "mean torque at the fusee, N·m", "least torque at the fusee, N·m", "greatest torque at the fusee, N·m",
		"unevenness of the torque, %", "fusee turns lost, turns", "running time, h", "hours that it goes before it stops or has run down, h",
		"turns of the spring available, turns", "turns of the spring left of those available, turns", "peak stress, MPa", "energy stored, J", "greatest tension of the line while winding, N"}
	if got := labels(alike, "going"); len(got) != len(want)+3 || !slices.Equal(got[:len(want)], want) {
		t.Errorf("%q", got)
	}
	strike := labels(alike, "striking")
	if n := len(strike); n < 2 || !slices.Equal(strike[n-2:], []string{"mean interval from blow to blow, s", "mean length of a strike of twelve, first blow to last, s"}) {
		t.Errorf("%q", strike)
	}
	lone := document(t, false, "eight-day", "three-trains")
	if len(labels(tableIn(t, lone, "compare", 0), "striking")) < 10 {
		t.Error("a train that one clock has not is left out")
	}
	for _, row := range tableIn(t, lone, "compare", 0)[1:] {
		if row[0] == "striking" && (row[2] != "–" || row[3] == "–") {
			t.Errorf("%q", row)
		}
	}
	g := lone.beside("input", "unit")
	if g.Right[1] || !g.Right[2] || !g.Right[3] || len(g.Rows[0]) != 4 || !strings.HasPrefix(g.Rows[0][3], "2: ") {
		t.Errorf("%q", g.Rows)
	}
	for _, row := range tableIn(t, lone, "compare", 1)[1:] {
		if row[2] == row[3] || len(row) != 4 {
			t.Errorf("%q", row)
		}
	}
}
