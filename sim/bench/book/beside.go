package book

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"evenpull/sim/internal/document"
	"evenpull/sim/scenario"
)

// Fault is one of a key in an item, from 0, of weights, spring or torque.
func (b *Book) Fault(table string, i int, key, found, want string) scenario.Fault {
	if b.file == nil {
		return scenario.Fault{Source: b.Source, Key: table + "." + strconv.Itoa(i+1) + "." + key, Found: found, Want: want}
	}
	item := b.file.Item(table, i)
	if from, apart := map[string]string{"running_down": "file", "winding_up": "winding_file"}[key]; apart && !item.Stands(key) {
		key = from
	}
	return item.FaultAt(key, key, found, want)
}

// Beside checks a book against the scenario of its clock: the trains that it names, how
// many readings there are and at which turns. What is wrong comes as scenario.Faults, all
// at once.
func (b *Book) Beside(s *scenario.Scenario) error {
	var faults scenario.Faults
	for i := range b.Weights {
		faults = append(faults, b.named("weights", i, b.Weights[i].Train, s)...)
	}
	for i := range b.Springs {
		sp := &b.Springs[i]
		if len(b.Torques) == 0 { // else a torque has its train
			faults = append(faults, b.named("spring", i, sp.Train, s)...)
		}
		if sp.SolidAtTurn > turnsOf(s, sp.Train) {
			faults = append(faults, b.Fault("spring", i, "solid_at_turn", "found "+document.Figure(sp.SolidAtTurn),
				fmt.Sprintf("want at most %s, the turns of the fusee, counted from run down", document.Figure(turnsOf(s, sp.Train)))))
		}
	}
	for i := range b.Torques {
		faults = append(append(faults, b.named("torque", i, b.Torques[i].Train, s)...), b.turns(i, s)...)
	}
	return faults.Sorted()
}

// named refuses a train that the scenario does not have; "" is none.
func (b *Book) named(table string, i int, train string, s *scenario.Scenario) scenario.Faults {
	var none *scenario.NoTrainError
	if _, err := s.Train(train); train == "" || !errors.As(err, &none) {
		return nil
	}
	want := "want " + strings.Join(none.Has, ", ")
	if near := scenario.Nearest(train, none.Has); near != "" {
		want = "did you mean " + near + "?"
	}
	return scenario.Faults{b.Fault(table, i, "train", "found "+train+", a train that the scenario does not have", want)}
}

// turnsOf is how many turns the fusee of a train has; NaN where the scenario has no such
// train.
func turnsOf(s *scenario.Scenario, train string) float64 {
	n, err := s.Train(train)
	if err != nil {
		return math.NaN()
	}
	return s.Trains[n].Fusee.Turns
}

// turns asks where readings may have been taken at other turns than they would be taken
// to be.
func (b *Book) turns(i int, s *scenario.Scenario) scenario.Faults {
	const rounding = 1e-9
	t := &b.Torques[i]
	turns, first := turnsOf(s, t.Train), b.Resolved(s).Torques[i].FirstTurn
	if math.IsNaN(turns) {
		return nil
	}
	var faults scenario.Faults
	told := !math.IsNaN(t.FirstTurn) || b.solid(t) != nil
	most, whole := int(math.Max(0, math.Floor(turns-first+rounding)+1)), int(math.Floor(turns+rounding))+1
	for _, way := range []struct {
		key   string
		lists [][]float64
	}{{"running_down", t.RunningDown}, {"winding_up", t.WindingUp}} {
		key, n := way.key, longest(way.lists)
		found := fmt.Sprintf("found %d readings, and the fusee of the %s train has %s turns", n, t.Train, document.Figure(turns))
		switch {
		case n > most && told:
			faults = append(faults, b.Fault("torque", i, key, found+", of which "+document.Figure(first)+" are paid out at the first reading",
				fmt.Sprintf("want at most %d, one a turn, or another first_turn or solid_at_turn", most)))
		case n > most:
			faults = append(faults, b.Fault("torque", i, key, found, fmt.Sprintf("want at most %d, one a turn: at 0, 1 … turns paid out", most)))
		case n < whole && !told && key == "running_down": // which tells where the others begin
			faults = append(faults, b.Fault("torque", i, key, found, fmt.Sprintf("want %d, at 0 to %d turns paid out; or first_turn, the fusee turn paid out at the first reading; "+
				"or in [[spring]] solid_at_turn, the turn counted from run down at which the spring went solid", whole, whole-1)))
		}
	}
	return faults
}

func longest(lists [][]float64) (n int) {
	for _, list := range lists {
		n = max(n, len(list))
	}
	return n
}
