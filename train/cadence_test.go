package train

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Closed form: with no hammer the couple is T all the time, and the fly runs at
// its terminal speed √(T/c).
func TestTerminalSpeed(t *testing.T) {
	d := hourStrike()
	d.Pins = AllPins(8)
	s := mustStrike(t, d)
	couple, _ := s.Couples(0.5, 0)
	want := math.Sqrt(couple / s.Drag())
	c := s.Steady(0.5)
	closeTo(t, "fly speed", c.FlySpeed, want, 1e-12)
	closeTo(t, "least", c.Least, want, 1e-12)
	closeTo(t, "greatest", c.Greatest, want, 1e-12)
	closeTo(t, "interval", c.Interval, s.Pitch()/want, 1e-12)
	closeTo(t, "kinetic energy", c.KineticMost, s.Inertia()*want*want/2, 1e-12)

	// From rest, closed form: ω = √(T/c) tanh(√(cT) t/J), so that
	// ψ = (J/c) ln cosh(√(cT) t/J).
	x := s.Drag() * 12 * s.Pitch() / s.Inertia()
	time := s.Inertia() / math.Sqrt(s.Drag()*couple) * (x + math.Log1p(math.Sqrt(-math.Expm1(-2*x))))
	closeTo(t, "twelve pitches from rest", s.Twelve(0.5).Seconds(), time, 1e-12)
}

// Closed form: as drag goes to 0 the fly speeds up steadily, ψ = ½ (T/J) t².
func TestWithoutDrag(t *testing.T) {
	d := hourStrike()
	for _, air := range []float64{1e-9, 1e-15} {
		d.AirDensity, d.Pins = air, AllPins(8)
		s := mustStrike(t, d)
		couple, _ := s.Couples(0.5, 0)
		closeTo(t, "one", s.Blows(0.5, 1, nil).Seconds(), math.Sqrt(2*s.Pitch()*s.Inertia()/couple), 10*air+1e-12)
		closeTo(t, "twelve", s.Twelve(0.5).Seconds(), math.Sqrt(24*s.Pitch()*s.Inertia()/couple), 100*air+1e-12)

		// With a hammer: v₁² = 2 a₁ψ₁, v₂² = v₁² + 2 a₂ψ₂, t = v₁/a₁ + (v₂−v₁)/a₂.
		d.Pins = hourStrike().Pins
		s = mustStrike(t, d)
		free, lift := s.Couples(0.6, 0)
		a1, a2 := free/s.Inertia(), lift/s.Inertia()
		v1 := math.Sqrt(2 * a1 * 0.65 * s.Pitch())
		v2 := math.Sqrt(v1*v1 + 2*a2*0.35*s.Pitch())
		closeTo(t, "with a hammer", s.Blows(0.6, 1, nil).Seconds(), v1/a1+(v2-v1)/a2, 100*air+1e-12)
	}
}

// The stall, from the energy alone: without drag the free part of the first
// pitch gives T_d ψ_d, and the lift takes −T_l ψ_l.
func TestStallsWhereTheEnergyEnds(t *testing.T) {
	d := hourStrike()
	d.AirDensity = 1e-15
	s := mustStrike(t, d)
	least := s.LeastFromRest()
	free, lift := s.Couples(least, 0)
	closeTo(t, "energy given and taken", free*(1-d.LiftShare), -lift*d.LiftShare, 1e-12)
	d = hourStrike()
	s = mustStrike(t, d)
	least = s.LeastTorque()
	for _, x := range []struct {
		share float64
		want  StrikeStatus
	}{{1 - 1e-12, Stalls}, {1, Strikes}, {1 + 1e-12, Strikes}} {
		if got := s.Steady(least * x.share).Status; got != x.want {
			t.Errorf("%v at %g of the least torque", got, x.share)
		}
		if got := s.Blows(least*x.share, 1, nil); got.Status != x.want {
			t.Errorf("%v from rest at %g of the least torque", got.Status, x.share)
		}
		if got := s.Power(least * x.share); got.Status != x.want {
			t.Errorf("%v in the ledger at %g of the least torque", got.Status, x.share)
		}
	}
	// With drag the same balance holds, and the drag's share is in it.
	u1 := s.free.after(0, free)
	if u2 := s.lift.after(u1, lift); u2 > 0 {
		t.Error("drag made the lift easier")
	}
}

// Where every pin lifts the same, u after the first blow from rest is (1 − a)
// of what it settles to, so that it strikes from rest or not at all; unlike
// pins, of which the heavy ones come first, may need a run-up.
func TestRunUp(t *testing.T) {
	s := mustStrike(t, hourStrike())
	closeTo(t, "pins alike", s.LeastFromRest(), s.LeastTorque(), 1e-13)
	d := quarters()
	d.Pins = []PinSet{{[]Hammer{{0.06, 0.02, 0.6}}, 1}, {nil, 5}}
	s = mustStrike(t, d)
	rest, least := s.LeastFromRest(), s.LeastTorque()
	if !(rest > 1.01*least) {
		t.Fatalf("from rest %g, steady %g", rest, least)
	}
	for torque, want := range map[float64]StrikeStatus{0.99 * least: Stalls, (rest + least) / 2: NeedsRunUp, 1.01 * rest: Strikes} {
		if got := s.Blows(torque, 12, nil); got.Status != want || (want != Strikes && (got.Blows != 0 || got.Speed != 0 || got.Seconds() <= 0)) {
			t.Errorf("%g N·m: %+v, want %v", torque, got, want)
		}
	}
	d.Pins[0], d.Pins[1] = d.Pins[1], d.Pins[0] // now the gap is the run-up
	s = mustStrike(t, d)
	if got := s.Blows((rest+least)/2, 12, nil); got.Status != Strikes || got.Blows != 12 {
		t.Errorf("gap first: %+v", got)
	}
	if got := s.Blows(0.99*least, 12, nil); got.Status != Stalls || got.Blows != 5 {
		t.Errorf("gap first, too weak: %+v", got)
	}
}

// A strike from rest comes to what is steady: its last turn of the pin wheel
// takes as long.
func TestComesToSteady(t *testing.T) {
	for _, d := range []StrikeDesign{hourStrike(), quarters()} {
		s := mustStrike(t, d)
		torque, pins := 1.5*s.LeastFromRest(), s.pins
		turn := s.Blows(torque, 31*pins, nil).Seconds() - s.Blows(torque, 30*pins, nil).Seconds()
		closeTo(t, "turn of the pin wheel", turn/float64(pins), s.Steady(torque).Interval, 1e-12)
		closeTo(t, "speed after a turn", s.Blows(torque, 30*pins, nil).Speed, s.Blows(torque, 60*pins, nil).Speed, 1e-12)
	}
	// The same pins in two sets are the same.
	d := hourStrike()
	d.Pins = []PinSet{{d.Pins[0].Hammers, 3}, {d.Pins[0].Hammers, 5}}
	one, two := mustStrike(t, hourStrike()), mustStrike(t, d)
	closeTo(t, "two sets of one kind", two.Steady(0.6).Interval, one.Steady(0.6).Interval, 1e-12)
	closeTo(t, "least torque", two.LeastTorque(), one.LeastTorque(), 1e-12)
	closeTo(t, "twelve", two.Twelve(0.6).Seconds(), one.Twelve(0.6).Seconds(), 1e-12)
}

// What must hold of any train.
func TestStrikeProperties(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 8))
	for range 300 {
		d, s := randomStrike(t, rnd)
		d.Fly.Inertia = s.Inertia()
		for i, p := range d.Pins { // at least one hammer
			if len(p.Hammers) == 0 {
				d.Pins[i].Hammers = []Hammer{{0.02, 0.01, 0.2}}
			}
		}
		s = mustStrike(t, d)
		torque := s.LeastTorque() * (1.1 + rnd.Float64())
		c := s.Steady(torque)
		if more := s.Steady(1.01 * torque); !(more.Interval < c.Interval && more.FlySpeed > c.FlySpeed) {
			t.Errorf("more torque is slower: %g, %g", more.Interval, c.Interval)
		}
		heavier, bigger := d, d
		heavier.Pins = []PinSet{}
		for _, p := range d.Pins {
			h := append([]Hammer{}, p.Hammers...)
			h[0].Mass *= 1.01
			heavier.Pins = append(heavier.Pins, PinSet{h, p.Count})
		}
		bigger.Fly.Outer *= 1.01
		slower := func(what string, d StrikeDesign) {
			s := mustStrike(t, d)
			if now := s.Steady(torque); now.Status == Strikes && !(now.Interval > c.Interval) {
				t.Errorf("%s: %g, was %g", what, now.Interval, c.Interval)
			}
		}
		slower("heavier hammer", heavier)
		slower("bigger fly", bigger)
		if !(c.Least <= c.FlySpeed && c.FlySpeed <= c.Greatest && c.KineticLeast <= c.KineticMost) {
			t.Errorf("speeds out of order: %+v", c)
		}
		if run := s.Twelve(torque); run.Status == Strikes && s.nSets == 1 && run.Seconds() < 12*c.Interval {
			t.Errorf("faster from rest: %g, steady %g", run.Seconds(), 12*c.Interval)
		}
	}
}

// Spring = hammers + tails + fly + wheels + loads, each computed by itself.
func TestEnergyOfABlow(t *testing.T) {
	rnd := rand.New(rand.NewPCG(9, 10))
	worst, back := 0.0, 0
	for range 300 {
		_, s := randomStrike(t, rnd)
		torque := s.LeastTorque() * (1.001 + 2*math.Pow(rnd.Float64(), 3))
		b := s.Power(torque)
		sum := b.Hammers + b.Fly + b.Losses()
		closeTo(t, "work of a blow", sum, b.Spring, 1e-9)
		closeTo(t, "given by the fusee", b.Spring, torque*2*math.Pi/s.BlowsPerTurn(), 1e-12)
		worst = max(worst, math.Abs(sum/b.Spring-1))
		for _, part := range []float64{b.Hammers, b.Tails, b.Fly, b.Wheels, b.Loads} {
			if part < 0 {
				t.Errorf("work comes from nowhere: %+v", b)
			}
		}
		for set := range s.nSets {
			if _, lift := s.Couples(torque, set); lift < 0 {
				back++
				break
			}
		}
	}
	t.Logf("worst balance %.2g; %d of 300 driven back", worst, back)
	if back < 50 || back > 290 {
		t.Error("too few trains are driven back, or not: the family says too little")
	}
	s := mustStrike(t, hourStrike())
	if got := s.Power(0); got != (BlowWork{Status: Stands}) {
		t.Errorf("without torque: %+v", got)
	}
}
