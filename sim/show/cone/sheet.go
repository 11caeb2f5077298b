package cone

import (
	"image/color"
	"io"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// sheet is a page on which a millimetre is a millimetre: x to the right and y up
// from the lower left corner, both in mm.
type sheet struct {
	c             vg.CanvasWriterTo
	on            draw.Canvas
	width, height float64
}

func newSheet(format string, width, height float64) (*sheet, error) {
	c, err := draw.NewFormattedCanvas(vg.Length(width)*vg.Millimeter, vg.Length(height)*vg.Millimeter, format)
	if err != nil {
		return nil, err
	}
	return &sheet{c: c, on: draw.New(c), width: width, height: height}, nil
}

func (s *sheet) writeTo(w io.Writer) error {
	_, err := s.c.WriteTo(w)
	return err
}

var (
	black  = color.Gray{0x10}
	grey   = color.Gray{0x78}
	waste  = color.Gray{0xd0} // metal that comes off
	solid  = draw.LineStyle{Color: black, Width: vg.Points(1.1)}
	thin   = draw.LineStyle{Color: black, Width: vg.Points(0.4)}
	groove = draw.LineStyle{Color: grey, Width: vg.Points(0.4)}
	dashed = draw.LineStyle{Color: black, Width: vg.Points(0.7), Dashes: []vg.Length{4, 2}}
	middle = draw.LineStyle{Color: black, Width: vg.Points(0.4), Dashes: []vg.Length{10, 2, 2, 2}} // ISO 128: long dash, dot
)

type spot struct{ x, y float64 }

func (p spot) on() vg.Point {
	return vg.Point{X: vg.Length(p.x) * vg.Millimeter, Y: vg.Length(p.y) * vg.Millimeter}
}

func (s *sheet) line(style draw.LineStyle, spots ...spot) {
	points := make([]vg.Point, len(spots))
	for i, p := range spots {
		points[i] = p.on()
	}
	s.on.StrokeLines(style, points)
}

func (s *sheet) fill(shade color.Color, spots []spot) {
	points := make([]vg.Point, len(spots))
	for i, p := range spots {
		points[i] = p.on()
	}
	s.on.FillPolygon(shade, points)
}

// Sizes of letters in points.
const (
	tiny   = 7
	small  = 8
	normal = 9
	large  = 13
)

func letters(size vg.Length) text.Style {
	return text.Style{Color: black, Font: font.From(plot.DefaultFont, size), Handler: plot.DefaultTextHandler, YAlign: text.YCenter}
}

// words writes a text beside a spot: x is −1, 0 or 1 for one that ends there, is
// centred there, or begins there.
func (s *sheet) words(at spot, x int, size vg.Length, words string) {
	style := letters(size)
	style.XAlign = [...]text.XAlignment{text.XRight, text.XCenter, text.XLeft}[x+1]
	s.on.FillText(style, at.on(), words)
}

const (
	tick   = 1.2 // mm, half a slash at the end of a dimension line
	beyond = 1.5 // mm, extension lines go past the dimension line
	clear  = 1.0 // mm, and begin off the outline
)

// upright dimensions the distance between two heights, from an edge at x, with the
// dimension line at at and the words beside it, away from the edge.
func (s *sheet) upright(edge, at, low, high float64, words ...string) {
	way := math.Copysign(1, at-edge)
	for _, y := range []float64{low, high} {
		s.line(thin, spot{edge + way*clear, y}, spot{at + way*beyond, y})
		s.line(thin, spot{at - tick, y - tick}, spot{at + tick, y + tick})
	}
	s.line(thin, spot{at, low}, spot{at, high})
	for i, w := range words {
		s.words(spot{at + way*2.5, (low+high)/2 + 4*(float64(len(words)-1)/2-float64(i))}, int(way), normal, w)
	}
}

// level dimensions the distance between two places along the axis, with the words
// below the dimension line.
func (s *sheet) level(edges [2]spot, at float64, words string) {
	for _, e := range edges {
		s.line(thin, spot{e.x, e.y - clear}, spot{e.x, at - beyond})
		s.line(thin, spot{e.x - tick, at - tick}, spot{e.x + tick, at + tick})
	}
	s.line(thin, spot{edges[0].x, at}, spot{edges[1].x, at})
	s.words(spot{(edges[0].x + edges[1].x) / 2, at - 3.2}, 0, normal, words)
}

// scaleBar is a bar of 50 mm with marks at each 10, its left end at the spot.
func (s *sheet) scaleBar(at spot) {
	const length, height = 50, 2.5
	for i := range 5 {
		x := at.x + 10*float64(i)
		box := []spot{{x, at.y}, {x + 10, at.y}, {x + 10, at.y + height}, {x, at.y + height}}
		if i%2 == 0 {
			s.fill(black, box)
		}
		s.line(thin, append(box, box[0])...)
	}
	for i := range 6 {
		s.words(spot{at.x + 10*float64(i), at.y + height + 2.5}, 0, small, []string{"0", "10", "20", "30", "40", "50 mm"}[i])
	}
	s.words(spot{at.x + length + 8, at.y + height/2}, 1, normal, "1:1. Check that this bar measures 50 mm before anything is taken off the drawing.")
}
