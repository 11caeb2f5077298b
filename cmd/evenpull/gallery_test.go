package main

import (
	"bytes"
	"context"
	"fmt"
	"image/color"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"evenpull/cmd/evenpull/internal/files"
	"evenpull/sim/show/canvas/seen"
)

// Every picture of the gallery, drawn by its command in all formats, is to be read: no label
// overlaps another, lies beyond the edge, is smaller than 7 points or has a letter that the
// font lacks, none of a drawing is struck through, and another reader of PDF gets all of
// them back.
func TestGalleryIsLegible(t *testing.T) {
	for _, p := range pictures() {
		if p.flag == "--animation" { // whose frames lie on each other: sim/show/drawing looks at each
			continue
		}
		p.command = strings.Join(few(strings.Fields(p.command)), " ")
		labels, faults := ofSVG(t, &p)
		faults = append(faults, ofPNG(t, &p)...)
		if p.flag == "--plot" { // a PDF is laid on A4
			a4 := p
			a4.command += " --width A4"
			var more []string
			labels, more = ofSVG(t, &a4)
			faults = append(faults, more...)
		}
		for _, f := range append(faults, ofPDF(t, &p, labels)...) {
			t.Errorf("%s: %s", p.name, f)
		}
	}
}

// ofSVG are the labels of a picture and what is wrong with them.
func ofSVG(t *testing.T, p *picture) (labels, faults []string) {
	t.Helper()
	sheets, err := p.draw(t.Context(), "svg")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range sheets {
		s, err := seen.Read(f.Data)
		if err != nil {
			t.Fatalf("%s: %v", f.Name, err)
		}
		faults = append(faults, s.Illegible()...)
		if p.flag == "--drawing" {
			faults = append(faults, s.Struck()...)
		}
		for _, l := range s.Labels {
			labels = append(labels, l.Words)
		}
	}
	// The letter of a cross has a white ground where it lies on the cone.
	faults = slices.DeleteFunc(faults, regexp.MustCompile(`^a line goes through "[A-Z]"$`).MatchString)
	if len(labels) < 10 {
		faults = append(faults, fmt.Sprintf("only %d labels", len(labels)))
	}
	return labels, faults
}

// ofPNG tells what is wrong with a picture of dots: that it is nothing but paper, or ink runs
// off its edge.
func ofPNG(t *testing.T, p *picture) (faults []string) {
	t.Helper()
	sheets, err := p.draw(t.Context(), "png")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range sheets {
		img, err := png.Decode(bytes.NewReader(f.Data))
		if err != nil {
			t.Fatal(err)
		}
		in, ink := img.Bounds(), 0
		dark := func(x, y int) bool { return color.GrayModel.Convert(img.At(x, y)).(color.Gray).Y < 128 }
		for y := in.Min.Y; y < in.Max.Y; y += 2 {
			for x := in.Min.X; x < in.Max.X; x += 2 {
				if dark(x, y) {
					ink++
				}
			}
			if dark(in.Min.X, y) || dark(in.Max.X-1, y) {
				faults = append(faults, f.Name+": ink at the edge")
				break
			}
		}
		if all := in.Dx() * in.Dy() / 4; ink*1000 < all || ink*2 > all {
			faults = append(faults, fmt.Sprintf("%s: %d of %d dots are ink", f.Name, ink, all))
		}
	}
	return faults
}

// ofPDF are the labels that another reader of PDF does not give back.
func ofPDF(t *testing.T, p *picture, labels []string) (faults []string) {
	t.Helper()
	sheets, err := p.draw(t.Context(), "pdf")
	if err != nil {
		t.Fatal(err)
	}
	if len(sheets) != 1 || !bytes.HasPrefix(sheets[0].Data, []byte("%PDF-")) {
		t.Fatalf("%s: %d files", p.name, len(sheets))
	}
	reader, err := exec.LookPath("pdftotext") // of Poppler, the general PDF library
	if err != nil {
		return nil
	}
	file := filepath.Join(t.TempDir(), sheets[0].Name)
	if err := os.WriteFile(file, sheets[0].Data, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(reader, "-raw", file, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	solid := func(s string) string { return strings.Join(strings.Fields(s), "") }
	text := solid(string(out))
	for _, l := range labels {
		if !strings.Contains(text, solid(l)) {
			faults = append(faults, fmt.Sprintf("the PDF does not give back %q", l))
		}
	}
	return faults
}

// The gallery is written whole, into a folder that is not there or empty, and takes the place
// of another one alone and when it is forced to; its page shows every picture.
func TestGallery(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, dir := range []string{"empty", "others"} {
		if err := os.Mkdir(dir, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	writeText(t, "others/letter.txt", "mine")
	writeText(t, "others/run-eight-day.svg", "mine too")
	before := tree(t)
	for _, c := range []struct{ args, want string }{
		{"--gallery others", "others exists already; give another name, or --force to overwrite it"},
		{"--gallery others --force", "others holds letter.txt, which is no picture of a gallery; it is left alone"},
		{"--gallery new --as bmp", `--as "bmp": want svg, png, pdf`},
		{"--gallery new eight-day", `--gallery stands by itself, and found "eight-day"`},
		{"--as png", "--as and --force go with --gallery DIR"},
		{"--gallery eight-day", "this is the name of a sample"},
	} {
		code, out, errs := call(t, "", append([]string{"samples"}, strings.Fields(c.args)...)...)
		if code == exitDone || out != "" || !strings.Contains(errs, c.want) {
			t.Errorf("%s: exit %d, %s", c.args, code, errs)
		}
	}
	if tree(t) != before {
		t.Error("something was written")
	}
	if code, _, errs := call(t, "", "samples", "--gallery", "empty"); code != exitDone || !strings.Contains(errs, "pictures written to empty") {
		t.Fatalf("exit %d, %s", code, errs)
	}
	if err := files.CheckFolder("empty", galleryHow("empty", false), ofGallery); err == nil {
		t.Error("a gallery is replaced without being forced to")
	}
	if err := files.CheckFolder("empty", galleryHow("empty", true), ofGallery); err != nil {
		t.Error(err)
	}
	page, err := os.ReadFile("empty/index.html")
	if err != nil {
		t.Fatal(err)
	}
	list, err := os.ReadDir("empty")
	if err != nil || len(list) <= len(pictures()) {
		t.Errorf("%d files, %v", len(list), err)
	}
	for _, f := range list {
		if f.Name() != galleryPage && strings.Count(string(page), `src="`+f.Name()+`"`) != 1 {
			t.Errorf("the page does not show %s", f.Name())
		}
	}
	for _, p := range pictures() {
		if !strings.Contains(string(page), "evenpull "+p.command+" "+p.flag) || len(p.sees) < 20 {
			t.Errorf("the page does not tell of %s", p.name)
		}
	}
}

// Every command that draws is in the gallery, plots, drawings and what moves.
func TestGalleryHasAll(t *testing.T) {
	for _, c := range newRoot(streams{in: strings.NewReader(""), out: &bytes.Buffer{}, err: &bytes.Buffer{}}).Commands() {
		for _, flag := range pictureFlags() {
			if c.Flags().Lookup(flag) != nil && !slices.ContainsFunc(pictures(), func(p picture) bool { return strings.HasPrefix(p.command+" ", c.Name()+" ") && p.flag == "--"+flag }) {
				t.Errorf("there is no picture of %s --%s", c.Name(), flag)
			}
		}
	}
	ended, end := context.WithCancel(t.Context())
	end()
	if err := writeGallery(ended, streams{in: strings.NewReader(""), out: &bytes.Buffer{}, err: &bytes.Buffer{}}, filepath.Join(t.TempDir(), "g"), "svg", false); err == nil {
		t.Error("a gallery was written that was interrupted")
	}
}
