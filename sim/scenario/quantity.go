package scenario

import (
	"maps"
	"slices"
	"strconv"
	"strings"
)

// Quantity is one number of a scenario that may be varied.
type Quantity struct {
	Key    string       // as Set and Value take it
	Words  string       // what it is, to follow "the": thickness of the going mainspring
	Symbol string       // of the trade or the model, such as h; "" for none
	Unit   string       // "" for a pure number
	Given  bool         // false: a default stands for it
	Lo, Hi float64      // the range that Check accepts
	Usual  ReadingError // how far it may be off as it is usually read, or, when it was not given, as is assumed

	// Of a number in a list, whose numbers are read alike, the KEY of the list and what
	// the list is.
	List, ListWords string
}

// quantity is the Quantity that KEY names: a number of the field in the present
// table, that at index in a list or pair (-1: the only one).
func (tr *trail) quantity(f *field, index int, key string) Quantity {
	q := Quantity{Key: key, Words: tr.words(f, index), Symbol: f.symbol, Unit: f.unit, Given: !tr.s.supplied[tr.spot(f.key)] || !f.placed(tr.train(), tr.steps[tr.depth-1].item),
		Lo: f.span.lo, Hi: f.span.hi}
	q.Usual = f.readingError(tr.train(), q.Given)
	if f.kind == list {
		q.List, q.ListWords = tr.key(0, f.key), tr.words(f, -1)
	}
	return q
}

// Quantities lists every real number that the scenario has a value for, given
// or assumed, in the order of the format. Numbers that can only be whole, such
// as teeth, are not among them, nor are those of tolerances.
func (s *Scenario) Quantities() []Quantity {
	var all []Quantity
	tr := &trail{s: s}
	tr.visit(root, s, func(t *table, item any) {
		if t.apart {
			return
		}
		for i := range t.fields {
			f := &t.fields[i]
			one, several := f.numbers(item)
			if one {
				all = append(all, tr.quantity(f, -1, tr.key(0, f.key)))
			}
			for n := range several {
				all = append(all, tr.quantity(f, n, tr.key(0, f.key+"."+strconv.Itoa(n))))
			}
		}
	})
	return all
}

// numbers tells whether a field has a value that is one real number, or how many it
// has in a list or pair.
func (f *field) numbers(item any) (one bool, several int) {
	if f.names {
		return false, 0
	}
	switch v := f.ref(item).(type) {
	case *float64:
		return Given(*v), 0
	case *[]float64:
		return false, len(*v)
	case *[]Point:
		return false, len(*v)
	case *Range:
		if v.Given() {
			return false, 2
		}
	}
	return false, 0
}

// Value gives the number that a KEY names, to be read or varied in place,
// without a check and without effect on any other value: what is assumed from
// it stays as it is; see Following. The pointer holds until the next Set or
// Apply. An error is a Fault of the KEY.
func (s *Scenario) Value(key string) (*float64, error) {
	_, v, err := s.quantity(key)
	return v, err
}

// Quantity gives the Quantity that a KEY names, with the errors of Value.
func (s *Scenario) Quantity(key string) (Quantity, error) {
	tg, _, err := s.quantity(key)
	if err != nil {
		return Quantity{}, err
	}
	return tg.trail.quantity(tg.f, tg.index, key), nil
}

// quantity finds the number that a KEY names. With an error comes how far the
// KEY was understood.
func (s *Scenario) quantity(key string) (*target, *float64, error) {
	tg, err := s.resolve(key, false)
	first, _, _ := strings.Cut(key, ".")
	if t := root.sub(first); t != nil && t.apart {
		return tg, nil, keyFault(key, "found no quantity of the clock", wantQuantity)
	}
	if err != nil {
		return tg, nil, err
	}
	if tg.by != 0 {
		return tg, nil, keyFault(key, "found another unit", "want "+tg.canonical())
	}
	v := tg.number()
	switch {
	case tg.f.names:
		return tg, nil, keyFault(key, "found numbers that stand for names", wantQuantity)
	case v != nil && Given(*v):
		return tg, v, nil
	case v != nil:
		return tg, nil, keyFault(key, "found no value", "want one set first: "+tg.f.accepts())
	case tg.f.kind == list || tg.f.kind == pair || tg.f.kind == places:
		return tg, nil, keyFault(key, "found several numbers", "want the place of one after it, such as "+key+".0")
	}
	return tg, nil, keyFault(key, "found what is no real number", wantQuantity)
}

const wantQuantity = "want the key of a quantity that can vary"

// Clone gives an independent copy.
func (s *Scenario) Clone() *Scenario {
	c := *s
	c.Assumed = slices.Clone(s.Assumed)
	c.set, c.supplied = maps.Clone(s.set), maps.Clone(s.supplied)
	c.Tolerances = slices.Clone(s.Tolerances)
	c.Trains = slices.Clone(s.Trains)
	for i := range c.Trains {
		c.Trains[i].detach()
	}
	return &c // the lines are only ever read
}

// detach replaces everything that a copied train still shares by a copy.
func (t *Train) detach() {
	t.Fusee.DiametersMM = slices.Clone(t.Fusee.DiametersMM)
	t.Fusee.Points = slices.Clone(t.Fusee.Points)
	t.Meshes = slices.Clone(t.Meshes)
	t.Loads = slices.Clone(t.Loads)
	t.Escapement = copied(t.Escapement)
	t.Fly = copied(t.Fly)
	if t.Pendulum = copied(t.Pendulum); t.Pendulum != nil {
		t.Pendulum.Decay = copied(t.Pendulum.Decay)
	}
	if t.Strike = copied(t.Strike); t.Strike != nil {
		t.Strike.Timed = copied(t.Strike.Timed)
		t.Strike.Hammers = slices.Clone(t.Strike.Hammers)
		t.Strike.PinSets = slices.Clone(t.Strike.PinSets)
		for i := range t.Strike.PinSets {
			t.Strike.PinSets[i].Lifts = slices.Clone(t.Strike.PinSets[i].Lifts)
		}
	}
}

func copied[T any](p *T) *T {
	if p == nil {
		return nil
	}
	c := *p
	return &c
}
