package page

import (
	"fmt"
	"html/template"
	"math"
	"regexp"
	"slices"
	"strings"

	"evenpull/escapement"
	"evenpull/fusee"
	"evenpull/fusee/mainspring"
	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/show/words"
	"evenpull/sim/study/dossier"
	"evenpull/sim/vary"
	"evenpull/train"

	"github.com/BurntSushi/toml"
)

// method is how figures are computed, as method.toml has it.
type method struct {
	Parts []struct {
		Title, Of string
		Equations []remark
	}
	Signs                     []remark
	Numerics, Limits, Sources []remark
}

// remark is an equation, a sign, a source or a sentence on how figures are computed.
type remark struct {
	Number int
	Of     string   // what it speaks of: see applying; "" is all
	Is     formulas // one or several
	Says   string
	Means  string // of a sign
	Unit   string
}

// formulas are several or, written by itself, one.
type formulas []string

// UnmarshalTOML takes one formula or a list.
func (f *formulas) UnmarshalTOML(v any) error {
	if one, is := v.(string); is {
		*f = formulas{one}
		return nil
	}
	for _, one := range v.([]any) {
		*f = append(*f, one.(string))
	}
	return nil
}

// Entry is an equation, a sign, a source or a remark as it stands in a document.
type Entry struct {
	ID, Mark string   // what others refer to it by, and as what; "" for none
	Is       []string // formulas, on a line each: // is a stroke that a page may set as a fraction
	Says     string   // with formulas between ` `, and what it refers to as (7) or [3]
	Unit     string   // of a sign; "" for none
}

// applying tells what a train has that remarks speak of.
func applying(r *sim.Result) map[string]bool {
	t := r.Train
	d, kind := &t.Drive, t.Escapement.Kind
	even, bears, known := d.Cone.Shape != fusee.Cut, d.Pivots.Fusee > 0, d.Cone.Centre > 0
	set := d.Spring.Form == mainspring.Set
	return map[string]bool{
		"": true, "set": set, "not set": !set,
		"pivots": bears, "no pivots": !bears, "even without pivots": even && !bears, "even with pivots": even && bears,
		"centre": known, "smooth": known && d.Barrel.Lay == 0, "grooved": known && d.Barrel.Lay > 0,
		"few points": t.ConeDoubt > 0,
		"escapement": t.Escapes, "recoil": t.Escapes && kind != (escapement.DeadBeat{}), "dead beat": t.Escapes && kind == (escapement.DeadBeat{}),
		"striking": t.Strikes, "timed": t.Timed, "drawn": r.Verdict.Sureness.Draws > 0,
	}
}

// figures are those of the program that texts name.
func figures(clocks []*dossier.Clock) *strings.Replacer {
	b := rules.DefaultBands()
	draws, seed := 0, int64(0)
	for _, c := range clocks {
		for i := range c.Trains {
			if n := c.Trains[i].Result.Verdict.Sureness.Draws; n > 0 {
				draws, seed = n, c.Trains[i].Seed()
			}
		}
	}
	var pairs []string
	for _, f := range []struct {
		name  string
		value float64
	}{
		{"packing", scenario.AssumedPacking}, {"hard", rules.HardStrip / 1e6}, {"soft", rules.SoftStrip / 1e6}, {"doubt", fusee.MostDoubt([]fusee.Point{{}, {Turn: 1}})},
		{"stops", b.Stops}, {"thin", b.Thin}, {"suits", b.Suits}, {"strong", b.Strong}, {"band", rules.StrongBand},
		{"leastdrag", train.LeastDrag}, {"mostdrag", train.MostDrag}, {"untimed", 100 * rules.UntimedCadence}, {"rough", rules.RoughQuality},
		{"draws", float64(draws)}, {"seed", float64(seed)}, {"block", vary.BlockRuns}, {"error", math.Round(1000*math.Sqrt(0.25/math.Max(1, float64(draws)))) / 1000},
	} {
		pairs = append(pairs, "{"+f.name+"}", fmt.Sprint(f.value))
	}
	return strings.NewReplacer(pairs...)
}

// method adds how the figures of a document are computed: what applies to its trains.
func (d *Document) method(runs []sim.Result, bench bool) {
	var m method
	if _, err := toml.DecodeFS(embedded, "method.toml", &m); d.err == nil {
		d.err = err
	}
	has := map[string]bool{"bench": bench}
	for i := range runs {
		for of, is := range applying(&runs[i]) {
			has[of] = has[of] || is
		}
	}
	named := figures(d.clocks)
	entries := func(list []remark, mark func(n int) (id, mark string)) (made []Entry) {
		for _, r := range list {
			if !has[r.Of] {
				continue
			}
			e := Entry{Says: named.Replace(r.Says)}
			for _, is := range r.Is {
				e.Is = append(e.Is, named.Replace(is))
			}
			if mark != nil {
				e.ID, e.Mark = mark(r.Number)
			}
			made = append(made, e)
		}
		return made
	}
	var blocks []Block
	for _, p := range m.Parts {
		if has[p.Of] {
			blocks = append(blocks, Block{Heading: p.Title}, Block{Equations: entries(p.Equations, equationMark)})
		}
	}
	numerics, limits := entries(m.Numerics, nil), entries(m.Limits, nil)
	used := blocksOf(blocks, numerics, limits)
	blocks = append(blocks, Block{Heading: "Signs in the equations"}, Block{Signs: m.signs(used)})
	d.add("equations", "Equations", blocks...)
	d.add("numerics", "How they are solved", Block{Remarks: numerics})
	d.add("limits", "Limits of the model", Block{Remarks: limits})
	d.add("sources", "Sources", Block{Remarks: m.cited(used)})
}

func equationMark(n int) (id, mark string) { return fmt.Sprintf("eq-%d", n), fmt.Sprintf("(%d)", n) }

func sourceMark(n int) (id, mark string) { return fmt.Sprintf("source-%d", n), fmt.Sprintf("[%d]", n) }

// blocksOf are all entries of blocks and lists.
func blocksOf(blocks []Block, lists ...[]Entry) (all []Entry) {
	for _, b := range blocks {
		all = append(all, b.Equations...)
	}
	return append(all, slices.Concat(lists...)...)
}

// signs are those that entries use, each with what it means.
func (m *method) signs(used []Entry) (made []Entry) {
	uses := map[string]bool{}
	for i := range used {
		for _, sign := range used[i].signs() {
			uses[sign] = true
		}
	}
	for _, s := range m.Signs {
		if uses[s.Is[0]] {
			made = append(made, Entry{Is: s.Is, Says: s.Means, Unit: words.Either(s.Unit == "1", "", s.Unit)})
		}
	}
	return made
}

// cited are the sources that entries refer to, after what is to be said of all.
func (m *method) cited(used []Entry) (made []Entry) {
	cited := map[string]bool{}
	for i := range used {
		for _, mark := range used[i].refers() {
			cited[mark] = true
		}
	}
	for _, s := range m.Sources {
		if id, mark := sourceMark(s.Number); s.Number == 0 {
			made = append(made, Entry{Says: s.Says})
		} else if cited[mark] {
			made = append(made, Entry{ID: id, Mark: mark, Says: s.Says})
		}
	}
	return made
}

// referred is what an entry refers to: (7) or [3], or several sources as [1, 2].
var referred = regexp.MustCompile(`\([0-9]{1,3}\)|\[[0-9]{1,3}(, [0-9]{1,3})*\]`)

// refers are the marks of what an entry refers to, each by itself.
func (e *Entry) refers() (all []string) {
	for i, part := range strings.Split(e.Says, "`") {
		if i%2 == 1 {
			continue
		}
		for _, m := range referred.FindAllString(part, -1) {
			for _, n := range digits.FindAllString(m, -1) {
				all = append(all, m[:1]+n+m[len(m)-1:])
			}
		}
	}
	return all
}

// signs are those of the formulas of an entry, and of its text.
func (e *Entry) signs() (all []string) {
	for _, is := range e.Is {
		_, signs := formula(is)
		all = append(all, signs...)
	}
	for i, part := range strings.Split(e.Says, "`") {
		if i%2 == 1 {
			_, signs := formula(part)
			all = append(all, signs...)
		}
	}
	return all
}

// Set is what an entry says for a page: with its formulas set, and links to what it refers to.
func (e Entry) Set() template.HTML {
	var b strings.Builder
	for i, part := range strings.Split(e.Says, "`") {
		if i%2 == 1 {
			b.WriteString(string(spoken(part)))
			continue
		}
		b.WriteString(referred.ReplaceAllStringFunc(template.HTMLEscapeString(part), linked))
	}
	return template.HTML(b.String())
}

// linked leads from what is referred to, to where it stands.
func linked(mark string) string {
	to := words.Either(mark[0] == '(', "eq", "source")
	return digits.ReplaceAllString(mark, `<a href="#`+to+`-$0">$0</a>`)
}

var digits = regexp.MustCompile(`[0-9]+`)

// spoken is a formula set for a page, which is read to those who cannot see it as one line.
func spoken(text string) template.HTML {
	set, _ := formula(text)
	class := words.Either(len([]rune(text)) < 2*brief, "formula", "formula long")
	return `<span class="` + template.HTML(class) + `" role="math" aria-label="` + template.HTML(template.HTMLEscapeString(plainly(text))) + `">` + set + `</span>`
}

// inMarkdown is what an entry says for an editor: its formulas as they are written.
func inMarkdown(says string) string {
	parts := strings.Split(says, "`")
	for i := range parts {
		if i%2 == 1 {
			parts[i] = "`" + plainly(parts[i]) + "`"
		} else {
			parts[i] = marks.Replace(parts[i])
		}
	}
	return strings.Join(parts, "")
}
