package canvas

import (
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Size is that of the pages of a picture.
type Size struct {
	Width  vg.Length // 0: the usual one
	Height vg.Length // 0: one page, as high as what is on it
}

// Widths that are taken: letters of 7 points want some room, and no printer is wider.
const (
	leastWidth = 80 * vg.Millimeter
	mostWidth  = 1000 * vg.Millimeter
)

var lengthOf = regexp.MustCompile(`^([0-9]+(?:\.[0-9]+)?) ?(mm|cm|in)$`)

// SizeOf reads a width, such as 84mm, 8.4 cm or 3.3in, or a sheet of paper, A4 or A5, standing
// (ISO 216, from memory). "" is the usual size.
func SizeOf(asked string) (Size, error) {
	switch strings.ToUpper(asked) {
	case "":
		return Size{}, nil
	case "A4":
		return Size{210 * vg.Millimeter, 297 * vg.Millimeter}, nil
	case "A5":
		return Size{148 * vg.Millimeter, 210 * vg.Millimeter}, nil
	}
	m := lengthOf.FindStringSubmatch(strings.TrimSpace(asked))
	if m == nil {
		return Size{}, fmt.Errorf("%q: want a width such as 84mm, 17.4cm or 6.85in, or A4 or A5", asked)
	}
	v, _ := strconv.ParseFloat(m[1], 64)
	width := vg.Length(v) * map[string]vg.Length{"mm": vg.Millimeter, "cm": vg.Centimeter, "in": vg.Inch}[m[2]]
	if !(width >= leastWidth && width <= mostWidth) {
		return Size{}, fmt.Errorf("%q: want %.0f to %.0f mm", asked, leastWidth/vg.Millimeter, mostWidth/vg.Millimeter)
	}
	return Size{Width: width}, nil
}

// Files are the files that pages are written as: one where the format has pages, else one for
// each.
func (f Form) Files(width, height vg.Length, pages ...func(draw.Canvas)) []func(io.Writer) error {
	if f.Format == "pdf" || len(pages) < 2 {
		return []func(io.Writer) error{func(w io.Writer) error { return f.Write(w, width, height, pages...) }}
	}
	list := make([]func(io.Writer) error, len(pages))
	for i := range pages {
		list[i] = func(w io.Writer) error { return f.Write(w, width, height, pages[i]) }
	}
	return list
}

// Wrap breaks words into lines of a width; a word that is longer has a line of its own, and a
// space that is not to be broken (U+00A0) stays.
func Wrap(size, width vg.Length, words string) (lines []string) {
	style := Letters(size)
	for _, word := range strings.FieldsFunc(words, func(r rune) bool { return r == ' ' }) {
		if last := len(lines) - 1; last >= 0 {
			if longer := lines[last] + " " + word; style.Width(longer) <= width {
				lines[last] = longer
				continue
			}
		}
		lines = append(lines, word)
	}
	return lines
}
