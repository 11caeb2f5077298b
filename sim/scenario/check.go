package scenario

import (
	"slices"
	"strconv"
	"unicode/utf8"

	"evenpull/sim/internal/document"
	"evenpull/sim/internal/keyline"
)

// Check judges every value and every combination of values as they now stand,
// and gives all that is wrong as Faults. A scenario as it was read is sound;
// Check is for after a change. It is quick, allocates nothing when all is well
// and there are no tolerances, and may run at the same time on different
// scenarios.
func (s *Scenario) Check() error {
	tr := trail{s: s}
	tr.check(root, s)
	return tr.faults.Sorted()
}

// CheckTrain is Check for one train, counted from 0, with the place and the
// bands: for a study that varies the quantities of that train. The title, the
// other trains, what names them apart, the rules of advice and the tolerances are
// taken to be sound.
// It allocates nothing when all is well.
func (s *Scenario) CheckTrain(number int) error { return s.checkTrain(number, false) }

// CheckCombined is CheckTrain where every value is known to be within its own range: only
// what values make together is judged, which takes a fraction of the time.
func (s *Scenario) CheckCombined(number int) error { return s.checkTrain(number, true) }

func (s *Scenario) checkTrain(number int, ranged bool) error {
	if number < 0 || number >= len(s.Trains) {
		return Faults{{Source: s.Source, Key: trains.key, Found: "found the number " + strconv.Itoa(number),
			Want: "want that of one of the " + plural(len(s.Trains), "train") + ", from 0"}}
	}
	tr := trail{s: s, ranged: ranged}
	tr.push(root, 0, s, s)
	tr.check(place, s)
	tr.check(verdict, s)
	tr.checkItem(trains, s, number)
	return tr.faults.Sorted()
}

var place, verdict = root.sub("place"), root.sub("verdict")

// check walks a table and what is inside it. What a fault was already found
// in is not judged again.
func (tr *trail) check(t *table, parent any) {
	n := t.count(parent)
	if !tr.sound(t.key) || t.many && !tr.size(t, n) {
		return
	}
	for i := range n {
		tr.checkItem(t, parent, i)
	}
}

func (tr *trail) checkItem(t *table, parent any, i int) {
	item := t.item(parent, i)
	tr.push(t, i, parent, item)
	if !tr.ranged {
		for j := t.odd(item, t.fields, 0); j < len(t.fields); j = t.odd(item, t.fields, j+1) {
			if f := &t.fields[j]; tr.sound(f.key) {
				tr.checkField(f, f.ref(item))
			}
		}
	}
	for _, s := range t.subs {
		tr.check(s, item)
	}
	tr.combine(item)
	tr.pop()
}

// odd is the first field from number j on that checkField may have something to say
// about: most are numbers and words, and fine.
func odd[T any](item any, fields []field, j int) int {
	for p := item.(*T); j < len(fields); j++ {
		f := &fields[j]
		v := 0.0
		switch of := f.of.(type) {
		case func(*T) *float64:
			v = *of(p)
		case func(*T) *int:
			v = float64(*of(p))
		case func(*T) *bool:
			continue
		case func(*T) *string:
			if f.takes(*of(p)) {
				continue
			}
			return j
		default:
			return j
		}
		if !f.span.holds(v) && (Given(v) || !f.silent()) {
			return j
		}
	}
	return j
}

// silent tells whether nothing need be given, nor stand for what was not.
func (f *field) silent() bool {
	return f.need == optional || f.need == assumed && (f.when != nil || f.prose != "")
}

func (tr *trail) checkField(f *field, v any) {
	if !given(v) {
		if f.need == required && (f.spare == nil || !f.spare(tr.train())) || f.need == assumed && !f.silent() && !tr.supplied(f) {
			tr.missing(f)
		}
		return
	}
	switch v := v.(type) {
	case *float64:
		tr.checkNumber(f, *v)
	case *int:
		if !f.span.holds(float64(*v)) {
			tr.report(f.key, "found "+strconv.Itoa(*v), f.want())
		}
	case *string:
		tr.checkText(f, *v)
	case *[]float64:
		tr.checkList(f, *v)
	case *[]Point:
		for i := range *v {
			if d := (*v)[i].DiameterMM; !f.span.holds(d) {
				tr.beyond(f, i, d)
			}
		}
	case *Range:
		if !f.span.holds(v.Lo) || !f.span.holds(v.Hi) {
			tr.notRising(f, *v)
		}
	}
}

func (tr *trail) checkNumber(f *field, v float64) {
	if !f.span.holds(v) {
		want := f.want()
		if cure := tr.otherwise(f, v, f.liked()); cure != "" {
			want += "; " + cure
		} else if f.unit == "" && f.span.hi == 1 && v >= 5 && f.span.holds(v/100) {
			want += "; " + rounded(v) + " % are " + rounded(v/100)
		}
		tr.report(f.key, "found "+document.Figure(v), want)
	}
}

func (tr *trail) notRising(f *field, v Range) {
	tr.report(f.key, "found [ "+document.Figure(v.Lo)+", "+document.Figure(v.Hi)+" ]", f.want())
}

func (tr *trail) checkList(f *field, list []float64) {
	for i, v := range list {
		if !f.span.holds(v) {
			tr.beyond(f, i, v)
		}
	}
}

// beyond reports a number of a list.
func (tr *trail) beyond(f *field, i int, v float64) {
	tr.report(f.key+"."+strconv.Itoa(i), "found "+document.Figure(v), "want numbers "+f.span.String()+" "+f.unit)
	tr.mark(tr.spot(f.key))
}

// missing reports a key that was left out, or a text that says nothing.
func (tr *trail) missing(f *field) {
	found := "missing"
	isText := f.kind == text || f.kind == choice || f.kind == name || f.kind == quantityKey
	if _, written := tr.s.lines[tr.spot(f.key)]; written && isText {
		found = `found ""`
	}
	tr.report(f.key, found, f.want())
}

func (tr *trail) checkText(f *field, s string) {
	switch f.kind {
	case choice, name:
		if !f.takes(s) {
			tr.report(f.key, "found "+strconv.Quote(keyline.Clip(s)), f.want())
		}
	default:
		if most := int(f.span.hi); len(s) > most && utf8.RuneCountInString(s) > most {
			tr.report(f.key, "found "+plural(utf8.RuneCountInString(s), "character"), f.want())
		} else if what := document.Unprintable(s, f.need == optional); what != "" {
			tr.report(f.key, "found "+what, "want plain text")
		}
	}
}

// takes tells whether a word is one of those that the key accepts.
func (f *field) takes(s string) bool {
	return f.kind == choice && slices.Contains(f.choices, s) || f.kind == name && validName(s)
}
