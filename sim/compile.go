package sim

import (
	"errors"
	"math"
	"slices"

	"evenpull/fusee"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"

	"github.com/golang/geo/r1"
	"github.com/golang/geo/s1"
)

const (
	mm  = 1e-3
	mpa = 1e6
	gpa = 1e9
)

// ErrNoSpring tells that a train has no mainspring to run it.
var ErrNoSpring = errors.New("found false: the mainspring is broken or lost, and nothing runs without one")

// Compile turns the trains of a checked scenario into SI, ready to run: those of
// the given names, or all when none is given. A name that no train has is a
// scenario.NoTrainError. The faults of all come back joined, each an *Error.
func Compile(s *scenario.Scenario, names ...string) ([]Train, error) {
	for _, name := range names {
		if _, err := s.Train(name); err != nil {
			return nil, err
		}
	}
	var trains []Train
	var faults []error
	for i := range s.Trains {
		if len(names) > 0 && !slices.Contains(names, s.Trains[i].Name) {
			continue
		}
		t, err := CompileTrain(s, i)
		faults = append(faults, err)
		if t.Drive.Cone.Turns > 0 {
			_, err := t.Drive.Wind()
			faults = append(faults, Blame(s, i, err))
		}
		trains = append(trains, t)
	}
	if err := errors.Join(faults...); err != nil {
		return nil, err
	}
	return trains, nil
}

// CompileTrain turns the train with the given number into SI. It does not wind
// the drive: whether spring and cone go together, Run tells.
func CompileTrain(s *scenario.Scenario, number int) (Train, error) {
	in := &s.Trains[number]
	if !in.Mainspring.Present {
		return Train{Name: in.Name}, Blame(s, number, ErrNoSpring)
	}
	t := Train{Name: in.Name, Arbors: arborsOf(in), meshes: meshesOf(in, nil)}
	t.ByCoils = in.Mainspring.NaturalForm == scenario.BySet && scenario.Given(in.Mainspring.FreeCoils)
	t.Counted = scenario.Given(in.Mainspring.SolidTurns)
	t.Timed = in.Strike != nil && in.Strike.Timed != nil
	t.Untimed = in.Fly != nil && s.Supplied(number, "fly.drag_coefficient")
	if in.Kind == scenario.Striking {
		t.Kind = Striking
	}
	return t, t.Update(s, number, AllParts)
}

// Update compiles parts of a train anew, from the train of the given number that
// it was compiled from. After an error the train is not to be run before an
// Update of the same parts goes through.
func (t *Train) Update(s *scenario.Scenario, number int, parts Part) error {
	in := &s.Trains[number]
	var drive, cone, wheels, escapement, strike error
	if parts&JudgingPart != 0 {
		t.judging(s, in)
	}
	if parts&DrivePart != 0 {
		drive = t.drive(in)
	}
	if parts&ConePart != 0 {
		t.Drive.Cone, cone = coneOf(in, t.room)
		t.ConeDoubt = fusee.MostDoubt(pointsOf(&in.Fusee))
	}
	if parts&WheelsPart != 0 {
		wheels = t.Wheels.compile(in, t.Arbors)
	}
	if parts&ClockPart != 0 && in.Escapement != nil && in.Pendulum != nil {
		escapement = t.escape(s, in)
	}
	if parts&StrikePart != 0 && in.Strike != nil && in.Fly != nil {
		strike = t.strike(s, in)
	}
	if drive != nil || cone != nil || wheels != nil || escapement != nil || strike != nil {
		return errors.Join(Blame(s, number, drive), Blame(s, number, cone), Blame(s, number, wheels), Blame(s, number, escapement), Blame(s, number, strike))
	}
	return nil
}

// Reuse lets every Update to come make the cone in the memory of the one before: the cone
// of a copy of the train is then to be used only until the next.
func (t *Train) Reuse() { t.room = new(fusee.Room) }

// judging sets what the train is judged by.
func (t *Train) judging(s *scenario.Scenario, in *scenario.Train) {
	t.Demand = Demand{Least: in.Demand.LeastTorqueNM, Band: r1.EmptyInterval()}
	if in.Demand.TorqueBandNM.Given() {
		t.Demand.Band = r1.Interval{Lo: in.Demand.TorqueBandNM.Lo, Hi: in.Demand.TorqueBandNM.Hi}
	}
	t.Bands = rules.Bands{Stops: s.Verdict.StopsBelow, Thin: s.Verdict.ThinBelow, Suits: s.Verdict.SuitsUpTo, Strong: s.Verdict.StrongUpTo}
	t.Advice = rules.Advice(s.Advice)
	if t.Counted {
		t.Advice.TurnsToSpare = min(t.Advice.TurnsToSpare, rules.SpareOfCounted)
	}
}

// drive sets the drive in SI, but for the cone.
func (t *Train) drive(in *scenario.Train) error {
	t.Clicks = float64(in.Barrel.Clicks)
	d := &t.Drive
	d.Housing = in.Barrel.Housing()
	d.Efficiency, d.Friction, d.End = coilsOf(&in.Mainspring)
	d.Barrel = fusee.Barrel{
		Radius: in.Barrel.OutsideDiameterMM * mm / 2,
		Length: in.Barrel.OutsideLengthMM * mm,
		Height: in.Barrel.InsideHeightMM * mm,
		SetUp:  in.Barrel.SetUpTurns,
		Lay:    orZero(in.Barrel.LayMM * mm),
	}
	d.Line = fusee.Line{
		Thickness:  in.Line.ThicknessMM * mm,
		Width:      in.Line.WidthMM * mm,
		Efficiency: in.Line.Efficiency,
		Breaking:   orZero(in.Line.BreakingN),
		FleetMax:   s1.Angle(in.Line.FleetAngleMaxDeg) * s1.Degree,
	}
	d.Pivots = fusee.Pivots{
		Friction: orZero(in.Barrel.PivotFriction),
		Barrel:   orZero(in.Barrel.ArborPivotMM * mm / 2),
		Fusee:    orZero(in.Fusee.PivotMM * mm / 2),
		Wheel:    orZero(in.Fusee.GreatWheelMM * mm / 2),
		Pull:     s1.Angle(orZero(in.Fusee.PullAngleDeg)) * s1.Degree,
	}
	var err error
	d.Spring, err = springOf(&in.Mainspring, d.Housing)
	return err
}

func orZero(v float64) float64 {
	if math.IsNaN(v) {
		return 0
	}
	return v
}
