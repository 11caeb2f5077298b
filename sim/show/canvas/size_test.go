package canvas

import (
	"bytes"
	"math"
	"slices"
	"testing"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Widths in three units, and two papers of ISO 216 (from memory: 210 × 297 and 148 × 210 mm).
func TestSizeOf(t *testing.T) {
	for asked, want := range map[string][2]float64{"": {}, "84mm": {84, 0}, "17.4 cm": {174, 0}, "6in": {152.4, 0}, "A4": {210, 297}, "a5": {148, 210}, " 80mm ": {80, 0}, "1000mm": {1000, 0}} {
		got, err := SizeOf(asked)
		if err != nil || math.Abs(float64(got.Width/vg.Millimeter)-want[0]) > 1e-9 || math.Abs(float64(got.Height/vg.Millimeter)-want[1]) > 1e-9 {
			t.Errorf("%q: %v, %v", asked, got, err)
		}
	}
	for _, asked := range []string{"84", "84pt", "mm", "-84mm", "1e2mm", "79mm", "1001mm", "0mm", "A3", "NaNmm", "99999999999999999999999999cm", "84mm5"} {
		if got, err := SizeOf(asked); err == nil {
			t.Errorf("%q: %v", asked, got)
		}
	}
}

// A format with pages has one file, another one for each page, each with its own.
func TestFiles(t *testing.T) {
	page := func(words string) func(draw.Canvas) {
		return func(on draw.Canvas) { on.FillText(Letters(10), vg.Point{X: 50, Y: 50}, words) }
	}
	for format, want := range map[string]int{"pdf": 1, "svg": 2, "png": 2} {
		files := Form{Format: format}.Files(100, 100, page("one"), page("two"))
		if len(files) != want {
			t.Fatalf("%s: %d files", format, len(files))
		}
		for i, write := range files {
			var b bytes.Buffer
			if err := write(&b); err != nil {
				t.Fatal(err)
			}
			if format == "svg" && !bytes.Contains(b.Bytes(), []byte([]string{">one<", ">two<"}[i])) {
				t.Errorf("file %d: %s", i, b.Bytes())
			}
		}
	}
}

// Lines are no wider than asked for but for a word that is, and nothing is lost.
func TestWrap(t *testing.T) {
	const words = "a spring that binds before the fusee is wound, by 0.1\u00a0mm"
	for _, width := range []vg.Length{1, 60, 100, 1000} {
		lines := Wrap(10, width, words)
		var all []byte
		for i, l := range lines {
			if Letters(10).Width(l) > width && bytes.ContainsRune([]byte(l), ' ') {
				t.Errorf("%q is wider than %v", l, width)
			}
			if i > 0 {
				all = append(all, ' ')
			}
			all = append(all, l...)
		}
		if string(all) != words {
			t.Errorf("%q", lines)
		}
	}
	if got := Wrap(10, 1e4, words); !slices.Equal(got, []string{words}) || Wrap(10, 50, " ") != nil {
		t.Errorf("%q", got)
	}
}
