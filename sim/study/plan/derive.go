package plan

import (
	"fmt"
	"math"
	"slices"

	"evenpull/sim"
	"evenpull/sim/bench/measure"
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
	st.own(m)
	at := st.design.at
	slopes := m.SlopesOf(0, 0, len(at), func(r *sim.Result) []float64 { return read(r, at) })
	slope := make([]float64, len(slopes))
	for i := range slopes {
		slope[i] = slopes[i].Value
		if math.IsNaN(slope[i]) || math.Abs(slope[i]) <= slopes[i].Error {
			slope[i] = 0
		}
	}
	st.design.slope = slope
	return st.of(1, ErrMoves)
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
	st.own(m)
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
	d := &st.design
	both := slices.DeleteFunc(wholeTurns(r), func(t int) bool { return !slices.Contains(d.at, t) })
	here, there := make([]float64, len(both)), read(r, both)
	for i, t := range both {
		here[i] = d.torque[slices.Index(d.at, t)]
		d.slope = append(d.slope, here[i]-there[i])
	}
	d.at, d.torque = both, here
	return st.of(2, ErrAlike)
}

// own keeps the run of the train as it is, and its torques at whole turns.
func (st *Study) own(m *vary.Model) {
	_, d := m.Own()
	st.Own = *d
	if r, err := m.Run(m.Nominal()); err == nil { // as when the model was made
		st.design.at = wholeTurns(r)
		st.design.torque = read(r, st.design.at)
	}
}

// of fills in how readings of so many springs err. What all springs have in common of the
// meter's bound does not tell in what they differ by. It fails with none where no turn tells
// anything.
func (st *Study) of(springs float64, none error) error {
	d, law := &st.design, &st.Options.Law
	squares, mean := 0.0, 0.0
	for i, v := range d.slope {
		squares += v * v
		mean += math.Abs(d.torque[i]) / float64(len(d.slope))
	}
	if !(squares > 0) {
		return none
	}
	scatter, offset := law.Scatter*mean, law.Offset*mean
	jitter := math.Hypot(scatter, offset)
	own, common := rounding(law.MeterResolution, jitter)
	d.rounding = func(apart float64) float64 {
		return springs * measure.StepCovariance(law.MeterResolution, jitter, apart)
	}
	d.scatter, d.offset, d.rounds = springs*(scatter*scatter+own), springs*offset*offset, springs*common
	if springs == 1 {
		d.meter = law.MeterRelative * law.MeterRelative / 3
	}
	return nil
}

// wholeTurns are those of a run; it has none from fully wound on where the spring binds.
func wholeTurns(r *sim.Result) (at []int) {
	for t := 0; float64(t) <= r.Rows[len(r.Rows)-1].FuseeTurn; t++ {
		if !math.IsNaN(readings.TorqueAt(r, float64(t))) {
			at = append(at, t)
		}
	}
	return at
}

// read are the torques of a run at some turns; nil where it lacks any.
func read(r *sim.Result, at []int) []float64 {
	list := make([]float64, len(at))
	for i, t := range at {
		if list[i] = readings.TorqueAt(r, float64(t)); math.IsNaN(list[i]) {
			return nil
		}
	}
	return list
}
