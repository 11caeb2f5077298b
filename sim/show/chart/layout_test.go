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
	"evenpull/sim/show/canvas/seen"

	"gonum.org/v1/plot/plotter"
)

// labels are the texts of a picture of the usual look.
func labels(t testing.TB, panels ...*panel) []seen.Label {
	t.Helper()
	sheet, err := seen.Read([]byte(drawn(t, panels...)))
	if err != nil {
		t.Fatal(err)
	}
	for _, fault := range sheet.Illegible() {
		t.Error(fault)
	}
	return sheet.Labels
}

// lies tells whether a text is level.
func lies(l seen.Label) bool { return l.Right-l.Left > l.Foot-l.Top }

func find(t testing.TB, list []seen.Label, s string) seen.Label {
	t.Helper()
	i := slices.IndexFunc(list, func(w seen.Label) bool { return w.Words == s })
	if i < 0 {
		t.Fatalf("no %q in the picture", s)
	}
	return list[i]
}

// many is a panel whose legend takes several rows.
func many() *panel {
	g := everything()
	for _, name := range []string{"the seventh of the curves", "the eighth of the curves", "the ninth of the curves, which is long", "the tenth"} {
		g.layers = append(g.layers, line(name, trials[0], curve(math.Sqrt)))
	}
	return g
}

func TestLegendLiesBelow(t *testing.T) {
	bars := tornado("title", "name", "under the axis", moved, []effect{
		{"mainspring.thickness_mm = 0.38 mm, with a tolerance of 0.01 mm", -1, 1}, {"b", nan, -0.5}, {"c", 0.2, nan}, {"d", nan, nan}})
	for name, c := range map[string]struct {
		p       *panel
		axis    string
		entries []string
	}{
		"graph":   {many(), "turns", []string{"plain", "area", "line", "broken", "level", "upright", "mark", "the ninth of the curves, which is long"}},
		"tornado": {bars, "under the axis", []string{"less of the input", "more of the input"}},
		"map":     {hill(21), "east", []string{"shore", "here"}},
	} {
		t.Run(name, func(t *testing.T) {
			list := labels(t, c.p)
			for _, e := range c.entries {
				if w := find(t, list, e); w.Top < find(t, list, c.axis).Foot {
					t.Errorf("%q stands at %.0f points, over the axis", e, w.Foot)
				}
			}
		})
	}
}

// Names stand apart above the data, however narrow the stripes, or upright among it; what
// fits neither way is in the legend, once.
func TestNamesOfStripes(t *testing.T) {
	for _, n := range []int{1, 2, 5, 9, 12, 20, 40, 70} {
		g := &panel{x: "x", y: "y", xs: ext(0, 1), layers: []layer{line("line", trials[0], curve(straight))}}
		for k := range n {
			g.stripes = append(g.stripes, judged(rules.Overdriven, float64(k)/float64(n), float64(k+1)/float64(n)))
		}
		named := 0
		for _, w := range labels(t, g) {
			if w.Words == "overdriven" {
				named++
			}
		}
		if want := map[bool]int{true: n, false: 1}[n <= 40]; named != want {
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
		list := labels(t, tornado("", "", "x", moved, []effect{c.bar, {"b", -1, 1}}))
		w, zero := find(t, list, "cannot be built"), find(t, list, "0.0")
		if at := (zero.Left + zero.Right) / 2; c.left != (w.Right < at) || !c.left != (w.Left > at) {
			t.Errorf("%+v: from %.0f to %.0f, 0 at %.0f", c.bar, w.Left, w.Right, at)
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

// A stripe too narrow for its name lying bears it upright; one narrower still has it in the
// legend.
func TestNarrowBandNamed(t *testing.T) {
	g := everything()
	g.stripes = []shade{judged(rules.Suits, 0, 6), judged(rules.Thin, 6, 6.3), judged(rules.Strong, 6.3, 6.35), judged(rules.Overdriven, 6.35, 10)}
	list := labels(t, g)
	axis := find(t, list, "turns")
	for code, want := range map[rules.Code][2]bool{rules.Suits: {true, false}, rules.Thin: {false, false}, rules.Strong: {true, true}, rules.Overdriven: {true, false}} {
		if w := find(t, list, code.String()); lies(w) != want[0] || (w.Top > axis.Foot) != want[1] {
			t.Errorf("%s: lying %v, below the axis %v; want %v", code, lies(w), w.Top > axis.Foot, want)
		}
	}
}

// An upright name stands in the widest room that lines and areas leave.
func TestWidestGap(t *testing.T) {
	across := func(y ...float64) plotter.XYs {
		return plotter.XYs{{X: 0, Y: y[0]}, {X: 5, Y: y[1]}, {X: 10, Y: y[2]}}
	}
	g := &panel{layers: []layer{area("spread", across(2.5, 4, 7), across(4, 6, 9)), line("need", needLine, across(2, 2, 2)), line("mean", trials[0], across(3, 5, 8)), level("limit", limits[0], 9.5)}}
	for _, c := range []struct{ from, to, lo, hi float64 }{
		{0, 1, 4, 9.5}, {9, 10, 2, 7}, {4, 10, 0, 2}, {0, 10, 0, 2}, {6, 7, 0, 9.5},
	} {
		if gap := (&frame{panel: g, up: ext(0, 10)}).widestGap(ext(c.from, c.to)); gap != ext(c.lo, c.hi) {
			t.Errorf("over %v to %v: %v; want %v to %v", c.from, c.to, gap, c.lo, c.hi)
		}
	}
	// Room is measured from where it begins: 1.5 from 4 on is more than 1 from 1 on.
	if gap := (&frame{panel: g, up: ext(1, 5.5)}).widestGap(ext(0, 1)); gap != ext(4, 5.5) {
		t.Errorf("%v", gap)
	}
}
