package canvas

import (
	"bytes"
	"fmt"
	markup "html"
	"image/color"
	"io"
	"regexp"
	"strconv"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgsvg"
)

// writeSVG writes a page as SVG.
func writeSVG(w io.Writer, width, height vg.Length, fill func(vg.Canvas)) error {
	svg, err := pageSVG(width, height, fill)
	if err == nil {
		_, err = w.Write(svg)
	}
	return err
}

func pageSVG(width, height vg.Length, fill func(vg.Canvas)) ([]byte, error) {
	c := vgsvg.New(width, height)
	fill(&visible{Canvas: c, hidden: []bool{false}})
	var b bytes.Buffer
	_, err := c.WriteTo(&b)
	return letters(b.Bytes()), err
}

// visible is a canvas on which nothing is drawn in a colour that cannot be seen, of which
// gonum's SVG would make one that is none, and readers black.
type visible struct {
	vg.Canvas
	hidden []bool // of each state that is pushed
}

func (c *visible) now() *bool { return &c.hidden[len(c.hidden)-1] }

func (c *visible) Push() {
	c.hidden = append(c.hidden, *c.now())
	c.Canvas.Push()
}

func (c *visible) Pop() {
	c.hidden = c.hidden[:len(c.hidden)-1]
	c.Canvas.Pop()
}

func (c *visible) SetColor(clr color.Color) {
	*c.now() = false
	if clr != nil {
		_, _, _, alpha := clr.RGBA()
		*c.now() = alpha == 0
	}
	if !*c.now() {
		c.Canvas.SetColor(clr)
	}
}

func (c *visible) Stroke(p vg.Path) {
	if !*c.now() {
		c.Canvas.Stroke(p)
	}
}

func (c *visible) Fill(p vg.Path) {
	if !*c.now() {
		c.Canvas.Fill(p)
	}
}

func (c *visible) FillString(face font.Face, at vg.Point, words string) {
	if !*c.now() {
		c.Canvas.FillString(face, at, words)
	}
}

// label is a text of a picture: its first tag up to its size, and its words.
var label = regexp.MustCompile(`<text ([^>]*font-size:([0-9.]+)px"[^>]*)>([^<]+)<`)

// letters gives every text the width that it was laid out with, and fonts as narrow to take
// where there is not the one that it was measured in: so nothing runs into anything else.
func letters(svg []byte) []byte {
	svg = bytes.ReplaceAll(svg, []byte("font-family:Liberation Serif"), []byte("font-family:'Liberation Serif','Times New Roman',Tinos,Times,serif"))
	return label.ReplaceAllFunc(svg, func(tag []byte) []byte {
		m := label.FindSubmatch(tag)
		size, err := strconv.ParseFloat(string(m[2]), 64)
		if err != nil || len(bytes.TrimSpace(m[3])) == 0 {
			return tag
		}
		wide := Letters(vg.Length(size)).Width(markup.UnescapeString(string(m[3])))
		return fmt.Appendf(nil, `<text textLength="%.1f" lengthAdjust="spacingAndGlyphs" %s>%s<`, wide.Points(), m[1], m[3])
	})
}
