package page

import (
	"bytes"
	"fmt"
	markup "html"
	"html/template"
	"regexp"
	"strconv"

	"evenpull/sim/show/chart"

	"gonum.org/v1/plot/vg"
)

// Picture is a drawing as SVG, with what it shows in words.
type Picture struct {
	ID, Caption, Alt string
	SVG              []byte
}

// drawn is an SVG: the box it is drawn in, and what stands within it.
var drawn = regexp.MustCompile(`(?s)<svg[^>]* viewBox="([^"]*)"[^>]*>(.*)`)

// inline is a picture within a page: without the head of a file, named for those
// who cannot see it, as wide as there is room.
func inline(p *Picture) (template.HTML, error) {
	m := drawn.FindSubmatch(p.SVG)
	if m == nil {
		return "", fmt.Errorf("the picture %s is no SVG, or cut off", p.ID)
	}
	// A reader without the font that text was measured in gets one as narrow.
	body := bytes.ReplaceAll(m[2], []byte("font-family:Liberation Serif"), []byte("font-family:'Liberation Serif','Times New Roman',Tinos,Times,serif"))
	return template.HTML(fmt.Sprintf(`<svg id="%s" viewBox="%s" role="img" aria-labelledby="%[1]s-t"><title id="%[1]s-t">%[3]s</title>%[4]s`,
		p.ID, m[1], template.HTMLEscapeString(p.Alt), body)), nil
}

// pictureName is the name of a picture's file.
var pictureName = regexp.MustCompile(`^(clock-[0-9]+-train-[0-9]+-(drawing|torque|thickness|rank)|bench-readings)\.svg$`)

// IsPicture tells whether a file's name is one that a picture of a document has.
func IsPicture(file string) bool { return pictureName.MatchString(file) }

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
		width := chart.Letters(vg.Length(size)).Width(markup.UnescapeString(string(m[3])))
		return fmt.Appendf(nil, `<text textLength="%.1f" lengthAdjust="spacingAndGlyphs" %s>%s<`, width.Points(), m[1], m[3])
	})
}
