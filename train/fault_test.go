package train

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

func TestBadStrikes(t *testing.T) {
	nan := math.NaN()
	for name, c := range map[string]struct {
		spoil func(d *StrikeDesign)
		want  error
	}{
		"mesh":             {func(d *StrikeDesign) { d.Meshes[0].Pinion = 0 }, ErrTrain},
		"load":             {func(d *StrikeDesign) { d.Loads = []Load{{9, 1}} }, ErrTrain},
		"no meshes":        {func(d *StrikeDesign) { d.Meshes, d.PinArbor = nil, 0 }, ErrPinArbor},
		"pins on the fly":  {func(d *StrikeDesign) { d.PinArbor = 4 }, ErrPinArbor},
		"pins nowhere":     {func(d *StrikeDesign) { d.PinArbor = -1 }, ErrPinArbor},
		"no sets":          {func(d *StrikeDesign) { d.Pins = nil }, ErrPins},
		"no pins":          {func(d *StrikeDesign) { d.Pins = AllPins(0) }, ErrPins},
		"so many sets":     {func(d *StrikeDesign) { d.Pins = make([]PinSet, MostSets+1) }, ErrPins},
		"so many pins":     {func(d *StrikeDesign) { d.Pins = []PinSet{{nil, 1 << 16}, {nil, 1}} }, ErrPins},
		"many hammers":     {func(d *StrikeDesign) { d.Pins = AllPins(2, make([]Hammer, 3)...) }, ErrMore},
		"light":            {func(d *StrikeDesign) { d.Pins = AllPins(8, Hammer{-1, 1, 1}) }, ErrHammer},
		"drops":            {func(d *StrikeDesign) { d.Pins = AllPins(8, Hammer{1, -1, 1}) }, ErrHammer},
		"pulling spring":   {func(d *StrikeDesign) { d.Pins = AllPins(8, Hammer{1, 1, nan}) }, ErrHammer},
		"gravity":          {func(d *StrikeDesign) { d.Gravity = nan }, ErrHammer},
		"lifts over pitch": {func(d *StrikeDesign) { d.LiftShare = 1.2 }, ErrLiftShare},
		"never lifts":      {func(d *StrikeDesign) { d.LiftShare = 0 }, ErrLiftShare},
		"tail":             {func(d *StrikeDesign) { d.TailEfficiency = 1.01 }, ErrEfficiency},
		"no vanes":         {func(d *StrikeDesign) { d.Fly.Vanes = 0 }, ErrNoFly},
		"no width":         {func(d *StrikeDesign) { d.Fly.Width = 0 }, ErrNoFly},
		"no vane":          {func(d *StrikeDesign) { d.Fly.Inner = d.Fly.Outer }, ErrNoFly},
		"inside out":       {func(d *StrikeDesign) { d.Fly.Inner = -1 }, ErrNoFly},
		"no air":           {func(d *StrikeDesign) { d.AirDensity = 0 }, ErrNoFly},
		"no drag":          {func(d *StrikeDesign) { d.Fly.DragCoefficient = nan }, ErrNoFly},
		"no thickness":     {func(d *StrikeDesign) { d.Fly.Thickness = 0 }, ErrInertia},
		"no density":       {func(d *StrikeDesign) { d.Fly.Density = 0 }, ErrInertia},
		"inertia":          {func(d *StrikeDesign) { d.Fly.Inertia = -1 }, ErrInertia},
		"a breath of air":  {func(d *StrikeDesign) { d.AirDensity = 1e-40 }, ErrRange},
	} {
		d := hourStrike()
		c.spoil(&d)
		s, err := NewStrike(d)
		if !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", name, err, c.want)
		}
		if s.pins != 0 {
			t.Errorf("%s: a half-made train", name)
		}
	}
	d := hourStrike()
	d.LiftShare = 1.2
	_, err := NewStrike(d)
	for _, part := range []string{"a pin lifts longer than its pitch", "lift share", "1.2", "below 1"} {
		if !strings.Contains(err.Error(), part) {
			t.Errorf("%q does not say %q", err, part)
		}
	}
	d = hourStrike()
	d.Fly.Thickness, d.Fly.Density, d.Fly.Inertia = 0, 0, 1e-6
	if _, err := NewStrike(d); err != nil {
		t.Errorf("given inertia: %v", err)
	}
}

func TestStrikeStatusWords(t *testing.T) {
	seen := map[string]bool{}
	for s := Strikes; s <= Stands+1; s++ {
		seen[s.String()] = true
	}
	if len(seen) != 5 || Strikes.String() != "strikes" || seen[""] {
		t.Errorf("%v", seen)
	}
}

// Trains at and beyond the limits of what makes one: no NaN, no infinity, no endless loop.
func TestStrikeNothingIsNaN(t *testing.T) {
	rnd := rand.New(rand.NewPCG(21, 22))
	wide := func() float64 { return math.Pow(10, 16*rnd.Float64()-8) }
	checked := 0
	for range 3000 {
		d := quarters()
		if rnd.IntN(2) == 0 {
			d = hourStrike()
		}
		d.AirDensity *= wide()
		d.Fly.Density = min(d.Fly.Density*wide(), 1e6)
		d.Pins[0].Hammers = []Hammer{{wide(), 0.02, 0}}
		d.LiftShare = []float64{1e-9, 0.3, 1 - 1e-12}[rnd.IntN(3)]
		s, err := NewStrike(d)
		if err != nil {
			continue
		}
		least := s.LeastTorque()
		for _, torque := range []float64{-1, 0, math.Inf(1), 1e-30, least, least * (1 + 1e-15), least * (1 + 1e-9), 2 * least, 1e9 * rnd.Float64()} {
			c, r, p := s.Steady(torque), s.Blows(torque, 3, nil), s.Power(torque)
			for _, x := range []float64{c.Interval, c.FlySpeed, c.Least, c.Greatest, r.Seconds(), r.Speed, p.Fly, p.Wheels} {
				if math.IsNaN(x) || math.IsInf(x, 0) {
					t.Fatalf("%g N·m (least %g): %+v %+v %+v\n%+v", torque, least, c, r, p, d)
				}
				checked++
			}
			if (c.Status == Strikes) != (c.Interval > 0) {
				t.Fatalf("%g N·m: %+v", torque, c)
			}
		}
		if !math.IsInf(least, 1) && s.Steady(least).Status != Strikes {
			t.Errorf("%v on the least torque", s.Steady(least).Status)
		}
	}
	if checked < 10000 {
		t.Errorf("only %d figures checked", checked)
	}
}

// The limits that messages print are those that hold.
func TestPrintedLimits(t *testing.T) {
	for spoil, want := range map[*StrikeDesign]string{
		{Pins: make([]PinSet, MostSets+1)}: fmt.Sprintf("found %d; want 1 to %d", MostSets+1, MostSets),
		{Pins: AllPins(mostPins + 1)}:      fmt.Sprintf("found %d; want 1 to %d", mostPins+1, mostPins),
	} {
		d := hourStrike()
		d.Pins = spoil.Pins
		if _, err := NewStrike(d); !errors.Is(err, ErrPins) || !strings.Contains(err.Error(), want) {
			t.Errorf("%v: want %q", err, want)
		}
	}
	if want := fmt.Sprintf("at most %d meshes", Most); !strings.Contains(ErrTrain.Error(), want) {
		t.Errorf("%v: want %q", ErrTrain, want)
	}
}

// Of several values out of their bounds the first is named, so that mending them one
// by one goes down the list.
func TestFaultsInOrder(t *testing.T) {
	d := hourStrike()
	good := d.Fly
	heavy := []Hammer{{-1, -1, -1}}
	d.PinArbor, d.LiftShare, d.TailEfficiency, d.Gravity, d.AirDensity = 9, 2, 2, -1, -1
	d.Fly = Fly{Vanes: 0, Width: -1, Inner: -2, Outer: -3, Thickness: -1, Density: -1, DragCoefficient: -1, Inertia: -1}
	d.Pins = append(make([]PinSet, 0), PinSet{heavy, 3})
	for _, x := range []struct {
		field string
		found float64
		mend  func()
	}{
		{"pin arbor", 9, func() { d.PinArbor = 1 }}, {"lift share", 2, func() { d.LiftShare = 0.3 }},
		{"tail efficiency", 2, func() { d.TailEfficiency = 0.9 }}, {"gravity", -1, func() { d.Gravity = 9.8 }},
		{"fly vanes", 0, func() { d.Fly.Vanes = 2 }}, {"fly width", -1, func() { d.Fly.Width = good.Width }},
		{"fly inner radius", -2, func() { d.Fly.Inner = good.Inner }}, {"fly outer radius", -3, func() { d.Fly.Outer = good.Outer }},
		{"fly drag coefficient", -1, func() { d.Fly.DragCoefficient = 1.2 }}, {"air density", -1, func() { d.AirDensity = 1.2 }},
		{"fly inertia", -1, func() { d.Fly.Inertia = 0 }}, {"fly thickness", -1, func() { d.Fly.Thickness = good.Thickness }},
		{"fly density", -1, func() { d.Fly.Density = good.Density }},
		{"hammer mass", -1, func() { heavy[0].Mass = 0 }}, {"hammer lift", -1, func() { heavy[0].Lift = 0 }}, {"hammer spring", -1, func() { heavy[0].Spring = 0 }},
	} {
		_, err := NewStrike(d)
		var f Fault
		if !errors.As(err, &f) || f.Field != x.field || f.Found != x.found {
			t.Errorf("%v, want a fault of %s, %g", err, x.field, x.found)
		}
		x.mend()
	}
	mustStrike(t, d)
}

// Trains whose drag, inertia, pitch or decay are beyond what can be computed, though
// each of their parts is within its bounds.
func TestBeyondComputing(t *testing.T) {
	for want, spoil := range map[string]func(d *StrikeDesign){
		"fly drag":    func(d *StrikeDesign) { d.AirDensity = 1e-40 },
		"fly inertia": func(d *StrikeDesign) { d.Fly.Inertia = 1e-31 },
		"pitch": func(d *StrikeDesign) {
			for range 6 {
				d.Meshes = append(d.Meshes, Mesh{1e6, 1, 0.9, 0})
			}
		},
		"decay of a blow": func(d *StrikeDesign) { d.Fly.Inertia, d.Fly.DragCoefficient, d.AirDensity = 1e-29, 1e3, 1e5 },
	} {
		d := hourStrike()
		spoil(&d)
		_, err := NewStrike(d)
		var f Fault
		if !errors.Is(err, ErrRange) || !errors.As(err, &f) || f.Field != want {
			t.Errorf("%v, want a fault of the %s", err, want)
		}
	}
	// 2cψ/J on either side of the printed end.
	d := hourStrike()
	d.Fly.DragCoefficient, d.AirDensity = 1e3, 1e5
	s := mustStrike(t, d)
	for share, want := range map[float64]error{0.95: nil, 1.05: ErrRange} {
		d.Fly.Inertia = 2 * s.Drag() * s.Pitch() / (share * 1e30)
		if _, err := NewStrike(d); !errors.Is(err, want) {
			t.Errorf("a decay of %g of the greatest: %v", share, err)
		}
	}
}
