package plan

import (
	"fmt"
	"math"

	"evenpull/sim"
	"evenpull/sim/bench/readings"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"
)

// input finds how the torque follows an input, as the fit of record sees it: the strip keeps
// its length, the cone its shape, and nothing else moves.
func (st *Study) input(s *scenario.Scenario, number int) error {
	key, _ := s.InUnit(st.Options.Key)
	q, err := s.Quantity(key)
	if err != nil {
		return err
	}
	v, _ := s.Value(key) // of a quantity that is there
	if !vary.Concerns(s, number, key) {
		return fmt.Errorf("%w %s", ErrApart, st.Train)
	}
	st.For, st.Value = &q, *v
	if !math.IsNaN(st.Options.Error) && st.Value == 0 {
		return ErrShare
	}
	m, err := vary.Drive(s, number, key)
	if err != nil {
		return err
	}
	torque := st.own(m)
	slopes := m.SlopesOf(0, 0, len(torque), func(r *sim.Result) []float64 { return read(r, len(torque)) })
	slope := make([]float64, len(slopes))
	for i := range slopes {
		slope[i] = slopes[i].Value
		if math.IsNaN(slope[i]) || math.Abs(slope[i]) <= slopes[i].Error {
			slope[i] = 0
		}
	}
	return st.of(torque, slope, 1, ErrMoves)
}

// apart finds by how much more this spring pulls than the other one, at the turns that both
// have. A cone that is to be cut even is that of the first train: both are read in one clock.
func (st *Study) apart(s *scenario.Scenario, number int) error {
	to := st.Options.Against
	st.Against = to.Scenario.Title
	m, err := vary.Drive(s, number)
	if err != nil {
		return err
	}
	torque := st.own(m)
	other, err := vary.Drive(to.Scenario, to.Number)
	if own, _ := m.Own(); err == nil && to.Scenario.Trains[to.Number].Fusee.Profile == scenario.Even {
		other, err = vary.WithCone(to.Scenario, to.Number, own.Drive.Cone)
	}
	if err != nil {
		return err
	}
	r, err := other.Run(nil)
	if err != nil {
		return err
	}
	against := read(r, wholeTurns(r, len(torque)))
	more := make([]float64, len(against))
	for i := range against {
		more[i] = torque[i] - against[i]
	}
	return st.of(torque[:len(more)], more, 2, ErrAlike)
}

// own keeps the run of the train as it is, and gives its torques at whole turns.
func (st *Study) own(m *vary.Model) []float64 {
	_, d := m.Own()
	st.Own = *d
	r, err := m.Run(m.Nominal())
	if err != nil {
		return nil // which has been run when the model was made
	}
	return read(r, wholeTurns(r, math.MaxInt))
}

// of makes the design of readings of so many springs. What all springs have in common of the
// meter's bound does not tell in what they differ by.
func (st *Study) of(torque, slope []float64, springs float64, none error) error {
	squares := 0.0
	for _, v := range slope {
		squares += v * v
	}
	if !(squares > 0) {
		return none
	}
	mean := 0.0
	for _, v := range torque {
		mean += math.Abs(v) / float64(len(torque))
	}
	law := &st.Options.Law
	scatter, offset := law.Scatter*mean, law.Offset*mean
	own, common := rounding(law.MeterResolution, math.Hypot(scatter, offset))
	st.design = design{slope: slope, torque: torque, scatter: springs * (scatter*scatter + own), offset: springs * offset * offset, rounds: springs * common}
	if springs == 1 {
		st.design.meter = law.MeterRelative * law.MeterRelative / 3
	}
	return nil
}

// wholeTurns is how many whole turns a run has, from fully wound on, up to a number.
func wholeTurns(r *sim.Result, most int) (n int) {
	for n < most && !math.IsNaN(readings.TorqueAt(r, float64(n))) {
		n++
	}
	return n
}

// read are the torques at the first n whole turns; nil where the run has fewer.
func read(r *sim.Result, n int) []float64 {
	list := make([]float64, n)
	for i := range list {
		if list[i] = readings.TorqueAt(r, float64(i)); math.IsNaN(list[i]) {
			return nil
		}
	}
	return list
}
