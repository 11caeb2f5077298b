package page

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim/bench/book"
	"evenpull/sim/internal/trial"
	"evenpull/sim/internal/trial/bench"
	"evenpull/sim/show/chart"
	"evenpull/sim/stock"
	"evenpull/sim/study/choose"
	"evenpull/sim/study/dossier"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	unsafe "github.com/yuin/goldmark/renderer/html"
)

// payloads are texts that run a script when they stand in a page, a picture or in
// Markdown as they are: by breaking out of what they stand in, by an element or attribute
// of their own, or by a link. RUN is what they run. Ways that are generally known, no
// source.
func payloads() []string {
	const script = "<script>RUN</script>"
	list := []string{
		script, "<SCRIPT >RUN</SCRIPT >", "<script/x>RUN</script>", "</title>" + script, "</style>" + script, "</textarea>" + script, "</pre>" + script, "</code></pre>" + script,
		"</svg>" + script, "</text>" + script, "</p></li></ul></section>" + script, "</td></tr></table>" + script, "</option></select>" + script,
		`">` + script, `'>` + script, "-->" + script, "]]>" + script, `\` + script, `\">` + script,
		"<img src=x onerror=RUN>", `<img src="x" onerror="RUN"`, `<img/src="x"/onerror=RUN>`, "<img src=x onerror=&#112;arent['ran'](NUMBER)>", `<image href="x" onerror="RUN"/>`,
		"<svg onload=RUN>", "<svg><script>RUN</script></svg>", "<svg><animate onbegin=RUN attributeName=x dur=1s>", "<svg><set onbegin=RUN attributeName=x to=0>",
		`<svg><a href="javascript:RUN"><text>x</text></a></svg>`, `<a href="javascript:RUN">x</a>`, `<a href="&#106;avascript:RUN">x</a>`, `<a href="java&Tab;script:RUN">x</a>`,
		"<body onpageshow=RUN>", "<iframe onload=RUN></iframe>", "<input type=image src=x onerror=RUN>", "<script src=x onerror=RUN></script>", "<object data=x onerror=RUN></object>", "<picture><img src=x onerror=RUN></picture>", "<svg><image href=x onerror=RUN></svg>",
		`<iframe src="javascript:parent['RUN']"></iframe>`, `<iframe srcdoc="<script>parent.RUN</script>"></iframe>`,
		`<style>@keyframes x{}</style><p style="animation:x 1s" onanimationstart="RUN">`, `<noscript><p title="</noscript><script>RUN</script>">`,
		`<script xmlns="http://www.w3.org/1999/xhtml">RUN</script>`, `<svg xmlns="http://www.w3.org/2000/svg" onload="RUN"/>`, `</text></g></svg><svg xmlns="http://www.w3.org/2000/svg"><script>RUN</script></svg>`,
		`<foreignObject><script xmlns="http://www.w3.org/1999/xhtml">RUN</script></foreignObject>`, `<text onclick="RUN" onload="RUN"/><a href="javascript:RUN"><text>x</text></a>`,
		"[x](javascript:RUN)", "[x](<javascript:RUN>)", "![x](x)" + script, "`" + script, "``` " + script, "| " + script + " |", "*" + script + "*", "1. " + script, "> " + script, "# " + script, "{x} " + script,
		"```\n" + script, "~~~\n\n" + script, "\n\n" + script + "\n\n", "x\n---\n" + script, "\n\n[x][y]\n\n[y]: javascript:RUN\n",
	}
	return list
}

// payload is one, with the number that it tells.
func payload(i int) string {
	p := strings.ReplaceAll(payloads()[i], "parent['RUN']", fmt.Sprintf("parent['parent']['ran'](%d)", i))
	p = strings.ReplaceAll(p, "parent.RUN", fmt.Sprintf("parent['parent']['ran'](%d)", i))
	p = strings.ReplaceAll(p, "RUN", fmt.Sprintf("parent['ran'](%d)", i))
	return strings.ReplaceAll(p, "NUMBER", strconv.Itoa(i))
}

// frames loads files in frames of one page, clicks on every link there is, and tells which
// payloads ran.
func frames(t *testing.T, run func(args ...string) []byte, dir string, files map[string][]byte) map[int]bool {
	t.Helper()
	var page strings.Builder
	page.WriteString("<!DOCTYPE html><title>nothing</title><script>var all = new Set(); function ran(n) { all.add(n); }</script>\n")
	for name, content := range files {
		if err := os.WriteFile(filepath.Join(dir, name), content, 0o644); err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&page, "<iframe src=\"%s\"></iframe>\n", name)
	}
	page.WriteString(`<script>onload = () => {
  let loaded = 0;
  for (const f of document.querySelectorAll("iframe")) {
    const d = f.contentDocument;
    if (d && d.URL.startsWith("file:")) loaded++;
    if (d) for (const a of d.querySelectorAll("a")) a.dispatchEvent(new MouseEvent("click", {bubbles: true, cancelable: true, view: f.contentWindow}));
  }
  setTimeout(() => { document.title = "loaded " + loaded + ", ran " + [...all].join(" ") + "."; }, 1500);
};</script>`)
	frame := filepath.Join(dir, "frame.html")
	if err := os.WriteFile(frame, []byte(page.String()), 0o644); err != nil {
		t.Fatal(err)
	}
	dom := run("--virtual-time-budget=20000", "--dump-dom", "file://"+frame)
	m := regexp.MustCompile(`<title>loaded (\d+), ran ([0-9 ]*)\.</title>`).FindSubmatch(dom)
	if m == nil || string(m[1]) != strconv.Itoa(len(files)) {
		t.Fatalf("of %d files: %.300s", len(files), dom)
	}
	all := map[int]bool{}
	for _, n := range strings.Fields(string(m[2])) {
		i, _ := strconv.Atoi(n)
		all[i] = true
	}
	return all
}

// rendered is Markdown as a renderer shows it that lets HTML through and knows all
// that is commonly added.
func rendered(t *testing.T, text []byte) []byte {
	t.Helper()
	md := goldmark.New(goldmark.WithExtensions(extension.GFM, extension.DefinitionList, extension.Footnote, extension.Typographer),
		goldmark.WithParserOptions(parser.WithAutoHeadingID(), parser.WithAttribute()), goldmark.WithRendererOptions(unsafe.WithUnsafe()))
	var b bytes.Buffer
	b.WriteString("<!DOCTYPE html><meta charset=\"utf-8\">")
	if err := md.Convert(text, &b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// carried is a study in which a text stands wherever one can that comes from a file or
// the command line, also where the readers would refuse it, and the pictures of its bench
// and of springs of a dealer.
func carried(t *testing.T, text string) (*Document, map[string][]byte) {
	t.Helper()
	ctx := context.Background()
	var clocks []*dossier.Clock
	for range 2 {
		s, _ := trial.Compile(t, "eight-day")
		s.Title, s.Note, s.Source = text, text, text
		c, err := dossier.OfClock(ctx, s, nil)
		if err != nil {
			t.Fatal(err)
		}
		clocks = append(clocks, c)
	}
	own := clocks[0].Scenario
	sample, _ := scenarios.BenchText(scenarios.DefaultBench)
	b, err := book.Read(strings.NewReader(sample), text, nil)
	if err != nil {
		t.Fatal(err)
	}
	b.Title = text
	for i := range b.Torques {
		b.Torques[i].Spring = text + strconv.Itoa(i)
	}
	of, err := dossier.OfBench(ctx, bench.Clock(t, b, own), nil)
	if err != nil {
		t.Fatal(err)
	}
	shop, _ := scenarios.StockText(scenarios.DefaultStock)
	list, err := stock.Read(strings.NewReader(shop), text)
	if err != nil {
		t.Fatal(err)
	}
	list.Title, list.Springs = text, list.Springs[:4]
	for i := range list.Springs {
		list.Springs[i].Label = text + strconv.Itoa(i)
	}
	st, err := choose.Run(ctx, own, 0, list, choose.Options{Reserve: math.NaN(), EndShake: math.NaN()})
	if err != nil {
		t.Fatal(err)
	}
	st.Present.Digest.Name = text
	for i := range of.Assign.Pairs {
		of.Assign.Pairs[i].Train, of.Assign.Pairs[i].Name = text, text
	}
	for i := range of.Readings.Springs {
		of.Readings.Springs[i].Train = text
	}
	for _, c := range clocks {
		renamed(c, text)
	}
	d, err := Build(clocks, of, nil, Origin{Version: text, Date: text, Command: text})
	if err != nil {
		t.Fatal(err)
	}
	// The second clock is like the first, and what is the same on every page takes a browser long.
	d.Sections = slices.DeleteFunc(d.Sections, func(s Section) bool {
		return strings.HasPrefix(s.ID, "clock-2-") || slices.Contains([]string{"equations", "numerics", "limits", "sources"}, s.ID)
	})
	pictures := map[string][]byte{}
	for name, draw := range map[string]func(w io.Writer) error{
		"choose": func(w io.Writer) error { return chart.Usual(chart.Choose)(w, "svg", st) },
		"assign": func(w io.Writer) error { return chart.Usual(chart.Assign)(w, "svg", of.Assign) },
	} {
		var b bytes.Buffer
		if err := draw(&b); err != nil {
			t.Fatal(err)
		}
		pictures[name] = b.Bytes()
	}
	for _, p := range d.Pictures {
		if strings.HasPrefix(p.ID, "clock-1-") || p.ID == "bench-readings" {
			pictures[p.ID] = p.SVG
		}
	}
	return d, pictures
}

// renamed calls train, arbors and inputs so, which the readers would refuse.
func renamed(c *dossier.Clock, text string) {
	t := &c.Trains[0]
	c.Scenario.Trains[0].Name, t.Result.Name, t.Fine.Name, t.Result.Train.Name = text, text, text, text
	for i := range t.Result.Train.Arbors {
		t.Result.Train.Arbors[i] = text + strconv.Itoa(i)
	}
	t.Sweep.Own.Digest.Name, t.Sweep.Over.Quantity.Words, t.Rank.Own.Name, t.SetUp.Now.Name, t.Made.Present.Digest.Name = text, text, text, text, text
	for _, r := range t.Rank.Rankings {
		for i := range r.Inputs {
			r.Inputs[i].Quantity.Words = text + strconv.Itoa(i)
		}
	}
}

// No text that comes from a file or the command line runs in a browser: not in the page,
// not in its pictures opened by themselves, not in Markdown through a renderer that lets
// HTML through. As it is every one of the texts does.
func TestNothingRuns(t *testing.T) {
	if testing.Short() {
		t.Skip("slow")
	}
	run := browser(t)
	if len(payloads()) < 30 {
		t.Fatalf("%d payloads", len(payloads()))
	}
	raw := map[string][]byte{}
	for i := range payloads() {
		for k, around := range []string{"<!DOCTYPE html><p>%s</p>", "<!DOCTYPE html><title>%s</title>", "<!DOCTYPE html><p title=\"%s\">", "<!DOCTYPE html><p title='%s'>"} {
			raw[fmt.Sprintf("%d-%d.html", i, k)] = fmt.Appendf(nil, around, payload(i))
		}
		raw[fmt.Sprintf("%d.svg", i)] = fmt.Appendf(nil, `<svg xmlns="http://www.w3.org/2000/svg"><g><text>%s</text></g></svg>`, payload(i))
		for k, around := range []string{"%s\n", "```\n%s\n```\n"} {
			raw[fmt.Sprintf("%d-%d.md.html", i, k)] = rendered(t, fmt.Appendf(nil, around, payload(i)))
		}
	}
	runs := frames(t, run, t.TempDir(), raw)
	for i, p := range payloads() {
		if !runs[i] {
			t.Errorf("%q runs nowhere as it is: it shows nothing", p)
		}
	}
	written := map[string][]byte{}
	for g := range groups {
		var text string // the last first: what begins a line in Markdown comes at the end of the list
		for i := len(payloads()) - 1 - g; i >= 0; i -= groups {
			text += payload(i) + " "
		}
		d, pictures := carried(t, text)
		var md bytes.Buffer
		if err := Markdown(&md, d, text); err != nil {
			t.Fatal(err)
		}
		written[fmt.Sprintf("%d.html", g)] = []byte(html(t, d))
		written[fmt.Sprintf("%d.md.html", g)] = rendered(t, md.Bytes())
		for name, svg := range pictures {
			written[fmt.Sprintf("%d-%s.svg", g, name)] = svg
		}
	}
	for i := range frames(t, run, t.TempDir(), written) {
		t.Errorf("%q ran", payload(i))
	}
}

// groups is how many texts the payloads are put into: one in each begins a line.
const groups = 14
