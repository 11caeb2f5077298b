package drawing

import (
	"cmp"
	"image/color"
	"io"
	"math"
	"slices"

	strip "evenpull/fusee/mainspring/coils"

	"evenpull/sim/show/canvas"
	"evenpull/sim/show/chart"
	"evenpull/sim/show/words"
	"evenpull/sim/study/coils"

	"gonum.org/v1/plot/vg"
)

// Sizes of a sheet of barrels, mm.
const (
	coilsEdge = 4.0
	coilsGap  = 4.0
	leastCell = 48.0 // of a barrel, where there are three abreast
	stepLong  = 9.0  // of a sample in the scale of pressures
	keyHigh   = 2.6  // of the coils in it
)

// mostBarrels are drawn of a mainspring that is wound coil by coil.
const mostBarrels = 6

// Coils draws the barrel from above, to scale, with its strip as it lies at some windings, first
// and last among them, while it runs down, and what presses on it.
func Coils(look chart.Look, r *coils.Result) (chart.Files, error) {
	var shown []posed
	for _, w := range slices.Backward(thinned(r.Loop.Windings, mostBarrels)) {
		shown = append(shown, posed{w.Down, false})
	}
	return newCoilSheet(look, r, leastCell, 3, shown).files(look)
}

// titleSize is that of the letters of a title in a width (mm).
func titleSize(width float64) vg.Length {
	if width < 150 {
		return 10.5
	}
	return large
}

// posed is a strip on its way.
type posed struct {
	*strip.Shape
	winding bool
}

// newCoilSheet is a sheet of barrels of some width (mm) at least, up to so many abreast.
func newCoilSheet(look chart.Look, r *coils.Result, least float64, abreast int, shown []posed) *coilSheet {
	c := &coilSheet{Result: r, shown: shown, wide: float64(cmp.Or(look.Width, chart.Width) / vg.Millimeter)}
	inner := c.wide - 2*coilsEdge
	c.columns = min(max(int(inner/least), 2), abreast, len(r.Loop.Windings))
	c.head = coilHead(r, inner, look.Bare)
	return c
}

// coilHead is what stands above barrels: what is found in them, and how they are drawn.
func coilHead(r *coils.Result, inner float64, bare bool) (head paragraphs) {
	if !bare {
		size := titleSize(inner)
		for _, l := range canvas.Wrap(size, length(inner), words.FoundCoilShapes(r)) {
			head = append(head, paragraph{size, l})
		}
	}
	head.add(inner, normal, words.CoilsSeen(r))
	return head
}

// files are those that the sheet is written as, no larger than the paper.
func (c *coilSheet) files(look chart.Look) (chart.Files, error) {
	for _, p := range c.shown {
		c.both = c.both || p.winding
	}
	c.measure(math.Inf(1))
	if high := float64(look.Height / vg.Millimeter); look.Height > 0 {
		for c.high > high && c.cell > 10 {
			c.measure(0.95 * c.cell)
		}
		c.high = high
	}
	return chart.Files{func(w io.Writer) error { return write(w, look.Form, c.wide, c.high, c.draw) }}, nil
}

// coilSheet is a sheet of barrels.
type coilSheet struct {
	*coils.Result
	shown      []posed
	wide, high float64 // mm
	columns    int
	both       bool    // ways: each barrel is told which
	cell, row  float64 // mm, width and height that a barrel takes
	head       paragraphs
	keyRows    int // of the scale of pressures
}

// measure lays the sheet out, with cells of up to a width.
func (c *coilSheet) measure(most float64) {
	inner := c.wide - 2*coilsEdge
	c.cell = math.Min((inner-coilsGap*float64(c.columns-1))/float64(c.columns), most)
	c.row = c.cell + tall(normal)*float64(c.lines()) + 5
	c.keyRows = keyRows(inner)
	c.high = 2*coilsEdge + c.head.height() + 3 + c.row*math.Ceil(float64(len(c.shown))/float64(c.columns)) + footHigh(c.keyRows)
}

// lines is how many stand below a barrel.
func (c *coilSheet) lines() int {
	if c.both {
		return 3
	}
	return 2
}

// scaleOf is that at which a barrel of so much room (mm) is drawn.
func scaleOf(r *coils.Result, room float64) float64 {
	return room / (1e3 * 2 * 1.08 * r.Housing.Inside)
}

func (c *coilSheet) draw(s *sheet) {
	s.scale = scaleOf(c.Result, c.cell)
	s.fill(color.White, []spot{{0, 0}, {c.wide, 0}, {c.wide, c.high}, {0, c.high}})
	top := c.high - coilsEdge
	s.paragraphs(spot{coilsEdge, top}, c.head)
	top -= c.head.height() + 3
	inner := c.wide - 2*coilsEdge
	for i, shape := range c.shown {
		if shape.Shape == nil {
			continue
		}
		x := coilsEdge + inner*(float64(i%c.columns)+0.5)/float64(c.columns)
		d := coilDrawing{c.Result, spot{x, top - c.cell/2 - c.row*float64(i/c.columns)}}
		d.house(s)
		d.spring(s, shape.Shape)
		var below paragraphs
		for _, l := range words.CoilsAt(shape.Shape, c.both, shape.winding) {
			below = append(below, paragraph{normal, l})
		}
		s.under(spot{x, d.at.y - c.cell/2 + 1}, below)
	}
	top -= c.row * math.Ceil(float64(len(c.shown))/float64(c.columns))
	s.pressureKey(spot{coilsEdge, top}, inner, c.Spring.Thickness)
	s.lengthBar(spot{coilsEdge, top - footHigh(c.keyRows) + 2.5}, c.Housing.Inside)
}

// footHigh is the height (mm) of the scale of pressures and of the bar.
func footHigh(rows int) float64 { return tall(normal)*(1+1.1*float64(rows)) + 9 }

// keyRows is how many rows the scale of pressures takes in a width (mm).
func keyRows(width float64) int { return len(pressings)/keyColumns(width) + 1 }

func keyColumns(width float64) int { return min(max(int(width/38), 1), len(pressings)+1) }

// pressureKey tells what the marks along the strip mean.
func (s *sheet) pressureKey(at spot, width float64, thickness float64) {
	at.y -= tall(normal) / 2
	s.words(at, 1, normal, words.CoilsPress)
	columns := keyColumns(width)
	for i := range len(pressings) + 1 {
		style, from, to := solid, 0.0, math.Inf(1)
		broad := words.StripDrawn
		style.Color = stripInk
		if i > 0 {
			step := pressings[i-1]
			from, style.Color, broad = step.from, step.ink, step.broad
		}
		if i < len(pressings) {
			to = pressings[i].from
		}
		style.Width = length(s.paper(broad * thickness))
		p := spot{at.x + width/float64(columns)*float64(i%columns), at.y - 1.1*tall(normal)*float64(i/columns+1)}
		pitch := s.paper(1.06 * thickness)
		for k := range 2*int(keyHigh/2/pitch) + 1 { // coils as they lie on one another
			y := p.y + pitch*float64(k-int(keyHigh/2/pitch))
			s.line(style, spot{p.x, y}, spot{p.x + stepLong, y})
		}
		s.words(spot{p.x + stepLong + 2, p.y}, 1, normal, words.CoilsStep(from, to))
	}
}

// lengthBar is a bar as long as a round length of about the inside radius (m) of a barrel.
func (s *sheet) lengthBar(at spot, radius float64) {
	long := 1.0
	for _, mm := range []float64{2, 5, 10, 20, 50, 100, 200, 500} {
		if mm <= 1e3*radius {
			long = mm
		}
	}
	end := at.x + s.paper(long/1e3)
	s.line(solid, spot{at.x, at.y}, spot{end, at.y})
	for _, x := range []float64{at.x, end} {
		s.line(solid, spot{x, at.y - tick}, spot{x, at.y + tick})
	}
	s.words(spot{end + 2, at.y}, 1, normal, words.Turns(long)+" mm")
}
