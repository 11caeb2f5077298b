package words

import (
	"fmt"

	"evenpull/sim/bench/measure"
)

// SupplyNotes are what is worth knowing beside what a spring was found to give.
func SupplyNotes(s *measure.Supply) []string {
	notes := []string{}
	for _, look := range []func(*measure.Supply) []string{missingReadings, oneReading, tooExact, drifting, outlying, oddLosses} {
		notes = append(notes, look(s)...)
	}
	return notes
}

// missingReadings tells of readings that are missing.
func missingReadings(s *measure.Supply) []string {
	var notes []string
	if len(s.Unread) > 0 {
		notes = append(notes, "no reading at "+fuseeTurns(s.Unread)+": left out of every figure")
	}
	unequal := false
	for i := range s.Repeats {
		unequal = unequal || s.Repeats[i].N != len(s.Turns)
	}
	switch {
	case s.Apart:
		notes = append(notes, "some repeats share no fusee turn with the others, so that nothing tells how far repeats differ: the mean has no interval")
	case unequal:
		notes = append(notes, "some repeats lack readings: their means are carried over to all turns by what they have in common with the others")
	}
	return notes
}

// oneReading tells where scatter is not known.
func oneReading(s *measure.Supply) []string {
	if len(s.Repeats) == 1 {
		return []string{"one repeat alone tells nothing of how far repeats differ: there is no interval; repeat the readings at least twice more"}
	}
	var at []int
	for i := range s.Turns {
		if s.Turns[i].N == 1 {
			at = append(at, s.Turns[i].FuseeTurn)
		}
	}
	if len(at) == 0 {
		return nil
	}
	return []string{"one reading only at " + fuseeTurns(at) + ": no interval there"}
}

// tooExact tells of intervals that are too good to be true.
func tooExact(s *measure.Supply) []string {
	var at []int
	for i := range s.Turns {
		if s.Turns[i].HalfWidth == 0 {
			at = append(at, s.Turns[i].FuseeTurn)
		}
	}
	if len(at) == 0 {
		return nil
	}
	return []string{"all repeats read the same at " + fuseeTurns(at) + " and no error of the meter is given: the interval of 0 there is not to be believed; give meter_relative and meter_resolution_nm"}
}

func drifting(s *measure.Supply) []string {
	if !s.Drift.Found {
		return nil
	}
	way, by := "rises", s.Drift.Slope
	if by < 0 {
		way, by = "falls", -by
	}
	chance := fmt.Sprintf("p = %.2g", s.Drift.P)
	if s.Drift.P < 0.001 {
		chance = "p < 0.001"
	}
	return []string{fmt.Sprintf("the mean %s by %s N·m from repeat to repeat, more than chance explains (%s): look for a spring that is still setting, or a meter that wanders",
		way, Figure(by), chance)}
}

// outlying tells of readings far off the others.
func outlying(s *measure.Supply) []string {
	var notes []string
	found := 0
	for i := range s.Turns {
		o := s.Turns[i].Outlier
		if o == nil {
			continue
		}
		if found++; found <= mostTold {
			notes = append(notes, fmt.Sprintf("at fusee turn %d repeat %d read %s N·m, further from the others than chance explains (Grubbs' test, 5 %%): look at it again; it stays in every figure",
				s.Turns[i].FuseeTurn, o.Repeat, Figure(o.Value)))
		}
	}
	if found > mostTold {
		notes = append(notes, fmt.Sprintf("%d more readings are as far off", found-mostTold))
	}
	if found > 0 {
		notes = append(notes, "chance alone makes such a reading at about one turn in twenty")
	}
	return notes
}

// oddLosses tells what is odd about winding against running down.
func oddLosses(s *measure.Supply) []string {
	e := &s.Efficiency
	switch {
	case len(s.Winding) > 0 && len(e.Turns) == 0:
		return []string{"winding up and running down were read at no common turn: no efficiency follows"}
	case len(e.Above) > 0:
		return []string{"at " + fuseeTurns(e.Above) + " running down gave more torque than winding up took, which cannot be: were the readings mixed up?"}
	}
	return nil
}
