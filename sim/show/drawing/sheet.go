package drawing

import (
	"evenpull/sim/show/canvas"
	"fmt"
	"image/color"
	"io"
	"math"
	"strings"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// sheet is a page on which a millimetre is a millimetre: x to the right and y up
// from the lower left corner, both in mm.
type sheet struct {
	on     draw.Canvas
	scale  float64 // of what is drawn over what it shows
	window *box    // that alone is seen; nil for the whole sheet
}

// write writes a sheet that fill draws on, at true size unless it takes another scale.
func write(w io.Writer, form canvas.Form, width, height float64, fill func(*sheet)) error {
	return form.Write(w, length(width), length(height), func(on draw.Canvas) { fill(&sheet{on: on, scale: 1}) })
}

// paper is a true length (m) on the sheet, mm.
func (s *sheet) paper(m float64) float64 { return 1e3 * m * s.scale }

var (
	black   = color.Gray{0x10}
	grey    = color.Gray{0x78}
	waste   = color.Gray{0xd0} // metal that comes off
	metal   = color.Gray{0xe6}
	solid   = draw.LineStyle{Color: black, Width: vg.Points(1.1)}
	outline = draw.LineStyle{Color: black, Width: vg.Points(0.8)} // of what is measured off the sheet
	thin    = draw.LineStyle{Color: black, Width: vg.Points(0.4)}
	leader  = draw.LineStyle{Color: color.Gray{0x60}, Width: vg.Points(0.5)} // from a label to what it is of
	groove  = draw.LineStyle{Color: grey, Width: vg.Points(0.4)}
	dashed  = draw.LineStyle{Color: black, Width: vg.Points(0.7), Dashes: []vg.Length{4, 2}}
	middle  = draw.LineStyle{Color: black, Width: vg.Points(0.4), Dashes: []vg.Length{10, 2, 2, 2}} // ISO 128: long dash, dot
)

type spot struct{ x, y float64 }

// length is rounded by its conversion, so that no processor multiplies and adds at once what
// is added to it.
func length(mm float64) vg.Length { return vg.Length(float64(vg.Length(mm) * vg.Millimeter)) }

func (p spot) point() vg.Point { return vg.Point{X: length(p.x), Y: length(p.y)} }

func points(spots []spot) []vg.Point {
	list := make([]vg.Point, len(spots))
	for i, p := range spots {
		list[i] = p.point()
	}
	return list
}

func (s *sheet) line(style draw.LineStyle, spots ...spot) { s.on.StrokeLines(style, points(spots)) }

// exact draws a line to less than a micrometre in every format: an SVG holds five digits of
// a place, so that it is drawn in pieces, each from a place of its own.
func (s *sheet) exact(style draw.LineStyle, spots ...spot) {
	const reach = 99 // points, which leaves three digits behind the point
	for len(spots) > 1 {
		x, y := math.Round(spots[0].point().X.Points()), math.Round(spots[0].point().Y.Points())
		n, piece := 0, []vg.Point(nil)
		for ; n < len(spots); n++ {
			p := spots[n].point().Sub(vg.Point{X: vg.Points(x), Y: vg.Points(y)})
			if n > 1 && math.Max(math.Abs(p.X.Points()), math.Abs(p.Y.Points())) > reach {
				break
			}
			piece = append(piece, p)
		}
		s.on.Push()
		s.on.Translate(vg.Point{X: vg.Points(x), Y: vg.Points(y)})
		s.on.StrokeLines(style, piece)
		s.on.Pop()
		spots = spots[n-1:]
	}
}

func (s *sheet) fill(shade color.Color, spots []spot) { s.on.FillPolygon(shade, points(spots)) }

// circle fills a circle, unless fill is nil, and draws its edge.
func (s *sheet) circle(at spot, radius float64, fill color.Color, edge draw.LineStyle) {
	var p vg.Path
	centre, r := at.point(), length(radius)
	p.Move(vg.Point{X: centre.X + r, Y: centre.Y}) // where the arc begins, to the last digit: else a line of no length leads there
	p.Arc(centre, r, 0, 2*math.Pi)
	p.Close()
	if fill != nil {
		s.on.SetColor(fill)
		s.on.Fill(p)
	}
	s.on.SetLineStyle(edge)
	s.on.Stroke(p)
}

// Sizes of letters in points.
const (
	tiny   = 7
	small  = 8
	normal = 9
	large  = 13
)

// words writes a text beside a spot: x is −1, 0 or 1 for one that ends there, is
// centred there, or begins there. In a window those are written whose middle is in it,
// whole: moved as far as it takes.
func (s *sheet) words(at spot, x int, size vg.Length, words string) {
	style := canvas.Letters(size)
	style.XAlign = [...]text.XAlignment{text.XRight, text.XCenter, text.XLeft}[x+1]
	if s.window != nil {
		r := style.Rectangle(words).Add(at.point())
		in := box{float64(r.Min.X / vg.Millimeter), float64(r.Min.Y / vg.Millimeter), float64(r.Size().X / vg.Millimeter), float64(r.Size().Y / vg.Millimeter)}
		if !s.window.has(spot{in.centre(), in.low + in.high/2}) {
			return
		}
		by := s.window.into(in)
		at = spot{at.x + by.x, at.y + by.y}
	}
	s.on.FillText(style, at.point(), words)
}

// under writes lines below a spot, centred.
func (s *sheet) under(at spot, lines paragraphs) {
	for i, l := range lines {
		s.words(spot{at.x, at.y - tall(normal)*(float64(i)+1)}, 0, l.size, l.words)
	}
}

// paragraphs are lines of words below one another.
type paragraphs []paragraph

type paragraph struct {
	size  vg.Length
	words string
}

// add breaks words to a width (mm) and adds the lines.
func (b *paragraphs) add(width float64, size vg.Length, words string) {
	style, first := canvas.Letters(size), len(*b)
	for _, word := range strings.Fields(words) {
		if last := len(*b) - 1; last >= first {
			if longer := (*b)[last].words + " " + word; style.Width(longer) <= length(width) {
				(*b)[last].words = longer
				continue
			}
		}
		*b = append(*b, paragraph{size, word})
	}
}

// tall is the height (mm) that a line of letters takes.
func tall(size vg.Length) float64 { return 1.25 * float64(size/vg.Millimeter) }

// width is that of the widest line, mm.
func (b paragraphs) width() (most float64) {
	for _, l := range b {
		most = math.Max(most, float64(canvas.Letters(l.size).Width(l.words)/vg.Millimeter))
	}
	return most
}

// fitted is a text of one line, cut off where it is wider than so much (mm).
func fitted(words string, size vg.Length, width float64) string {
	style, list := canvas.Letters(size), []rune(words)
	for style.Width(words) > length(width) && len(list) > 1 {
		list = list[:len(list)-1]
		words = strings.TrimSpace(string(list)) + "…"
	}
	return words
}

func (b paragraphs) height() float64 {
	sum := 0.0
	for _, l := range b {
		sum += tall(l.size)
	}
	return sum
}

// paragraphs writes the lines with the upper left corner at the spot.
func (s *sheet) paragraphs(at spot, b paragraphs) {
	for _, l := range b {
		at.y -= tall(l.size)
		s.words(spot{at.x, at.y + tall(l.size)/2}, 1, l.size, l.words)
	}
}

const (
	tick   = 1.2 // mm, half a slash at the end of a dimension line
	beyond = 1.5 // mm, extension lines go past the dimension line
	clear  = 1.0 // mm, and begin off the outline
)

// dimension draws the dimension line of two points of an outline, the given way off
// them.
func (s *sheet) dimension(from, to, off spot) {
	long := math.Hypot(off.x, off.y)
	along := func(p spot, mm float64) spot { return spot{p.x + off.x/long*mm, p.y + off.y/long*mm} }
	for _, p := range []spot{from, to} {
		end := along(p, long)
		s.line(thin, along(p, clear), along(end, beyond))
		s.line(thin, spot{end.x - tick, end.y - tick}, spot{end.x + tick, end.y + tick})
	}
	s.line(thin, along(from, long), along(to, long))
}

// bar is a scale bar of five blocks and 50 mm, its left end at the spot, with words at
// its right.
func (s *sheet) bar(at spot, words string) {
	const block, height = 10.0, 2.5
	label := func(i int) string { return fmt.Sprintf("%g", block*float64(i)/s.scale) }
	for i := range 5 {
		from, to, top := at.x+block*float64(i), at.x+block*float64(i+1), at.y+height
		outline := []spot{{from, at.y}, {to, at.y}, {to, top}, {from, top}, {from, at.y}}
		if i%2 == 0 {
			s.fill(black, outline[:4])
		}
		s.line(thin, outline...)
		s.words(spot{from, top + 2.5}, 0, small, label(i))
	}
	s.words(spot{at.x + 5*block, at.y + height + 2.5}, 0, small, label(5)+" mm")
	s.words(spot{at.x + 5*block + 8, at.y + height/2}, 1, normal, words)
}
