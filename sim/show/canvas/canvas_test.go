package canvas

import (
	"bytes"
	"image/color"
	"image/png"
	"io"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

func TestFormatOf(t *testing.T) {
	for name, want := range map[string]string{"a.svg": "svg", "b.PNG": "png", "c/d.e.pdf": "pdf"} {
		if got, err := FormatOf(name); got != want || err != nil {
			t.Errorf("%s: %q, %v", name, got, err)
		}
	}
	for _, name := range []string{"a", "svg", "a.jpg", "a.", ""} {
		if got, err := FormatOf(name); err == nil {
			t.Errorf("%s: %q", name, got)
		}
	}
}

// Only a PDF has more than one page, and none has no page or one without a size.
func TestPages(t *testing.T) {
	blank := func(draw.Canvas) {}
	for format, holds := range map[string]bool{"pdf": true, "svg": false, "png": false} {
		f := Form{Format: format, Dots: Screen}
		var b bytes.Buffer
		err := f.Write(&b, 100, 100, blank, blank, blank)
		if (err == nil) != holds || holds && bytes.Count(b.Bytes(), []byte("/Type /Page\n")) != 3 {
			t.Errorf("%s: %v", format, err)
		}
		if f.Write(io.Discard, 100, 100) == nil || f.Write(io.Discard, 100, 0, blank) == nil {
			t.Errorf("%s: a file of no page", format)
		}
	}
	if (Form{Format: "gif"}).Write(io.Discard, 100, 100, blank) == nil {
		t.Error("a format that is none was written")
	}
}

// samplePage has a text of every kind that pictures have, level and upright, and a circle.
func samplePage(on draw.Canvas) {
	texts := []string{"torque, N·m: −0.5 to +1.5 °", "Ø 12.3 mm ± 5 % – “so”", "½ × 2² ≤ √5, α"}
	for i, s := range texts {
		style := Letters(11)
		on.FillText(style, vg.Point{X: 150, Y: vg.Length(60 + 30*i)}, s)
	}
	on.SetColor(color.RGBA{0xc0, 0x20, 0x20, 0xff})
	var p vg.Path
	p.Move(vg.Point{X: 250, Y: 20})
	p.Arc(vg.Point{X: 240, Y: 20}, 10, 0, 6.283185307179586)
	p.Close()
	on.Fill(p)
}

// The same picture has the same bytes, whenever it is written.
func TestSameBytes(t *testing.T) {
	for _, format := range []string{"svg", "png", "pdf"} {
		var list [2]bytes.Buffer
		for i := range list {
			if err := (Form{Format: format, Dots: Screen}).Write(&list[i], 300, 150, samplePage); err != nil {
				t.Fatal(err)
			}
		}
		if !bytes.Equal(list[0].Bytes(), list[1].Bytes()) {
			t.Errorf("%s differs from itself", format)
		}
	}
}

// Without colours every dot is a grey, of the lightness that it had: of red, green and blue
// 0.299, 0.587 and 0.114 (Rec. ITU-R BT.601, from memory).
func TestGrey(t *testing.T) {
	var b bytes.Buffer
	if err := (Form{Format: "png", Dots: Screen, Grey: true}).Write(&b, 300, 150, samplePage); err != nil {
		t.Fatal(err)
	}
	picture, err := png.Decode(&b)
	if err != nil {
		t.Fatal(err)
	}
	for y := range picture.Bounds().Dy() {
		for x := range picture.Bounds().Dx() {
			if r, g, b, _ := picture.At(x, y).RGBA(); r != g || g != b {
				t.Fatalf("%d, %d has a colour: %v", x, y, picture.At(x, y))
			}
		}
	}
	at := func(v vg.Length) int { return int(v * Screen / vg.Inch) }
	want := 0.299*0xc0 + 0.587*0x20 + 0.114*0x20
	if got, _, _, _ := picture.At(at(240), picture.Bounds().Dy()-at(20)).RGBA(); float64(got>>8) < want-1 || float64(got>>8) > want+1 {
		t.Errorf("grey %d, want %.0f", got>>8, want)
	}
}

// Every text of an SVG keeps the width that it was laid out with: in the metrics of
// Times Roman, which its font has, a takes 444, a space 250, < 564 and b 500
// thousandths of the size (Adobe's font metrics of the core fonts, from memory).
func TestLettersOfSVG(t *testing.T) {
	const before = `<text x="1" y="2"
	style="font-family:Liberation Serif;font-size:10px">a &lt; b</text><text x="3" style="font-size:10px"> </text>`
	const after = `<text textLength="20.1" lengthAdjust="spacingAndGlyphs" x="1" y="2"
	style="font-family:'Liberation Serif','Times New Roman',Tinos,Times,serif;font-size:10px">a &lt; b</text><text x="3" style="font-size:10px"> </text>`
	if got := string(letters([]byte(before))); got != after {
		t.Errorf("%s", got)
	}
	var b bytes.Buffer
	if err := (Form{Format: "svg"}).Write(&b, 300, 150, samplePage); err != nil {
		t.Fatal(err)
	}
	if texts, held := strings.Count(b.String(), "<text"), strings.Count(b.String(), "textLength="); texts != 3 || texts != held {
		t.Errorf("%d texts, %d of a width", texts, held)
	}
}

// What is drawn in no colour is not in an SVG, in whatever state of the canvas, and what
// comes after it is.
func TestUnseen(t *testing.T) {
	var b bytes.Buffer
	err := (Form{Format: "svg"}).Write(&b, 100, 50, func(on draw.Canvas) {
		unseen := Letters(10)
		unseen.Color = color.Transparent
		on.FillText(unseen, vg.Point{X: 20, Y: 20}, "unseen")
		on.SetColor(color.Transparent)
		on.Push()
		on.Fill(vg.Rectangle{Max: vg.Point{X: 9, Y: 9}}.Path())
		on.SetColor(color.Black)
		on.Pop()
		on.SetLineWidth(1)
		on.Stroke(vg.Rectangle{Max: vg.Point{X: 8, Y: 8}}.Path()) // in what there was before Push
		on.SetColor(color.Black)
		on.Stroke(vg.Rectangle{Max: vg.Point{X: 7, Y: 7}}.Path())
		on.FillText(Letters(10), vg.Point{X: 60, Y: 20}, "seen")
	})
	svg := b.String()
	if err != nil || strings.Contains(svg, "unseen") || strings.Contains(svg, "#-") || !strings.Contains(svg, ">seen<") || strings.Count(svg, "<path") != 1 {
		t.Errorf("%v: %s", err, svg)
	}
}
