package scenario

import (
	"maps"
	"slices"
	"strconv"
	"strings"
)

// Quantity is one number of a scenario that may be varied.
type Quantity struct {
	Key    string  // as Set and Value take it
	Unit   string  // "" for a pure number
	Given  bool    // false: a default stands for it
	Lo, Hi float64 // the range that Check accepts
}

// quantity is the Quantity that KEY names, a number of the field.
func (f *field) quantity(key string, given bool) Quantity {
	return Quantity{Key: key, Unit: f.unit, Given: given, Lo: f.span.lo, Hi: f.span.hi}
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
			given := !s.supplied[tr.spot(f.key)]
			for _, key := range f.numbers(item) {
				all = append(all, f.quantity(tr.key(0, key), given))
			}
		}
	})
	return all
}

// numbers lists the keys of the real numbers that a field has a value for.
func (f *field) numbers(item any) []string {
	if f.names {
		return nil
	}
	n := 0
	switch v := f.ref(item).(type) {
	case *float64:
		if Given(*v) {
			return []string{f.key}
		}
	case *[]float64:
		n = len(*v)
	case *Range:
		if v.Given() {
			n = 2
		}
	}
	keys := make([]string, n)
	for i := range keys {
		keys[i] = f.key + "." + strconv.Itoa(i)
	}
	return keys
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
	return tg.f.quantity(key, !s.supplied[tg.spot(tg.f.key)]), nil
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
	v := tg.number()
	switch {
	case tg.f.names:
		return tg, nil, keyFault(key, "found numbers that stand for names", wantQuantity)
	case v != nil && Given(*v):
		return tg, v, nil
	case v != nil:
		return tg, nil, keyFault(key, "found no value", "want one set first: "+tg.f.accepts())
	case tg.f.kind == list || tg.f.kind == pair:
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
	t.Meshes = slices.Clone(t.Meshes)
	t.Loads = slices.Clone(t.Loads)
	t.Escapement = copied(t.Escapement)
	t.Fly = copied(t.Fly)
	if t.Pendulum = copied(t.Pendulum); t.Pendulum != nil {
		t.Pendulum.Decay = copied(t.Pendulum.Decay)
	}
	if t.Strike = copied(t.Strike); t.Strike != nil {
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
