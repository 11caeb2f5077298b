package canvas

import (
	"bytes"
	"errors"
	"image/color"
	"io"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"codeberg.org/go-pdf/fpdf"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// operators are those that drawing writes on a page of a PDF, after the graphics state that a
// page begins with.
func operators(t *testing.T, fill func(c *sheet)) []string {
	t.Helper()
	doc := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: 100, Ht: 50}})
	doc.SetCompression(false)
	doc.AddPage()
	c := &sheet{doc: doc, height: 50, fonts: map[string]bool{}, states: []state{{seen: true}}}
	c.say("here")
	fill(c)
	c.say("end")
	var b bytes.Buffer
	if err := doc.Output(&b); err != nil {
		t.Fatal(err)
	}
	_, said, found := strings.Cut(b.String(), "here\n")
	said, _, ended := strings.Cut(said, "\nend")
	if !found || !ended {
		t.Fatalf("%q", b.String())
	}
	return slices.DeleteFunc(strings.Split(said, "\n"), func(s string) bool { return strings.HasSuffix(s, " gs") })
}

// What is drawn is written as ISO 32000-1 has it (tables 51 to 74, from memory): a turn is
// cos, sin, −sin, cos, in that order, and a grey is set for lines and fills alike.
func TestOperators(t *testing.T) {
	for name, c := range map[string]struct {
		draw func(c *sheet)
		want []string
	}{
		"turn":     {func(c *sheet) { c.Rotate(math.Pi / 6) }, []string{"0.86603 0.5 -0.5 0.86603 0 0 cm"}},
		"shift":    {func(c *sheet) { c.Translate(vg.Point{X: 3, Y: 4}) }, []string{"1 0 0 1 3 4 cm"}},
		"scale":    {func(c *sheet) { c.Scale(2, 3) }, []string{"2 0 0 3 0 0 cm"}},
		"grey":     {func(c *sheet) { c.SetColor(color.Gray{0x33}) }, []string{"0.2 G", "0.2 g"}},
		"colour":   {func(c *sheet) { c.SetColor(color.RGBA{0xff, 0, 0x33, 0xff}) }, []string{"1 0 0.2 RG", "1 0 0.2 rg"}},
		"no dash":  {func(c *sheet) { c.SetLineDash(nil, 0) }, []string{"[] 0 d"}},
		"dash":     {func(c *sheet) { c.SetLineDash([]vg.Length{1.5, 2}, 1) }, []string{"[1.5 2] 1 d"}},
		"one line": {func(c *sheet) { c.SetLineWidth(2); c.Stroke(vg.Path{{Type: vg.MoveComp}}) }, []string{"2 w", "0 0 m", "S"}},
		"no width": {func(c *sheet) { c.SetLineWidth(0); c.Stroke(vg.Path{{Type: vg.MoveComp}}) }, []string{"0 w"}},
		"unseen": {func(c *sheet) {
			c.SetLineWidth(2)
			c.SetColor(color.Transparent)
			c.Stroke(vg.Path{{Type: vg.MoveComp}})
			c.Fill(vg.Path{{Type: vg.MoveComp}})
		}, []string{"2 w", "0 G", "0 g"}},
		"kept": {func(c *sheet) {
			c.SetLineWidth(2)
			c.Push()
			c.SetLineWidth(0)
			c.Pop()
			c.Stroke(vg.Path{{Type: vg.MoveComp}})
		}, []string{"2 w", "q", "0 w", "Q", "0 0 m", "S"}},
	} {
		if got := operators(t, c.draw); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}

// An arc begins where it should about a centre of its own, by a line where something stands
// before it, and ends there.
func TestArc(t *testing.T) {
	var p vg.Path
	p.Arc(vg.Point{X: 30, Y: 10}, 5, 0, math.Pi/2)
	got := operators(t, func(c *sheet) { c.path(p) })
	if want := []string{"35 10 m", "35 11.32608 34.47322 12.59785 33.53553 13.53553 c", "32.59785 14.47322 31.32608 15 30 15 c"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	p = append(vg.Path{{Type: vg.MoveComp, Pos: vg.Point{X: 1, Y: 2}}}, p...)
	if got := operators(t, func(c *sheet) { c.path(p) }); len(got) != 4 || got[0] != "1 2 m" || got[1] != "35 10 l" {
		t.Errorf("%q", got)
	}
}

// Numbers are given to a hundred thousandth, without an exponent or noughts behind.
func TestNumber(t *testing.T) {
	for v, want := range map[float64]string{1. / 3: "0.33333", -2. / 3: "-0.66667", 1e-7: "0", -1e-7: "0", 100: "100", 1234567.25: "1234567.25", 2.5: "2.5"} {
		if got := number(v); got != want {
			t.Errorf("%v: %s", v, got)
		}
	}
}

// A PDF says what wrote it, and no page has a margin of its own or is begun by what is drawn low.
func TestDocument(t *testing.T) {
	low := func(on draw.Canvas) { on.FillText(Letters(10), vg.Point{X: 20, Y: 2}, "low") }
	var b bytes.Buffer
	if err := (Form{Format: "pdf"}).Write(&b, 100, 50, low, low); err != nil {
		t.Fatal(err)
	}
	if !bytes.Contains(b.Bytes(), []byte("/Producer (evenpull)")) || bytes.Count(b.Bytes(), []byte("/Type /Page\n")) != 2 {
		t.Errorf("%.3000s", b.String())
	}
	if box := regexp.MustCompile(`/MediaBox \[0 0 ([0-9.]+) ([0-9.]+)\]`).FindStringSubmatch(b.String()); box == nil || box[1] != "100.00" || box[2] != "50.00" {
		t.Errorf("%q", box)
	}
}

// Sizes at fault are told with what was found and what is taken.
func TestSizeFaults(t *testing.T) {
	for asked, want := range map[string]string{
		"84":     `"84": want a width such as 84mm, 17.4cm or 6.85in, or A4 or A5`,
		"79mm":   `"79mm": want 80 to 1000 mm`,
		"1001mm": `"1001mm": want 80 to 1000 mm`,
	} {
		if _, err := SizeOf(asked); err == nil || err.Error() != want {
			t.Errorf("%s: %v", asked, err)
		}
	}
}

// A page without a width or a height is none, in every format, and a writer at fault is told of.
func TestWriteFails(t *testing.T) {
	blank := func(draw.Canvas) {}
	broken := errors.New("broken")
	for _, format := range []string{"svg", "png", "pdf"} {
		for _, size := range [][2]vg.Length{{0, 10}, {10, 0}, {-1, 10}, {vg.Length(math.NaN()), 10}} {
			if err := (Form{Format: format}).Write(io.Discard, size[0], size[1], blank); err == nil || !strings.Contains(err.Error(), "nothing to draw") {
				t.Errorf("%s, %v: %v", format, size, err)
			}
		}
		if err := (Form{Format: format}).Write(failing{broken}, 100, 50, blank); !errors.Is(err, broken) {
			t.Errorf("%s: %v", format, err)
		}
	}
}

type failing struct{ error }

func (f failing) Write([]byte) (int, error) { return 0, f.error }

// A picture is as wide and as high as it says, and not the other way round.
func TestWideAndHigh(t *testing.T) {
	var b bytes.Buffer
	var got vg.Rectangle
	if err := (Form{Format: "svg"}).Write(&b, 300, 100, func(on draw.Canvas) { got = on.Rectangle }); err != nil {
		t.Fatal(err)
	}
	if got != (vg.Rectangle{Max: vg.Point{X: 300, Y: 100}}) {
		t.Errorf("%v", got)
	}
}
