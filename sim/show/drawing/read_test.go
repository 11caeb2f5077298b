package drawing

import (
	"bytes"
	"cmp"
	"compress/zlib"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// read is what a reader that is not ours to draw with finds on a page, in mm from its lower
// left corner. A pt is 1/72 of an inch (CSS Values and Units; ISO 32000-1, 8.3.2.3; from
// memory), an inch 25.4 mm (NIST SP 811).
type read struct {
	width, height float64
	strokes       []stroke
	fills         [][]spot
	texts         []written
}

type stroke struct {
	width float64 // points
	grey  bool    // of the groove
	spots []spot
}

type written struct {
	at    spot
	words string
}

const perPoint = 25.4 / 72

// frame maps places of a group to the page: x → sx x + tx.
type frame struct{ sx, sy, tx, ty float64 }

func (f frame) in(g frame) frame {
	return frame{g.sx * f.sx, g.sy * f.sy, g.sx*f.tx + g.tx, g.sy*f.ty + g.ty}
}

func (f frame) place(x, y float64) spot {
	return spot{(f.sx*x + f.tx) * perPoint, (f.sy*y + f.ty) * perPoint}
}

func figure(t testing.TB, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

var (
	transforms = regexp.MustCompile(`(scale|translate)\(([-\d.e]+), ?([-\d.e]+)\)`)
	pathStep   = regexp.MustCompile(`([MLAZ])([^MLAZ]*)`)
	strokeWide = regexp.MustCompile(`stroke-width:([\d.]+)`)
)

// readSVG reads what a picture in SVG shows; circles are left out.
func readSVG(t testing.TB, svg []byte) *read {
	t.Helper()
	r, stack := &read{}, []frame{{1, 1, 0, 0}}
	dec := xml.NewDecoder(bytes.NewReader(svg))
	for {
		token, err := dec.Token()
		if err == io.EOF {
			return r
		} else if err != nil {
			t.Fatal(err)
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
			f := stack[len(stack)-1]
			for _, m := range transforms.FindAllStringSubmatch(at["transform"], -1) {
				x, y := figure(t, m[2]), figure(t, m[3])
				if m[1] == "scale" {
					f = frame{x, y, 0, 0}.in(f)
				} else {
					f = frame{1, 1, x, y}.in(f)
				}
			}
			switch e.Name.Local {
			case "svg":
				r.width, r.height = figure(t, strings.TrimSuffix(at["width"], "pt"))*perPoint, figure(t, strings.TrimSuffix(at["height"], "pt"))*perPoint
				if box := fmt.Sprintf("0 0 %s %s", strings.TrimSuffix(at["width"], "pt"), strings.TrimSuffix(at["height"], "pt")); at["viewBox"] != box {
					t.Fatalf("a unit is no point: %s", at["viewBox"])
				}
			case "g":
				stack = append(stack, f)
			case "text":
				words, _ := dec.Token()
				at := f.place(figure(t, at["x"]), figure(t, at["y"]))
				r.texts = append(r.texts, written{spot{at.x, r.height - at.y}, string(words.(xml.CharData))})
			case "path":
				r.path(t, f, at["d"], at["style"])
			}
		}
	}
}

func (r *read) path(t testing.TB, f frame, d, style string) {
	t.Helper()
	var list []spot
	for _, m := range pathStep.FindAllStringSubmatch(d, -1) {
		if m[1] == "A" {
			return
		}
		if x, y, is := strings.Cut(m[2], ","); is {
			at := f.place(figure(t, x), figure(t, y))
			list = append(list, spot{at.x, r.height - at.y})
		}
	}
	if wide := strokeWide.FindStringSubmatch(style); wide != nil {
		r.strokes = append(r.strokes, stroke{figure(t, wide[1]), strings.Contains(style, "#787878"), list})
	} else if strings.Contains(style, "fill:#101010") {
		r.fills = append(r.fills, list)
	}
}

var pdfToken = regexp.MustCompile(`\((?:\\.|[^\\)])*\)|[^\s()]+`)

// readPDF reads the pages of a PDF: paths of straight lines, in the units of its page.
func readPDF(t testing.TB, pdf []byte) (pages []*read) {
	t.Helper()
	size := regexp.MustCompile(`/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]`).FindSubmatch(pdf)
	for _, m := range regexp.MustCompile(`stream\r?\n`).FindAllIndex(pdf, -1) {
		z, err := zlib.NewReader(bytes.NewReader(pdf[m[1]:]))
		if err != nil {
			continue
		}
		content, _ := io.ReadAll(z)
		if !bytes.Contains(content, []byte("\n1 w\n")) {
			continue // a font
		}
		r := &read{width: figure(t, string(size[1])) * perPoint, height: figure(t, string(size[2])) * perPoint}
		r.content(t, string(content))
		pages = append(pages, r)
	}
	return pages
}

// content follows the operators of ISO 32000-1, 8.2 and 8.5 (from memory) that straight
// lines take.
func (r *read) content(t testing.TB, content string) {
	t.Helper()
	type state struct {
		frame
		width, grey float64
	}
	stack, now, args := []state(nil), state{frame: frame{1, 1, 0, 0}}, []float64(nil)
	var list []spot
	curved := false
	for _, word := range pdfToken.FindAllString(content, -1) {
		if v, err := strconv.ParseFloat(word, 64); err == nil {
			args = append(args, v)
			continue
		}
		n := len(args)
		switch word {
		case "q":
			stack = append(stack, now)
		case "Q":
			now, stack = stack[len(stack)-1], stack[:len(stack)-1]
		case "cm":
			now.frame = frame{args[n-6], args[n-3], args[n-2], args[n-1]}.in(now.frame)
		case "w":
			now.width = args[n-1]
		case "G":
			now.grey = args[n-1]
		case "m":
			list, curved = []spot{now.place(args[n-2], args[n-1])}, false
		case "l":
			list = append(list, now.place(args[n-2], args[n-1]))
		case "h":
			list = append(list, list[0])
		case "c":
			curved = true
		case "S":
			if !curved {
				r.strokes = append(r.strokes, stroke{now.width, math.Abs(now.grey-0x78/255.0) < 0.01, list})
			}
		case "f":
			if !curved {
				r.fills = append(r.fills, list)
			}
		}
		args = args[:0]
	}
}

// lines are the strokes of a width, those that go on where another ends joined.
func (r *read) lines(width float64) (list [][]spot) {
	for _, s := range r.strokes {
		if math.Abs(s.width-width) > 1e-6 {
			continue
		}
		if n := len(list) - 1; n >= 0 && len(list[n]) > 2 {
			if end := list[n][len(list[n])-1]; math.Hypot(end.x-s.spots[0].x, end.y-s.spots[0].y) < 1e-3 {
				list[n] = append(list[n], s.spots[1:]...)
				continue
			}
		}
		list = append(list, s.spots)
	}
	return list
}

// rows are the texts that stand side by side, from top to foot.
func (r *read) rows() []string {
	texts := slices.Clone(r.texts)
	slices.SortStableFunc(texts, func(a, b written) int {
		if math.Abs(a.at.y-b.at.y) > 0.1 {
			return cmp.Compare(b.at.y, a.at.y)
		}
		return cmp.Compare(a.at.x, b.at.x)
	})
	var list []string
	for i, w := range texts {
		if i > 0 && math.Abs(texts[i-1].at.y-w.at.y) <= 0.1 {
			list[len(list)-1] += " " + w.words
			continue
		}
		list = append(list, w.words)
	}
	return list
}
