package rules

import "testing"

// A share is told from 5 in 100 on, where it is three standard errors above 0.
func TestActTogether(t *testing.T) {
	for _, c := range []struct {
		share, off float64
		want       bool
	}{{0.051, 0.001, true}, {0.05, 0.001, false}, {0.3, 0.0999, true}, {0.3, 0.1, false}, {-0.3, 0.01, false}} {
		if ActTogether(c.share, c.off) != c.want {
			t.Errorf("%v ± %v: %v", c.share, c.off, !c.want)
		}
	}
}
