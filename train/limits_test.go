package train

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
)

// The ends of every range are in it, as the doc comments say.
func TestEndsOfRanges(t *testing.T) {
	for name, edit := range map[string]func(d *StrikeDesign){
		"pins on the fusee":     func(d *StrikeDesign) { d.PinArbor = 0 },
		"pins before the fly":   func(d *StrikeDesign) { d.PinArbor = len(d.Meshes) - 1 },
		"one pin":               func(d *StrikeDesign) { d.Pins = AllPins(1) },
		"most pins":             func(d *StrikeDesign) { d.Pins = AllPins(1 << 16) },
		"most sets":             func(d *StrikeDesign) { d.Pins = append(make([]PinSet, 0), sets(MostSets)...) },
		"a hammer for each pin": func(d *StrikeDesign) { d.Pins = AllPins(3, make([]Hammer, 3)...) },
		"no weight":             func(d *StrikeDesign) { d.Pins = AllPins(8, Hammer{0, 0, 0}) },
		"greatest hammer":       func(d *StrikeDesign) { d.Pins = AllPins(8, Hammer{1e6, 1e3, 1e9}) },
		"weightless":            func(d *StrikeDesign) { d.Gravity = 0 },
		"greatest gravity":      func(d *StrikeDesign) { d.Gravity = 1e3 },
		"no friction":           func(d *StrikeDesign) { d.TailEfficiency = 1 },
		"one vane":              func(d *StrikeDesign) { d.Fly.Vanes = 1 },
		"vanes from the axis":   func(d *StrikeDesign) { d.Fly.Inner = 0 },
		"greatest inertia":      func(d *StrikeDesign) { d.Fly.Inertia = 1e9; d.AirDensity = 1e5 },
		"greatest drag":         func(d *StrikeDesign) { d.Fly.DragCoefficient = 1e3 },
		"thickest air":          func(d *StrikeDesign) { d.AirDensity = 1e5 },
		"thickest vane":         func(d *StrikeDesign) { d.Fly.Thickness = 1e3 },
		"densest vane":          func(d *StrikeDesign) { d.Fly.Density = 1e6 },
		"widest vane":           func(d *StrikeDesign) { d.Fly.Width = 1e3 },
		"largest vane":          func(d *StrikeDesign) { d.Fly.Outer = 1e3 },
	} {
		d := hourStrike()
		edit(&d)
		s, err := NewStrike(d)
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
		total := 0
		for _, p := range d.Pins {
			total += p.Count
		}
		closeTo(t, name+": pins", s.BlowsPerTurn(), s.train.Speed(d.PinArbor)*float64(total), 1e-12)
	}
	if _, err := New(make([]Mesh, Most+1), nil); err == nil {
		t.Error("one mesh too many")
	}
	most := make([]Mesh, Most)
	for i := range most {
		most[i] = Mesh{Wheel: 1, Pinion: 1, Efficiency: 1}
	}
	tr := mustTrain(t, most, Load{Arbor: Most}, Load{Arbor: 0})
	if tr.Last() != Most || tr.Arbors() != Most+1 || tr.Torque(Most, 0.25) != 0.25 {
		t.Errorf("the longest train: %d arbors", tr.Arbors())
	}
}

func sets(n int) []PinSet {
	all := make([]PinSet, n)
	for i := range all {
		all[i].Count = 1
	}
	return all
}

// A torque counts up to 1e9 N·m and no further; one that moves nothing stands.
func TestTorqueRange(t *testing.T) {
	s := mustStrike(t, hourStrike())
	if got := s.Steady(mostTorque).Status; got != Strikes {
		t.Errorf("at the most: %v", got)
	}
	for _, torque := range []float64{math.Nextafter(mostTorque, math.Inf(1)), 0, -1, 1e-12} {
		if got := s.Steady(torque); got != (Cadence{Status: Stands}) {
			t.Errorf("%g N·m: %+v", torque, got)
		}
		if got := s.Power(torque); got != (BlowWork{Status: Stands}) {
			t.Errorf("%g N·m: %+v", torque, got)
		}
	}
	least := s.LeastTorque()
	for share, want := range map[float64]StrikeStatus{1 - 1e-9: Stalls, 1: Strikes, 1 + 1e-9: Strikes} {
		if got := s.Steady(least * share).Status; got != want {
			t.Errorf("%g times the least torque: %v, want %v", share, got, want)
		}
	}
}

// A blow that is not finished does not count, but for a millionth of one.
func TestBlowsInRunAtTheEdge(t *testing.T) {
	s := mustStrike(t, hourStrike()) // 78 blows a turn
	for _, x := range []struct {
		blows float64
		want  int
	}{{-1e-9, 0}, {0, 0}, {0.9, 0}, {1, 1}, {78 - 2e-6, 77}, {78 - 0.5e-6, 78}, {78, 78}, {78.999, 78}, {1e30, 1 << 53}} {
		if got := s.BlowsInRun(x.blows / 78); got != x.want {
			t.Errorf("%.9g blows: %d, want %d", x.blows, got, x.want)
		}
	}
}

// A pin wheel of 8 that turns 78/8 times a fusee turn, as the clock of the
// Encyclopaedia Britannica, 11th ed. (1911), "Clock": 156 blows a day of two turns,
// 78 in 12 hours, so that a turn takes 12 hours.
func TestStrikingPace(t *testing.T) {
	tr := mustTrain(t, []Mesh{free(78, 8)})
	closeTo(t, "blows a turn", tr.BlowsPerTurn(1, 8), 78, 1e-12)
	closeTo(t, "seconds a turn", tr.StrikingSecondsPerTurn(1, 8, 78), 12*3600, 1e-12)
	closeTo(t, "with half hours", tr.StrikingSecondsPerTurn(1, 8, 90), 78*12*3600./90, 1e-12)
}

// Without drag or hammers the speed after a blow's angle ψ from rest is ω² = 2Tψ/J
// (mechanics), and after n blows from rest it is n times that; the energy is ½Jω².
func TestKineticEnergy(t *testing.T) {
	d := hourStrike()
	d.Pins, d.AirDensity = AllPins(8), 1e-9
	s := mustStrike(t, d)
	couple, _ := s.Couples(0.6, 0)
	for _, blows := range []int{1, 3, 12} {
		run := s.Blows(0.6, blows, nil)
		closeTo(t, "energy", s.KineticEnergy(run.Speed), couple*s.Pitch()*float64(blows), 1e-5)
		closeTo(t, "time", run.Seconds(), math.Sqrt(2*s.Pitch()*float64(blows)*s.Inertia()/couple), 1e-5)
	}
	c := s.Steady(0.6)
	closeTo(t, "least", c.KineticLeast, s.Inertia()*c.Least*c.Least/2, 1e-12)
	closeTo(t, "most", c.KineticMost, s.Inertia()*c.Greatest*c.Greatest/2, 1e-12)
}

// Many legs alike take as often the time of one, whichever way their products grow:
// legs of other units make products that overflow, and that vanish, after a few.
func TestProductsOfManyLegs(t *testing.T) {
	for _, unit := range []float64{1e-9, 1, 1e9} {
		drag, inertia := 3e-7*unit, 4e-7*unit
		for _, couple := range []float64{2e-4 * unit, -2e-4 * unit} {
			l := newLeg(0.5, drag, inertia)
			from := 60.0
			to := math.Sqrt(l.after(from*from, couple))
			one, all := l.tally(couple), l.tally(couple)
			one.add(from, to)
			for range 1000 {
				all.add(from, to)
			}
			closeTo(t, "a thousand legs", all.seconds(), 1000*one.seconds(), 1e-11)
		}
	}
}

// The least speed at the end of a lift, over all blows of a turn, against going
// through the turn blow by blow.
func TestLowestBlowByBlow(t *testing.T) {
	rnd := rand.New(rand.NewPCG(41, 42))
	for range 200 {
		_, s := randomStrike(t, rnd)
		torque := s.LeastTorque() * (1 + rnd.Float64())
		if math.IsInf(torque, 0) || s.nSets < 2 {
			continue
		}
		pin, free, status := s.freeCouple(torque)
		if status != Strikes {
			continue
		}
		u, least := s.cycle(pin, free)
		lowest := math.Inf(1)
		for i := range s.nSets {
			for range s.sets[i].count {
				u = s.lift.after(s.free.after(u, free), s.atFly(pin-s.sets[i].couple))
				lowest = min(lowest, u)
			}
		}
		closeTo(t, "least", least, lowest, 1e-9)
	}
}

// artanh √s/√s and tanh √s/√s at the ends of where their series is used, against the
// functions themselves; and a fly against no couple at all comes to rest in a time
// that is finite.
func TestSeriesAtTheirEnds(t *testing.T) {
	for _, s := range []float64{1e-4, 3e-5, 1e-8} {
		z := math.Sqrt(s)
		closeTo(t, "artanh", series(s), (math.Log1p(z)-math.Log1p(-z))/(2*z), 5e-16)
		closeTo(t, "arctan", series(-s), math.Atan(z)/z, 5e-16)
		closeTo(t, "tanh", bend(s*0.999), math.Tanh(math.Sqrt(s*0.999))/math.Sqrt(s*0.999), 5e-16)
		closeTo(t, "tan", bend(-s*0.999), math.Tan(math.Sqrt(s*0.999))/math.Sqrt(s*0.999), 5e-16)
	}
	l := newLeg(1, 3e-7, 4e-7)
	if got := l.rest(0, 5); !(got > 0) || math.IsInf(got, 0) {
		t.Errorf("%g s", got)
	}
}

// What is a twentieth beyond the upper end of a range is named as its fault.
func TestBeyondRanges(t *testing.T) {
	hammer := func(h Hammer) func(d *StrikeDesign) {
		return func(d *StrikeDesign) { d.Pins = AllPins(8, h) }
	}
	for field, spoil := range map[string]func(d *StrikeDesign){
		"gravity":              func(d *StrikeDesign) { d.Gravity = 1.05e3 },
		"hammer mass":          hammer(Hammer{1.05e6, 0, 0}),
		"hammer lift":          hammer(Hammer{0, 1.05e3, 0}),
		"hammer spring":        hammer(Hammer{0, 0, 1.05e9}),
		"fly vanes":            func(d *StrikeDesign) { d.Fly.Vanes = 1.05e6 },
		"fly width":            func(d *StrikeDesign) { d.Fly.Width = 1.05e3 },
		"fly inner radius":     func(d *StrikeDesign) { d.Fly.Inner, d.Fly.Outer = 1.05e3, 1.06e3 },
		"fly outer radius":     func(d *StrikeDesign) { d.Fly.Outer = 1.05e3 },
		"fly drag coefficient": func(d *StrikeDesign) { d.Fly.DragCoefficient = 1.05e3 },
		"air density":          func(d *StrikeDesign) { d.AirDensity = 1.05e5 },
		"fly inertia":          func(d *StrikeDesign) { d.Fly.Inertia = 1.05e9 },
		"fly thickness":        func(d *StrikeDesign) { d.Fly.Thickness = 1.05e3 },
		"fly density":          func(d *StrikeDesign) { d.Fly.Density = 1.05e6 },
	} {
		d := hourStrike()
		spoil(&d)
		_, err := NewStrike(d)
		var f Fault
		if !errors.As(err, &f) || f.Field != field {
			t.Errorf("%v, want a fault of the %s", err, field)
		}
	}
}
