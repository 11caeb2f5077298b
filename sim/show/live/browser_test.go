package live

import (
	"context"
	"fmt"
	"strconv"
	"strings"
	"testing"
	"time"

	"evenpull/sim/internal/trial"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	mouse "github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// browser is a headless Chromium on the page of a desk.
type browser struct {
	*testing.T
	ctx  context.Context
	desk *Desk
	host string
}

// window is what a browser is opened with.
type window struct {
	width, height int64
	dark          bool
}

// open serves a desk and opens its page; the test fails on any error that the page throws.
func open(t *testing.T, d *Desk, w window) *browser {
	t.Helper()
	if testing.Short() {
		t.Skip("slow")
	}
	path := trial.Chromium(t)
	b := &browser{T: t, desk: d, host: running(t, d)}
	ctx, stop := context.WithTimeout(context.Background(), 2*time.Minute)
	t.Cleanup(stop)
	b.ctx, stop = chromedp.NewContext(ctx,
		chromedp.WithAllocatorOptions(chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU, chromedp.UserDataDir(t.TempDir()), chromedp.WindowSize(int(w.width), int(w.height)), chromedp.Flag("disable-quic", true)),
		chromedp.WithListener(func(e any) {
			if e, ok := e.(*runtime.EventExceptionThrown); ok {
				t.Errorf("the page throws: %v", e.ExceptionDetails)
			}
		}))
	t.Cleanup(stop)
	b.show(w)
	return b
}

// show opens the page anew in a window.
func (b *browser) show(w window) {
	b.Helper()
	scheme := "light"
	if w.dark {
		scheme = "dark"
	}
	b.do(chromedp.EmulateViewport(w.width, w.height),
		chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
			_, err := cdp.Call(ctx, t, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
			return err
		}),
		chromedp.Navigate("http://"+b.host+"/?key="+testKey))
	b.until(`document.querySelectorAll("[data-rule]").length >= 4 && document.querySelector("#curve").getAttribute("d")`)
}

func (b *browser) do(steps ...chromedp.Action[chromedp.Void]) {
	b.Helper()
	if err := chromedp.Do(b.ctx, steps...); err != nil {
		b.Fatal(err)
	}
}

// get is the value of an expression in the page.
func get[T any](b *browser, expression string) T {
	b.Helper()
	return told(b, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
}

// told is what an action tells.
func told[T any](b *browser, a chromedp.Action[T]) T {
	b.Helper()
	v, err := chromedp.Run(b.ctx, a)
	if err != nil {
		b.Fatal(err)
	}
	return v
}

// until waits until an expression holds.
func (b *browser) until(expression string) {
	b.Helper()
	end := time.Now().Add(20 * time.Second)
	for !get[bool](b, "!!("+expression+")") {
		if time.Now().After(end) {
			b.Fatalf("it does not come about: %s; the page says %q", expression, get[string](b, `document.body.innerText`))
		}
		time.Sleep(20 * time.Millisecond)
	}
}

// rest waits until the hand has rested and what it asked is answered whole.
func (b *browser) rest() {
	b.Helper()
	time.Sleep(200 * time.Millisecond)
	b.until(`!wire.busy && wire.since === null && !wire.whole && page.shown.whole && !wire.resting`)
}

func (b *browser) text(selector string) string {
	b.Helper()
	return get[string](b, fmt.Sprintf(`document.querySelector(%q).innerText`, selector))
}

// box is the value in the number box of a rule.
func (b *browser) box(key string) float64 {
	b.Helper()
	v, err := strconv.ParseFloat(get[string](b, fmt.Sprintf(`document.querySelector('[data-rule="%s"] [role=slider]').getAttribute("aria-valuenow")`, key)), 64)
	if err != nil {
		b.Fatal(err)
	}
	return v
}

// spot is the middle of the handle of a rule.
func (b *browser) spot(key string) (x, y float64) {
	b.Helper()
	at := get[[]float64](b, fmt.Sprintf(`(r => [r.x + r.width/2, r.y + r.height/2])(document.querySelector('[data-rule="%s"] [role=slider]').getBoundingClientRect())`, key))
	return at[0], at[1]
}

// held is a mouse with its button pressed.
func held(p *mouse.DispatchMouseEventParams) {
	p.Button, p.Buttons, p.ClickCount = "left", 1, 1
}

// drag moves the handle of a rule by so many pixels, in steps.
func (b *browser) drag(key string, by float64, steps int) {
	b.Helper()
	b.do(chromedp.ScrollIntoView(fmt.Sprintf(`[data-rule="%s"]`, key)))
	x, y := b.spot(key)
	b.do(chromedp.MouseEvent(mouse.DispatchMouseEventTypeMousePressed, x, y, held))
	for i := 1; i <= steps; i++ {
		b.do(chromedp.MouseEvent(mouse.DispatchMouseEventTypeMouseMoved, x+by*float64(i)/float64(steps), y, held))
	}
	b.do(chromedp.MouseEvent(mouse.DispatchMouseEventTypeMouseReleased, x+by, y, held))
}

func (b *browser) press(key, keys string) {
	b.Helper()
	b.do(chromedp.Focus(fmt.Sprintf(`[data-rule="%s"] [role=slider]`, key)), chromedp.KeyEvent(keys))
}

// agrees holds what is on the page against what the program says of the same values.
func (b *browser) agrees(train *Train, q request) asked {
	b.Helper()
	q.Train, q.Rules = train.Name, train.always()
	want := askRun(b.T, b.desk, q)
	sentence := strings.TrimSpace(want.Says.Verdict + " " + want.Says.Fact)
	if want.Fault != "" {
		sentence = want.Fault
	}
	if got := strings.Join(strings.Fields(b.text("#sentence")), " "); got != sentence {
		b.Errorf("%v: the page says %q, the program %q", q.Set, got, sentence)
	}
	if want.Fault != "" {
		return want
	}
	b.curves(want)
	for id, points := range map[string][][2]float64{"down": want.Barrel.Down, "wound": want.Barrel.Wound} {
		drawn := strings.FieldsFunc(get[string](b, fmt.Sprintf(`document.querySelector("#barrel-%s").getAttribute("d")`, id)), func(r rune) bool { return r == 'M' || r == 'C' })
		if len(drawn) != len(points) {
			b.Fatalf("the strip %s has %d points on the page, %d by the program", id, len(drawn), len(points))
		}
		for i, d := range drawn {
			xy := strings.Fields(d)
			if x, y := xy[len(xy)-2], xy[len(xy)-1]; x != shortest(points[i][0]) || y != shortest(points[i][1]) {
				b.Errorf("the strip %s at %d: %s %s on the page, %v by the program", id, i, x, y, points[i])
				break
			}
		}
	}
	for key, v := range want.Values {
		if got := b.box(key); got-v > 1e-6 || v-got > 1e-6 {
			b.Errorf("%v: %s is %v on the page, %v by the program", q.Set, key, got, v)
		}
		bands := get[int](b, fmt.Sprintf(`[...document.querySelectorAll('[data-rule="%s"] svg .band')].filter(e => e.getAttribute("display") !== "none").length`, key))
		if bands != len(want.Tracks[key]) {
			b.Errorf("%v: %d bands on the rule of %s, %d by the program", q.Set, bands, key, len(want.Tracks[key]))
			continue
		}
		ends := get[[][2]float64](b, fmt.Sprintf(`[...document.querySelectorAll('[data-rule="%s"] svg .band')].filter(e => e.getAttribute("display") !== "none").map(e => [+e.getAttribute("x"), +e.getAttribute("x") + +e.getAttribute("width")])`, key))
		first, last := want.Tracks[key][0].From, want.Tracks[key][bands-1].To
		for i, of := range want.Tracks[key] {
			at := ends[0][0] + (of.To-first)/(last-first)*(ends[bands-1][1]-ends[0][0])
			if off := ends[i][1] - at; off > 0.1 || off < -0.1 {
				b.Errorf("%v: band %d on the rule of %s ends at %v px, by the program at %v", q.Set, i, key, ends[i][1], at)
			}
		}
	}
	return want
}

// shortest is a number as the page writes it.
func shortest(v float64) string { return strconv.FormatFloat(v+0, 'f', -1, 64) }

// curves holds the curve on the page against the torques of the answer: drawn to one scale,
// every point lies on it.
func (b *browser) curves(want asked) {
	b.Helper()
	var points [][2]float64
	for _, p := range strings.FieldsFunc(get[string](b, `document.querySelector("#curve").getAttribute("d")`), func(r rune) bool { return r == 'M' || r == 'L' }) {
		xy := strings.FieldsFunc(p, func(r rune) bool { return r == ' ' || r == ',' })
		x, err1 := strconv.ParseFloat(xy[0], 64)
		y, err2 := strconv.ParseFloat(xy[1], 64)
		if err1 != nil || err2 != nil {
			b.Fatalf("%q", p)
		}
		points = append(points, [2]float64{x, y})
	}
	if len(points) != len(want.Curve) {
		b.Fatalf("%d points, %d by the program", len(points), len(want.Curve))
	}
	first, last, top, low := points[0], points[len(points)-1], 0, 0
	for i := range points {
		if *want.Curve[i][1] > *want.Curve[top][1] {
			top = i
		}
		if *want.Curve[i][1] < *want.Curve[low][1] {
			low = i
		}
	}
	between := func(v, v0, v1, p0, p1 float64) float64 { return p0 + (v-v0)/(v1-v0)*(p1-p0) }
	for i, p := range points {
		x := between(*want.Curve[i][0], *want.Curve[0][0], *want.Curve[len(points)-1][0], first[0], last[0])
		y := between(*want.Curve[i][1], *want.Curve[low][1], *want.Curve[top][1], points[low][1], points[top][1])
		if dx, dy := p[0]-x, p[1]-y; dx*dx+dy*dy > 0.2*0.2 {
			b.Errorf("point %d at %v, by the program %v, %v", i, p, x, y)
			return
		}
	}
}

const left, right, home, end = kb.ArrowLeft, kb.ArrowRight, kb.Home, kb.End
