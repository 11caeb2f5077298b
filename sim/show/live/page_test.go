package live

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"
	"testing"
	"time"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
	"evenpull/sim/study/trying"

	mouse "github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// The page, moved by mouse and keys, says and draws what the program says of the same
// values; what cannot be built is told, and come back from; a trial is kept and ordered.
func TestPage(t *testing.T) {
	d := deskOf(t, "eight-day")
	dir := t.TempDir()
	d.Keep = func(_ context.Context, name, text string) error {
		return os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644)
	}
	b := open(t, d, window{width: 1280, height: 800})
	train := d.Trains[0]
	thick, width := train.Key(trying.Thickness), train.Key(trying.Width)
	b.rest()
	b.agrees(train, request{})

	b.drag(thick, 60, 12)
	b.rest()
	moved := b.box(thick)
	if moved <= 0.38 {
		t.Fatalf("dragged to %v", moved)
	}
	b.agrees(train, request{Set: map[string]float64{thick: moved}})

	coils := func() string { return get[string](b, `document.querySelector("#barrel-wound").getAttribute("d")`) }
	wound := coils()
	b.press(thick, left)
	b.press(thick, left)
	b.rest()
	if got := b.box(thick); got-moved > -0.0199 || got-moved < -0.0201 {
		t.Errorf("two keys moved it from %v to %v", moved, got)
	}
	b.agrees(train, request{Set: map[string]float64{thick: b.box(thick)}})
	if coils() == wound {
		t.Error("the coils did not change under the hand")
	}

	set := map[string]float64{thick: b.box(thick)}
	b.press(width, end)
	b.rest()
	impossible := map[string]float64{thick: set[thick], width: b.box(width)}
	if a := b.agrees(train, request{Set: impossible}); a.Fault == "" {
		t.Errorf("%v can be built", impossible)
	}
	b.do(chromedp.Click("#undo"))
	b.rest()
	b.agrees(train, request{Set: set})

	b.do(chromedp.Click(`input[name=hold][value=fill]`), chromedp.Click("#even"))
	b.drag(thick, -40, 6)
	b.rest()
	q := request{Set: map[string]float64{thick: b.box(thick)}, Hold: "fill", Even: true}
	b.agrees(train, q)

	b.do(chromedp.SetValue("#keep-name", "kept.toml"), chromedp.Click("#keep"))
	b.until(`document.querySelector("#said").innerText.includes("Kept as kept.toml")`)
	kept, err := scenario.ReadFile(filepath.Join(dir, "kept.toml"))
	if err != nil {
		t.Fatal(err)
	}
	r, err := sim.RunTrain(kept, 0, sim.Options{Step: sim.QuarterTurn})
	if err != nil {
		t.Fatal(err)
	}
	tried, err := train.Try(context.Background(), q.ask())
	if err != nil || !near(r.Torque.Mean, tried.Result().Torque.Mean) {
		t.Errorf("kept %v, tried %v, %v", r.Torque.Mean, tried.Result().Torque.Mean, err)
	}

	b.do(chromedp.Click("#order"))
	b.until(`/order|copied|mainspring/i.test(document.querySelector("#said").innerText)`)

	b.do(chromedp.Click("#back"))
	b.rest()
	if got := b.box(thick); got != 0.38 {
		t.Errorf("put back to %v", got)
	}
}

// While a hand drags, each answer is painted within a frame: what 300 moves take is told,
// and is to be bearable even on a machine with other work.
func TestPainted(t *testing.T) {
	defer debug.SetGCPercent(debug.SetGCPercent(400)) // as the command has it
	d := deskOf(t, "eight-day")
	b := open(t, d, window{width: 1280, height: 800})
	thick := d.Trains[0].Key(trying.Thickness)
	b.rest()
	get[int](b, `evenpullTimes.length = 0`)
	x, y := b.spot(thick)
	b.do(chromedp.MouseEvent(mouse.DispatchMouseEventTypeMousePressed, x, y, held))
	for i := range 300 {
		time.Sleep(time.Duration(i*37%17) * time.Millisecond) // a hand knows nothing of frames: else every move comes just after one
		b.do(chromedp.MouseEvent(mouse.DispatchMouseEventTypeMouseMoved, x+float64((i*7)%160-80), y, held))
	}
	whole := get[float64](b, `(async () => {
		const key = page.shown.moving || [...page.shown.rules.keys()][0], from = performance.now();
		move(page.shown, key, snap(page.shown.rules.get(key), page.shown.values[key] + 0.03));
		while (!page.shown.whole) await new Promise(requestAnimationFrame);
		return performance.now() - from;
	})()`)
	t.Logf("whole %.0f ms after the last move", whole)
	b.do(chromedp.MouseEvent(mouse.DispatchMouseEventTypeMouseReleased, x, y, held))
	b.rest()
	times := get[[]float64](b, `[...evenpullTimes]`)
	slices.Sort(times)
	if len(times) < 40 {
		t.Fatalf("only %d of 300 moves were answered", len(times))
	}
	median, most := times[len(times)/2], times[len(times)*95/100]
	t.Logf("%d moves painted: median %.1f ms, 95 in 100 within %.1f ms", len(times), median, most)
	b.show(window{width: 1280, height: 800}) // once more: the browser itself has started
	b.until(`performance.getEntriesByName("first-contentful-paint").length`)
	painted := get[float64](b, `performance.getEntriesByName("first-contentful-paint")[0].startTime`)
	t.Logf("first paint %.0f ms after the address was opened", painted)
	if median > 60 || most > 250 {
		t.Errorf("median %.1f ms, 95 in 100 within %.1f ms; 16 and 33 are aimed at", median, most)
	}
}

// The page fits a phone and a wide screen, light and dark, for every kind of clock.
func TestFits(t *testing.T) {
	for _, sample := range []string{"eight-day", "three-trains"} {
		phone := window{width: 360, height: 740}
		b := open(t, deskOf(t, sample), phone)
		for _, w := range []window{phone, {width: 1280, height: 800, dark: true}, {width: 1600, height: 900}} {
			b.show(w)
			b.rest()
			if wide := get[int64](b, `document.documentElement.scrollWidth`); wide > w.width {
				t.Errorf("%s: %d px wide in %+v", sample, wide, w)
			}
			if high := get[int64](b, `document.documentElement.scrollHeight`); w.width >= 1280 && high > w.height {
				t.Errorf("%s: %d px high in %+v", sample, high, w)
			}
			axe(b)
		}
	}
}

// axe asks axe-core for what keeps people from using the page; where it is, EVENPULL_AXE
// tells.
func axe(b *browser) {
	b.Helper()
	file := os.Getenv("EVENPULL_AXE")
	if file == "" {
		b.Log("EVENPULL_AXE names no axe.min.js: not asked")
		return
	}
	script, err := os.ReadFile(file)
	if err != nil {
		b.Fatal(err)
	}
	get[any](b, string(script)+"; null")
	found := get[[]string](b, `axe.run().then(r => r.violations.filter(v => ["serious", "critical"].includes(v.impact)).map(v => v.id + ": " + v.nodes.map(n => n.target).join(" ")))`)
	if len(found) > 0 {
		b.Error(found)
	}
}

// A card is one page of A5 that bears the sentence.
func TestCard(t *testing.T) {
	d := deskOf(t, "eight-day")
	b := open(t, d, window{width: 1280, height: 800})
	b.drag(d.Trains[0].Key(trying.Thickness), 30, 3)
	b.rest()
	pdf := told(b, chromedp.PrintToPDF(chromedp.PDFPreferCSSPageSize()))
	file := filepath.Join(t.TempDir(), "card.pdf")
	if err := os.WriteFile(file, pdf, 0o644); err != nil {
		t.Fatal(err)
	}
	info, err := exec.Command("pdfinfo", file).Output()
	if err != nil {
		t.Skip("there is no pdfinfo:", err)
	}
	if !strings.Contains(string(info), "Pages:           1\n") || !strings.Contains(string(info), "(A5)") && !strings.Contains(string(info), "419.") && !strings.Contains(string(info), "420") {
		t.Error(string(info))
	}
	text, err := exec.Command("pdftotext", "-layout", file, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	says := strings.Join(strings.Fields(string(text)), " ")
	for _, want := range []string{"in 100", "turns to spare", "thickness 0.38 → ", "let-down key"} {
		if !strings.Contains(strings.ToLower(says), want) {
			t.Errorf("the card lacks %q: %s", want, says)
		}
	}
}

// The picture in README is this page's.
func TestPictureInREADME(t *testing.T) {
	const file = "testdata/page.png"
	if !trial.Regenerating() {
		if _, err := os.Stat(file); err != nil {
			t.Fatal(err)
		}
		return
	}
	d := deskOf(t, "eight-day")
	b := open(t, d, window{width: 1280, height: 800})
	b.drag(d.Trains[0].Key(trying.Thickness), 50, 5)
	b.rest()
	if err := os.WriteFile(file, told(b, chromedp.CaptureScreenshot()), 0o644); err != nil {
		t.Fatal(err)
	}
}
