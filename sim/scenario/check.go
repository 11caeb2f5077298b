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
	if !tr.sound(t.key) || !tr.size(t, n) {
		return
	}
	for i := range n {
		tr.checkItem(t, parent, i)
	}
}

func (tr *trail) checkItem(t *table, parent any, i int) {
	item := t.item(parent, i)
	tr.push(t, i, parent, item)
	for j := range t.fields {
		if tr.ranged {
			break
		}
		f := &t.fields[j]
		v := f.ref(item)
		if !f.fine(v) && tr.sound(f.key) {
			tr.checkField(f, v)
		}
	}
	for _, s := range t.subs {
		tr.check(s, item)
	}
	tr.combine(item)
	tr.pop()
}

// fine is the quick way past what checkField has nothing to say about.
func (f *field) fine(v any) bool {
	switch v := v.(type) {
	case *float64:
		return f.span.holds(*v) || !Given(*v) && f.need == optional
	case *int:
		return f.span.holds(float64(*v))
	case *bool:
		return true
	}
	return false
}

func (tr *trail) checkField(f *field, v any) {
	if !given(v) {
		if f.need == required && (f.spare == nil || !f.spare(tr.train())) || f.need == assumed && f.when == nil && f.prose == "" && !tr.s.supplied[tr.spot(f.key)] {
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
			tr.checkElement(f, i, (*v)[i].DiameterMM)
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
		tr.checkElement(f, i, v)
	}
}

func (tr *trail) checkElement(f *field, i int, v float64) {
	if !f.span.holds(v) {
		tr.report(f.key+"."+strconv.Itoa(i), "found "+document.Figure(v), "want numbers "+f.span.String()+" "+f.unit)
		tr.mark(tr.spot(f.key))
	}
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
	case choice:
		if !slices.Contains(f.choices, s) {
			tr.report(f.key, "found "+strconv.Quote(keyline.Clip(s)), f.want())
		}
	case name:
		if !validName(s) {
			tr.report(f.key, "found "+strconv.Quote(keyline.Clip(s)), f.want())
		}
	default:
		if n := utf8.RuneCountInString(s); n > int(f.span.hi) {
			tr.report(f.key, "found "+plural(n, "character"), f.want())
		} else if what := document.Unprintable(s, f.need == optional); what != "" {
			tr.report(f.key, "found "+what, "want plain text")
		}
	}
}
