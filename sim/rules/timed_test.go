package rules_test

import (
	"math"
	"testing"

	"evenpull/sim/rules"

	"github.com/golang/geo/r1"
)

// A cadence that was timed takes the place of a computed one and of the reserve, and
// never that of the torques liked.
func TestTimed(t *testing.T) {
	none, liked, computed, timed := r1.EmptyInterval(), r1.Interval{Lo: 0.6, Hi: 0.9}, r1.Interval{Lo: 0.5, Hi: 1}, r1.Interval{Lo: 0.4, Hi: 0.7}
	for what, c := range map[string]struct {
		liked, cadence, timed r1.Interval
		want                  rules.Basis
		by                    r1.Interval
	}{
		"liked":    {liked, computed, timed, rules.ByBand, liked},
		"computed": {none, computed, timed, rules.ByCadence, timed},
		"reserve":  {none, none, timed, rules.ByCadence, timed},
		"untimed":  {none, computed, none, rules.ByCadence, computed},
		"nothing":  {none, none, none, rules.ByReserve, none},
	} {
		s := rules.NewStandard(0.3, rules.DefaultBands(), c.liked, c.cadence).Timed(c.timed)
		if s.Basis != c.want || s.Liked != c.by || s.Need != 0.3 {
			t.Errorf("%s: %+v", what, s)
		}
	}
	if s := rules.NewStandard(math.NaN(), rules.DefaultBands(), none, none).Timed(none); s.Basis != rules.ByNothing {
		t.Errorf("%+v", s)
	}
}
