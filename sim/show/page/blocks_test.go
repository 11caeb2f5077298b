package page

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
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
			fmt.Fprintf(&b, "%squoted\n", indent)
		case k.Equations != nil, k.Signs != nil, k.Remarks != nil:
			fmt.Fprintf(&b, "%smethod\n", indent)
		case k.Row != nil:
			fmt.Fprintf(&b, "%srow\n%s", indent, outline(k.Row, indent+"  "))
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
  row
    picture train-1-torque
    list
section clock-1-train-2-verdict, verdict suits
  row
    picture train-2-torque
    list
section clock-1-train-3-verdict, verdict suits
  row
    picture train-3-torque
    list
list
`,
		"clock-1-train-3": `list
heading Were the spring thicker or thinner, all else as it is
text 
list
row
  picture clock-1-train-3-thickness
  picture clock-1-train-3-run
  picture clock-1-train-3-drawing
  table 1 Torque at every arbor
table 2 What matters most
table 2 The run-down
heading Every figure of the run
pairs
`,
		"bench": `heading What was found
text 
list
text 
text 
heading Which barrel belongs to which train
list
table 2 Every spring in every train
heading Readings beside the prediction
row
  picture bench-readings-1
  picture bench-readings-2
  picture bench-readings-3
row
  table 1 Trials with weights of the going train
row
  table 1 Trials with weights of the striking train
  list
row
  table 1 Trials with weights of the quarters train
  list
`,
		"assumed":  "list\n",
		"cautions": "text \ntext \n",
	} {
		if got := outline(section(t, d, id).Blocks, ""); got != want {
			t.Errorf("%s has\n%s", id, got)
		}
	}
	var ids []string
	for _, s := range d.Sections {
		ids = append(ids, s.ID)
	}
	if want := "verdicts cautions clock-1-train-1 clock-1-train-2 clock-1-train-3 bench assumed equations numerics limits sources"; strings.Join(ids, " ") != want {
		t.Errorf("%s", ids)
	}
	if d.Front != 2 || len(d.Pictures) != 3*4+3 {
		t.Errorf("%d pictures", len(d.Pictures))
	}
	two := document(t, false, "eight-day", "too-strong")
	if two.Title != "2 scenarios compared" || outline(two.Head, "") != "text 1: Eight-day going train that suits its spring (invented)\ntext 2: The same train with a spring far too strong (invented)\n" {
		t.Errorf("%s: %s", two.Title, outline(two.Head, ""))
	}
	if got := outline(section(t, two, "verdicts").Blocks, ""); got != `text mind
heading The going train
row
  picture train-1-torque
  table 1 Inputs that differ
row
  section clock-1-train-1-verdict, verdict suits
    list
  section clock-2-train-1-verdict, verdict overdriven
    list
` {
		t.Errorf("%s", got)
	}
}

// The cautions name the strongest spring, and the energy it holds.
func TestStrongest(t *testing.T) {
	d := document(t, false, "three-trains")
	most, of := d.clocks[0].Run.MostStored()
	if first := section(t, d, "cautions").Blocks[0].Text.Text; !strings.Contains(first, "that of the "+of+" train holds most. Wound, this spring holds ") || most < 1 {
		t.Errorf("%s", first)
	}
}

// What cannot be drawn or said is told, the first of it.
func TestFirstError(t *testing.T) {
	first, second := errors.New("first"), errors.New("second")
	var d Document
	draw(&d, "a", "", "", func(io.Writer, string, int) error { return first }, 0)
	draw(&d, "b", "", "", func(io.Writer, string, int) error { return second }, 0)
	if d.err != first {
		t.Error(d.err)
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
	if _, err := Build([]*dossier.Clock{c}, nil, nil, Origin{}); err == nil || want == nil || err.Error() != want.Error() {
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
		{Text: &Item{Text: "read", To: "there"}}, {List: items("", "Note:", "a", "b")}, {Pairs: []words.Line{{"term", "said"}, {"other", "more"}}}, table("cap", 2, g),
		{Picture: &Picture{ID: "p", Alt: "[x]"}}, {Row: []Block{{Quoted: &Quoted{"1\n 2"}}}}, {Section: &Section{Title: "in", Word: "SUITS", Blocks: []Block{{Heading: "H"}}}},
	}}}, Again: Section{Title: "again", Blocks: []Block{{Quoted: &Quoted{"run"}}}}}
	var b bytes.Buffer
	if err := Markdown(&b, &d, "di r)"); err != nil {
		t.Fatal(err)
	}
	const want = "# T\n\n**clock**\n\n*so*\n\n## S\n\n[read](#there)\n\n- **Note:** a\n- **Note:** b\n\n- **term**: said\n- **other**: more\n\n**cap**\n\n| a | b |\n|---|---:|\n| mm | % |\n| 1 | 2 |\n\n" +
		"![\\[x\\]](di%20r%29/p.svg)\n\n```sh\n1\n 2\n```\n\n### in: SUITS\n\n### H\n\n## again\n\n```sh\nrun\n```\n\n"
	if b.String() != want {
		t.Errorf("%q", b.String())
	}
}

// Of every train that some clock has the verdicts stand side by side, and the results that
// differ; what a clock has not is a dash, and inputs are set beside each other only where all
// have the train.
func TestSideBySide(t *testing.T) {
	alike := document(t, false, "three-trains", "three-trains")
	if rows := tableIn(t, alike, "compare", 0); len(rows) != 4 || rows[1][1] != "verdict" || rows[1][2] != rows[1][3] {
		t.Errorf("%q", rows)
	}
	if got := section(t, alike, "verdicts").Blocks[2].Row[1].Text; got == nil || got.Text != "No input differs." {
		t.Errorf("%+v", got)
	}
	lone := document(t, false, "eight-day", "three-trains")
	var striking, going [][]string
	for _, row := range tableIn(t, lone, "compare", 0)[1:] {
		if row[0] == "striking" {
			striking = append(striking, row)
		} else if row[0] == "going" {
			going = append(going, row)
			if row[1] != "verdict" && row[2] == row[3] {
				t.Errorf("%q", row)
			}
		}
	}
	if len(striking) != 1 || striking[0][2] != "–" || !strings.HasPrefix(striking[0][3], "SUITS") || len(going) < 4 {
		t.Errorf("%q, %q", striking, going)
	}
	for _, row := range lone.differing("going").Table.Rows[1:] {
		if row[1] == row[2] || len(row) != 3 || strings.Contains(row[0], "striking") {
			t.Errorf("%q", row)
		}
	}
	if got := lone.differing("striking").Text; got == nil || got.Text != "The others do not have this train." {
		t.Errorf("%+v", got)
	}
}
