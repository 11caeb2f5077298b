package escapement

import (
	"errors"
	"math"
	"testing"
)

// ratios of the couple going out to that coming in: none, from pallets alone and from
// the whole train of a worn clock.
var ratios = []float64{1, 1.8, 2.44, 4}

// recoils goes over the clocks of the grid that recoil, with each ratio.
func recoils(t *testing.T, f func(g testCase, ratio float64, c *Clock, torque float64)) {
	t.Helper()
	grid(func(g testCase) {
		if g.kind == (DeadBeat{}) {
			return
		}
		for _, ratio := range ratios {
			e, p := bracketClock(g.kind)
			e.Arc, e.Margin, e.Ratio, p.Quality = WholeDegrees(g.arc), 0, ratio, g.quality
			c := mustNew(t, e, p)
			f(g, ratio, &c, g.times*c.LeastTorque())
		}
	})
}

// The averages with a recoil that costs more than it gives back against exact beats:
// the semi-arc within 1 % from a Q of 80 and 2 % at 40, the turning point to the next
// order, the rate out by what goes with 1/Q.
func TestRecoilRatioAgainstBeats(t *testing.T) {
	cases := 0
	worst := map[float64]float64{}
	recoils(t, func(g testCase, ratio float64, c *Clock, torque float64) {
		cases++
		average, exact := c.Going(torque), settled(t, c, torque)
		if !average.Status.Goes() || exact.Status != average.Status {
			t.Fatalf("%v, f %g: %v, %v by beats", g, ratio, average.Status, exact.Status)
		}
		allowed := 0.01
		if g.quality < 80 {
			allowed = 0.02
		}
		if off := math.Abs(float64(average.Amplitude/exact.Amplitude) - 1); !(off < allowed) {
			t.Errorf("%v, f %g: amplitude %v, %v by beats", g, ratio, average.Amplitude, exact.Amplitude)
		}
		if off := math.Abs(float64(c.Turning(average.Amplitude)/exact.Amplitude)-1) * g.quality * g.quality; !(off < 6) {
			t.Errorf("%v, f %g: the turning point is off by %.3g/Q²", g, ratio, off)
		}
		worst[ratio] = max(worst[ratio], math.Abs(average.Rate.Linear()/exact.Rate-1)*g.quality)
	})
	if cases < 60 {
		t.Errorf("only %d cases", cases)
	}
	t.Logf("rates are off by %.3g/Q", worst)
	for ratio, most := range map[float64]float64{1: 0.2, 1.8: 0.9, 2.44: 1.5, 4: 3} {
		if !(worst[ratio] < most) {
			t.Errorf("f %g: the rate is off by %.3g/Q", ratio, worst[ratio])
		}
	}
}

// Our own integration of an invented anchor of 30 teeth with an arc of 5° and a Q of
// 181, on a torque that swings it 3.50° and gains 213 s a day when recoil costs nothing:
// with f = 2.44 it swings 3.15° and gains 371.
func TestRecoilDrivenBack(t *testing.T) {
	e := Escapement{Kind: Recoil{}, Teeth: 30, Arc: WholeDegrees(5), Drop: 0.15, Efficiency: 0.8, Margin: SemiDegrees(0.5)}
	p := Pendulum{Length: 0.2001, Mass: 0.24, Gravity: standardGravity, Quality: math.Pi * 40 / math.Ln2}
	free := mustNew(t, e, p)
	torque := free.TorqueFor(SemiDegrees(3.5035))
	if g := free.Going(torque); math.Abs(g.Rate.PerDay()-213) > 0.5 {
		t.Errorf("%.4g s a day without", g.Rate.PerDay())
	}
	e.Ratio = 2.44
	c := mustNew(t, e, p)
	average, exact := c.Going(torque), settled(t, &c, torque)
	if math.Abs(average.Amplitude.Degrees()/3.15-1) > 0.0055 || math.Abs(average.Rate.PerDay()/371-1) > 0.006 {
		t.Errorf("%.4f°, %.5g s a day", average.Amplitude.Degrees(), average.Rate.PerDay())
	}
	if daily := (exact.Rate + average.Rate.Circular) * SecondsPerDay; math.Abs(exact.Amplitude.Degrees()-3.15) > 0.005 || math.Abs(daily-371) > 0.5 {
		t.Errorf("by beats %.4f°, %.5g s a day", exact.Amplitude.Degrees(), daily)
	}
}

// What the pendulum is given pays for drag and for driving the wheel back; torque and
// semi-arc are inverse; no torque passes the widest swing; and the couple's place in the
// swing hastens it by Airy's integral over it.
func TestRecoilBalance(t *testing.T) {
	recoils(t, func(g testCase, ratio float64, c *Clock, torque float64) {
		a, s := c.Amplitude(torque)
		if !s.Goes() {
			return
		}
		back := 2 * (ratio - 1) * c.couple * torque * (float64(a) - c.gamma)
		closeTo(t, g.String()+": work", c.Work(torque)-back, c.Loss(a), 1e-12)
		closeTo(t, g.String()+": torque", c.TorqueFor(a), torque, 1e-11)
		closeTo(t, g.String()+": rate", c.EscapementRate(torque), c.Rate(torque).Escapement, 1e-9)
		if far := SemiArc(c.arc(1e9 * torque)); ratio > 1 && !(far < c.escapement.Widest() && far > c.escapement.Widest()*0.99) {
			t.Errorf("%v, f %g: a great torque swings it %v of %v", g, ratio, far, c.escapement.Widest())
		}
	})
	e, p := bracketClock(Recoil{})
	e.Ratio = 3
	c := mustNew(t, e, p)
	closeTo(t, "the widest swing", float64(c.escapement.Widest()), 2*c.gamma, 1e-15)
	if got := c.TorqueFor(c.escapement.Widest()); !math.IsInf(got, 1) {
		t.Errorf("the widest swing takes %g N·m", got)
	}
	e.Margin = e.HalfArc()
	if c := mustNew(t, e, p); !math.IsInf(c.LeastTorque(), 1) {
		t.Errorf("a margin that nothing reaches takes %g N·m", c.LeastTorque())
	}
	plain := mustNew(t, func() Escapement { e.Ratio = 0; return e }(), p)
	if !math.IsInf(float64(plain.escapement.Widest()), 1) {
		t.Errorf("with a recoil that costs nothing %v", plain.escapement.Widest())
	}
}

// Beat by beat, what recoil takes from the pendulum is (f − 1) τ over the way beyond the
// release, at both ends of the swing.
func TestLedgerOfRecoil(t *testing.T) {
	e, p := bracketClock(Recoil{})
	e.Ratio = 2.2
	c := mustNew(t, e, p)
	torque := 1.7 * c.LeastTorque()
	b := mustBeat(t, &c, torque, SemiDegrees(4))
	if s := b.Settle(100_000); s.Status != Runs {
		t.Fatal(s.Status)
	}
	steady := c.NewLedger(torque)
	b.Watch(&steady)
	beyond := -2 * float64(b.Arc())
	b.Step()
	b.Step()
	beyond = -1.2 * c.couple * torque * (-beyond - 2*c.gamma)
	closeTo(t, "recoil", steady.Beyond, beyond, 1e-8)
	closeTo(t, "drag", steady.Viscous, steady.Impulse+beyond, 1e-8)
	if gap := steady.Gap(); math.Abs(gap) > 1e-9*steady.Impulse {
		t.Errorf("%g J of %g unexplained", gap, steady.Impulse)
	}
}

func TestRecoilRatioChecked(t *testing.T) {
	for _, c := range []struct {
		kind  Kind
		ratio float64
		fits  bool
	}{
		{Recoil{}, 0, true}, {Recoil{}, 1, true}, {Verge{}, 100, true}, {Recoil{}, 100.1, false}, {Recoil{}, 0.99, false}, {Verge{}, -1, false},
		{Recoil{}, math.NaN(), false}, {DeadBeat{}, 1, true}, {DeadBeat{}, 1.1, false},
	} {
		e, p := bracketClock(c.kind)
		e.Ratio = c.ratio
		_, err := New(e, p)
		var fault Fault
		if c.fits != (err == nil) || err != nil && (!errors.As(err, &fault) || fault.Field != "Ratio") {
			t.Errorf("%v, %g: %v", c.kind, c.ratio, err)
		}
	}
}
