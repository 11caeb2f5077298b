package found

import (
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"

	"evenpull/sim/bench/readings"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"
)

var nan = math.NaN()

// How far what nobody measured of a spring may be from that of the scenario's spring of
// the train, as percentages at two standard deviations (common practice, no source).
var unmeasured = map[string]float64{
	"thickness_mm": 30,
	"length_mm":    30,
	"width_mm":     5, // barrels are as high as their springs are wide
	"free_coils":   40,
}

// stripIn is the scenario with the strip of a spring, and a barrel about it, in the train it
// was read in: what was measured of it and, where nothing was, what the scenario says. Given
// are the keys that were measured, below the mainspring; nil: all that the scenario gives,
// since the spring is its own.
func stripIn(s *scenario.Scenario, sp *Spring, barrel *scenario.Barrel) (there *scenario.Scenario, given map[string]bool, err error) {
	there = s.Clone()
	t := &there.Trains[sp.Number]
	setUp, clicks := t.Barrel.SetUpTurns, t.Barrel.Clicks
	t.Barrel = *barrel
	t.Barrel.SetUpTurns, t.Barrel.Clicks = setUp, clicks
	if sp.own == nil && sp.alone {
		return there, nil, there.CheckTrain(sp.Number)
	}
	given = map[string]bool{}
	prefix := t.Name + ".mainspring."
	// Another spring's coils and turns tell nothing of this one's steel and packing.
	if scenario.Given(t.Mainspring.FreeCoils) && t.Mainspring.NaturalForm == scenario.BySet {
		err = errors.Join(err, there.SetNumber(prefix+"yield_mpa", scenario.AssumedYieldMPa))
	}
	if scenario.Given(t.Mainspring.SolidTurns) {
		err = errors.Join(err, there.SetNumber(prefix+"packing", scenario.AssumedPacking))
	}
	if sp.own != nil {
		for _, set := range sp.own.Strip {
			given[set.Key] = true
		}
		for _, set := range sp.own.Strip {
			if set.Key == "solid_turns" && !given["length_mm"] { // it tells the length
				var failed error
				sp.Counted, failed = strconv.ParseFloat(set.Value, 64)
				err = errors.Join(err, failed)
				continue
			}
			err = errors.Join(err, there.Set(prefix+set.Key, set.Value))
		}
	}
	there.Tolerances = slices.DeleteFunc(there.Tolerances, func(t scenario.Tolerance) bool { return strings.HasPrefix(t.Key, prefix) })
	return there, given, errors.Join(err, there.CheckTrain(sp.Number))
}

// inputsOf are what the torque of a train hangs on that is not known exactly, those of the
// strip first as far as it was measured.
func inputsOf(s *scenario.Scenario, number int, given map[string]bool) ([]vary.Input, error) {
	all, err := vary.Inputs(s, number)
	if err != nil {
		return nil, err
	}
	var list []vary.Input
	for _, in := range all {
		_, below, _ := strings.Cut(in.Key, ".")
		table, key, _ := strings.Cut(below, ".")
		if !slices.Contains([]string{"mainspring", "barrel", "line", "fusee"}, table) || key == "inside_height_mm" {
			continue
		}
		if given != nil && table == "mainspring" && !given[key] {
			e := &in.Parts[0].Error
			if by, wide := unmeasured[key]; wide {
				*e = scenario.ReadingError{Percent: by}
			} else if key == "yield_mpa" {
				*e = scenario.FlowStressError(false)
			}
		}
		list = append(list, in)
	}
	return list, nil
}

// goes tells whether an input goes with the spring: its strip and its barrel, set up anew.
func goes(in *vary.Input) bool {
	_, below, _ := strings.Cut(in.Key, ".")
	return ofStrip(in) || strings.HasPrefix(below, "barrel.") && below != "barrel.set_up_turns"
}

// ofStrip tells whether an input is one of the strip.
func ofStrip(in *vary.Input) bool {
	_, below, _ := strings.Cut(in.Key, ".")
	return strings.HasPrefix(below, "mainspring.")
}

// alone tells whether a spring was the only one read in its train.
func alone(all []readings.Spring, i int) bool {
	return !slices.ContainsFunc(all, func(s readings.Spring) bool { return s.Train == all[i].Train && s.Spring != all[i].Spring })
}
