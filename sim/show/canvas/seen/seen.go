// Package seen finds what stands on an SVG picture, for tests: its labels and lines where an
// eye has them, and what keeps them from being read. Places are in points from the upper left
// corner, down. It reads what package canvas writes and no other SVG, and may change with
// any version.
package seen

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"image/color"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
)

// Spot is a place on a picture in points, from its upper left corner down.
type Spot struct{ X, Y float64 }

// Label is a text on a picture and the box that its letters fill: their capitals and what
// hangs below the line, as wide as the picture says that it is.
type Label struct {
	Words                  string
	Size                   float64 // points
	Left, Right, Top, Foot float64
	Ink                    color.RGBA
	Grounds                []color.RGBA // that it stands on: paper, or what is filled there
}

// Sheet is what stands on an SVG picture.
type Sheet struct {
	Wide, High float64 // points
	Labels     []Label
	Lines      [][]Spot // strokes, those of arcs in short pieces, of other curves their chords
	fills      []filled // in the order in which they were painted
}

// affine maps a place of a group to the picture (SVG 1.1, 7.4, from memory).
type affine struct{ a, b, c, d, e, f float64 }

func (m affine) in(n affine) affine { // m first, then n
	return affine{n.a*m.a + n.c*m.b, n.b*m.a + n.d*m.b, n.a*m.c + n.c*m.d, n.b*m.c + n.d*m.d, n.a*m.e + n.c*m.f + n.e, n.b*m.e + n.d*m.f + n.f}
}

func (m affine) place(x, y float64) Spot { return Spot{m.a*x + m.c*y + m.e, m.b*x + m.d*y + m.f} }

var (
	transform = regexp.MustCompile(`(scale|translate|rotate)\(([^)]*)\)`)
	fontSize  = regexp.MustCompile(`font-size:([0-9.]+)px`)
	pathStep  = regexp.MustCompile(`([MLACQZ])([^MLACQZ]*)`)
)

// Read reads a picture. It fails for what is no picture of ours.
func Read(svg []byte) (*Sheet, error) {
	s, stack := &Sheet{}, []affine{{a: 1, d: 1}}
	dec := xml.NewDecoder(bytes.NewReader(svg))
	for {
		token, err := dec.Token()
		if err == io.EOF {
			return s, nil
		} else if err != nil {
			return nil, err
		}
		switch e := token.(type) {
		case xml.EndElement:
			if e.Name.Local == "g" {
				stack = stack[:len(stack)-1]
			}
		case xml.StartElement:
			at := map[string]string{}
			for _, a := range e.Attr {
				at[a.Name.Local] = a.Value
			}
			m, err := stack[len(stack)-1].moved(at["transform"])
			if err == nil && e.Name.Local == "g" {
				stack = append(stack, m)
			} else if err == nil {
				err = s.element(dec, m, e.Name.Local, at)
			}
			if err != nil {
				return nil, err
			}
		}
	}
}

// element takes in an element that is no group.
func (s *Sheet) element(dec *xml.Decoder, m affine, name string, at map[string]string) error {
	switch name {
	case "svg":
		box, err := numbers(at["viewBox"], 4)
		if err != nil {
			return err
		}
		s.Wide, s.High = box[2], box[3]
	case "text":
		token, err := dec.Token()
		if err != nil {
			return err
		}
		words, is := token.(xml.CharData)
		if !is || strings.TrimSpace(string(words)) == "" {
			return nil
		}
		l, err := labelAt(m, at, string(words))
		if err != nil {
			return fmt.Errorf("%q: %w", words, err)
		}
		l.Ink = ofStyle(at["style"])
		l.Grounds = s.grounds(&l)
		s.Labels = append(s.Labels, l)
	case "path":
		lines, err := outline(m, at["d"])
		if strings.Contains(at["style"], "stroke:") {
			s.Lines = append(s.Lines, lines...)
		} else {
			s.fills = append(s.fills, filled{lines, ofStyle(at["style"])})
		}
		return err
	}
	return nil
}

// numbers are those of a list, so many.
func numbers(list string, want int) (all []float64, err error) {
	for _, word := range strings.FieldsFunc(list, func(r rune) bool { return r == ' ' || r == ',' }) {
		v, err := strconv.ParseFloat(word, 64)
		if err != nil {
			return nil, err
		}
		all = append(all, v)
	}
	if len(all) != want {
		return nil, fmt.Errorf("%q: found %d numbers; want %d", list, len(all), want)
	}
	return all, nil
}

// moved is the frame with transformations of its own.
func (m affine) moved(steps string) (affine, error) {
	for _, step := range transform.FindAllStringSubmatch(steps, -1) {
		want := 2
		if step[1] == "rotate" {
			want = 1
		}
		by, err := numbers(step[2], want)
		if err != nil {
			return m, err
		}
		switch step[1] {
		case "scale":
			m = affine{a: by[0], d: by[1]}.in(m)
		case "rotate":
			sin, cos := math.Sincos(by[0] * math.Pi / 180)
			m = affine{a: cos, b: sin, c: -sin, d: cos}.in(m)
		case "translate":
			m = affine{a: 1, d: 1, e: by[0], f: by[1]}.in(m)
		}
	}
	return m, nil
}

// labelAt is a text where it stands. The letters' height over the line and depth below it are
// those of capitals and of a g of the font (measured in it: 0.66 and 0.22 of its size).
func labelAt(m affine, at map[string]string, words string) (l Label, err error) {
	size := fontSize.FindStringSubmatch(at["style"])
	if size == nil {
		return l, errors.New("a text without a size")
	}
	v, err := numbers(strings.Join([]string{at["x"], at["y"], at["textLength"], size[1]}, " "), 4)
	if err != nil {
		return l, err
	}
	x, y, wide, tall := v[0], v[1], v[2], v[3]
	l = Label{Words: words, Size: tall * math.Sqrt(math.Abs(m.a*m.d-m.b*m.c)), Left: math.Inf(1), Right: math.Inf(-1), Top: math.Inf(1), Foot: math.Inf(-1)}
	for _, c := range [][2]float64{{x, y - 0.66*tall}, {x + wide, y - 0.66*tall}, {x, y + 0.22*tall}, {x + wide, y + 0.22*tall}} {
		p := m.place(c[0], c[1])
		l.Left, l.Right, l.Top, l.Foot = min(l.Left, p.X), max(l.Right, p.X), min(l.Top, p.Y), max(l.Foot, p.Y)
	}
	return l, nil
}

// outline is the lines of a path: straight pieces, and arcs of circles (SVG 1.1, 8.3.8 and
// F.6, from memory).
func outline(m affine, d string) (lines [][]Spot, err error) {
	var line []Spot
	var x, y, firstX, firstY float64
	for _, step := range pathStep.FindAllStringSubmatch(d, -1) {
		v, err := numbers(step[2], map[string]int{"M": 2, "L": 2, "A": 7, "C": 6, "Q": 4}[step[1]])
		if err != nil {
			return nil, err
		}
		switch step[1] {
		case "M":
			if len(line) > 1 {
				lines = append(lines, line)
			}
			x, y = v[0], v[1]
			firstX, firstY, line = x, y, []Spot{m.place(x, y)}
		case "L":
			x, y = v[0], v[1]
			line = append(line, m.place(x, y))
		case "Z":
			line = append(line, m.place(firstX, firstY))
		case "C", "Q": // their chord
			x, y = v[len(v)-2], v[len(v)-1]
			line = append(line, m.place(x, y))
		case "A": // rx, ry, turned, large, sweep, to
			toX, toY := v[5], v[6]
			for _, p := range arc(x, y, toX, toY, v[0], v[3] != 0, v[4] != 0) {
				line = append(line, m.place(p.X, p.Y))
			}
			x, y = toX, toY
		}
	}
	if len(line) > 1 {
		lines = append(lines, line)
	}
	return lines, nil
}

// arc is an arc of a circle from a place to another.
func arc(x, y, toX, toY, r float64, large, sweep bool) (list []Spot) {
	const pieces = 60
	dx, dy := (toX-x)/2, (toY-y)/2
	half := math.Hypot(dx, dy)
	if half == 0 {
		return nil
	}
	off := math.Sqrt(max(r*r-half*half, 0)) / half
	if large == sweep {
		off = -off
	}
	cx, cy := x+dx-off*dy, y+dy+off*dx
	from, to := math.Atan2(y-cy, x-cx), math.Atan2(toY-cy, toX-cx)
	if sweep && to <= from {
		to += 2 * math.Pi
	} else if !sweep && to >= from {
		to -= 2 * math.Pi
	}
	for i := 1; i <= pieces; i++ {
		sin, cos := math.Sincos(from + (to-from)*float64(i)/pieces)
		list = append(list, Spot{cx + r*cos, cy + r*sin})
	}
	return list
}

// Least is the size of the smallest letters that a picture may have, points.
const Least = 7

// Illegible tells what keeps the labels of a picture from being read: that two overlap, that
// one is beyond the edge, smaller than Least, or has a letter that the font lacks.
func (s *Sheet) Illegible() (faults []string) {
	add := func(format string, a ...any) { faults = append(faults, fmt.Sprintf(format, a...)) }
	letters := font.DefaultCache.Lookup(plot.DefaultFont, 10).Face
	const slack = 0.3 // points, of rounding
	for i, l := range s.Labels {
		if l.Left < -slack || l.Top < -slack || l.Right > s.Wide+slack || l.Foot > s.High+slack {
			add("%q is beyond the edge", l.Words)
		}
		if l.Size < Least-0.01 {
			add("%q is of %.1f points", l.Words, l.Size)
		}
		for _, r := range l.Words {
			if glyph, err := letters.GlyphIndex(nil, r); err != nil || glyph == 0 {
				add("%q: the font has no %q", l.Words, r)
			}
		}
		for _, other := range s.Labels[:i] {
			if min(l.Right, other.Right)-max(l.Left, other.Left) > slack && min(l.Foot, other.Foot)-max(l.Top, other.Top) > slack {
				add("%q overlaps %q", l.Words, other.Words)
			}
		}
	}
	return faults
}

// Struck are the labels that a line goes through.
func (s *Sheet) Struck() (faults []string) {
	for _, l := range s.Labels {
		const slack = 0.3 // points
		in := Label{Left: l.Left + slack, Right: l.Right - slack, Top: l.Top + slack, Foot: l.Foot - slack}
		for _, line := range s.Lines {
			if in.struck(line) {
				faults = append(faults, fmt.Sprintf("a line goes through %q", l.Words))
				break
			}
		}
	}
	return faults
}

// struck tells whether a line goes into a box: the part of a piece that lies within is found
// by cutting it at the four sides (Liang and Barsky's way).
func (l Label) struck(line []Spot) bool {
	for i := 1; i < len(line); i++ {
		p, q := line[i-1], line[i]
		from, to := 0.0, 1.0
		for _, side := range [][2]float64{{p.X - q.X, p.X - l.Left}, {q.X - p.X, l.Right - p.X}, {p.Y - q.Y, p.Y - l.Top}, {q.Y - p.Y, l.Foot - p.Y}} {
			switch way, room := side[0], side[1]; {
			case way == 0 && room < 0:
				from = 2
			case way < 0:
				from = max(from, room/way)
			case way > 0:
				to = min(to, room/way)
			}
		}
		if from <= to {
			return true
		}
	}
	return false
}
