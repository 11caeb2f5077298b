package vary

import (
	"slices"

	"evenpull/sim/scenario"
)

// Input is something of a train that is not known exactly: a quantity, or the numbers of
// a list that were read alike, each with an error of its own.
type Input struct {
	Key       string // of the quantity, or of the list
	Words     string // what it is, to follow "the"
	Unit      string // of its numbers; "" for none
	Tolerated bool   // by a tolerance of the scenario; else by the usual reading error
	Assumed   bool   // nobody gave the value
	Parts     []Part // one, or the numbers of the list
}

// Part is one number of an input.
type Part struct {
	Quantity scenario.Quantity
	Value    float64               // in its unit
	Error    scenario.ReadingError // how far it may be off
}

// Inputs are those of the train with the given number that are not known exactly, and
// those of the whole clock, in the order of the format: each quantity that has a
// tolerance, or else a usual reading error.
func Inputs(s *scenario.Scenario, number int) ([]Input, error) {
	tolerances := map[*float64]scenario.ReadingError{}
	for i := range s.Tolerances {
		// Where another way of saying it has taken its place the tolerance is not used.
		if v, err := s.Value(s.Tolerances[i].Key); err == nil {
			tolerances[v] = s.Tolerances[i].Error()
		}
	}
	var all []Input
	for _, q := range s.Quantities() {
		if !Concerns(s, number, q.Key) {
			continue
		}
		v, err := s.Value(q.Key)
		if err != nil {
			return nil, err
		}
		e, tolerated := tolerances[v]
		if !tolerated {
			e = q.Usual
		}
		if e.Exact() {
			continue
		}
		part := Part{q, *v, e}
		whole := q.List != "" && !tolerated // of a list read alike
		if n := slices.IndexFunc(all, func(in Input) bool { return whole && in.Key == q.List }); n >= 0 {
			all[n].Parts = append(all[n].Parts, part)
			continue
		}
		in := Input{Key: q.Key, Words: q.Words, Unit: q.Unit, Tolerated: tolerated, Assumed: !q.Given, Parts: []Part{part}}
		if whole {
			in.Key, in.Words = q.List, q.ListWords
		}
		all = append(all, in)
	}
	return all, nil
}
