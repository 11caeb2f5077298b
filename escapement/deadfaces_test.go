package escapement

import (
	"errors"
	"math"
	"testing"

	"github.com/golang/geo/s1"
)

// faces are frictions of dead faces: none, oiled, dry, and more than any.
var faces = []float64{0, 0.05, 0.15, 0.6}

// rubbing is an invented dead beat whose faces rub: of the radii 24 and 15 mm.
func rubbing(friction float64) (Escapement, Pendulum) {
	e, p := bracketClock(DeadBeat{})
	e.DeadFriction, e.PalletRadius, e.WheelRadius = friction, 0.024, 0.015
	return e, p
}

// deadBeats goes over the dead beats of the grid with each friction.
func deadBeats(t *testing.T, f func(g testCase, friction float64, c *Clock, torque float64)) {
	t.Helper()
	grid(func(g testCase) {
		if g.kind != (DeadBeat{}) {
			return
		}
		for _, friction := range faces {
			e, p := rubbing(friction)
			e.Arc, e.Margin, p.Quality = WholeDegrees(g.arc), 0, g.quality
			c := mustNew(t, e, p)
			f(g, friction, &c, g.times*c.LeastTorque())
		}
	})
}

// The averages with faces that rub against exact beats: nothing is lost in the first
// order, and in the second the rate is right.
func TestDeadFacesAgainstBeats(t *testing.T) {
	worstArc := 0.0
	deadBeats(t, func(g testCase, friction float64, c *Clock, torque float64) {
		average, exact := c.Going(torque), settled(t, c, torque)
		if !average.Status.Goes() || exact.Status != average.Status {
			t.Fatalf("%v, μ %g: %v, %v by beats", g, friction, average.Status, exact.Status)
		}
		q2 := g.quality * g.quality
		worstArc = max(worstArc, math.Abs(float64(average.Amplitude/exact.Amplitude)-1)*q2)
		off := math.Abs(average.Rate.Linear() - exact.Rate)
		if most := 0.0005/q2 + 12/q2*math.Abs(exact.Rate); !(off < most) {
			t.Errorf("%v, μ %g: rate %.6g, %.6g by beats", g, friction, average.Rate.Linear(), exact.Rate)
		}
	})
	t.Logf("arcs are off by %.3g/Q²", worstArc)
	if !(worstArc < 0.1) {
		t.Errorf("arcs are off by %.3g/Q²", worstArc)
	}
}

// With a late impulse friction acts on the rate in the first order: what is left out
// falls one power of Q faster, in arc and rate.
func TestLateImpulseOnFacesThatRub(t *testing.T) {
	for _, late := range []float64{-0.8, 0.5} {
		var arcBefore, rateBefore float64
		for _, q := range []float64{100, 200, 400, 800} {
			e, p := rubbing(0.2)
			e.Late, p.Quality = s1.Angle(late)*s1.Degree, q
			c := mustNew(t, e, p)
			torque := 1.8 * c.LeastTorque()
			average, exact := c.Going(torque), settled(t, &c, torque)
			arc := math.Abs(float64(c.Turning(average.Amplitude)/exact.Amplitude) - 1)
			rate := math.Abs(average.Rate.Linear() - exact.Rate)
			if arcBefore > 0 && !(arcBefore/arc > 3.7 && rateBefore/rate > 3.7) {
				t.Errorf("late by %g°, Q %g: amplitude off by %.3g after %.3g, rate by %.3g after %.3g", late, q, arc, arcBefore, rate, rateBefore)
			}
			closeTo(t, "rate", c.EscapementRate(torque), average.Rate.Escapement, 1e-9)
			arcBefore, rateBefore = arc, rate
		}
	}
}

// What the pendulum is given pays for drag and friction, 4 μ (Te/rw) Rp (A − γ) a
// period; torque and semi-arc are inverse; and no torque passes the widest swing.
func TestDeadFacesBalance(t *testing.T) {
	deadBeats(t, func(g testCase, friction float64, c *Clock, torque float64) {
		a, s := c.Amplitude(torque)
		if !s.Goes() {
			return
		}
		rubbed := 4 * friction * torque / 0.015 * 0.024 * (float64(a) - c.gamma)
		closeTo(t, g.String()+": work", c.Work(torque)-rubbed, c.Loss(a), 1e-12)
		closeTo(t, g.String()+": torque", c.TorqueFor(a), torque, 1e-11)
		if far, widest := SemiArc(c.arc(1e9*torque)), c.escapement.Widest(); friction > 0 && !(far < widest && far > widest*0.99) {
			t.Errorf("%v, μ %g: a great torque swings it %v of %v", g, friction, far, widest)
		}
	})
	e, p := rubbing(0.6)
	c := mustNew(t, e, p)
	// The friction's couple on the way beyond γ is the impulse's over γ.
	closeTo(t, "the widest swing", float64(e.Widest()), c.gamma+c.gamma*e.Couple(1)/(0.6*0.024/0.015), 1e-14)
	e.Margin = e.Widest() - e.HalfArc()
	if c := mustNew(t, e, p); !math.IsInf(c.LeastTorque(), 1) {
		t.Errorf("a margin that nothing reaches takes %g N·m", c.LeastTorque())
	}
}

// Beat by beat the faces take their friction over the way beyond the impulse, early or
// late, and all energy is accounted for.
func TestLedgerOfDeadFaces(t *testing.T) {
	for _, late := range []float64{-0.7, 0, 0.7} {
		e, p := rubbing(0.2)
		e.Late = s1.Angle(late) * s1.Degree
		c := mustNew(t, e, p)
		torque := 1.7 * c.LeastTorque()
		b := mustBeat(t, &c, torque, SemiDegrees(4))
		if s := b.Settle(100_000); s.Status != Runs {
			t.Fatal(s.Status)
		}
		steady := c.NewLedger(torque)
		b.Watch(&steady)
		b.Step()
		b.Step()
		rubbed := 4 * 0.2 * torque / 0.015 * 0.024 * (float64(b.Arc()) - c.gamma)
		closeTo(t, "faces", steady.Beyond, -rubbed, 1e-8)
		closeTo(t, "impulse", steady.Impulse, c.Work(torque), 1e-9)
		closeTo(t, "drag", steady.Viscous, steady.Impulse-rubbed, 1e-8)
		if gap := steady.Gap(); math.Abs(gap) > 1e-9*steady.Impulse {
			t.Errorf("late by %g°: %g J of %g unexplained", late, gap, steady.Impulse)
		}
	}
}

// Faces that hold the pendulum fast stop it at once.
func TestDeadFacesHold(t *testing.T) {
	e, p := rubbing(2)
	c := mustNew(t, e, p)
	torque := 1.1 * c.stiff * float64(SemiDegrees(4)) / (2 * 0.024 / 0.015)
	b := mustBeat(t, &c, torque, SemiDegrees(4))
	if beat := b.Step(); beat != (Beat{Status: Stops}) {
		t.Errorf("%+v", beat)
	}
}

func TestDeadFacesChecked(t *testing.T) {
	for _, c := range []struct {
		kind                    Kind
		friction, pallet, wheel float64
		fits                    bool
	}{
		{DeadBeat{}, 0, 0, 0, true}, {DeadBeat{}, 0.1, 0.02, 0.02, true}, {DeadBeat{}, 2, 0.02, 0.02, true}, {DeadBeat{}, 2.1, 0.02, 0.02, false},
		{DeadBeat{}, -0.1, 0.02, 0.02, false}, {DeadBeat{}, 0.1, 0.02, 0, false}, {DeadBeat{}, 0.1, -0.02, 0.02, false}, {DeadBeat{}, 0.1, 2, 0.002, false},
		{DeadBeat{}, math.NaN(), 0.02, 0.02, false}, {Recoil{}, 0.1, 0.02, 0.02, false}, {Verge{}, 0, 0.02, 0.02, true},
	} {
		e, p := bracketClock(c.kind)
		e.DeadFriction, e.PalletRadius, e.WheelRadius = c.friction, c.pallet, c.wheel
		_, err := New(e, p)
		var fault Fault
		if c.fits != (err == nil) || err != nil && !errors.As(err, &fault) {
			t.Errorf("%+v: %v", c, err)
		}
	}
}
