package escapement

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/golang/geo/s1"
)

// Where a swing that is nearly kept up goes: A² nears its end by e^(−2π/Q) a
// period, which the balance 4τγ = πKA²/Q gives without more.
func TestApproach(t *testing.T) {
	for _, kind := range []Kind{Recoil{}, DeadBeat{}} {
		e, p := bracketClock(kind)
		p.Quality = 2000
		c := mustNew(t, e, p)
		torque := 2 * c.LeastTorque()
		end := settled(t, &c, torque).Amplitude.Radians()
		b := mustBeat(t, &c, torque, SemiDegrees(3.5))
		before := float64(b.Arc())
		for range 2 * 500 {
			b.Step()
		}
		after := float64(b.Arc())
		got := math.Log((end*end-before*before)/(end*end-after*after)) / 500
		closeTo(t, kind.String()+": approach a period", got, 2*math.Pi/p.Quality, 3/p.Quality)
	}
}

// Without torque a dead beat's pendulum swings free until it falls short: each
// period takes e^(−π/√(Q²−¼)), exactly, and the decay gives its quality back.
func TestFreeDecay(t *testing.T) {
	for _, q := range []float64{40, 120, 5000} {
		e, p := bracketClock(DeadBeat{})
		p.Quality = q
		c := mustNew(t, e, p)
		b := mustBeat(t, &c, 0, SemiDegrees(10))
		var beat Beat
		for range 2 * 10 {
			beat = b.Step()
		}
		closeTo(t, "decay", float64(beat.Arc/SemiDegrees(10)), math.Exp(-10*math.Pi/math.Sqrt(q*q-0.25)), 1e-13)
		closeTo(t, "half period", beat.Seconds, p.Period()/2/math.Sqrt(1-1/(4*q*q)), 1e-13)
		got, err := QualityFromDecay(SemiDegrees(10), beat.Arc, 10)
		if err != nil {
			t.Error(err)
		}
		closeTo(t, "quality", got, q, 1/(4*q*q))
		if out := b.Settle(1 << 20); out.Status != Stops || out.Amplitude != 0 || out.Period != 0 || out.Rate != 0 {
			t.Errorf("runs without torque: %+v", out)
		}
		if again := b.Step(); again != (Beat{Status: Stops}) {
			t.Errorf("beats on after its end: %+v", again)
		}
	}
}

// The pendulum goes on beating down to the arc of the pallets and no further: A = γ by
// the average, give or take what it leaves out.
func TestBeatsStopWhereTheAverageDoes(t *testing.T) {
	for _, kind := range kinds {
		e, p := bracketClock(kind)
		e.Margin, p.Quality = 0, 300
		c := mustNew(t, e, p)
		if got := settled(t, &c, 1.01*c.LeastTorque()); got.Status != Runs {
			t.Errorf("%v: %v with 1 %% to spare", kind, got.Status)
		}
		b := mustBeat(t, &c, 0.99*c.LeastTorque(), SemiDegrees(2.6))
		if got := b.Settle(1 << 20); got.Status != Stops || got.Periods == 0 {
			t.Errorf("%v: %v after %d periods with 1 %% too little", kind, got.Status, got.Periods)
		}
	}
}

// How a run of beats ends.
func TestSettleStatus(t *testing.T) {
	e, p := bracketClock(Recoil{})
	e.Limit = SemiDegrees(4)
	c := mustNew(t, e, p)
	at := func(degrees, start float64, periods int) Settled {
		b := mustBeat(t, &c, c.TorqueFor(SemiDegrees(degrees)), SemiDegrees(start))
		return b.Settle(periods)
	}
	if got := at(3.5, 3, 5); got.Status != Changing || got.Periods != 5 || got.Period == 0 {
		t.Errorf("cut off: %+v", got)
	}
	if got := at(3.5, 3, 0); got.Status != Changing || got.Amplitude != SemiDegrees(3) || got.Rate != 0 {
		t.Errorf("not begun: %+v", got)
	}
	if got := at(2.8, 3, 1e6); got.Status != Short {
		t.Errorf("within the margin: %+v", got)
	}
	if got := at(6, 3, 1e6); got.Status != Trips || got.Amplitude != SemiDegrees(4) {
		t.Errorf("beyond the limit: %+v", got)
	}
	if got := at(3.5, 1, 1e6); got.Status != Stops {
		t.Errorf("let go within the pallets: %+v", got)
	}
	e.Kind = DeadBeat{} // let go on the impulse face, a strong push carries it over
	c = mustNew(t, e, Pendulum{Length: 0.2, Mass: 0.5, Gravity: standardGravity, Quality: 6})
	if got := at(3.9, 2.2, 1e6); got.Status != Runs {
		t.Errorf("started by hand: %+v", got)
	}
}

func TestBadBeats(t *testing.T) {
	e, p := bracketClock(Recoil{})
	c := mustNew(t, e, p)
	nan, inf := math.NaN(), math.Inf(1)
	for _, x := range []struct {
		torque float64
		start  SemiArc
		field  string
	}{
		{-1, 0.05, "torque"}, {nan, 0.05, "torque"}, {inf, 0.05, "torque"}, {1e300, 0.05, "torque"},
		{1e-3, 0, "start"}, {1e-3, -1, "start"}, {1e-3, 1.6, "start"}, {1e-3, SemiArc(nan), "start"},
	} {
		_, err := c.Beats(x.torque, x.start)
		var f Fault
		if !errors.As(err, &f) || f.Field != x.field {
			t.Errorf("%v: %v", x, err)
		}
	}
}

// Clocks at and beyond the limits of what makes one: no NaN, no infinity, and beats that
// end where Status says.
func TestNothingIsNaN(t *testing.T) {
	rnd := rand.New(rand.NewPCG(12, 13))
	qualities := []float64{1, 1.5, 3, 10, 40, 1e3, 1e6, 1e9}
	torques := []float64{0, 1e-12, 0.5, 1, 1 + 1e-9, 1.1, 4, 100, 1e6}
	for range 3000 {
		e, p := random(rnd)
		p.Quality = qualities[rnd.IntN(len(qualities))]
		switch rnd.IntN(4) {
		case 0:
			e.Arc, e.Late, e.Margin = 1e-6, 0, 0
		case 1:
			e.Arc, e.Late, e.Margin = 2*WholeArc(Widest), 0, 0
		}
		if e.Kind == (DeadBeat{}) && rnd.IntN(3) == 0 && e.Arc < 1 {
			e.Late = s1.Angle(e.HalfArc())
		}
		c := mustNew(t, e, p)
		torque := c.LeastTorque() * torques[rnd.IntN(len(torques))]
		g := c.Going(torque)
		r := g.Rate
		finite(t, "average", float64(g.Amplitude), r.Circular, r.Escapement, r.Damping, r.PerDay(), float64(c.Turning(g.Amplitude)), c.EscapementRate(torque))
		start := min(c.limit, float64(e.Reach())*(0.3+1.5*rnd.Float64()))
		b, err := c.Beats(torque, SemiArc(start))
		if err != nil {
			continue // more than 1e6 K
		}
		out := b.Settle(50)
		finite(t, "beats", float64(out.Amplitude), out.Period, out.Rate)
		if out.Status.Goes() && !(out.Amplitude > 0 && out.Period > 0) {
			t.Errorf("%+v", out)
		}
	}
}

// A quality of a million settles too.
func TestHighQualitySettles(t *testing.T) {
	e, p := bracketClock(Recoil{})
	p.Quality = 1e6
	c := mustNew(t, e, p)
	torque := 1.5 * c.LeastTorque()
	a, _ := c.Amplitude(torque)
	got := settled(t, &c, torque)
	if got.Status != Runs {
		t.Errorf("%v after %d periods", got.Status, got.Periods)
	}
	closeTo(t, "amplitude", float64(a), float64(got.Amplitude), 1e-6)
	closeTo(t, "rate", c.Rate(torque).Linear(), got.Rate, 1e-6)
}

// The rate of a dead beat in its second order is not that of the damping alone,
// −1/(8Q²): the impulse has its own, of the same size. Exact beats show it.
func TestDeadBeatSecondOrder(t *testing.T) {
	for _, times := range []float64{1.002, 1.05, 1.5, 4} {
		e, p := bracketClock(DeadBeat{})
		e.Margin, p.Quality = 0, 200
		c := mustNew(t, e, p)
		torque := times * c.LeastTorque()
		exact, free := settled(t, &c, torque).Rate, -1/(8*p.Quality*p.Quality)
		closeTo(t, "second order", c.Rate(torque).Damping, exact, 1e-2)
		if math.Abs(free/exact-1) < 0.1 {
			t.Errorf("%g × the least torque: %g by beats, %g for the damping alone", times, exact, free)
		}
	}
}

func TestStepDoesNotAllocate(t *testing.T) {
	e, p := bracketClock(DeadBeat{})
	c := mustNew(t, e, p)
	torque := 2 * c.LeastTorque()
	b := mustBeat(t, &c, torque, SemiDegrees(4))
	ledger := c.NewLedger(torque)
	for name, f := range map[string]func(){
		"a beat": func() { beatSink = b.Step() },
		"going":  func() { goingSink = c.Going(torque) },
	} {
		if n := testing.AllocsPerRun(100, f); n != 0 {
			t.Errorf("%s: %g allocations", name, n)
		}
	}
	b.Watch(&ledger)
	if n := testing.AllocsPerRun(100, func() { b.Step() }); n != 0 {
		t.Errorf("a recorded beat: %g allocations", n)
	}
}
