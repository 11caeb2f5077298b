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
)

// browser finds a headless Chromium; the test is skipped where there is none, and
// CI installs it.
func browser(t *testing.T) func(args ...string) []byte {
	t.Helper()
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		path, err := exec.LookPath(name)
		if err != nil {
			continue
		}
		profile := t.TempDir()
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
	t.Skip("there is no Chromium")
	return nil
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
		fmt.Fprintf(&frames, `<iframe src="page.html" style="width:%dpx;height:2000px;border:0"></iframe>`, width)
	}
	frame := filepath.Join(dir, "frame.html")
	text := "<!DOCTYPE html><body>" + frames.String() + `<script>onload = () => { document.title = [...document.querySelectorAll("iframe")]
.map(f => "wide " + f.contentDocument.documentElement.scrollWidth).join(", "); };</script>`
	if err := os.WriteFile(frame, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	found := regexp.MustCompile(`wide (\d+)`).FindAllSubmatch(run("--virtual-time-budget=8000", "--dump-dom", "file://"+frame), -1)
	if len(found) != len(widths) {
		t.Fatalf("%d of %d pages were loaded", len(found), len(widths))
	}
	for i, width := range widths {
		if wide, _ := strconv.Atoi(string(found[i][1])); wide == 0 || wide > width {
			t.Errorf("at %d px the page is %d px wide", width, wide)
		}
	}
	for _, paper := range []string{"letter", "A4"} {
		sized := filepath.Join(dir, paper+".html")
		text := strings.Replace(page, "@page { size: auto;", "@page { size: "+paper+";", 1)
		if err := os.WriteFile(sized, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		pdf := filepath.Join(dir, paper+".pdf")
		run("--no-pdf-header-footer", "--print-to-pdf="+pdf, "file://"+sized)
		withinPages(t, paper, pdf)
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
	if pages < 8 || words < 2000 || !bytes.Contains(boxes, []byte(">Verdicts<")) || !bytes.Contains(boxes, []byte(">again<")) {
		t.Errorf("%s: %d pages, %d words", paper, pages, words)
	}
}
