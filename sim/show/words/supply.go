package words

import (
	"fmt"
	"math"
	"slices"

	"evenpull/sim/bench/measure"
)

// told gathers sentences.
type told []string

// when adds a sentence where it holds.
func (t *told) when(holds bool, format string, a ...any) {
	if holds {
		*t = append(*t, fmt.Sprintf(format, a...))
	}
}

// SupplyNotes are what is worth knowing beside what a spring was found to give:
// readings that are missing, intervals that are not known or too good to be true,
// drift, outliers, and odd losses.
func SupplyNotes(s *measure.Supply) []string {
	notes := told{}
	single := turnsWhere(s, func(t *measure.Turn) bool { return t.N == 1 })
	exact := turnsWhere(s, func(t *measure.Turn) bool { return t.HalfWidth == 0 })
	unequal := slices.ContainsFunc(s.Repeats, func(r measure.Repeat) bool { return r.N != len(s.Turns) })
	notes.when(len(s.Unread) > 0, "no reading at %s: left out of every figure", fuseeTurns(s.Unread))
	notes.when(s.Apart, "some repeats share no fusee turn with the others, so that nothing tells how far repeats differ: the mean has no interval")
	notes.when(unequal && !s.Apart, "some repeats lack readings: their means are carried over to all turns by what they have in common with the others")
	if len(s.Repeats) == 1 {
		notes.when(true, "one repeat alone tells nothing of how far repeats differ: there is no interval; repeat the readings at least twice more")
	} else {
		notes.when(len(single) > 0, "one reading only at %s: no interval there", fuseeTurns(single))
	}
	notes.when(len(exact) > 0, "all repeats read the same at %s and no error of the meter is given: the interval of 0 there is not to be believed; give meter_relative and meter_resolution_nm", fuseeTurns(exact))
	notes.drift(&s.Drift)
	notes.outliers(s)
	e := &s.Efficiency
	notes.when(len(s.Winding) > 0 && len(e.Turns) == 0, "winding up and running down were read at no common turn: no efficiency follows")
	notes.when(len(e.Above) > 0, "at %s running down gave more torque than winding up took, which cannot be: were the readings mixed up?", fuseeTurns(e.Above))
	return notes
}

// turnsWhere are the fusee turns at which something holds.
func turnsWhere(s *measure.Supply, holds func(*measure.Turn) bool) []int {
	var at []int
	for i := range s.Turns {
		if holds(&s.Turns[i]) {
			at = append(at, s.Turns[i].FuseeTurn)
		}
	}
	return at
}

func (t *told) drift(d *measure.Drift) {
	way, chance := "rises", fmt.Sprintf("p = %.2g", d.P)
	if d.Slope < 0 {
		way = "falls"
	}
	if d.P < 0.001 {
		chance = "p < 0.001"
	}
	t.when(d.Found, "the mean %s by %s N·m from repeat to repeat, more than chance explains (%s): look for a spring that is still setting, or a meter that drifts", way, Figure(math.Abs(d.Slope)), chance)
}

func (t *told) outliers(s *measure.Supply) {
	found := 0
	for i := range s.Turns {
		if o := s.Turns[i].Outlier; o != nil {
			found++
			t.when(found <= mostTold, "at fusee turn %d repeat %d read %s N·m, further from the others than chance explains (Grubbs' test, 5 %%): look at it again; it stays in every figure", s.Turns[i].FuseeTurn, o.Repeat, Figure(o.Value))
		}
	}
	t.when(found > mostTold, "%d more readings are as far off", found-mostTold)
	t.when(found > 0, "chance alone makes such a reading at about one turn in twenty")
}
