package sim

import (
	"math"
	"slices"

	"evenpull/fusee"
	"evenpull/fusee/numeric"
	"evenpull/sim/scenario"
)

// Clock is a scenario run down: every train, or those asked for.
type Clock struct {
	Title   string                // of the scenario
	Note    string                // of the scenario; "" for none
	Assumed []scenario.Assumption // every value that the scenario leaves out for them
	Bench   []string              // what a bench book said in place of the scenario, in words
	Trains  []Result              // in the order of the scenario
}

// RunClock compiles the trains of a checked scenario and runs them down: those of
// the given names, or all when none is given. It fails as Compile and Run do.
func RunClock(s *scenario.Scenario, o Options, names ...string) (*Clock, error) {
	trains, err := Compile(s, names...)
	if err != nil {
		return nil, err
	}
	c := &Clock{Title: s.Title, Note: s.Note, Trains: make([]Result, len(trains))}
	for _, a := range s.Assumed {
		if len(names) == 0 || a.Train == "" || slices.Contains(names, a.Train) {
			c.Assumed = append(c.Assumed, a)
		}
	}
	for i := range trains {
		if err := trains[i].RunInto(&c.Trains[i], o); err != nil {
			return nil, Blame(s, slices.IndexFunc(s.Trains, func(t scenario.Train) bool { return t.Name == trains[i].Name }), err)
		}
	}
	return c, nil
}

// RunTrain compiles the train with the given number of a scenario and runs it down. It fails
// as CompileTrain and Run do, with the place in the scenario.
func RunTrain(s *scenario.Scenario, number int, o Options) (*Result, error) {
	t, err := CompileTrain(s, number)
	if err != nil {
		return nil, err
	}
	r, err := t.Run(o)
	return r, Blame(s, number, err)
}

// WindTrain compiles the train with the given number of a scenario and works out its drive.
// It fails as CompileTrain and fusee.Drive.Wind do, with the place in the scenario.
func WindTrain(s *scenario.Scenario, number int) (fusee.Wound, error) {
	t, err := CompileTrain(s, number)
	if err != nil {
		return fusee.Wound{}, err
	}
	w, err := t.Drive.Wind()
	return w, Blame(s, number, err)
}

// DownFirst are the trains whose hours are known, the one that stops or has run
// down first before the others.
func (c *Clock) DownFirst() []Digest {
	var list []Digest
	for i := range c.Trains {
		if d := &c.Trains[i].Digest; !math.IsNaN(d.HoursGoing()) {
			list = append(list, *d)
		}
	}
	numeric.Descending(list, func(d *Digest) float64 { return -d.HoursGoing() })
	return list
}

// MostStored is the energy (J) in the spring of the clock that holds most, and the
// train it drives.
func (c *Clock) MostStored() (joules float64, train string) {
	for i := range c.Trains {
		if d := &c.Trains[i].Digest; d.Spring.Stored > joules {
			joules, train = d.Spring.Stored, d.Name
		}
	}
	return joules, train
}

// Arbor is one arbor of a train over the run.
type Arbor struct {
	Name   string  // as the scenario has it
	Speed  float64 // turns a fusee turn
	Torque Spread  // N·m
}

// Arbors are those of the train, the fusee's first.
func (r *Result) Arbors() []Arbor {
	list := make([]Arbor, len(r.Train.Arbors))
	for i, name := range r.Train.Arbors {
		w := &r.Train.Wheels
		at := func(torque float64) float64 { return w.Torque(i, torque) }
		list[i] = Arbor{name, w.Speed(i), Spread{at(r.Torque.Mean), at(r.Torque.Min), at(r.Torque.Max)}}
	}
	return list
}
