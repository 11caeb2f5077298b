package scenario

import "slices"

// Following gives a function that works out anew every value that no one gave
// and that is derived from other values of its train, such as the outside
// length of a barrel from its inside height, but for those of the KEYs in
// except. It is for studies that vary what Value points at: it works in place,
// allocates nothing and, like those pointers, holds until the next Set or
// Apply. The function tells whether all of them are in the range of their keys.
func (s *Scenario) Following(except ...string) func() bool {
	var all []derived
	tr := &trail{s: s}
	tr.visit(root, s, func(t *table, item any) {
		for i := range t.fields {
			f := &t.fields[i]
			if f.derive != nil && !f.stays && f.placed(tr.train(), item) && tr.supplied(f) && !slices.Contains(except, tr.key(0, f.key)) {
				all = append(all, derived{f.ref(item).(*float64), tr.train(), f.derive, f.span})
			}
		}
	})
	return func() bool {
		within := true
		for _, d := range all {
			*d.v = d.from(d.train)
			within = within && d.span.holds(*d.v)
		}
		return within
	}
}

// derived is a value that follows from others of its train.
type derived struct {
	v     *float64
	train *Train
	from  func(*Train) float64
	span  span
}
