package page

import (
	"bytes"
	"fmt"
	markup "html"
	"regexp"
	"strconv"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
)

// label is a text of a picture: its first tag up to its size, and its words.
var label = regexp.MustCompile(`<text ([^>]*font-size:([0-9.]+)px"[^>]*)>([^<]+)<`)

// holdWidths gives every text of a picture the width that it was laid out with, so
// that a reader without its font sees nothing run into anything else.
func holdWidths(svg []byte) []byte {
	return label.ReplaceAllFunc(svg, func(tag []byte) []byte {
		m := label.FindSubmatch(tag)
		size, err := strconv.ParseFloat(string(m[2]), 64)
		if err != nil || len(bytes.TrimSpace(m[3])) == 0 {
			return tag
		}
		style := text.Style{Font: font.From(plot.DefaultFont, font.Length(size)), Handler: plot.DefaultTextHandler}
		width := style.Width(markup.UnescapeString(string(m[3])))
		return fmt.Appendf(nil, `<text textLength="%.1f" lengthAdjust="spacingAndGlyphs" %s>%s<`, width.Points(), m[1], m[3])
	})
}
