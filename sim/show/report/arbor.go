package report

import "evenpull/sim"

// Arbor is one arbor of a train over the run.
type Arbor struct {
	Name           string
	Speed          float64 // turns a fusee turn
	Mean, Min, Max float64 // N·m
}

// ArborOf gives the arbor with the given number, 0 being the fusee's.
func ArborOf(r *sim.Result, number int) Arbor {
	w := &r.Train.Wheels
	return Arbor{
		Name: r.Train.Arbors[number], Speed: w.Speed(number),
		Mean: w.Torque(number, r.Torque.Mean), Min: w.Torque(number, r.Torque.Min), Max: w.Torque(number, r.Torque.Max),
	}
}

// cautions are what to mind before any spring of the clock is touched, with the
// figures of the strongest.
func cautions(r *Run) []string {
	list := []string{}
	most := 0.0
	for i := range r.Trains {
		most = max(most, r.Trains[i].Spring.Stored)
	}
	if len(r.Trains) > 0 {
		list = append(list, sim.Caution(most))
	}
	return list
}
