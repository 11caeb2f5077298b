package seen

import (
	"image/color"
	"math"
	"testing"
)

// Contrasts and lightnesses that are published: black on white 21:1, grey 777777 on white
// 4.48:1 (the example of many guides to WCAG, from memory); L* of middle grey 119 is 50.0
// (CIE 1976, worked out by hand).
func TestLight(t *testing.T) {
	white := []color.RGBA{{0xff, 0xff, 0xff, 0xff}}
	for ink, want := range map[color.RGBA]float64{{A: 0xff}: 21, {0x77, 0x77, 0x77, 0xff}: 4.48, {0xff, 0xff, 0xff, 0xff}: 1} {
		if got := (&Label{Ink: ink, Grounds: white}).Contrast(); math.Abs(got-want) > 0.005 {
			t.Errorf("%v: %.3f, want %v", ink, got, want)
		}
	}
	for c, want := range map[uint8]float64{0: 0, 1: 0.27, 119: 50.03, 255: 100} {
		if got := Lightness(color.Gray{c}); math.Abs(got-want) > 0.01 {
			t.Errorf("%d: %.3f, want %v", c, got, want)
		}
	}
}

// A label stands on what was painted last below it; what has a hole is not there.
func TestGrounds(t *testing.T) {
	const svg = `<svg viewBox="0 0 100 100">
<path d="M0,0L100,0L100,50L0,50Z" style="fill:#FF0000" />
<path d="M0,0L40,0L40,40L0,40ZM10,10L10,30L30,30L30,10Z" style="fill:#00FF00" />
<text textLength="10" x="15" y="22" style="fill:#0000FF;font-size:8px">hole</text>
<text textLength="10" x="60" y="20" style="font-size:8px">red</text>
<text textLength="10" x="60" y="54" style="font-size:8px">edge</text>
<path d="M0,60L100,60L100,99L0,99Z" style="fill:none;stroke:#000000" />
<text textLength="10" x="60" y="80" style="font-size:8px">paper</text></svg>`
	s, err := Read([]byte(svg))
	if err != nil {
		t.Fatal(err)
	}
	red, paper := color.RGBA{0xff, 0, 0, 0xff}, color.RGBA{0xff, 0xff, 0xff, 0xff}
	for i, want := range [][2]color.RGBA{{red, red}, {red, red}, {red, paper}, {paper, paper}} {
		g := s.Labels[i].Grounds
		if g[0] != want[0] || g[len(g)-1] != want[1] {
			t.Errorf("%s: %v", s.Labels[i].Words, g)
		}
	}
	if s.Labels[0].Ink != (color.RGBA{0, 0, 0xff, 0xff}) || s.Labels[1].Ink != (color.RGBA{A: 0xff}) {
		t.Error("the ink")
	}
}
