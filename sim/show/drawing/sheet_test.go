package drawing

import (
	"math"
	"strings"
	"testing"

	"evenpull/fusee"
	"evenpull/sim/show/canvas"
)

// Words are broken to a width, none is lost, and no line could take the next word.
func TestParagraphs(t *testing.T) {
	const text = "Take the line and the spring off before anything is cut. Turn the fusee on a lathe with its arbor supported at both ends, never in the clock."
	style := canvas.Letters(normal)
	for _, width := range []float64{1, 30, 60, 1000} {
		var b paragraphs
		b.add(width, large, "Above")
		b.add(width, normal, text)
		var all []string
		for i, l := range b[1:] {
			all = append(all, l.words)
			if l.size != normal || style.Width(l.words) > length(width) && strings.Contains(l.words, " ") {
				t.Errorf("%q is wider than %v mm", l.words, width)
			}
			if i > 0 {
				next, _, _ := strings.Cut(l.words, " ")
				if style.Width(b[i].words+" "+next) <= length(width) {
					t.Errorf("%q has room for %q", b[i].words, next)
				}
			}
		}
		if strings.Join(all, " ") != text || b[0].words != "Above" {
			t.Errorf("%v", b)
		}
		// A point is 127/360 mm; lines stand 1.25 of their size apart.
		if want := 1.25 * (13 + 9*float64(len(b)-1)) * 127 / 360; math.Abs(b.height()-want) > 1e-9 {
			t.Errorf("%d lines are %v mm high, want %v", len(b), b.height(), want)
		}
	}
	var none paragraphs
	if none.add(50, normal, " "); len(none) != 0 || none.height() != 0 {
		t.Errorf("%v of nothing", none)
	}
}

// The outline of a straight cone: twice its radii high at the ends, its length long,
// at the scale of the sheet.
func TestOutline(t *testing.T) {
	profile, err := fusee.Measured([]float64{10e-3, 12e-3, 14e-3})
	if err != nil {
		t.Fatal(err)
	}
	c := &fusee.Cone{Turns: 2, Profile: profile, Pitch: 2e-3}
	s := &sheet{scale: 0.5}
	p := s.profile(c, 1e-3, 0)
	outline := around(spot{100, 50}, p)
	want := map[int]spot{0: {100, 55.5}, len(p) - 1: {102, 57.5}, len(p): {102, 42.5}, 2*len(p) - 1: {100, 44.5}, 2 * len(p): {100, 55.5}}
	for i, w := range want {
		if got := outline[i]; math.Abs(got.x-w.x) > 1e-9 || math.Abs(got.y-w.y) > 1e-9 {
			t.Errorf("point %d: %v, want %v", i, got, w)
		}
	}
	if len(outline) != 2*len(p)+1 || math.Abs(widest(p)-7.5) > 1e-9 {
		t.Errorf("%d points, %v mm wide", len(outline), widest(p))
	}
}
