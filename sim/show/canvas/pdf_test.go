package canvas

import (
	"bytes"
	"image/color"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// written is a picture as a PDF file.
func written(t *testing.T, width, height vg.Length, fill ...func(draw.Canvas)) string {
	t.Helper()
	var b bytes.Buffer
	if err := (Form{Format: "pdf"}).Write(&b, width, height, fill...); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "picture.pdf")
	if err := os.WriteFile(file, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return file
}

// tool is the path of a program of Poppler, the general PDF library; without it a test is
// skipped.
func tool(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		t.Skipf("there is no %s to read a PDF with", name)
	}
	return path
}

// Another reader of PDF gets every letter back, on every page.
func TestTextOfPDF(t *testing.T) {
	out, err := exec.Command(tool(t, "pdftotext"), "-layout", written(t, 300, 150, samplePage, samplePage), "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	pages := strings.Split(string(out), "\f")
	if len(pages) < 2 {
		t.Fatalf("%d pages: %q", len(pages), out)
	}
	for i, page := range pages[:2] {
		for _, want := range []string{"torque, N·m: −0.5 to +1.5 °", "Ø 12.3 mm ± 5 % – “so”", "½ × 2² ≤ √5, α"} {
			if !strings.Contains(page, want) {
				t.Errorf("page %d has no %q: %q", i+1, want, page)
			}
		}
	}
}

// turned draws what a canvas can do, turned and scaled, in places that are known.
func turned(on draw.Canvas) {
	on.Push()
	on.Translate(vg.Point{X: 50, Y: 30})
	on.Rotate(math.Pi / 2)
	on.Scale(2, 1)
	on.SetColor(color.Black)
	var p vg.Path
	p.Arc(vg.Point{}, 10, 0, 2*math.Pi) // an ellipse, 10 wide and 20 tall to each side
	p.Close()
	on.Fill(p)
	on.Pop()
	on.SetColor(color.RGBA{0, 0, 0xff, 0xff})
	p = nil
	p.Move(vg.Point{X: 100, Y: 10})
	p.QuadTo(vg.Point{X: 120, Y: 50}, vg.Point{X: 140, Y: 10}) // at its middle 20 up
	p.Close()
	on.Fill(p)
	on.SetColor(color.Transparent)
	on.FillText(Letters(12), vg.Point{X: 150, Y: 55}, "unseen")
	on.SetLineStyle(draw.LineStyle{Color: color.RGBA{0xff, 0, 0, 0xff}, Width: 4, Dashes: []vg.Length{20, 20}})
	p = nil
	p.Move(vg.Point{X: 100, Y: 60})
	p.Line(vg.Point{X: 180, Y: 60})
	on.Stroke(p)
}

// Another reader draws a PDF as the PNG has it: no dot in a hundred differs by much, and the
// places that are known are right.
func TestPDFLooksAsPNG(t *testing.T) {
	pdftoppm := tool(t, "pdftoppm")
	file := written(t, 200, 100, turned)
	if out, err := exec.Command(pdftoppm, "-r", "144", "-png", "-singlefile", file, file).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	data, err := os.ReadFile(file + ".png")
	if err != nil {
		t.Fatal(err)
	}
	other, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := (Form{Format: "png", Dots: 144}).Write(&b, 200, 100, turned); err != nil {
		t.Fatal(err)
	}
	ours, err := png.Decode(&b)
	if err != nil {
		t.Fatal(err)
	}
	if ours.Bounds() != other.Bounds() {
		t.Fatalf("%v and %v", ours.Bounds(), other.Bounds())
	}
	off, all := 0, 0
	for y := range ours.Bounds().Dy() {
		for x := range ours.Bounds().Dx() {
			all++
			if lightness(ours.At(x, y))-lightness(other.At(x, y)) > 100 || lightness(other.At(x, y))-lightness(ours.At(x, y)) > 100 {
				off++
			}
		}
	}
	if off*100 > all {
		t.Errorf("%d of %d dots differ", off, all)
	}
	for _, at := range []struct {
		x, y float64 // points from the lower left
		want color.RGBA
	}{
		{50, 49, color.RGBA{A: 0xff}}, {50, 51.5, color.RGBA{0xff, 0xff, 0xff, 0xff}}, {58.5, 30, color.RGBA{A: 0xff}}, {61.5, 30, color.RGBA{0xff, 0xff, 0xff, 0xff}},
		{120, 28.5, color.RGBA{0, 0, 0xff, 0xff}}, {120, 31.5, color.RGBA{0xff, 0xff, 0xff, 0xff}},
		{110, 60, color.RGBA{0xff, 0, 0, 0xff}}, {130, 60, color.RGBA{0xff, 0xff, 0xff, 0xff}}, {150, 60, color.RGBA{0xff, 0, 0, 0xff}},
	} {
		if got := color.RGBAModel.Convert(other.At(int(at.x*2), int((100-at.y)*2))).(color.RGBA); got != at.want {
			t.Errorf("%v, %v: %v, want %v", at.x, at.y, got, at.want)
		}
	}
}

func lightness(c color.Color) int { return int(color.GrayModel.Convert(c).(color.Gray).Y) }
