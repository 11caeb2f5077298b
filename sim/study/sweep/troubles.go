package sweep

import "fmt"

// troubles tells where the train cannot be built, and from where on what does
// not fit.
func (st *Study) troubles() []string {
	var list []string
	for _, l := range st.Limits {
		list = append(list, fmt.Sprintf("%s %s it cannot be built: %s", side(l.Above), st.Over.border(l.At), l.Fault))
	}
	if unbuilt := st.unbuilt(); len(st.Limits) == 0 && unbuilt != "" {
		list = append(list, unbuilt)
	}
	return append(list, st.faultRanges()...)
}

// unbuilt tells of a map's points that cannot be built.
func (st *Study) unbuilt() string {
	n, why := 0, ""
	for i := range st.Points {
		if !st.Points[i].Built() {
			n++
			why = st.Points[i].Fault
		}
	}
	if n == 0 {
		return ""
	}
	return fmt.Sprintf("%d of %d points cannot be built, such as: %s", n, len(st.Points), why)
}

// faultRanges tells of each kind of fault at which points it occurs, with the
// words of the first.
func (st *Study) faultRanges() []string {
	type span struct {
		from, to float64
		n        int
		words    string
	}
	spans, order := map[string]*span{}, []string{}
	for i := range st.Points {
		for _, f := range st.Points[i].Faults {
			s := spans[f.Kind]
			if s == nil {
				s = &span{from: st.Points[i].Value, words: f.Words}
				spans[f.Kind] = s
				order = append(order, f.Kind)
			}
			s.from, s.to, s.n = min(s.from, st.Points[i].Value), max(s.to, st.Points[i].Value), s.n+1
		}
	}
	list := []string{}
	for _, kind := range order {
		s := spans[kind]
		where := fmt.Sprintf("from %s to %s, at %d of the points; at the first", st.Over.with(s.from), st.Over.with(s.to), s.n)
		switch {
		case s.n == 1:
			where = "at " + st.Over.with(s.from)
		case st.Against != nil:
			where = fmt.Sprintf("at %d of the points, such as", s.n)
		}
		list = append(list, fmt.Sprintf("fault %s: %s", where, s.words))
	}
	return list
}
