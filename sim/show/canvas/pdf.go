package canvas

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"io"
	"math"
	"strconv"
	"strings"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// writePDF writes pages as PDF. gonum's own canvas writes letters in an 8-bit code, in which
// a minus sign and a dot between units cannot be told; here the font is embedded with the
// letters that are used, by their Unicode.
func writePDF(w io.Writer, width, height vg.Length, pages int, fill func(vg.Canvas, int)) error {
	doc := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: width.Points(), Ht: height.Points()}})
	doc.SetMargins(0, 0, 0)
	doc.SetAutoPageBreak(false, 0)
	doc.SetCatalogSort(true)
	doc.SetProducer("evenpull", false)
	long := time.Unix(0, 0).UTC() // ago: the same bytes whenever it is written
	doc.SetCreationDate(long)
	doc.SetModificationDate(long)
	c := &sheet{doc: doc, height: height.Points(), fonts: map[string]bool{}}
	for i := range pages {
		doc.AddPage()
		c.states = []state{{seen: true}}
		vg.Initialize(c)
		fill(c, i)
	}
	if c.fault != nil {
		return c.fault
	}
	return doc.Output(w)
}

// sheet is a page of a PDF. What is drawn is written as operators of its content (ISO
// 32000-1, tables 51 to 74, from memory), whose places are points from the lower left as
// those of gonum are.
type sheet struct {
	doc    *fpdf.Fpdf
	height float64
	fonts  map[string]bool
	states []state
	fault  error
}

// state is what Push keeps; the rest a PDF keeps itself.
type state struct {
	width vg.Length
	seen  bool // the colour is not transparent
}

func (c *sheet) state() *state { return &c.states[len(c.states)-1] }

// say writes operators.
func (c *sheet) say(operator string, operands ...float64) {
	var b strings.Builder
	for _, v := range operands {
		b.WriteString(number(v))
		b.WriteByte(' ')
	}
	c.doc.RawWriteStr(b.String() + operator)
}

// number is a number of a PDF to a hundred thousandth, without an exponent.
func number(v float64) string {
	s := strings.TrimRight(strings.TrimRight(strconv.FormatFloat(v, 'f', 5, 64), "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}

func (c *sheet) SetLineWidth(w vg.Length) {
	c.state().width = w
	c.say("w", w.Points())
}

func (c *sheet) SetLineDash(pattern []vg.Length, offset vg.Length) {
	var list []string
	for _, d := range pattern {
		list = append(list, number(d.Points()))
	}
	c.doc.RawWriteStr("[" + strings.Join(list, " ") + "] " + number(offset.Points()) + " d")
}

func (c *sheet) SetColor(clr color.Color) {
	if clr == nil {
		clr = color.Black
	}
	of := color.NRGBAModel.Convert(clr).(color.NRGBA)
	c.state().seen = of.A > 0
	r, g, b := float64(of.R)/255, float64(of.G)/255, float64(of.B)/255
	if r == g && g == b {
		c.say("G", g)
		c.say("g", g)
	} else {
		c.say("RG", r, g, b)
		c.say("rg", r, g, b)
	}
	if of.A > 0 {
		c.doc.SetAlpha(float64(of.A)/255, "Normal")
	}
}

func (c *sheet) Rotate(rad float64) {
	sin, cos := math.Sincos(rad)
	c.say("cm", cos, sin, -sin, cos, 0, 0)
}

func (c *sheet) Translate(pt vg.Point) { c.say("cm", 1, 0, 0, 1, pt.X.Points(), pt.Y.Points()) }

func (c *sheet) Scale(x, y float64) { c.say("cm", x, 0, 0, y, 0, 0) }

func (c *sheet) Push() {
	c.states = append(c.states, *c.state())
	c.say("q")
}

func (c *sheet) Pop() {
	c.states = c.states[:len(c.states)-1]
	c.say("Q")
}

func (c *sheet) Stroke(p vg.Path) {
	if c.state().width > 0 && c.state().seen {
		c.path(p)
		c.say("S")
	}
}

func (c *sheet) Fill(p vg.Path) {
	if c.state().seen {
		c.path(p)
		c.say("f")
	}
}

func (c *sheet) path(p vg.Path) {
	var at vg.Point
	for i, part := range p {
		x, y := part.Pos.X.Points(), part.Pos.Y.Points()
		switch part.Type {
		case vg.MoveComp:
			c.say("m", x, y)
		case vg.LineComp:
			c.say("l", x, y)
		case vg.ArcComp:
			c.arc(part, i == 0)
		case vg.CurveComp:
			first, second := part.Control[0], part.Control[len(part.Control)-1]
			if len(part.Control) == 1 { // of two thirds of the one (degree elevation)
				first, second = at.Add(first.Sub(at).Scale(2./3)), part.Pos.Add(second.Sub(part.Pos).Scale(2./3))
			}
			c.say("c", first.X.Points(), first.Y.Points(), second.X.Points(), second.Y.Points(), x, y)
		case vg.CloseComp:
			c.say("h")
		}
		at = part.Pos
	}
}

// arc draws an arc as curves of at most an eighth of a turn, each within 4e-6 of its radius.
func (c *sheet) arc(part vg.PathComp, begins bool) {
	x, y, r := part.Pos.X.Points(), part.Pos.Y.Points(), part.Radius.Points()
	n := max(math.Ceil(math.Abs(part.Angle)/(math.Pi/4)), 1)
	step := part.Angle / n
	handle := 4. / 3 * math.Tan(step/4)
	at := func(angle, out float64) (float64, float64) {
		sin, cos := math.Sincos(angle)
		return x + r*(cos-out*sin), y + r*(sin+out*cos)
	}
	fromX, fromY := at(part.Start, 0)
	if begins {
		c.say("m", fromX, fromY)
	} else {
		c.say("l", fromX, fromY)
	}
	for k := range int(n) {
		from := part.Start + float64(k)*step
		x1, y1 := at(from, handle)
		x2, y2 := at(from+step, -handle)
		x3, y3 := at(from+step, 0)
		c.say("c", x1, y1, x2, y2, x3, y3)
	}
}

func (c *sheet) FillString(face font.Face, pt vg.Point, words string) {
	if face.Font.Size == 0 || !c.state().seen {
		return
	}
	name := face.Name()
	if !c.fonts[name] {
		var source bytes.Buffer
		if _, err := face.Face.WriteSourceTo(nil, &source); err != nil {
			c.fault = fmt.Errorf("the font %s cannot be embedded: %w", name, err)
			return
		}
		c.doc.AddUTF8FontFromBytes(name, "", source.Bytes())
		c.fonts[name] = true
	}
	c.doc.SetFont(name, "", face.Font.Size.Points())
	c.doc.Text(pt.X.Points(), c.height-pt.Y.Points(), words)
}

// DrawImage is of no use to charts and drawings, which are lines and letters.
func (c *sheet) DrawImage(vg.Rectangle, image.Image) {
	c.fault = errors.New("a PDF of this program holds no photographs")
}
