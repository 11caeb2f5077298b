package page

import (
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"

	"github.com/BurntSushi/toml"
)

// written is method.toml.
func written(t *testing.T) *method {
	t.Helper()
	var m method
	meta, err := toml.DecodeFS(embedded, "method.toml", &m)
	if err != nil || len(meta.Undecoded()) > 0 {
		t.Fatal(err, meta.Undecoded())
	}
	return &m
}

// equations are those of all parts.
func (m *method) equations() (all []remark) {
	for _, p := range m.Parts {
		all = append(all, p.Equations...)
	}
	return all
}

// tried are documents of trains of every kind.
func tried(t *testing.T) map[string]*Document {
	t.Helper()
	all := map[string]*Document{"bench": document(t, true, "three-trains"), "compared": document(t, false, "eight-day", "strike-quick")}
	for name, set := range map[string][]string{
		"pivots": {"going.barrel.arbor_pivot_mm=12", "going.barrel.pivot_friction=0.15", "going.fusee.pivot_mm=4", "going.fusee.great_wheel_mm=70"},
		"narrow": {`going.mainspring.natural_form="straight"`},
		"dead":   {`going.escapement.kind="deadbeat"`},
	} {
		s, _ := trial.Compile(t, "eight-day")
		if err := s.Apply(set); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		all[name] = build(t, nil, s)
	}
	return all
}

// entriesOf are the entries of a section.
func entriesOf(t *testing.T, d *Document, id string) (all []Entry) {
	t.Helper()
	for _, b := range section(t, d, id).Blocks {
		all = append(all, slices.Concat(b.Equations, b.Remarks)...)
	}
	return all
}

// In every document every sign is told once and none that is not used; what is referred to
// stands there, every source that stands there is referred to, and no figure is left out.
func TestMethodHoldsTogether(t *testing.T) {
	seen := map[string]bool{}
	for name, d := range tried(t) {
		used := slices.Concat(entriesOf(t, d, "equations"), entriesOf(t, d, "numerics"), entriesOf(t, d, "limits"))
		signs, told := map[string]bool{}, map[string]int{}
		for i := range used {
			for _, sign := range used[i].signs() {
				signs[sign] = true
			}
		}
		for _, b := range section(t, d, "equations").Blocks {
			for _, e := range b.Signs {
				if told[e.Is[0]]++; !signs[e.Is[0]] || len(e.Is) != 1 || e.Says == "" {
					t.Errorf("%s: %v", name, e)
				}
			}
		}
		for sign := range signs {
			if told[sign] != 1 {
				t.Errorf("%s: %s is told %d times", name, sign, told[sign])
			}
		}
		marks, referredTo := map[string]bool{}, map[string]bool{}
		for _, e := range slices.Concat(used, entriesOf(t, d, "sources")) {
			marks[e.Mark] = true
			seen[e.Mark] = true
			for _, m := range e.refers() {
				referredTo[m] = true
			}
			if strings.ContainsAny(e.Says+strings.Join(e.Is, ""), "{}") || strings.Count(e.Says, "`")%2 > 0 {
				t.Errorf("%s: %s", name, e.Says)
			}
		}
		for m := range referredTo {
			if !marks[m] {
				t.Errorf("%s: %s is referred to and does not stand there", name, m)
			}
		}
		for m := range marks {
			if strings.HasPrefix(m, "[") && !referredTo[m] {
				t.Errorf("%s: nothing refers to %s", name, m)
			}
		}
	}
	m := written(t)
	for _, e := range m.equations() {
		if _, mark := equationMark(e.Number); !seen[mark] && e.Of != "grooved" && e.Of != "few points" && e.Of != "even with pivots" {
			t.Errorf("%s is in no document", mark)
		}
	}
	signs := map[string]int{}
	for _, s := range m.Signs {
		signs[s.Is[0]]++
	}
	for sign, n := range signs {
		if n > 1 {
			t.Errorf("%s is told %d times", sign, n)
		}
	}
}

// What each document has is what applies to its trains.
func TestMethodApplies(t *testing.T) {
	docs := tried(t)
	for _, c := range []struct {
		name, mark string
		is         bool
	}{
		{"compared", "(38)", true}, {"compared", "(53)", true}, {"compared", "(61)", false}, {"compared", "(19)", true}, {"compared", "(20)", false},
		{"pivots", "(20)", true}, {"pivots", "(19)", false}, {"pivots", "(53)", false}, {"narrow", "(5)", false}, {"narrow", "(7)", true}, {"pivots", "(5)", true},
		{"dead", "(39)", true}, {"dead", "(38)", false}, {"bench", "(62)", true}, {"bench", "(9)", true}, {"dead", "(9)", true},
	} {
		is := slices.ContainsFunc(entriesOf(t, docs[c.name], "equations"), func(e Entry) bool { return e.Mark == c.mark })
		if is != c.is {
			t.Errorf("%s: %s stands there: %v", c.name, c.mark, is)
		}
	}
	for _, r := range slices.Concat(written(t).equations(), written(t).Numerics, written(t).Limits) {
		if _, known := applying(&docs["bench"].clocks[0].Run.Trains[0])[r.Of]; !known && r.Of != "bench" {
			t.Errorf("of %q: nobody knows what that is", r.Of)
		}
	}
}

// A number keeps its equation or source: testdata/numbers.txt has what each is, and a new one
// is only ever added to it.
func TestNumbersStay(t *testing.T) {
	now := map[string]string{}
	put := func(mark, is string) {
		if now[mark] != "" {
			t.Errorf("%s is two", mark)
		}
		now[mark] = is
	}
	m := written(t)
	for _, e := range m.equations() {
		_, mark := equationMark(e.Number)
		put(mark, strings.Join(e.Is, "; "))
	}
	for _, s := range m.Sources {
		if _, mark := sourceMark(s.Number); s.Number > 0 {
			put(mark, s.Says)
		}
	}
	file := filepath.Join("testdata", "numbers.txt")
	old, _ := os.ReadFile(file)
	text := string(old)
	for line := range strings.Lines(text) {
		mark, is, _ := strings.Cut(strings.TrimSpace(line), " ")
		if now[mark] != is {
			t.Errorf("%s was %s and is %s: papers may refer to it; correct the file by hand where it is the same, and give another a number of its own", mark, is, now[mark])
		}
		delete(now, mark)
	}
	if len(now) == 0 {
		return
	}
	if !trial.Regenerating() {
		t.Fatalf("%v are new: run with -regenerate", slices.Sorted(maps.Keys(now)))
	}
	new := slices.Collect(maps.Keys(now))
	number := func(mark string) int { n, _ := strconv.Atoi(mark[1 : len(mark)-1]); return n }
	slices.SortFunc(new, func(a, b string) int {
		if a[0] != b[0] {
			return int(a[0]) - int(b[0])
		}
		return number(a) - number(b)
	})
	for _, mark := range new {
		text += mark + " " + now[mark] + "\n"
	}
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// DEVELOPERS.md tells of every number where its equation lives, once, in files that there are.
func TestWhereEquationsLive(t *testing.T) {
	root := filepath.Join("..", "..", "..")
	text, err := os.ReadFile(filepath.Join(root, "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	_, part, _ := strings.Cut(string(text), "### Where an equation lives")
	part, _, _ = strings.Cut(part, "Not on the page")
	told := map[string]int{}
	for _, mark := range regexp.MustCompile(`\([0-9]+\)`).FindAllString(part, -1) {
		told[mark]++
	}
	for _, e := range written(t).equations() {
		_, mark := equationMark(e.Number)
		if told[mark] != 1 {
			t.Errorf("%s stands there %d times", mark, told[mark])
		}
		delete(told, mark)
	}
	if len(told) > 0 {
		t.Errorf("there is no %v", told)
	}
	folder := ""
	for _, m := range regexp.MustCompile("`((?:[a-z]+/)*)([a-z_]+[.]go)`").FindAllStringSubmatch(part, -1) {
		if m[1] != "" {
			folder = m[1]
		}
		if _, err := os.Stat(filepath.Join(root, folder, m[2])); err != nil {
			t.Error(err)
		}
	}
}

// Figures in the texts that stand in no constant that others see are those of the code.
func TestFiguresOfTheCode(t *testing.T) {
	all := ""
	m := written(t)
	for _, r := range slices.Concat(m.equations(), m.Numerics, m.Limits) {
		all += strings.Join(r.Is, " ") + " " + r.Says + "\n"
	}
	for _, c := range []struct{ says, file, code string }{
		{"below 10⁻¹² of the strip", "fusee/mainspring/edge.go", "limit := on.lo, on.hi, 1e-12*c.xEnd"},
		{"on the couple to 10⁻¹¹", "fusee/mainspring/couple.go", "1e-11*c.mPeak, func"},
		{"good to 10⁻¹³ of the fusee's turns", "fusee/wound.go", "numeric.Newton(0, n, 0, 1e-13*n"},
		{"kept as 32 cubics, good to 3·10⁻⁵", "fusee/points.go", "perGap is the number of cubic pieces between two points: to 3e-5 of the radius.\nconst perGap = 32\n"},
		{"on 256 panels", "fusee/line.go", "const panels = 256\n"},
		{"good to 3·10⁻⁷; of an even cone on 256 panels, to 10⁻⁵", "fusee/line.go", "good to 3e-7 for a measured or straight cone and to 1e-5 for an\n// even one"},
		{"on 64 panels, to 10⁻⁷", "fusee/passage.go", "passagePanels = 64\n"},
		{"good to 10⁻⁶ of the mean torque", "fusee/pivots.go", "but for 1e-6 of itself"},
		{"seven terms up to 18°", "escapement/pendulum.go", "const seriesTo = 0.1\n"},
		{"10⁻⁶ of the interval", "train/seek.go", "const missed = 1e-6\n"},
		{"from 1/128 of the value", "sim/vary/slope.go", "firstStep = 1.0 / 128 "},
		{"at three steps", "sim/vary/slope.go", "var table [3][]float64"},
		{"less than 10⁻¹⁶ of itself", "sim/bench/fit/solve.go", "goodOffset = 1e-16\n"},
		{"0.13 turn more", "fusee/mainspring/rub/groups.go", "return 0.13\n"},
		{"0.15 with a braced", "fusee/mainspring/rub/groups.go", "return 0.15\n"},
		{"`μ_c` is 0.12 at most", "fusee/mainspring/rub/groups.go", "sureFriction = 0.12 "},
		{"1.96 a_m", "sim/bench/measure/turn.go", "normal95    = 1.96 "},
		{"Grubbs' test at 5 %", "sim/bench/measure/turn.go", "confidence  = 0.95\n"},
		{"taken at quarter turns", "sim/train.go", "const QuarterTurn = 0.25\n"},
		{"in 86.8", "DEVELOPERS.md", "in 100, 86.8 in 100"},
		{"agree to 10⁻⁸ in couple and energy", "fusee/mainspring/reference_test.go", `": energy", c.Energy(turns), energy, 1e-8)`},
		{"cross-section to 10⁻⁶", "fusee/mainspring/wide_test.go", "ritz(s, curvature), 1e-6)"},
		{"up to 0.5/`Q` of itself", "escapement/clock.go", "below 0.5/Q up\n// to four times"},
		{"greater by 0.001 at eight leaves to 0.008 at six", "train/train.go", "less by 0.001 at eight leaves to 0.008 at six"},
		{"`ε_1 = 0` and `ε_2 = 1`", "train/train.go", "ToothLoss(mu, wheel, pinion, 0, 1)"},
	} {
		text, err := os.ReadFile(filepath.Join("..", "..", "..", c.file))
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(all, c.says) || !strings.Contains(string(text), c.code) {
			t.Errorf("%q: the text has it: %v; %s has %q: %v", c.says, strings.Contains(all, c.says), c.file, c.code, strings.Contains(string(text), c.code))
		}
	}
	if s, _ := trial.Compile(t, "eight-day"); !strings.Contains(all, "drawn within 2 %") || s.Trains[0].Mainspring.CoupleRatio != 1 {
		t.Error("the ratio of the couple")
	}
}

// A formula is set sign by sign; what it has in it is told by name.
func TestFormula(t *testing.T) {
	for text, want := range map[string]string{
		"κ_a(s)":         "<i>κ</i><sub>a</sub>(<i>s</i>)",
		"E I dθ":         "<i>E</i>\u202f<i>I</i>\u202fd<i>θ</i>",
		"1//√(r² + k)":   over + `1</span><span><span class="root">√<span><i>r</i>²` + "\u00a0+\u00a0" + `<i>k</i></span></span>` + ends,
		"(a b//c) d":     over + "<i>b</i></span><span><i>c</i>" + ends,
		"(a//b)²":        "(" + over + "<i>a</i></span><span><i>b</i>" + ends + ")²",
		"e^(−x) < 1":     "e<sup>−<i>x</i></sup> &lt;\u00a01",
		"min(2, ln n)":   "min(2,\u00a0ln\u202f<i>n</i>)",
		"∫_0^(L) κ ds":   `<span class="integral">∫</span><span class="ends"><span><i>L</i></span><span>0</span></span>` + "\u00a0<i>κ</i>\u202fd<i>s</i>",
		"Φ′(ζ)":          "<i>Φ</i>′(<i>ζ</i>)",
		"(a + b)//(2 π)": over + "<i>a</i>\u00a0+\u00a0<i>b</i></span><span>2\u202fπ" + ends,
		"y_12 = n_p/12":  "<i>y</i><sub>12</sub> =\u00a0<i>n</i><sub>p</sub>/\u206012",
		"A_∞":            "<i>A</i><sub>∞</sub>",
		"cosh ζ":         "cosh\u202f<i>ζ</i>",
		"sin":            "sin",
		"":               "",
		"(":              "()",
		"a <b>":          "<i>a</i> &lt;<i>b</i>&gt;",
	} {
		if text == "(a b//c) d" {
			want = "(<i>a</i>\u202f" + want + ")\u202f<i>d</i>"
		}
		if got, _ := formula(text); string(got) != want {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
	if _, signs := formula("T_2 = E I Φ′(ζ) ∫ dθ ln x e^(−2 c) max"); fmt.Sprint(signs) != "[T_2 E I Φ ζ θ x c]" {
		t.Errorf("%v", signs)
	}
	e := Entry{Says: "see (7) of `a_1//b` [3, 12], 1908 & so"}
	const want = `see (<a href="#eq-7">7</a>) of <span class="formula" role="math" aria-label="a_1/b">` + over + `<i>a</i><sub>1</sub></span><span><i>b</i>` + ends + `</span> [<a href="#source-3">3</a>, <a href="#source-12">12</a>], 1908 &amp; so`
	if got := e.Set(); string(got) != want {
		t.Errorf("%s", got)
	}
	if got := inMarkdown(e.Says); got != "see (7) of `a_1/b` \\[3, 12\\], 1908 &amp; so" {
		t.Errorf("%s", got)
	}
}

// How a document is cited tells program, date and the checksum of what it was made from.
func TestCite(t *testing.T) {
	d := document(t, false, "eight-day")
	said := d.Again.Blocks[2].Text
	for _, want := range []string{d.Title, "evenpull v1", "2026-01-02", "eight-day", d.clocks[0].Scenario.Checksum()} {
		if !strings.Contains(said.Text, want) || want == "" {
			t.Errorf("%q is not in %s", want, said.Text)
		}
	}
}

// Every formula there is fits on a phone, by breaking its lines where it may.
func TestFormulasOnAPhone(t *testing.T) {
	run := browser(t)
	var all []Entry
	for _, e := range written(t).equations() {
		id, mark := equationMark(e.Number)
		all = append(all, Entry{ID: id, Mark: mark, Is: e.Is, Says: e.Says})
	}
	dir := t.TempDir()
	d := Document{Title: "all", Sections: []Section{{ID: "equations", Title: "Equations", Blocks: []Block{{Equations: all}}}}, Again: Section{ID: "again"}}
	frame := `<!DOCTYPE html><body><iframe src="page.html" style="width:360px;height:2000px;border:0"></iframe><script>onload = () => {
const d = document.querySelector("iframe").contentDocument;
document.title = "wide: " + [...d.querySelectorAll(".equation")].filter(e => [...e.querySelectorAll(".formula, .formula *, .number")].some(x => x.getBoundingClientRect().right > 360)
|| e.querySelector(".is > div").getBoundingClientRect().right > e.querySelector(".number").getBoundingClientRect().left
|| [...e.querySelectorAll(".is .formula")].some(x => x.getBoundingClientRect().right > e.querySelector(".number").getBoundingClientRect().left)).map(e => e.id) + " of " + d.querySelectorAll(".equation").length; };</script>`
	for name, text := range map[string]string{"page.html": html(t, &d), "frame.html": frame} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	dom := run("--virtual-time-budget=8000", "--dump-dom", "file://"+filepath.Join(dir, "frame.html"))
	said := regexp.MustCompile(`<title>wide: ([^<]*) of ([0-9]+)<`).FindSubmatch(dom)
	if said == nil || string(said[1]) != "" || string(said[2]) != strconv.Itoa(len(all)) {
		t.Errorf("too wide: %s", said)
	}
}
