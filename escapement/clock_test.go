package escapement

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/golang/geo/s1"
)

// The wheel's work of a half pitch, less drop and friction, is the couple's
// over the arc: Te (π/z) (1−δ) ηp = τ · 2γ. Worked by hand for 30 teeth.
func TestLever(t *testing.T) {
	e, _ := bracketClock(Recoil{})
	closeTo(t, "lever: 6° of wheel, 15 % dropped, for 5°", e.Lever(), 6*0.85/5, 1e-14)
	closeTo(t, "couple", e.Couple(1e-3), 1e-3*1.02*0.8, 1e-14)
	closeTo(t, "there and back", e.Torque(e.Couple(0.0123)), 0.0123, 1e-14)
	closeTo(t, "half arc", e.HalfArc().Degrees(), 2.5, 1e-14)
	e.Kind, e.Late = DeadBeat{}, -0.5*s1.Degree
	closeTo(t, "reach", e.Reach().Degrees(), 3, 1e-14)
}

var kinds = []Kind{Recoil{}, Verge{}, DeadBeat{}}

// random makes clocks within reason, of every kind.
func random(rnd *rand.Rand) (Escapement, Pendulum) {
	between := func(a, b float64) float64 { return a * math.Pow(b/a, rnd.Float64()) }
	e := Escapement{Kind: kinds[rnd.IntN(3)], Teeth: 2 + rnd.IntN(120), Arc: WholeDegrees(between(0.5, 40)),
		Drop: 0.4 * rnd.Float64(), Efficiency: between(0.3, 1), Margin: SemiDegrees(2 * rnd.Float64())}
	if e.Kind == (DeadBeat{}) && rnd.IntN(2) == 0 {
		e.Late = s1.Angle(e.HalfArc()) * s1.Angle(2*rnd.Float64()-1)
	}
	return e, Pendulum{Length: between(0.05, 4), Mass: between(0.01, 50), Gravity: between(9, 10), Quality: between(20, 1e5)}
}

// Work = loss in the steady swing; the least torque's amplitude is half the
// escaping arc with the margin, exactly; a smaller torque falls short.
func TestBalance(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 7))
	for range 2000 {
		e, p := random(rnd)
		c := mustNew(t, e, p)
		least := c.LeastTorque()
		a, s := c.Amplitude(least)
		if s != Runs {
			t.Fatalf("%+v %+v: %v at the least torque", e, p, s)
		}
		closeTo(t, "amplitude at the least torque", float64(a), float64(e.Reach()+e.Margin), 4e-16)
		if _, s := c.Amplitude(least * (1 - 1e-12)); s != Short && s != Stops {
			t.Errorf("just below it: %v", s)
		}
		torque := least * (1 + 0.2*rnd.Float64())
		a, s = c.Amplitude(torque)
		if s != Runs {
			continue // past the widest arc
		}
		closeTo(t, "work and loss", c.Work(torque), c.Loss(a), 1e-13)
		closeTo(t, "work by the wheel", c.Work(torque), 2*math.Pi/float64(e.Teeth)*(1-e.Drop)*e.Efficiency*torque, 1e-13)
		closeTo(t, "torque for the amplitude", c.TorqueFor(a), torque, 1e-13)
		if c.Escapement() != e || c.Pendulum() != p {
			t.Error("the clock is not of its parts")
		}
	}
}

// What a clock does as the torque rises.
func TestStatus(t *testing.T) {
	e, p := bracketClock(Recoil{})
	e.Limit = SemiDegrees(4)
	c := mustNew(t, e, p)
	for _, x := range []struct {
		torque float64
		want   Status
		arc    float64
	}{
		{-1, Stops, 0}, {0, Stops, 0}, {math.NaN(), Stops, 0},
		{c.TorqueFor(SemiDegrees(2.49)), Stops, 0},
		{c.TorqueFor(SemiDegrees(2.5)), Short, 2.5},
		{c.TorqueFor(SemiDegrees(2.99)), Short, 2.99},
		{c.TorqueFor(SemiDegrees(3)), Runs, 3},
		{c.TorqueFor(SemiDegrees(4)), Runs, 4},
		{c.TorqueFor(SemiDegrees(4.01)), Trips, 4}, {1e300, Trips, 4}, {math.Inf(1), Trips, 4},
	} {
		g := c.Going(x.torque)
		if g.Status != x.want || math.Abs(g.Amplitude.Degrees()-x.arc) > 1e-12 {
			t.Errorf("%g N·m: %v at %v, want %v at %g°", x.torque, g.Status, g.Amplitude, x.want, x.arc)
		}
		if goes := g.Rate != (Rate{}); goes != x.want.Goes() {
			t.Errorf("%v with the rate %+v", g.Status, g.Rate)
		}
		if got := c.EscapementRate(x.torque); (got != 0) != x.want.Goes() {
			t.Errorf("%v with the rate %g by quadrature", g.Status, got)
		}
	}
	e.Limit = 0
	c = mustNew(t, e, p)
	if g := c.Going(1e6); g.Status != Trips || g.Amplitude != 4*e.HalfArc() {
		t.Errorf("without a limit: %+v", g)
	}
	e.Margin = 3.5 * e.HalfArc()
	if c := mustNew(t, e, p); c.Going(1e6).Amplitude != 4.5*e.HalfArc() {
		t.Errorf("with a wide margin: %+v", c.Going(1e6))
	}
	e.Arc, e.Margin = 2*WholeArc(Widest), 0
	if c := mustNew(t, e, p); c.Going(1e6).Amplitude != Widest {
		t.Errorf("with the widest arc: %+v", c.Going(1e6))
	}
}

func TestNames(t *testing.T) {
	got := []string{Recoil{}.String(), Verge{}.String(), DeadBeat{}.String(),
		Stops.String(), Short.String(), Runs.String(), Trips.String(), Changing.String(), Status(9).String()}
	want := "recoil|verge|dead beat|stops|short of its margin|runs|trips|still changing|unknown"
	if strings.Join(got, "|") != want {
		t.Error(got)
	}
}

// No String panics, whatever the value: none is out of the names' range.
func TestNamesOfEverything(t *testing.T) {
	for i := range 256 {
		if s := Status(i); (s.String() == "unknown") != (s > Changing) {
			t.Errorf("%d is %s", i, s)
		}
	}
	for _, a := range []float64{0, -1, math.NaN(), math.Inf(1), math.MaxFloat64} {
		if SemiArc(a).String() == "" || WholeArc(a).String() == "" {
			t.Errorf("%g has no words", a)
		}
	}
}

// A Kind that is none of them is refused by name, even one within another type,
// and acts as no other; without New there is no going.
func TestNoSuchKind(t *testing.T) {
	e, p := bracketClock(nil)
	for _, k := range []Kind{nil, (*Recoil)(nil), &DeadBeat{}, struct{ Kind }{}, struct{ Kind }{Recoil{}}} {
		e.Kind = k
		c, err := New(e, p)
		var f Fault
		if !errors.As(err, &f) || f.Field != "Kind" || f.Found != k || !strings.Contains(err.Error(), "Recoil, Verge or DeadBeat") {
			t.Errorf("%T: %v", k, err)
		}
		if c != (Clock{}) {
			t.Errorf("%T made a clock", k)
		}
	}
	var c Clock
	for _, torque := range []float64{0, 1, -1, math.NaN(), math.Inf(1)} {
		if g := c.Going(torque); g != (Going{Status: Stops}) {
			t.Errorf("the zero clock at %g N·m: %+v", torque, g)
		}
		a, rate, s := c.Swing(torque)
		if a != 0 || rate != 0 || s != Stops || c.EscapementRate(torque) != 0 || c.CoupleAt(1, 1, torque) != 0 || c.Turning(0.1) != 0.1 {
			t.Errorf("the zero clock at %g N·m: %v, %g, %v", torque, a, rate, s)
		}
		if _, err := c.Beats(torque, 0.1); err == nil {
			t.Error("the zero clock beats")
		}
	}
}

// Every field out of its range, NaN included, is named with what was found.
func TestFaults(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	cases := []struct {
		field string
		edit  func(e *Escapement, p *Pendulum, v float64)
		bad   []float64
	}{
		{"Kind", func(e *Escapement, _ *Pendulum, _ float64) { e.Kind = nil }, []float64{0}},
		{"Teeth", func(e *Escapement, _ *Pendulum, v float64) { e.Teeth = int(v) }, []float64{-3, 0, 1, 10001}},
		{"Arc", func(e *Escapement, _ *Pendulum, v float64) { e.Arc = WholeArc(v) }, []float64{-1, 0, 4, nan, inf}},
		{"Drop", func(e *Escapement, _ *Pendulum, v float64) { e.Drop = v }, []float64{-0.1, 1, nan}},
		{"Efficiency", func(e *Escapement, _ *Pendulum, v float64) { e.Efficiency = v }, []float64{-1, 0, 1.01, nan}},
		{"Margin", func(e *Escapement, _ *Pendulum, v float64) { e.Margin = SemiArc(v) }, []float64{-0.01, 2, nan}},
		{"Late", func(e *Escapement, _ *Pendulum, v float64) { e.Late = s1.Angle(v) }, []float64{-0.01, 0.01, nan}},
		{"Late", func(e *Escapement, _ *Pendulum, v float64) { e.Kind, e.Late = DeadBeat{}, s1.Angle(v) }, []float64{-0.05, 0.05, nan}},
		{"Arc with Margin", func(e *Escapement, _ *Pendulum, v float64) { e.Arc = 3; e.Margin = SemiArc(v) }, []float64{0.08, 1.5}},
		{"Limit", func(e *Escapement, _ *Pendulum, v float64) { e.Limit = SemiArc(v) }, []float64{-1, 0.01, 2, nan}},
		{"Length", func(_ *Escapement, p *Pendulum, v float64) { p.Length = v }, []float64{-1, 0, 1001, nan, inf}},
		{"Mass", func(_ *Escapement, p *Pendulum, v float64) { p.Mass = v }, []float64{-1, 0, 1.01e6, nan, inf}},
		{"Gravity", func(_ *Escapement, p *Pendulum, v float64) { p.Gravity = v }, []float64{-1, 0, 1000.5, nan, inf}},
		{"Quality", func(_ *Escapement, p *Pendulum, v float64) { p.Quality = v }, []float64{-1, 0, 0.99, 1.01e9, nan, inf}},
	}
	for _, c := range cases {
		for _, v := range c.bad {
			e, p := bracketClock(Recoil{})
			c.edit(&e, &p, v)
			_, err := New(e, p)
			var f Fault
			if !errors.As(err, &f) || f.Field != c.field || !strings.Contains(err.Error(), f.Want) {
				t.Errorf("%s = %g: %v", c.field, v, err)
			}
		}
	}
	e, p := bracketClock(Recoil{})
	e.Teeth = 1
	_, err := New(e, p)
	if want := "escapement: Teeth: found 1; want a whole number from 2 to 10000"; err == nil || err.Error() != want {
		t.Errorf("%v, want %s", err, want)
	}
}

// Of several fields out of range the first is named, in the order of the fields, so
// that mending them one by one goes down the list.
func TestFaultsInOrder(t *testing.T) {
	e := Escapement{Kind: nil, Teeth: 1, Arc: 4, Drop: 2, Efficiency: 2, Margin: -1, Late: 9, Limit: -1}
	p := Pendulum{Length: -1, Mass: -1, Gravity: -1, Quality: -1}
	good, swings := bracketClock(Recoil{})
	for _, x := range []struct {
		field string
		mend  func()
	}{
		{"Kind", func() { e.Kind = good.Kind }}, {"Teeth", func() { e.Teeth = good.Teeth }}, {"Arc", func() { e.Arc = 3 }},
		{"Drop", func() { e.Drop = good.Drop }}, {"Efficiency", func() { e.Efficiency = good.Efficiency }},
		{"Margin", func() { e.Margin = 1 }}, {"Late", func() { e.Late = 0 }},
		{"Arc with Margin", func() { e.Arc, e.Margin = good.Arc, good.Margin }}, {"Limit", func() { e.Limit = 0 }},
		{"Length", func() { p.Length = swings.Length }}, {"Mass", func() { p.Mass = swings.Mass }},
		{"Gravity", func() { p.Gravity = swings.Gravity }}, {"Quality", func() { p.Quality = swings.Quality }},
	} {
		_, err := New(e, p)
		var f Fault
		if !errors.As(err, &f) || f.Field != x.field {
			t.Errorf("%v, want a fault of %s", err, x.field)
		}
		x.mend()
	}
	c := mustNew(t, e, p)
	_, err := c.Beats(-1, -1)
	var f Fault
	if !errors.As(err, &f) || f.Field != "torque" {
		t.Errorf("%v, want a fault of the torque", err)
	}
	for _, x := range []struct {
		from, to SemiArc
		field    string
	}{{-1, -1, "from"}, {0.1, -1, "to"}, {0.1, 0.05, "periods"}} {
		if _, err := QualityFromDecay(x.from, x.to, -1); !errors.As(err, &f) || f.Field != x.field {
			t.Errorf("%v, want a fault of %q", err, x.field)
		}
	}
}
