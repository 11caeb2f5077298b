package scenario

import (
	"strconv"
	"strings"

	"evenpull/sim/internal/document"
)

// Words of a value are its field's phrase and the part that its table stands for,
// "thickness" and "the {train} mainspring". What is in braces comes from where the
// value stands: {train} is the name of its train, {item} what a KEY calls the
// innermost item of an array, {load} "the load" or, where several are at one arbor,
// "load 2", {n} the place in a list or the turn of a point. A phrase with braces is the whole.

// words say what a value of the present table is, or number index of it (-1: the
// value as a whole), to follow "the".
func (tr *trail) words(f *field, index int) string {
	st := &tr.steps[tr.depth-1]
	train, item := "", ""
	for _, s := range tr.steps[:tr.depth] {
		if s.t.many {
			item = s.t.segment(s.parent, s.i)
		}
		if s.t == trains {
			train = item
		}
	}
	item, nth, again := strings.Cut(item, "#")
	load := "the load"
	if again {
		load = "load " + nth
	}
	n := strconv.Itoa(index)
	if p, ok := f.ref(st.item).(*[]Point); ok && index >= 0 {
		n = document.Figure((*p)[index].Turn)
	}
	return strings.NewReplacer("{train}", train, "{item}", item, "{load}", load, "{n}", n).
		Replace(f.wording(st.t.part, index))
}

// wording is the pattern of words.
func (f *field) wording(part string, index int) string {
	phrase := f.phrase
	switch {
	case index >= 0 && f.kind == pair:
		phrase = f.each[index]
	case index >= 0 && (f.kind == list || f.kind == places):
		phrase = f.each[0]
	}
	if part == "" || strings.Contains(phrase, "{") {
		return phrase
	}
	return phrase + " of " + part
}

// generally are the words of a field of the table in any train.
func (t *table) generally(f *field) string {
	if t.general != "" {
		return strings.NewReplacer("{train} ", "", "{item} ", "driven ").Replace(f.wording(t.general, -1))
	}
	return strings.ReplaceAll(f.wording(t.part, -1), "{train} ", "")
}
