package scenario

import (
	"strings"

	"evenpull/sim/internal/document"
	"evenpull/sim/internal/unit"
)

// ask looks in a scenario that was read for values which are right in another unit of their
// kind, and for cones that were read the wrong way round or with one diameter out of line.
// These are beyond doubt: no clock has such values. A study may try them.
func (tr *trail) ask(s *Scenario) {
	tr.visit(root, s, func(t *table, item any) {
		for i := range t.fields {
			f := &t.fields[i]
			if v, ok := f.ref(item).(*float64); ok && f.likely.hi > 0 && f.span.holds(*v) && !f.likely.holds(*v) {
				tr.askUnit(f, *v, f.likely, "")
			}
		}
		switch v := item.(type) {
		case *Train:
			tr.beside(v)
		case *Fusee:
			tr.askCone(v)
		}
	})
}

// askUnit asks about a value that another unit would bring into a range.
func (tr *trail) askUnit(f *field, v float64, within span, beside string) {
	spot := tr.spot(f.key)
	if cure := tr.otherwise(f, v, within); cure != "" && !tr.s.supplied[spot] && tr.sound(f.key) {
		tr.report(f.key, "found "+document.Figure(v)+" "+f.unit+beside, cure)
	}
}

// liked is the range that values of the field have in clocks.
func (f *field) liked() span {
	if f.likely.hi > 0 {
		return f.likely
	}
	return f.span
}

// otherwise tells in which units, three at most, a value as it was written would be within a
// range; "" where there is none, or the range is so wide that many are.
func (tr *trail) otherwise(f *field, v float64, within span) string {
	as, by := f.key, 1.0
	if written, ok := tr.s.writtenAs(tr.spot(f.key)); ok {
		as, by = written, unit.Factor(written, f.key)
	}
	var fits []string
	for _, u := range unit.Others(as) {
		if in := v * u.By; within.holds(in) {
			fit := u.Key + " = " + rounded(v/by)
			if u.Key != f.key {
				fit += ", that is " + rounded(in) + " " + f.unit + ","
			}
			fits = append(fits, fit)
		}
	}
	if len(fits) == 0 || len(fits) > 3 {
		return ""
	}
	return "is it " + strings.TrimSuffix(strings.Join(fits, " or "), ",") + "?"
}

// beside asks about sizes that are a quarter or less of what they go with, and in another
// unit go with it.
func (tr *trail) beside(t *Train) {
	for _, pair := range [...]struct {
		table, key, other string
		v, of             float64
		lo, hi            float64 // of the other
	}{
		{"mainspring", "width_mm", "barrel.inside_height_mm", t.Mainspring.WidthMM, t.Barrel.InsideHeightMM, 0.5, 1},
		{"barrel", "inside_height_mm", "mainspring.width_mm", t.Barrel.InsideHeightMM, t.Mainspring.WidthMM, 1, 2},
		{"barrel", "inside_diameter_mm", "barrel.outside_diameter_mm", t.Barrel.InsideDiameterMM, t.Barrel.OutsideDiameterMM, 0.6, 1},
		{"barrel", "outside_diameter_mm", "barrel.inside_diameter_mm", t.Barrel.OutsideDiameterMM, t.Barrel.InsideDiameterMM, 1, 1.6},
	} {
		if !(pair.v < pair.of/4 && across.holds(pair.v) && across.holds(pair.of)) || !tr.sound(pair.other) || tr.s.supplied[tr.spot(pair.other)] {
			continue
		}
		in := trains.sub(pair.table)
		item := in.item(t, 0)
		beside := " beside " + pair.other + ", " + rounded(pair.of) + " mm"
		tr.push(in, 0, t, item)
		tr.askUnit(in.field(pair.key), pair.v, from(pair.lo*pair.of, pair.hi*pair.of), beside)
		tr.pop()
	}
}
