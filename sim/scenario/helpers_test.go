package scenario

import (
	"fmt"
	"math"
	"strings"
)

var notGiven = math.NaN()

// snapshot spells every value of a scenario and what was assumed.
func snapshot(s *Scenario) string {
	var b strings.Builder
	tr := &trail{s: s}
	tr.visit(root, s, func(t *table, item any) {
		for i := range t.fields {
			f := &t.fields[i]
			v := toml(f.ref(item))
			if l, ok := f.ref(item).(*[]float64); ok {
				v = fmt.Sprint(*l)
			}
			fmt.Fprintln(&b, tr.key(0, f.key), v)
		}
	})
	fmt.Fprintln(&b, s.Source, s.Assumed)
	return b.String()
}
