package chart

import (
	"encoding/xml"
	"errors"
	"io"
	"math"
	"slices"
	"strings"
	"testing"

	"evenpull/sim/rules"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"
)

// word is a text that lies level on the page.
type word struct {
	text      string
	from, to  vg.Length // along the page
	base, top vg.Length // up the page; top is about that of its capitals
}

// levelTexts are the level texts of a picture that is drawn on a page of the usual
// width, with the margins that a page has.
func levelTexts(t testing.TB, p *panel) []word {
	t.Helper()
	return levelTextsWithin(t, p, Width)
}

func levelTextsWithin(t testing.TB, p *panel, width vg.Length) []word {
	t.Helper()
	var rec recorder.Canvas
	page := draw.NewCanvas(&rec, width, p.tall())
	p.draw(draw.Crop(page, margin, -margin, margin, -margin))
	var list []word
	var turned []bool // for every state of the canvas that is kept
	now := false
	for _, a := range rec.Actions {
		switch a := a.(type) {
		case *recorder.Push:
			turned = append(turned, now)
		case *recorder.Pop:
			now, turned = turned[len(turned)-1], turned[:len(turned)-1]
		case *recorder.Rotate:
			now = true
		case *recorder.FillString:
			if now {
				continue
			}
			size := a.Size
			style := text.Style{Font: font.From(plot.DefaultFont, size), Handler: plot.DefaultTextHandler}
			list = append(list, word{a.String, a.Point.X, a.Point.X + style.Width(a.String), a.Point.Y, a.Point.Y + 0.65*size})
		}
	}
	return list
}

func find(t testing.TB, list []word, s string) word {
	t.Helper()
	i := slices.IndexFunc(list, func(w word) bool { return w.text == s })
	if i < 0 {
		t.Fatalf("no %q in the picture", s)
	}
	return list[i]
}

// checkWords holds that no text passes the edge of the page or lies on another.
func checkWords(t *testing.T, list []word) {
	t.Helper()
	checkWordsWithin(t, list, Width)
}

func checkWordsWithin(t *testing.T, list []word, width vg.Length) {
	t.Helper()
	for i, a := range list {
		if a.from < 0 || a.to > width || a.base < 0 {
			t.Errorf("%q passes the edge of the page: from %.0f to %.0f points", a.text, a.from, a.to)
		}
		for _, b := range list[:i] {
			if a.from < b.to && b.from < a.to && a.base < b.top && b.base < a.top {
				t.Errorf("%q lies on %q", a.text, b.text)
			}
		}
	}
}

// many is a panel whose legend takes several rows.
func many() *panel {
	g := everything()
	for _, name := range []string{"the seventh of the curves", "the eighth of the curves", "the ninth of the curves, which is long", "the tenth"} {
		g.layers = append(g.layers, line(name, curves[0], curve(math.Sqrt)))
	}
	return g
}

func TestLegendLiesBelow(t *testing.T) {
	bars := tornado("title", "under the axis", moved, []effect{
		{"mainspring.thickness_mm = 0.38 mm, with a tolerance of 0.01 mm", -1, 1}, {"b", nan, -0.5}, {"c", 0.2, nan}, {"d", nan, nan}})
	for name, c := range map[string]struct {
		p       *panel
		axis    string
		entries []string
	}{
		"graph":   {many(), "turns", []string{"plain", "area", "line", "broken", "level", "upright", "mark", "the ninth of the curves, which is long"}},
		"tornado": {bars, "under the axis", []string{"less of the input", "more of the input"}},
		"map":     {hill(21), "east", []string{"cannot be built", "shore", "here"}},
	} {
		t.Run(name, func(t *testing.T) {
			list := levelTexts(t, c.p)
			checkWords(t, list)
			for _, e := range c.entries {
				if w := find(t, list, e); w.top > find(t, list, c.axis).base {
					t.Errorf("%q stands at %.0f points, over the axis", e, w.base)
				}
			}
		})
	}
}

// Names stand apart above the data, however narrow the stripes: what does not fit
// its stripe is left out.
func TestNamesOfStripes(t *testing.T) {
	for n := 1; n <= 40; n++ {
		g := &panel{x: "x", y: "y", xs: ext(0, 1), layers: []layer{line("line", curves[0], curve(straight))}}
		for k := range n {
			g.stripes = append(g.stripes, judged(rules.Overdriven, float64(k)/float64(n), float64(k+1)/float64(n)))
		}
		list := levelTexts(t, g)
		checkWords(t, list)
		named := 0
		for _, w := range list {
			if w.text == "overdriven" {
				named++
			}
		}
		if n < 10 && named != n || n > 15 && named != 0 {
			t.Errorf("%d of %d names", named, n)
		}
	}
}

// A tornado of one side that cannot be built says so where no bar is.
func TestUnbuiltBesideTheBar(t *testing.T) {
	for _, c := range []struct {
		bar  effect
		left bool
	}{{effect{"a", -1, nan}, false}, {effect{"a", nan, 1}, true}, {effect{"a", nan, -1}, false}, {effect{"a", nan, nan}, false}} {
		list := levelTexts(t, tornado("", "x", moved, []effect{c.bar, {"b", -1, 1}}))
		w, zero := find(t, list, "cannot be built"), find(t, list, "0.0")
		if at := (zero.from + zero.to) / 2; c.left != (w.to < at) || !c.left != (w.from > at) {
			t.Errorf("%+v: from %.0f to %.0f, 0 at %.0f", c.bar, w.from, w.to, at)
		}
	}
}

// wellFormed reads an SVG to its end.
func wellFormed(svg string) error {
	dec := xml.NewDecoder(strings.NewReader(svg))
	for {
		if _, err := dec.Token(); errors.Is(err, io.EOF) {
			return nil
		} else if err != nil {
			return err
		}
	}
}

// A band too narrow for its name lying bears it upright; one narrower still, none.
func TestNarrowBandNamed(t *testing.T) {
	g := everything()
	g.stripes = []shade{judged(rules.Suits, 0, 6), judged(rules.Thin, 6, 6.3), judged(rules.Strong, 6.3, 6.35), judged(rules.Overdriven, 6.35, 10)}
	var svg strings.Builder
	if err := stack(&svg, "svg", g); err != nil {
		t.Fatal(err)
	}
	lying := levelTexts(t, g)
	for code, want := range map[rules.Code][2]bool{rules.Suits: {true, true}, rules.Thin: {false, true}, rules.Strong: {false, false}, rules.Overdriven: {true, true}} {
		name := code.String()
		lies := slices.ContainsFunc(lying, func(w word) bool { return w.text == name })
		if there := strings.Contains(svg.String(), ">"+name+"<"); lies != want[0] || there != want[1] {
			t.Errorf("%s: lying %v, there %v; want %v", name, lies, there, want)
		}
	}
	checkWords(t, lying)
}

// An upright name stands in the widest room that lines and areas leave.
func TestWidestGap(t *testing.T) {
	across := func(y ...float64) plotter.XYs {
		return plotter.XYs{{X: 0, Y: y[0]}, {X: 5, Y: y[1]}, {X: 10, Y: y[2]}}
	}
	g := &panel{layers: []layer{area("spread", across(2.5, 4, 7), across(4, 6, 9)), line("need", needLine, across(2, 2, 2)), line("mean", curves[0], across(3, 5, 8)), level("limit", limits[0], 9.5)}}
	for _, c := range []struct{ from, to, lo, hi float64 }{
		{0, 1, 4, 10}, {9, 10, 2, 7}, {4, 10, 0, 2}, {0, 10, 0, 2}, {6, 7, 0, 10},
	} {
		if gap := g.widestGap(ext(c.from, c.to), ext(0, 10)); gap != ext(c.lo, c.hi) {
			t.Errorf("over %v to %v: %v; want %v to %v", c.from, c.to, gap, c.lo, c.hi)
		}
	}
	// Room is measured from where it begins: 1.5 from 4 on is more than 1 from 1 on.
	if gap := g.widestGap(ext(0, 1), ext(1, 5.5)); gap != ext(4, 5.5) {
		t.Errorf("%v", gap)
	}
}
