// Package drawing draws the trains of a clock to scale: each barrel with the coils
// of its spring run down and wound, the fusee with its grooves, and the wheels as
// pitch circles by their tooth counts.
package drawing

import (
	"fmt"
	"image/color"
	"io"
	"math"

	"evenpull/sim"
	"evenpull/sim/show/chart"
	"evenpull/sim/show/words"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Sizes on paper.
const (
	margin    = 8 * vg.Millimeter
	gap       = 12 * vg.Millimeter
	heading   = 12 * vg.Millimeter
	caption   = 12 * vg.Millimeter // below each part
	trainRoom = 62 * vg.Millimeter // the wheels
	barRoom   = 9 * vg.Millimeter  // the scale bar
	textSize  = 10
	titleSize = 13
)

var (
	ink     = color.RGBA{0x1b, 0x2a, 0x41, 0xff}
	faint   = color.Gray{0x8a}
	metal   = color.Gray{0xe6}
	outline = draw.LineStyle{Color: ink, Width: vg.Points(1)}
	fine    = draw.LineStyle{Color: ink, Width: vg.Points(0.35)}
	dashed  = draw.LineStyle{Color: faint, Width: vg.Points(0.6), Dashes: []vg.Length{6, 2, 1, 2}}
)

// scales are the sizes on paper over true ones that a drawing may have.
var scales = []float64{2, 1, 0.5, 0.2, 0.1, 0.05}

// Write draws the trains of runs, one below the other, in a format of package
// chart.
func Write(w io.Writer, format string, trains []sim.Result) error {
	if len(trains) == 0 {
		return fmt.Errorf("there is no train to draw")
	}
	sheets := make([]*sheet, len(trains))
	var height vg.Length
	for i := range trains {
		s, err := newSheet(&trains[i])
		if err != nil {
			return err
		}
		sheets[i] = s
		height += s.height
	}
	c, err := draw.NewFormattedCanvas(chart.Width, height, format)
	if err != nil {
		return err
	}
	page, top := draw.New(c), height
	for _, s := range sheets {
		s.draw(draw.Crop(page, margin, -margin, top-s.height, top-height))
		top -= s.height
	}
	_, err = c.WriteTo(w)
	return err
}

// sheet is the drawing of one train.
type sheet struct {
	r      *sim.Result
	barrel barrel
	cone   cone
	scale  float64 // paper over true
	height vg.Length
}

func newSheet(r *sim.Result) (*sheet, error) {
	wound, err := r.Train.Drive.Wind()
	if err != nil {
		return nil, err
	}
	s := &sheet{r: r, barrel: newBarrel(r, &wound), cone: newCone(r, &wound)}
	true3 := 2*s.barrel.width() + s.cone.width()
	room := float64((chart.Width-2*margin-2*gap)/vg.Millimeter) * 1e-3
	for _, s.scale = range scales {
		if true3*s.scale <= room {
			break
		}
	}
	s.height = heading + s.paper(math.Max(s.barrel.width(), s.cone.height())) + caption + barRoom + gap
	if len(r.Train.Arbors) > 1 {
		s.height += trainRoom
	}
	return s, nil
}

// paper is a true length (m) on paper.
func (s *sheet) paper(m float64) vg.Length { return vg.Length(1e3*m*s.scale) * vg.Millimeter }

func (s *sheet) draw(c draw.Canvas) {
	title(c, vg.Point{X: c.Min.X, Y: c.Max.Y - heading/2}, fmt.Sprintf("%s train, %s", s.r.Train.Name, s.ratio()))
	parts := s.paper(math.Max(s.barrel.width(), s.cone.height()))
	middle := c.Max.Y - heading - parts/2
	below := middle - parts/2 - caption/2
	x := c.Min.X
	for _, state := range []struct {
		turns float64
		words string
	}{{s.r.Spring.SetUp, "run down, set-up " + words.Turns(s.r.Spring.SetUp)}, {s.r.Spring.SetUp + s.r.Spring.Used, "wound"}} {
		half := s.paper(s.barrel.width()) / 2
		s.barrel.draw(c, vg.Point{X: x + half, Y: middle}, s, state.turns)
		label(c, vg.Point{X: x + half, Y: below}, "barrel "+state.words, text.XCenter)
		x += 2*half + gap
	}
	s.cone.draw(c, vg.Point{X: x, Y: middle}, s)
	label(c, vg.Point{X: x + s.paper(s.cone.width())/2, Y: below}, fmt.Sprintf("fusee: %s turns, line at the left when wound", words.Turns(s.r.Train.Drive.Cone.Turns)), text.XCenter)
	bar := below - caption/2 - barRoom/2
	s.bar(c, vg.Point{X: c.Min.X, Y: bar})
	if len(s.r.Train.Arbors) > 1 {
		drawWheels(c, s.r, bar-barRoom/2, trainRoom)
	}
}

// ratio is the scale in words. It holds on paper only when nothing is scaled on the
// way there; the bar holds always.
func (s *sheet) ratio() string {
	ratio := fmt.Sprintf("1 : %g", 1/s.scale)
	if s.scale > 1 {
		ratio = fmt.Sprintf("%g : 1", s.scale)
	}
	return "to scale: " + ratio + " when printed at its own size, else by the bar"
}

// bar draws a scale bar of a round true length.
func (s *sheet) bar(c draw.Canvas, at vg.Point) {
	length := 0.05
	for s.paper(length) > 9*vg.Centimeter {
		length /= 2
	}
	for s.paper(length) < 2*vg.Centimeter {
		length *= 2
	}
	end := at.X + s.paper(length)
	c.StrokeLine2(outline, at.X, at.Y, end, at.Y)
	for _, x := range []vg.Length{at.X, end} {
		c.StrokeLine2(outline, x, at.Y-3, x, at.Y+3)
	}
	label(c, vg.Point{X: end + 6, Y: at.Y}, fmt.Sprintf("%g mm", length*1e3), text.XLeft)
}

func style(size vg.Length) text.Style {
	return text.Style{Color: color.Black, Font: font.From(plot.DefaultFont, size), Handler: plot.DefaultTextHandler, YAlign: text.YCenter}
}

// label writes at a point, in the middle of its height.
func label(c draw.Canvas, at vg.Point, s string, align text.XAlignment) {
	st := style(textSize)
	st.XAlign = align
	c.FillText(st, at, s)
}

func title(c draw.Canvas, at vg.Point, s string) { c.FillText(style(titleSize), at, s) }

// circle is a path about a point.
func circle(at vg.Point, radius vg.Length) vg.Path {
	var p vg.Path
	p.Move(vg.Point{X: at.X + radius, Y: at.Y})
	p.Arc(at, radius, 0, 2*math.Pi)
	p.Close()
	return p
}

// stroke strokes a path.
func stroke(c draw.Canvas, p vg.Path, style draw.LineStyle) {
	c.SetLineStyle(style)
	c.Stroke(p)
}

// fill fills a path.
func fill(c draw.Canvas, p vg.Path, with color.Color) {
	c.SetColor(with)
	c.Fill(p)
}
