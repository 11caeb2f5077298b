package chart

import (
	"image/color"

	"evenpull/sim/rules"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// One language for all pictures. What is needed is always the same broken line. What the
// clock is now is a heavy line or a ring; what is best, or advised, a broken blue line or a
// full square; what was tried, a thin line or a small dot. A cross is where it stops. Verdicts
// are bands from blue, too weak, over white to brown, too strong: each differs from the next
// in lightness or is hatched, so that neither grey paper nor an eye that takes red for green
// confuses them. What cannot be is hatched both ways,
// where turns are lost on a map it is dotted. Intervals hold 95 %.
var (
	ink     = color.RGBA{0x1b, 0x2a, 0x41, 0xff}
	paper   = color.White
	needInk = color.RGBA{0x7a, 0x1f, 0x1f, 0xff}
	steel   = color.RGBA{0x1f, 0x5f, 0x9a, 0xff}
	dim     = color.Gray{0x50}
)

// Lines.
var (
	needLine   = draw.LineStyle{Color: needInk, Width: vg.Points(1.6), Dashes: []vg.Length{8, 4}}
	meanLine   = draw.LineStyle{Color: ink, Width: vg.Points(0.9), Dashes: []vg.Length{2, 3}}
	nowLine    = draw.LineStyle{Color: ink, Width: vg.Points(2)}
	bestLine   = draw.LineStyle{Color: steel, Width: vg.Points(2), Dashes: []vg.Length{9, 2, 2, 2}}
	adviceLine = draw.LineStyle{Color: ink, Width: vg.Points(2), Dashes: []vg.Length{3, 2}}
	trials     = []draw.LineStyle{
		{Color: ink, Width: vg.Points(0.8)},
		{Color: ink, Width: vg.Points(0.8), Dashes: []vg.Length{4, 2}},
		{Color: ink, Width: vg.Points(0.8), Dashes: []vg.Length{8, 2, 2, 2, 2, 2}},
	}
	goneLine = draw.LineStyle{Color: dim, Width: vg.Points(0.8), Dashes: []vg.Length{1, 2}} // after it has stopped
	limits   = []draw.LineStyle{                                                            // of levels and uprights
		{Color: dim, Width: vg.Points(1.1), Dashes: []vg.Length{10, 3, 2, 3}},
		{Color: dim, Width: vg.Points(1.1), Dashes: []vg.Length{1.5, 3}},
	}
	borders = []draw.LineStyle{ // across a map
		{Color: color.Black, Width: vg.Points(2.2), Dashes: []vg.Length{2, 3}},
		{Color: color.Black, Width: vg.Points(2.2), Dashes: []vg.Length{9, 4}},
		{Color: color.Black, Width: vg.Points(2.2)},
		{Color: color.Black, Width: vg.Points(2.2), Dashes: []vg.Length{12, 3, 2, 3}},
	}
	stepLine  = draw.LineStyle{Color: dim, Width: vg.Points(0.4)}
	outline   = draw.LineStyle{Color: ink, Width: vg.Points(0.5)}
	errorLine = draw.LineStyle{Color: ink, Width: vg.Points(0.8)}
	axisLine  = draw.LineStyle{Color: color.Black, Width: vg.Points(0.5)}
)

// Marks and dots.
var (
	nowMark   = glyph(5, draw.RingGlyph{})
	bestMark  = glyph(4.5, draw.BoxGlyph{})
	trialMark = glyph(2.6, draw.CircleGlyph{})
	stopMark  = draw.GlyphStyle{Color: needInk, Radius: 4.5, Shape: heavyCross{}}
	meanDot   = glyph(2.6, draw.BoxGlyph{}) // of readings
	otherDot  = glyph(3, draw.PyramidGlyph{})
	smallDot  = draw.GlyphStyle{Color: dim, Radius: 1.8, Shape: draw.RingGlyph{}}
	onward    = glyph(3.2, pointer{1})         // of a way to the right
	back      = glyph(3.6, pointer{-1})        // and to the left
	computed  = glyph(1.3, draw.CircleGlyph{}) // where a figure was computed; between them the line is drawn by eye
)

func glyph(radius vg.Length, shape draw.GlyphDrawer) draw.GlyphStyle {
	return draw.GlyphStyle{Color: ink, Radius: radius, Shape: shape}
}

// pointer is a triangle that points along the x axis.
type pointer struct{ way vg.Length }

// DrawGlyph draws it.
func (g pointer) DrawGlyph(c *draw.Canvas, style draw.GlyphStyle, at vg.Point) {
	c.SetColor(style.Color)
	r := style.Radius
	var p vg.Path
	p.Move(vg.Point{X: at.X + g.way*1.2*r, Y: at.Y})
	p.Line(vg.Point{X: at.X - g.way*0.8*r, Y: at.Y + r})
	p.Line(vg.Point{X: at.X - g.way*0.8*r, Y: at.Y - r})
	p.Close()
	c.Fill(p)
}

// heavyCross is a cross that is not overlooked on a line.
type heavyCross struct{}

// DrawGlyph draws it.
func (heavyCross) DrawGlyph(c *draw.Canvas, style draw.GlyphStyle, at vg.Point) {
	c.SetLineStyle(draw.LineStyle{Color: style.Color, Width: 2})
	r := style.Radius * 0.8
	for _, d := range []vg.Length{r, -r} {
		var p vg.Path
		p.Move(vg.Point{X: at.X - r, Y: at.Y - d})
		p.Line(vg.Point{X: at.X + r, Y: at.Y + d})
		c.Stroke(p)
	}
}

// tint is how a range of an axis looks.
type tint struct {
	fill  color.Color
	hatch hatching
}

// Tints.
var (
	tints = map[rules.Code]tint{
		rules.Unjudged:   {color.White, 0},
		rules.Stops:      {color.RGBA{0xbc, 0xcd, 0xe3, 0xff}, rising},
		rules.Thin:       {color.RGBA{0xd9, 0xe4, 0xf1, 0xff}, 0},
		rules.Suits:      {color.RGBA{0xf8, 0xfc, 0xf6, 0xff}, 0},
		rules.Strong:     {color.RGBA{0xeb, 0xc4, 0x95, 0xff}, 0},
		rules.Overdriven: {color.RGBA{0xdc, 0xa8, 0x73, 0xff}, falling},
	}
	impossible = tint{color.Gray{0xf0}, crossed}
	nearby     = tint{color.Gray{0xde}, 0} // a range about the best

	tintLine  = draw.LineStyle{Color: color.Gray{0x9a}, Width: vg.Points(0.4)}
	hatchLine = draw.LineStyle{Color: color.Gray{0x70}, Width: vg.Points(0.5)}
	dotLine   = draw.LineStyle{Color: color.Gray{0x30}, Width: vg.Points(1.6), Dashes: []vg.Length{1.6, hatchStep - 1.6}}
	areaFill  = color.Gray{0xc2}
	barFill   = color.RGBA{0x9d, 0xa9, 0xbb, 0xff}
	sideFills = []color.RGBA{{0xd9, 0xde, 0xe6, 0xff}, {0x4a, 0x5a, 0x74, 0xff}} // less and more of an input
	lightest  = color.RGBA{0xf7, 0xf4, 0xe8, 0xff}                               // of a map
	darkest   = color.RGBA{0x74, 0x90, 0xac, 0xff}
)
