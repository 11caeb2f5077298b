package scenario

import (
	"math"
	"strconv"
)

// String is such as "train going: mainspring.modulus_gpa = 206".
func (a Assumption) String() string {
	if a.Train != "" {
		return "train " + a.Train + ": " + a.Says()
	}
	return a.Says()
}

// Says is String without the train.
func (a Assumption) Says() string {
	switch {
	case a.inWords():
		return a.Key + ": " + a.Value
	case a.Why != "":
		return a.Key + " = " + a.Value + " (" + a.Why + ")"
	}
	return a.Key + " = " + a.Value
}

// inWords tells whether the value is prose, which a TOML value, here a number,
// a string in quotes or a list, never begins like.
func (a Assumption) inWords() bool {
	return a.Value != "" && a.Value[0] >= 'a' && a.Value[0] <= 'z'
}

// Complete supplies what was left out and lists it. Read and Set do so; it may be run again
// after a change in place: what it supplied before follows, or goes where it has no place
// any more.
func (s *Scenario) Complete() {
	if s.supplied == nil {
		s.supplied = map[string]bool{}
	}
	s.Assumed = nil
	for i := range s.Trains {
		if m := &s.Trains[i].Mainspring; !Given(m.LengthMM) {
			m.LengthBy = LengthInferred
		}
	}
	tr := &trail{s: s}
	each := func(do func(t *table, f *field, item any)) {
		tr.visit(root, s, func(t *table, item any) {
			for i := range t.fields {
				if t.fields[i].need == assumed {
					do(t, &t.fields[i], item)
				}
			}
		})
	}
	for _, derived := range []bool{false, true} { // from what was supplied too
		each(func(_ *table, f *field, item any) {
			if (f.derive != nil) == derived {
				tr.supply(f, item)
			}
		})
	}
	each(func(t *table, f *field, item any) {
		if !t.rules {
			tr.list(f, item)
		}
	})
}

// placed tells whether the default of a field has a place in an item of its table.
func (f *field) placed(t *Train, item any) bool { return f.when == nil || f.when(t, item) }

// told tells whether file or Set have a value: one that is false looks like none.
func (s *Scenario) told(spot string) bool {
	_, written := s.lines[spot]
	_, set := s.set[spot]
	return written || set
}

// Supplied tells whether the value of a key below the train with the given number, such
// as fly.drag_coefficient, is a default that stands for one left out.
func (s *Scenario) Supplied(number int, key string) bool {
	return s.supplied[trains.key+"."+strconv.Itoa(number)+"."+key]
}

// supply fills one field from its default if nothing was given.
func (tr *trail) supply(f *field, item any) {
	v, before := f.ref(item), tr.supplied(f)
	if !before && (given(v) || f.kind == flag && tr.s.told(tr.spot(f.key))) {
		return
	}
	if !f.placed(tr.train(), item) {
		if before {
			delete(tr.s.supplied, tr.spot(f.key))
			clearValue(v)
		}
		return
	}
	if f.prose != "" {
		return
	}
	switch v := v.(type) {
	case *float64:
		if f.derive != nil {
			*v = f.derive(tr.train())
		} else {
			*v = f.preset.(float64)
		}
	case *int:
		*v = f.preset.(int)
	case *bool:
		*v = f.preset.(bool)
	case *string:
		*v = f.preset.(string)
	case *Range:
		*v = f.preset.(Range)
	}
	if !before {
		tr.s.supplied[tr.spot(f.key)] = true
	}
}

// supplied tells whether the value of a field of the present table is a default.
func (tr *trail) supplied(f *field) bool { return tr.s.supplied[string(tr.spell(f.key))] }

// list lists a field for which something was supplied, or words stand.
func (tr *trail) list(f *field, item any) {
	v := f.ref(item)
	switch {
	case f.unsaid:
	case f.prose != "" && !given(v) && f.placed(tr.train(), item):
		tr.s.assume(tr, f, f.prose)
	case f.prose != "" || !tr.supplied(f):
	case f.derive != nil:
		tr.s.assume(tr, f, rounded(*v.(*float64)))
	default:
		tr.s.assume(tr, f, toml(v))
	}
}

// assume lists an assumption about a field of the present table.
func (s *Scenario) assume(tr *trail, f *field, value string) {
	if value == "" {
		return
	}
	a, named := Assumption{Value: value}, 0
	if t := tr.train(); t != nil {
		a.Train, named = t.Name, 2
	}
	a.Key = tr.key(named, f.key)
	if f.why != nil {
		a.Why = f.why(tr.train())
	}
	s.Assumed = append(s.Assumed, a)
}

// given tells whether what v points at is a value.
func given(v any) bool {
	switch v := v.(type) {
	case *float64:
		return Given(*v)
	case *int:
		return *v != unset
	case *bool:
		return *v
	case *string:
		return *v != ""
	case *[]float64:
		return len(*v) > 0
	case *[]Point:
		return len(*v) > 0
	case *Range:
		return v.Given()
	}
	return false
}

// clearValue makes what v points at a value that was not given.
func clearValue(v any) {
	switch v := v.(type) {
	case *float64:
		*v = math.NaN()
	case *string:
		*v = ""
	case *Range:
		*v = Range{math.NaN(), math.NaN()}
	}
}
