package chart

import (
	"cmp"
	"io"
	"math"

	"evenpull/sim/show/canvas"

	"gonum.org/v1/plot/vg"
)

// Look is how a picture is written: its format, and its size on paper. The zero of each is
// the usual one.
type Look struct {
	canvas.Form
	canvas.Size
	Bare bool // without the sentences above
	Near bool // axes of torques begin near the least that is drawn, not at zero

	letters vg.Length // size of the letters; 0: as the width has it
	low     float64   // how high plots are over what they are in the widest picture; 0: likewise
}

// Files are those that a picture is written as: one, or one for each page where the format
// has none.
type Files = []func(io.Writer) error

// Width is that of a picture for which no other is asked.
const Width = 24 * vg.Centimeter

// Heights of plots in a picture as wide as that, without what stands around them.
const (
	highPlot = 8.4 * vg.Centimeter
	lowPlot  = 4.2 * vg.Centimeter
	mapPlot  = 12.5 * vg.Centimeter
)

// layout is what the sizes on a page go by: letters grow with the root of its width, from
// what can just be read, and plots as they do.
type layout struct {
	Look
	width, margin vg.Length // of the page, and around what is on it
	text, title   vg.Length // sizes of letters
	grow          float64   // of plots
}

// leastText is the size of the smallest letters, in points.
const leastText = 7.5

func (l Look) layout() layout {
	o := layout{Look: l, width: cmp.Or(l.Width, Width)}
	share := math.Sqrt(float64(o.width / Width))
	o.grow = cmp.Or(l.low, share)
	o.margin = max(10*o.width/Width, 4)
	if l.Height > 0 { // a printer leaves the edge of a page white
		o.margin = 10 * vg.Millimeter
	}
	o.text = cmp.Or(l.letters, min(max(vg.Length(11*share), leastText), 13))
	o.title = 1.2 * o.text
	return o
}

// inner is the width between the margins.
func (l *layout) inner() vg.Length { return l.width - 2*l.margin }

// row is the height of a line of letters.
func row(size vg.Length) vg.Length { return 1.25 * size }

// wide is the width of words.
func (l *layout) wide(words string) vg.Length { return canvas.Letters(l.text).Width(words) }

// widest is the width of the widest of some lines.
func (l *layout) widest(lines []string) (w vg.Length) {
	for _, s := range lines {
		w = max(w, l.wide(s))
	}
	return w
}

// Usual makes of a function of a picture, such as Sweep, one that writes its first page in
// the usual look and the given format: svg, png or pdf.
func Usual[T any](draw func(Look, T) (Files, error)) func(w io.Writer, format string, of T) error {
	return func(w io.Writer, format string, of T) error {
		files, err := draw(Look{Form: canvas.Form{Format: format}}, of)
		if err != nil {
			return err
		}
		return files[0](w)
	}
}
