package page

import (
	"bytes"
	"context"
	"encoding/xml"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"evenpull/sim/bench/book"
	"evenpull/sim/internal/trial"
	"evenpull/sim/internal/trial/bench"
	"evenpull/sim/internal/trial/books"
	"evenpull/sim/scenario"
	"evenpull/sim/study/dossier"
	"evenpull/sim/study/sure"
)

func document(t testing.TB, withBench bool, names ...string) *Document {
	t.Helper()
	var all []*scenario.Scenario
	for _, name := range names {
		s, _ := trial.Compile(t, name)
		all = append(all, s)
	}
	var b *book.Book
	if withBench {
		b = books.Sample(t)
	}
	return build(t, b, all...)
}

func build(t testing.TB, b *book.Book, all ...*scenario.Scenario) *Document {
	t.Helper()
	var clocks []*dossier.Clock
	for _, s := range all {
		c, err := dossier.OfClock(context.Background(), s, &sure.Options{Draws: 20, Seed: 1})
		if err != nil {
			t.Fatal(err)
		}
		clocks = append(clocks, c)
	}
	var of *dossier.Bench
	if b != nil {
		var err error
		if of, err = dossier.OfBench(context.Background(), bench.Clock(t, b, all[0]), &sure.Options{Draws: 20, Seed: 1}); err != nil {
			t.Fatal(err)
		}
	}
	d, err := Build(clocks, of, nil, Origin{Version: "v1", Date: "2026-01-02", Command: "evenpull report 'a b'"})
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// section is that of an id.
func section(t testing.TB, d *Document, id string) *Section {
	t.Helper()
	for i := range d.Sections {
		if d.Sections[i].ID == id {
			return &d.Sections[i]
		}
	}
	t.Fatalf("there is no section %s", id)
	return nil
}

// tableIn is the cells of a table of a section, by its number.
func tableIn(t testing.TB, d *Document, id string, number int) [][]string {
	t.Helper()
	for _, b := range section(t, d, id).Blocks {
		if b.Table != nil {
			if number == 0 {
				return b.Table.Rows
			}
			number--
		}
	}
	t.Fatalf("%s has no such table", id)
	return nil
}

// said is what the verdict of a clock's first train says after a mark.
func said(t testing.TB, d *Document, clock int, mark string) string {
	t.Helper()
	var found string
	var look func(blocks []Block, within bool)
	look = func(blocks []Block, within bool) {
		for _, b := range blocks {
			for _, it := range b.List {
				if within && it.Mark == mark {
					found = it.Text
				}
			}
			look(b.Row, within)
			if b.Section != nil {
				look(b.Section.Blocks, b.Section.ID == fmt.Sprintf("clock-%d-train-1-verdict", clock+1))
			}
		}
	}
	look(section(t, d, "verdicts").Blocks, false)
	return found
}

func html(t testing.TB, d *Document) string {
	t.Helper()
	var b bytes.Buffer
	if err := HTML(&b, d); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// audited is what an audit of a page looks at.
type audited struct {
	ids      map[string]int
	headings []int
	links    []string
	pictures int
	named    int // pictures with a title that their label points to
	tables   int
	captions int
	tags     map[string]int
}

// audit reads a page as XML, which it is written to be but for its head.
func audit(t testing.TB, text string) audited {
	t.Helper()
	p := audited{ids: map[string]int{}, tags: map[string]int{}}
	text = strings.TrimPrefix(text, "<!DOCTYPE html>")
	text = regexp.MustCompile(`<(meta|link|br)([^>]*[^/])>`).ReplaceAllString(text, "<$1$2/>")
	dec := xml.NewDecoder(strings.NewReader(text))
	dec.Entity = xml.HTMLEntity
	label := ""
	for {
		token, err := dec.Token()
		if err == io.EOF {
			return p
		} else if err != nil {
			t.Fatalf("not well-formed: %v", err)
		}
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		p.tags[e.Name.Local]++
		for _, a := range e.Attr {
			switch {
			case a.Name.Local == "id":
				p.ids[a.Value]++
			case a.Name.Local == "href" && e.Name.Local == "a":
				p.links = append(p.links, a.Value)
			}
		}
		switch e.Name.Local {
		case "h1", "h2", "h3", "h4":
			p.headings = append(p.headings, int(e.Name.Local[1]-'0'))
		case "svg":
			p.pictures++
			label = attribute(e, "aria-labelledby")
		case "title":
			if label != "" && attribute(e, "id") == label {
				p.named++
			}
			label = ""
		case "table":
			p.tables++
		case "caption":
			p.captions++
		}
	}
}

func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// The page is well-formed, its headings follow on each other, every id stands once
// and every link leads to one, every picture is named and every table has a
// caption; nothing of it is fetched from elsewhere.
func TestPage(t *testing.T) {
	for name, d := range map[string]*Document{
		"one": document(t, false, "eight-day"), "three": document(t, true, "three-trains"), "two": document(t, false, "eight-day", "too-strong"),
	} {
		text := html(t, d)
		p := audit(t, text)
		last := 0
		for _, h := range p.headings {
			if h > last+1 {
				t.Errorf("%s: a heading of level %d after %d", name, h, last)
			}
			last = h
		}
		for id, n := range p.ids {
			if n > 1 {
				t.Errorf("%s: the id %s stands %d times", name, id, n)
			}
		}
		for _, to := range p.links {
			if !strings.HasPrefix(to, "#") || p.ids[to[1:]] == 0 {
				t.Errorf("%s: a link to %s", name, to)
			}
		}
		if p.pictures < 4 || p.named != p.pictures || p.tables != p.captions || p.tags["h1"] != 1 {
			t.Errorf("%s: %d pictures, %d of them named; %d tables, %d captions; %d titles", name, p.pictures, p.named, p.tables, p.captions, p.tags["h1"])
		}
		for _, landmark := range []string{"header", "nav", "main", "footer"} {
			if p.tags[landmark] != 1 {
				t.Errorf("%s: %d × %s", name, p.tags[landmark], landmark)
			}
		}
		if p.tags["script"]+p.tags["img"]+p.tags["link"]+p.tags["iframe"] > 0 || regexp.MustCompile(`(src|href)="(https?:)?//`).MatchString(text) || strings.Contains(text, "@import") || strings.Contains(text, "url(") {
			t.Errorf("%s: something is fetched", name)
		}
		if strings.Contains(text, "NaN") || strings.Contains(text, "+Inf") {
			t.Errorf("%s: a number that is none", name)
		}
	}
}

// A study of three trains and a bench book is below 1 MB.
func TestSize(t *testing.T) {
	if n := len(html(t, document(t, true, "three-trains"))); n > 1_000_000 {
		t.Errorf("%d bytes", n)
	}
}

// What a user wrote stays text, in the page and in Markdown.
func TestUserTextIsEscaped(t *testing.T) {
	const evil = `</title><script>alert("x")</script> & <b>bold</b> | # * _`
	s, _ := trial.Compile(t, "eight-day")
	if err := s.Apply([]string{"title=" + `"` + strings.ReplaceAll(evil, `"`, `\"`) + `"`, "note=" + `"` + strings.ReplaceAll(evil, `"`, `\"`) + `"`}); err != nil {
		t.Fatal(err)
	}
	d := build(t, nil, s)
	d.Again.Blocks[1].Quoted.Text = evil
	text := html(t, d)
	if strings.Contains(text, "<script") || strings.Contains(text, "<b>") || !strings.Contains(text, "&lt;script&gt;") {
		t.Error("markup of the user's is in the page")
	}
	audit(t, text)
	var b bytes.Buffer
	if err := Markdown(&b, d, "pictures"); err != nil {
		t.Fatal(err)
	}
	if first, _, _ := strings.Cut(b.String(), "\n"); strings.Contains(first, "<script") || strings.Contains(first, " # *") {
		t.Errorf("markup of the user's is in the Markdown: %s", first)
	}
}

// The same inputs make the same bytes.
func TestDeterministic(t *testing.T) {
	first := html(t, document(t, true, "three-trains"))
	if again := html(t, document(t, true, "three-trains")); again != first {
		t.Error("two pages of one clock differ")
	}
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name)
	if trial.Regenerating() {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s has changed; look at it and run with -regenerate when it should", file)
	}
}

// noPictures takes the pictures out: their last digits differ between processors,
// and each has a golden file of its own.
func noPictures(text string) string {
	return regexp.MustCompile(`(?s)(<svg[^>]*>)(<title[^>]*>[^<]*</title>).*?</svg>`).ReplaceAllString(text, "$1$2</svg>")
}

func TestGoldenPage(t *testing.T) {
	golden(t, "eight-day.html", noPictures(html(t, document(t, false, "eight-day"))))
	var b bytes.Buffer
	if err := Markdown(&b, document(t, true, "eight-day", "too-strong"), "pictures"); err != nil {
		t.Fatal(err)
	}
	golden(t, "compared.md", b.String())
}

// Side by side, what differs most comes first after the verdict, and what is the same is
// left out; of the inputs only those stand there that differ, beside the picture.
func TestCompare(t *testing.T) {
	d := document(t, false, "eight-day", "too-weak")
	rows := tableIn(t, d, "compare", 0)
	if rows[1][1] != "verdict" || !strings.HasPrefix(rows[1][2], "SUITS, sure to ") || !strings.HasPrefix(rows[1][3], "STOPS") || !strings.HasPrefix(rows[2][1], "unevenness") || len(rows) < 12 {
		t.Errorf("%v", rows)
	}
	for _, row := range rows[2:] {
		if row[2] == row[3] {
			t.Errorf("%v", row)
		}
	}
	beside := section(t, d, "verdicts").Blocks[2].Row[1].Table
	want := [][]string{{"input", "1", "2"}, {"thickness of the going mainspring, mm", "0.38", "0.37"}, {"set-up of the going mainspring, turns", "1.25", "0.5"}}
	if fmt.Sprint(beside.Rows) != fmt.Sprint(want) || beside.Right[0] || !beside.Right[1] || !beside.Right[2] {
		t.Errorf("%v", beside)
	}
}

// Every picture has a name that is known for one.
func TestPictureNames(t *testing.T) {
	for _, p := range document(t, true, "three-trains").Pictures {
		if !IsPicture(p.ID + ".svg") {
			t.Errorf("%s is not known for a picture", p.ID)
		}
	}
	if IsPicture("holiday.svg") {
		t.Error("a picture of somebody else's is taken for ours")
	}
}

// BenchmarkPage is a page of three trains from read scenario to HTML.
func BenchmarkPage(b *testing.B) {
	for b.Loop() {
		if err := HTML(io.Discard, document(b, false, "three-trains")); err != nil {
			b.Fatal(err)
		}
	}
}
