package found

import (
	"errors"
	"fmt"
	"math"

	"evenpull/sim"
	"evenpull/sim/bench/measure"
	"evenpull/sim/bench/readings"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
)

// Demand is what weights told of a train, and went into the scenario.
type Demand struct {
	*measure.Need
	Number int     // of the train in the scenario
	Before float64 // N·m, the need that the scenario had measured; NaN without
	Least  bool    // the need
	Ear    bool    // the torques liked by ear
	Timed  bool    // a timed strike, which tells the drag of the fly
	Why    error   // why something of it could not go in; nil when all did
}

// Differs tells whether the weights tell another need than the scenario had.
func (d *Demand) Differs() bool {
	return d.Least && math.Abs(d.Bracket.Least/d.Before-1) > rules.NeedsDiffer
}

// demands are what the weights of a book tell, put into a scenario.
func demands(read *readings.Study, s *scenario.Scenario) (*scenario.Scenario, []Demand) {
	s = s.Clone()
	var list []Demand
	for i := range read.Needs {
		d := Demand{Need: &read.Needs[i]}
		if d.Number, d.Why = s.Train(d.Train); d.Why == nil {
			d.Before = s.Trains[d.Number].Demand.LeastTorqueNM
			d.least(s)
			d.band(s)
			d.timed(s)
		}
		list = append(list, d)
	}
	return s, list
}

// least puts in the need, with what the weights leave open of it. Where none of them stopped
// the train they tell no need: it may be far less.
func (d *Demand) least(s *scenario.Scenario) {
	b := &d.Bracket
	if math.IsNaN(b.Least) || !b.HasLower() {
		return
	}
	key := d.Train + ".demand.least_torque_nm"
	d.Least = d.try(s, func(s *scenario.Scenario) error { return s.SetNumber(key, b.Least) })
	if d.Least {
		t := scenario.Tolerance{Key: key, PlusMinus: b.Between.Length() / 2, Percent: nan}
		if d.UpDown == nil {
			t.Shape = scenario.Uniform
		}
		within(s, t)
	}
}

// band puts in the torques liked by ear, with what the trials leave open of either end.
func (d *Demand) band(s *scenario.Scenario) {
	liked := d.Likes()
	if liked.IsEmpty() || s.Trains[d.Number].Kind != scenario.Striking {
		return
	}
	key := d.Train + ".demand.torque_band_nm"
	d.Ear = d.try(s, func(s *scenario.Scenario) error {
		return s.Set(key, fmt.Sprintf("[%.12g, %.12g]", liked.Lo, liked.Hi))
	})
	for i, u := range d.Need.Band.Uncertainty {
		if d.Ear && u > 0 {
			within(s, scenario.Tolerance{Key: fmt.Sprintf("%s.%d", key, i), PlusMinus: u * math.Sqrt(3), Percent: nan, Shape: scenario.Uniform})
		}
	}
}

// timed puts in a strike at the middle of the intervals wanted, as the timed weights have
// it.
func (d *Demand) timed(s *scenario.Scenario) {
	t := &s.Trains[d.Number]
	if d.Cadence == nil || t.Strike == nil || t.Fly == nil {
		return
	}
	wanted := readings.Wanted(s, d.Train)
	middle := math.Sqrt(wanted.Lo * wanted.Hi)
	pace := d.TorqueFor(middle)
	if pace.How != measure.Interpolated && pace.How != measure.Extrapolated {
		middle, pace.Torque = d.nearest(middle) // one timed weight tells the drag too
	}
	key := d.Train + ".strike.timed."
	d.Timed = d.try(s, func(s *scenario.Scenario) error {
		s.Trains[d.Number].Strike.Timed = nil // the scenario's own
		return errors.Join(s.SetNumber(key+"torque_nm", pace.Torque), s.SetNumber(key+"blow_interval_s", middle))
	})
}

// nearest is the interval (s) that was timed nearest to one, and its torque (N·m).
func (d *Demand) nearest(interval float64) (timed, torque float64) {
	timed = math.Inf(1)
	for _, t := range d.Trials {
		if math.Abs(math.Log(t.Interval/interval)) < math.Abs(math.Log(timed/interval)) {
			timed, torque = t.Interval, t.Torque
		}
	}
	return timed, torque
}

// try makes a change and keeps it if the train can still be built.
func (d *Demand) try(s *scenario.Scenario, change func(*scenario.Scenario) error) bool {
	changed := s.Clone()
	err := change(changed)
	if err == nil {
		err = changed.CheckTrain(d.Number)
	}
	if err == nil && changed.Trains[d.Number].Mainspring.Present {
		_, err = sim.CompileTrain(changed, d.Number)
	}
	if errors.Is(err, sim.ErrWanted) { // the need is known before the cone is
		err = nil
	}
	if err != nil {
		d.Why = err
		return false
	}
	*s = *changed
	return true
}
