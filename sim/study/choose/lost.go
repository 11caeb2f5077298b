package choose

import (
	"errors"
	"math"

	"evenpull/sim"
	"evenpull/sim/scenario"
	"evenpull/sim/vary"
)

// ErrNoStandIn tells that no spring goes into a train.
var ErrNoStandIn = errors.New("no spring that goes into this barrel has turns enough for the fusee: look at barrel.inside_diameter_mm, barrel.arbor_diameter_mm, barrel.set_up_turns and the fusee")

// standIn puts a spring in the place of one that is broken or lost, so that the train can be
// worked out: as wide as the barrel takes, half filling it, and so thin that its turns are
// enough. Nothing is told of it. Springs whose own steel is not known are of the steel that
// the scenario gives for the lost one, or assumes.
func standIn(s *scenario.Scenario, number int, shake float64) (*scenario.Scenario, error) {
	c := s.Clone()
	t := &c.Trains[number]
	m := &t.Mainspring
	m.Present, m.WidthMM = true, math.Max(t.Barrel.InsideHeightMM-shake, t.Barrel.InsideHeightMM/2)
	m.NaturalForm, m.FreeCoils = scenario.BySet, math.NaN()
	if !scenario.Given(m.YieldMPa) {
		m.YieldMPa = scenario.AssumedYieldMPa
	}
	if !scenario.Given(m.Packing) {
		m.Packing = scenario.AssumedPacking
	}
	const thinner = 0.9
	for h := (t.Barrel.InsideDiameterMM - t.Barrel.ArborDiameterMM) / 40; h >= thinnest; h *= thinner {
		m.ThicknessMM = math.Min(h, thickest)
		strip := m.Strip()
		m.Keep(half * strip.LongestFor(t.Barrel.Housing()) / mm)
		train, err := sim.CompileTrain(c, number)
		if err != nil {
			return nil, err
		}
		f := fitter{shop: &shop{train: train, advice: &train.Advice, takes: takesOf(&train)}, strip: train.Drive.Spring, train: train}
		if m.LengthMM >= shortest && f.room(m.LengthMM) >= t.Barrel.SetUpTurns {
			_, err := vary.New(c, number, vary.Fill)
			return c, err
		}
	}
	return nil, ErrNoStandIn
}
