package sim

import (
	"errors"
	"math"
	"slices"

	"evenpull/fusee"
	"evenpull/fusee/mainspring"
	"evenpull/sim/scenario"
	"evenpull/train"

	"github.com/golang/geo/r1"
	"github.com/golang/geo/s1"
)

const (
	mm  = 1e-3
	mpa = 1e6
	gpa = 1e9
)

// Compile turns the trains of a checked scenario into SI, ready to run: all of
// them, or only the one of the given name. The faults of all come back joined,
// each an *Error.
func Compile(s *scenario.Scenario, only string) ([]Train, error) {
	var trains []Train
	var faults []error
	for i := range s.Trains {
		if only != "" && s.Trains[i].Name != only {
			continue
		}
		t, err := CompileTrain(s, i)
		faults = append(faults, err)
		if t.Drive.Cone.Turns > 0 {
			_, err := t.Drive.Wind()
			faults = append(faults, blame(s, i, err))
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
	t := Train{
		Name: in.Name, Arbors: arborsOf(in), HoursPerTurn: math.NaN(),
		Demand: Demand{Least: in.Demand.LeastTorqueNM, Band: r1.EmptyInterval()},
		Bands:  Bands{s.Verdict.StopsBelow, s.Verdict.ThinBelow, s.Verdict.SuitsUpTo, s.Verdict.StrongUpTo},
	}
	if in.Kind == scenario.Striking {
		t.Kind = Striking
	}
	if in.Demand.TorqueBandNM.Given() {
		t.Demand.Band = r1.Interval{Lo: in.Demand.TorqueBandNM.Lo, Hi: in.Demand.TorqueBandNM.Hi}
	}
	var drive, wheels, escapement, strike error
	t.Drive, drive = driveOf(in)
	t.Wheels, wheels = wheelsOf(in, t.Arbors)
	if in.Escapement != nil && in.Pendulum != nil {
		escapement = t.escape(s, in)
	}
	if in.Strike != nil && in.Fly != nil {
		strike = t.strike(s, in)
	}
	if drive != nil || wheels != nil || escapement != nil || strike != nil {
		return t, errors.Join(blame(s, number, drive), blame(s, number, wheels), blame(s, number, escapement), blame(s, number, strike))
	}
	t.pace(in)
	return t, nil
}

// driveOf is the drive in SI.
func driveOf(in *scenario.Train) (fusee.Drive, error) {
	d := fusee.Drive{
		Spring:     springOf(&in.Mainspring),
		Housing:    mainspring.Housing{Arbor: in.Barrel.ArborDiameterMM * mm / 2, Inside: in.Barrel.InsideDiameterMM * mm / 2},
		Efficiency: in.Mainspring.Efficiency,
		Barrel: fusee.Barrel{
			Radius: in.Barrel.OutsideDiameterMM * mm / 2,
			Length: in.Barrel.OutsideLengthMM * mm,
			Height: in.Barrel.InsideHeightMM * mm,
			SetUp:  in.Barrel.SetUpTurns,
			Lay:    orZero(in.Barrel.LayMM * mm),
		},
		Line: fusee.Line{
			Thickness:  in.Line.ThicknessMM * mm,
			Efficiency: in.Line.Efficiency,
			Breaking:   orZero(in.Line.BreakingN),
			FleetMax:   s1.Angle(in.Line.FleetAngleMaxDeg) * s1.Degree,
		},
	}
	cone, err := coneOf(&in.Fusee)
	d.Cone = cone
	return d, err
}

func springOf(in *scenario.Mainspring) mainspring.Strip {
	s := mainspring.Strip{
		Width: in.WidthMM * mm, Thickness: in.ThicknessMM * mm, Length: in.LengthMM * mm,
		Modulus: in.ModulusGPa * gpa, Plate: in.Bending == scenario.AsPlate, Poisson: in.Poisson,
	}
	switch {
	case scenario.Given(in.FreeCoils):
		s.Form, s.FreeCoils = mainspring.Coils, in.FreeCoils
	case scenario.Given(in.YieldMPa):
		s.Form, s.Yield = mainspring.Set, in.YieldMPa*mpa
	}
	return s
}

func coneOf(in *scenario.Fusee) (fusee.Cone, error) {
	c := fusee.Cone{Turns: in.Turns, Pitch: in.PitchMM * mm, Centre: orZero(in.CentreDistanceMM * mm)}
	var err error
	switch {
	case in.Profile == scenario.Measured:
		radii := make([]float64, len(in.DiametersMM))
		for i, d := range in.DiametersMM {
			radii[i] = d * mm / 2
		}
		c.Profile, err = fusee.Measured(radii)
	case in.Profile == scenario.Cone:
		c.Profile, err = fusee.Straight(in.SmallDiameterMM*mm/2, in.LargeDiameterMM*mm/2, in.Turns)
	case scenario.Given(in.SmallDiameterMM):
		c.Shape, c.End = fusee.EvenBySmall, in.SmallDiameterMM*mm/2
	default:
		c.Shape, c.End = fusee.EvenByLarge, in.LargeDiameterMM*mm/2
	}
	return c, err
}

// FuseeArbor is the name of the arbor that carries fusee and great wheel.
const FuseeArbor = "fusee"

func arborsOf(in *scenario.Train) []string {
	names := make([]string, 1, len(in.Meshes)+1)
	names[0] = FuseeArbor
	for i := range in.Meshes {
		names = append(names, in.Meshes[i].Drives)
	}
	return names
}

func meshesOf(in *scenario.Train) []train.Mesh {
	meshes := make([]train.Mesh, len(in.Meshes))
	for i, m := range in.Meshes {
		e := m.Efficiency
		if scenario.Given(m.FrictionCoefficient) {
			e = train.FrictionEfficiency(m.FrictionCoefficient, m.Wheel, m.Pinion)
		}
		meshes[i] = train.Mesh{Wheel: m.Wheel, Pinion: m.Pinion, Efficiency: e, Drag: m.DragNM}
	}
	return meshes
}

// loadsOf gives the loads, the standing ones first, and the number of those.
func loadsOf(in *scenario.Train, arbors []string) (loads []train.Load, standing int) {
	loads = make([]train.Load, 0, len(in.Loads))
	for _, stands := range []bool{true, false} {
		for _, l := range in.Loads {
			if scenario.Given(l.EveryH) != stands {
				loads = append(loads, train.Load{Arbor: slices.Index(arbors, l.Arbor), Torque: l.TorqueNM})
			}
		}
		if stands {
			standing = len(loads)
		}
	}
	return loads, standing
}

// wheelsOf compiles the wheels with the standing loads, with all and with none.
func wheelsOf(in *scenario.Train, arbors []string) (Wheels, error) {
	meshes := meshesOf(in)
	loads, standing := loadsOf(in, arbors)
	var w Wheels
	var err error
	if w.Train, err = train.New(meshes, loads[:standing]); err != nil {
		return Wheels{}, err
	}
	if w.Worst, err = train.New(meshes, loads); err != nil {
		return Wheels{}, err
	}
	w.Free, err = train.New(meshes, nil)
	return w, err
}

// pace finds the hours of a fusee turn from the pendulum or the blows.
func (t *Train) pace(in *scenario.Train) {
	seconds := math.NaN()
	switch {
	case t.Escapes:
		seconds = t.Wheels.SecondsPerTurn(t.Escapement.Teeth, t.Pendulum.Period())
	case t.Strikes:
		pin := slices.Index(t.Arbors, in.Strike.PinArbor)
		seconds = t.Wheels.StrikingSecondsPerTurn(pin, in.Strike.Pins, in.Strike.BlowsPer12H)
	}
	t.HoursPerTurn = seconds / 3600
}

func orZero(v float64) float64 {
	if math.IsNaN(v) {
		return 0
	}
	return v
}
