package page

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"evenpull/sim/internal/trial"
)

// browser runs a headless Chromium.
func browser(t *testing.T) func(args ...string) []byte {
	t.Helper()
	path, profile := trial.Chromium(t), t.TempDir()
	return func(args ...string) []byte {
		t.Helper()
		ctx, stop := context.WithTimeout(context.Background(), 240*time.Second)
		defer stop()
		args = append([]string{"--headless", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--allow-file-access-from-files", "--user-data-dir=" + profile}, args...)
		var out, errs bytes.Buffer
		cmd := exec.CommandContext(ctx, path, args...)
		cmd.Stdout, cmd.Stderr = &out, &errs
		if err := cmd.Run(); err != nil {
			t.Fatalf("%v: %s", err, errs.String())
		}
		return out.Bytes()
	}
}

// In a browser the page is no wider than a phone or a screen, and printed on Letter
// and A4 no word passes the edge of its page.
func TestInChromium(t *testing.T) {
	if testing.Short() {
		t.Skip("slow")
	}
	run := browser(t)
	dir := t.TempDir()
	page := html(t, document(t, true, "three-trains"))
	if err := os.WriteFile(filepath.Join(dir, "page.html"), []byte(page), 0o644); err != nil {
		t.Fatal(err)
	}
	widths := []int{360, 1280}
	var frames strings.Builder
	for _, width := range widths {
		fmt.Fprintf(&frames, `<iframe src="page.html" scrolling="no" style="width:%dpx;height:2000px;border:0"></iframe>`, width)
	}
	frame := filepath.Join(dir, "frame.html")
	text := "<!DOCTYPE html><body>" + frames.String() + `<script>onload = () => { document.title = [...document.querySelectorAll("iframe")]
.map(f => { const d = f.contentDocument, high = [...d.querySelectorAll("figure text")].map(t => parseFloat(getComputedStyle(t).fontSize) * Math.hypot(t.getScreenCTM().a, t.getScreenCTM().b));
return "wide " + d.documentElement.scrollWidth + " letters " + Math.min(...high).toFixed(2) + " figures " + [...d.querySelectorAll("figure")].filter(g => g.scrollWidth > g.clientWidth).length; }).join(", "); };</script>`
	if err := os.WriteFile(frame, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	found := regexp.MustCompile(`wide (\d+) letters ([0-9.]+) figures (\d+)`).FindAllSubmatch(run("--virtual-time-budget=8000", "--dump-dom", "file://"+frame), -1)
	if len(found) != len(widths) {
		t.Fatalf("%d of %d pages were loaded", len(found), len(widths))
	}
	for i, width := range widths {
		if wide, _ := strconv.Atoi(string(found[i][1])); wide == 0 || wide > width {
			t.Errorf("at %d px the page is %d px wide", width, wide)
		}
		if high, _ := strconv.ParseFloat(string(found[i][2]), 64); high < 9 || string(found[i][3]) != "0" {
			t.Errorf("at %d px the letters of pictures are %.1f px high, and %s pictures are wider than their box", width, high, found[i][3])
		}
	}
	for _, paper := range []string{"letter", "A4"} {
		withinPages(t, paper, printed(t, run, strings.Replace(page, "@page { size: A4;", "@page { size: "+paper+";", 1)))
	}
}

// printed is the file of a page as it is printed.
func printed(t *testing.T, run func(args ...string) []byte, page string) string {
	t.Helper()
	dir := t.TempDir()
	file, pdf := filepath.Join(dir, "page.html"), filepath.Join(dir, "page.pdf")
	if err := os.WriteFile(file, []byte(page), 0o644); err != nil {
		t.Fatal(err)
	}
	run("--no-pdf-header-footer", "--print-to-pdf="+pdf, "file://"+file)
	return pdf
}

// pdfWord is a word of a PDF, with its page and how far down it ends there, as a share.
type pdfWord struct {
	text string
	page int
	down float64
}

// pdfWords are those of a PDF; the test is skipped without the program that reads them.
func pdfWords(t *testing.T, pdf string) (words []pdfWord) {
	t.Helper()
	if _, err := exec.LookPath("pdftotext"); err != nil {
		t.Skip("there is no pdftotext to read the printed page with")
	}
	boxes, err := exec.Command("pdftotext", "-bbox", pdf, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	page, high := 0, 0.0
	for _, m := range regexp.MustCompile(`<page width="[0-9.]+" height="([0-9.]+)">|yMax="([-0-9.]+)">([^<]*)</word>`).FindAllSubmatch(boxes, -1) {
		if len(m[1]) > 0 {
			page++
			high, _ = strconv.ParseFloat(string(m[1]), 64)
			continue
		}
		down, _ := strconv.ParseFloat(string(m[2]), 64)
		words = append(words, pdfWord{string(m[3]), page, down / high})
	}
	return words
}

// On A4 one train takes six pages at most, three take 14, with a bench book 15, and two compared ten, of which two to three are how figures are computed; the
// first has the verdicts, and the cautions in whole; no page but the last is emptier than two fifths.
func TestPages(t *testing.T) {
	if testing.Short() {
		t.Skip("slow")
	}
	run := browser(t)
	for _, c := range []struct {
		names         []string
		bench         bool
		most, verdict int
	}{
		{[]string{"eight-day"}, false, 6, 1},
		{[]string{"three-trains"}, false, 14, 3}, {[]string{"three-trains"}, true, 15, 3}, {[]string{"eight-day", "too-weak"}, false, 10, 2}, {[]string{"eight-day", "too-strong"}, false, 10, 2},
	} {
		words := pdfWords(t, printed(t, run, html(t, document(t, c.bench, c.names...))))
		first, foot := "", map[int]float64{}
		for _, w := range words {
			if w.page == 1 {
				first += w.text + " "
			}
			if w.down < 0.95 { // above the number of the page
				foot[w.page] = max(foot[w.page], w.down)
			}
		}
		pages := words[len(words)-1].page
		if pages > c.most {
			t.Errorf("%s, bench %v: %d pages, want at most %d", c.names, c.bench, pages, c.most)
		}
		if n := strings.Count(first, " train: "); n < c.verdict || !strings.Contains(first, "record what was done.") {
			t.Errorf("%s: the first page has %d verdicts: %s", c.names, n, first)
		}
		for page := 1; page < pages; page++ {
			if foot[page] < 0.6 {
				t.Errorf("%s: page %d ends at %.0f %%", c.names, page, 100*foot[page])
			}
		}
	}
}

// withinPages wants every word of a PDF within its page, and the first and the last
// of the document's there.
func withinPages(t *testing.T, paper, pdf string) {
	t.Helper()
	if _, err := exec.LookPath("pdftotext"); err != nil {
		if st, err := os.Stat(pdf); err != nil || st.Size() < 50_000 {
			t.Errorf("%s: %v", paper, err)
		}
		t.Log("without pdftotext the words on the pages are not looked at")
		return
	}
	boxes, err := exec.Command("pdftotext", "-bbox", pdf, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	var width, height float64
	pages, words := 0, 0
	box := regexp.MustCompile(`<page width="([0-9.]+)" height="([0-9.]+)">|<word xMin="([-0-9.]+)" yMin="([-0-9.]+)" xMax="([-0-9.]+)" yMax="([-0-9.]+)">`)
	for _, m := range box.FindAllSubmatch(boxes, -1) {
		number := func(i int) float64 { v, _ := strconv.ParseFloat(string(m[i]), 64); return v }
		if len(m[1]) > 0 {
			width, height = number(1), number(2)
			pages++
			continue
		}
		words++
		if number(3) < 0 || number(4) < 0 || number(5) > width || number(6) > height {
			t.Errorf("%s: on page %d a word is cut off: %s", paper, pages, m[0])
		}
	}
	if pages < 8 || words < 2000 || !bytes.Contains(boxes, []byte(">Cautions<")) || !bytes.Contains(boxes, []byte(">again<")) {
		t.Errorf("%s: %d pages, %d words", paper, pages, words)
	}
}
