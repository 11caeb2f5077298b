package canvas

import (
	"bytes"
	"fmt"
	markup "html"
	"io"
	"regexp"
	"strconv"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgsvg"
)

// writeSVG writes a page as SVG.
func writeSVG(w io.Writer, width, height vg.Length, fill func(vg.Canvas)) error {
	c := vgsvg.New(width, height)
	fill(c)
	var b bytes.Buffer
	if _, err := c.WriteTo(&b); err != nil {
		return err
	}
	_, err := w.Write(letters(b.Bytes()))
	return err
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
