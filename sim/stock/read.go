package stock

import (
	"cmp"
	"io"
	"slices"
	"strconv"

	"evenpull/sim/scenario"
)

// Read reads a stock list of at most scenario.MaxBytes of TOML and checks it.
// Source names it in messages. What is wrong comes back as scenario.Faults, all at
// once; any other error is the reader's own.
//
// A fault's key counts springs from 1: spring.3.width_mm.
func Read(r io.Reader, source string) (*Stock, error) {
	tree, lines, err := scenario.Tree(r, source, "stock list")
	if err != nil {
		return nil, err
	}
	rd := &reader{source: source, lines: lines}
	top := table{rd: rd, tree: tree}
	st := rd.stock(&top)
	if len(rd.faults) > 0 {
		slices.SortStableFunc(rd.faults, func(a, b scenario.Fault) int { return cmp.Compare(a.Line, b.Line) })
		return nil, rd.faults
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
		if _, ok := treesOf(tree[k.key]); ok {
			return k.kind, k.key
		}
	}
	return "", ""
}

// others are the files that a stock list is mistaken for, by their tables.
var others = [...]struct{ kind, key string }{{"a scenario", "train"}, {"a file of bench readings", "weights"}, {"a file of bench readings", "torque"}}

func (rd *reader) stock(top *table) *Stock {
	if kind, key := foreign(top.tree); kind != "" {
		top.report(key, "this is "+kind+", not a stock list", wanted+", in a table [[spring]]")
		return nil
	}
	top.known("title", "end_shake_mm", "spring")
	st := &Stock{Source: rd.source, EndShakeMM: EndShakeMM}
	if _, given := top.tree["title"]; given {
		st.Title = top.text("title", maxTitle)
	}
	if _, given := top.tree["end_shake_mm"]; given {
		st.EndShakeMM = top.number("end_shake_mm", shakeRange)
	}
	springs := top.springs()
	if len(springs) == 0 && len(rd.faults) == 0 {
		top.report("", "found no spring", wanted+", in a table [[spring]]")
	}
	first := make(map[string]int, len(springs))
	for i := range springs {
		s := springs[i].spring()
		if line, found := first[s.Label]; found && s.Label != "" {
			what, want := again(s.Label, line)
			springs[i].report(names[labelKey], what, want)
		} else {
			first[s.Label] = springs[i].line(names[labelKey])
		}
		st.Springs = append(st.Springs, s)
	}
	return st
}

// springs gives the tables of the springs, none when there is none.
func (t *table) springs() []table {
	v, given := t.tree["spring"]
	if !given {
		return nil
	}
	trees, ok := treesOf(v)
	switch {
	case !ok:
		t.wrong("spring", v, "want tables [[spring]], each in double brackets")
		return nil
	case len(trees) > MaxSprings:
		t.report("spring", "found "+strconv.Itoa(len(trees))+" springs", "want at most "+strconv.Itoa(MaxSprings))
		return nil
	}
	items := make([]table, len(trees))
	for i, tree := range trees {
		items[i] = table{t.rd, "spring." + strconv.Itoa(i), "spring." + strconv.Itoa(i+1), tree}
	}
	return items
}

// spring reads one spring.
func (t *table) spring() Spring {
	t.known(names[:]...)
	s := blank()
	s.Label = t.text(names[labelKey], maxLabel)
	for key := widthKey; key < cutKey; key++ {
		if _, given := t.tree[names[key]]; given || !optional(key) {
			*s.at(key) = t.number(names[key], ranges[key])
		}
	}
	if v, given := t.tree[names[cutKey]]; given {
		may, ok := v.(bool)
		if !ok {
			t.wrong(names[cutKey], v, "want true or false")
		}
		s.MayBeCut = may
	}
	return s
}
