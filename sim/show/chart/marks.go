package chart

import (
	"image/color"

	"evenpull/sim/rules"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

var (
	ink     = color.RGBA{0x1b, 0x2a, 0x41, 0xff}
	needInk = color.RGBA{0x7a, 0x1f, 0x1f, 0xff}
	steel   = color.RGBA{0x3d, 0x6a, 0x94, 0xff}
	dim     = color.Gray{0x50}
)

// Lines. The need and a mean are drawn alike in every picture.
var (
	needLine = draw.LineStyle{Color: needInk, Width: vg.Points(1.6), Dashes: []vg.Length{8, 4}}
	meanLine = draw.LineStyle{Color: ink, Width: vg.Points(0.9), Dashes: []vg.Length{2, 3}}
	curves   = []draw.LineStyle{
		{Color: ink, Width: vg.Points(2)},
		{Color: steel, Width: vg.Points(1.5), Dashes: []vg.Length{9, 2, 2, 2, 2, 2}},
		{Color: ink, Width: vg.Points(0.8)},
	}
	limits = []draw.LineStyle{ // of levels and uprights
		{Color: dim, Width: vg.Points(1.1), Dashes: []vg.Length{10, 3, 2, 3}},
		{Color: dim, Width: vg.Points(1.1), Dashes: []vg.Length{1.5, 3}},
		{Color: dim, Width: vg.Points(1.1), Dashes: []vg.Length{6, 4}},
	}
	borders = []draw.LineStyle{ // across a map
		{Color: color.Black, Width: vg.Points(2.6), Dashes: []vg.Length{2, 3}},
		{Color: color.Black, Width: vg.Points(2.6), Dashes: []vg.Length{9, 4}},
		{Color: color.Black, Width: vg.Points(2.6)},
		{Color: color.Black, Width: vg.Points(2.6), Dashes: []vg.Length{12, 3, 2, 3}},
	}
	stepLine  = draw.LineStyle{Color: dim, Width: vg.Points(0.4)}
	outline   = draw.LineStyle{Color: ink, Width: vg.Points(0.5)}
	errorLine = draw.LineStyle{Color: ink, Width: vg.Points(0.8)}
)

// Marks of what is, in the scenario, and of the best found or the one chosen; and dots.
var (
	nowMark    = glyph(5, draw.RingGlyph{})
	bestMark   = glyph(5, draw.SquareGlyph{})
	firstDot   = glyph(2.6, draw.CircleGlyph{})
	secondDot  = glyph(2.6, draw.BoxGlyph{})
	smallDot   = draw.GlyphStyle{Color: color.Gray{0x9a}, Radius: 1.8, Shape: draw.RingGlyph{}}
	unbuiltDot = draw.GlyphStyle{Color: color.Gray{0x70}, Radius: 2.2, Shape: draw.CrossGlyph{}}
)

func glyph(radius vg.Length, shape draw.GlyphDrawer) draw.GlyphStyle {
	return draw.GlyphStyle{Color: ink, Radius: radius, Shape: shape}
}

// Tints: those of the verdicts go from light where all is well to dark at both ends.
var (
	tints = map[rules.Code]color.RGBA{
		rules.Unjudged:   {0x8c, 0x8c, 0x8c, 0xff}, // what cannot be built
		rules.Stops:      {0xdf, 0xbf, 0xb4, 0xff},
		rules.Thin:       {0xf0, 0xe6, 0xc8, 0xff},
		rules.Suits:      {0xf4, 0xfa, 0xf1, 0xff},
		rules.Strong:     {0xe4, 0xdf, 0xcd, 0xff},
		rules.Overdriven: {0xcf, 0xc0, 0xb6, 0xff},
	}
	tintLine  = draw.LineStyle{Color: color.Gray{0x9a}, Width: vg.Points(0.4)}
	areaFill  = color.Gray{0xc2}
	plainFill = color.Gray{0xde}
	barFill   = color.RGBA{0x9d, 0xa9, 0xbb, 0xff}
	sideFills = []color.RGBA{{0xd9, 0xde, 0xe6, 0xff}, {0x4a, 0x5a, 0x74, 0xff}} // less and more of an input
	lightest  = color.RGBA{0xf7, 0xf4, 0xe8, 0xff}                               // of a map
	darkest   = color.RGBA{0x54, 0x70, 0x8c, 0xff}
)
