package seen

import (
	"fmt"
	"image/color"
	"math"
	"regexp"
)

// filled is a part of a picture that is painted.
type filled struct {
	lines  [][]Spot
	colour color.RGBA
}

var paint = regexp.MustCompile(`(?:^|;)fill:#([0-9A-F]{2})([0-9A-F]{2})([0-9A-F]{2})`)

// ofStyle is the colour that a style fills with: black where it says none.
func ofStyle(style string) color.RGBA {
	c := color.RGBA{A: 0xff}
	if m := paint.FindStringSubmatch(style); m != nil {
		for i, to := range []*uint8{&c.R, &c.G, &c.B} {
			fmt.Sscanf(m[i+1], "%X", to)
		}
	}
	return c
}

// grounds are the colours below a label as far as it is drawn: those at its middle and
// towards its corners.
func (s *Sheet) grounds(l *Label) (list []color.RGBA) {
	for _, u := range []float64{0.05, 0.5, 0.95} {
		for _, v := range []float64{0.1, 0.5, 0.9} {
			list = append(list, s.ground(Spot{l.Left + u*(l.Right-l.Left), l.Top + v*(l.Foot-l.Top)}))
		}
	}
	return list
}

// ground is the colour of a place: of what was painted last over it, else of white paper.
func (s *Sheet) ground(p Spot) color.RGBA {
	for i := len(s.fills) - 1; i >= 0; i-- {
		if s.fills[i].has(p) {
			return s.fills[i].colour
		}
	}
	return color.RGBA{0xff, 0xff, 0xff, 0xff}
}

// has tells whether a place lies within the outlines, by the rule of their winding (SVG 1.1,
// 11.3, from memory).
func (f *filled) has(p Spot) bool {
	winding := 0
	for _, line := range f.lines {
		for i, a := range line {
			b := line[(i+1)%len(line)]
			if a.Y <= p.Y != (b.Y <= p.Y) && a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) > p.X {
				if a.Y < b.Y {
					winding++
				} else {
					winding--
				}
			}
		}
	}
	return winding != 0
}

// Contrast is that of the letters of a label with what they stand on, at the worst: 1 to 21
// (WCAG 2.1, "contrast ratio", from memory).
func (l *Label) Contrast() float64 {
	least := math.Inf(1)
	for _, g := range l.Grounds {
		a, b := Luminance(l.Ink), Luminance(g)
		least = min(least, (max(a, b)+0.05)/(min(a, b)+0.05))
	}
	return least
}

// Luminance is how light a colour of sRGB is, 0 to 1 (IEC 61966-2-1, with the threshold that
// WCAG 2.1 has, from memory).
func Luminance(c color.Color) float64 {
	of := color.RGBAModel.Convert(c).(color.RGBA)
	linear := func(v uint8) float64 {
		if s := float64(v) / 255; s > 0.03928 {
			return math.Pow((s+0.055)/1.055, 2.4)
		}
		return float64(v) / 255 / 12.92
	}
	return 0.2126*linear(of.R) + 0.7152*linear(of.G) + 0.0722*linear(of.B)
}

// Lightness is how light a colour seems, 0 to 100: L* of CIE 1976, from memory.
func Lightness(c color.Color) float64 {
	if y := Luminance(c); y > 216./24389 {
		return 116*math.Cbrt(y) - 16
	}
	return Luminance(c) * 24389 / 27
}
