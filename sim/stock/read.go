package stock

import (
	"io"
	"math"

	"evenpull/sim/internal/entry"
	"evenpull/sim/scenario"
)

// Read reads a stock list of at most scenario.MaxBytes of TOML and checks it.
// Source names it in messages. What is wrong comes back as scenario.Faults, all at
// once; any other error is the reader's own.
//
// A fault's key counts springs from 1: spring.3.width_mm.
func Read(r io.Reader, source string) (*Stock, error) {
	top, err := entry.Read(r, source, "a stock list")
	if err != nil {
		return nil, err
	}
	st := read(top, source)
	if !top.Sound() {
		return nil, top.Faults()
	}
	return st, nil
}

// foreign tells what a file without springs is by the tables that it holds, and by
// which of them; "" when none is known.
func foreign(tree map[string]any) (kind, key string) {
	if _, given := tree["spring"]; given {
		return "", ""
	}
	for _, k := range others {
		if _, ok := entry.TreesOf(tree[k.key]); ok {
			return k.kind, k.key
		}
	}
	return "", ""
}

// others are the files that a stock list is mistaken for, by their tables.
var others = [...]struct{ kind, key string }{{"a scenario", "train"}, {"a file of bench readings", "weights"}, {"a file of bench readings", "torque"}}

func read(top *entry.Table, source string) *Stock {
	if kind, key := foreign(top.Tree); kind != "" {
		top.Report(key, "this is "+kind+", not a stock list", wanted+", in a table [[spring]]")
		return nil
	}
	top.Known("title", "end_shake_mm", "spring")
	st := &Stock{Source: source}
	st.Title = top.Text("title", scenario.MaxTitle, false)
	st.EndShakeMM = top.Number("end_shake_mm", shakeRange, EndShakeMM)
	springs := top.Tables("spring", "tables [[spring]], each in double brackets", "springs", MaxSprings)
	if len(springs) == 0 && top.Sound() {
		top.Report("", "found no spring", wanted+", in a table [[spring]]")
	}
	first := labels{}
	for i := range springs {
		s := springOf(&springs[i])
		if found, want := first.again(s.Label, springs[i].Line(names[labelKey])); found != "" {
			springs[i].Report(names[labelKey], found, want)
		}
		st.Springs = append(st.Springs, s)
	}
	return st
}

// springOf reads one spring.
func springOf(t *entry.Table) Spring {
	t.Known(names...)
	s := blank()
	s.Label = t.Text(names[labelKey], scenario.MaxName, true)
	for _, n := range numbers {
		if _, given := t.Tree[n.key]; given || !n.optional {
			*n.at(&s) = t.Number(n.key, n.within, math.NaN())
		}
	}
	s.MayBeCut = t.Truth(names[cutKey], true)
	s.Quantity = t.Whole(names[quantityKey], 1, MostOf)
	s.Price = t.Text(names[priceKey], scenario.MaxName, false)
	return s
}
