package escapement

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
)

// tape keeps every leg and beat.
type tape struct {
	legs  []Leg
	beats []Beat
}

func (r *tape) Leg(l Leg)   { r.legs = append(r.legs, l) }
func (r *tape) Beat(b Beat) { r.beats = append(r.beats, b) }

// The legs join without a jump, last as long as the beats, and end where the
// rules of the pallets say; the drag's closed integral is that of the speed.
func TestLegs(t *testing.T) {
	oracleCases(t, func(name string, c *Clock, torque float64) {
		b := mustBeat(t, c, torque, SemiDegrees(6))
		var r tape
		b.Watch(&r)
		for range 20 {
			b.Step()
		}
		sumLegs, sumBeats, drops := 0.0, 0.0, 0
		for i := range r.legs {
			l := &r.legs[i]
			sumLegs += l.Seconds
			x, v := l.At(l.Seconds)
			if i+1 < len(r.legs) {
				next := r.legs[i+1]
				closeTo(t, name+": next angle", next.Angle, x, 1e-12)
				if math.Abs(next.Velocity-v) > 1e-12 {
					t.Errorf("%s: velocity %g, next %g", name, v, next.Velocity)
				}
			}
			if l.Drop {
				drops++
				closeTo(t, name+": drop", math.Abs(x), c.gamma+c.late, 1e-12)
				if x*v <= 0 || l.Couple*v <= 0 {
					t.Errorf("%s: a tooth drops at %g, %g rad/s, under %g N·m", name, x, v, l.Couple)
				}
			}
			drag := c.stiff / (c.pendulum.Quality * c.pendulum.Pulse()) // c = I ω0/Q, I = K/ω0²
			want := drag * quad.Fixed(func(s float64) float64 { _, v := l.At(s); return v * v }, 0, l.Seconds, 30, quad.Legendre{}, 0)
			closeTo(t, name+": drag's work", l.Loss(), want, 1e-10)
		}
		for _, beat := range r.beats {
			sumBeats += beat.Seconds
		}
		closeTo(t, name+": time", sumLegs, sumBeats, 1e-13)
		if len(r.beats) != 20 || drops != 20 || r.beats[19].Arc != b.Arc() {
			t.Errorf("%s: %d beats, %d drops", name, len(r.beats), drops)
		}
	})
}

// The motion obeys its equation: I ẍ = F − Kx − cẋ, by central differences.
func TestLegsObeyTheEquation(t *testing.T) {
	oracleCases(t, func(name string, c *Clock, torque float64) {
		b := mustBeat(t, c, torque, SemiDegrees(5))
		var r tape
		b.Watch(&r)
		b.Step()
		w, q := c.pendulum.Pulse(), c.pendulum.Quality
		for _, l := range r.legs {
			at, h := l.Seconds/3, 1e-5/w
			x, v := l.At(at)
			_, after := l.At(at + h)
			_, before := l.At(at - h)
			want := l.Couple*w*w/c.stiff - w*w*x - w/q*v
			if got := (after - before) / (2 * h); math.Abs(got-want) > 1e-8*w*w {
				t.Errorf("%s: ẍ = %g, want %g", name, got, want)
			}
		}
	})
}

// A run with a recorder is the run without.
func TestWatchingChangesNothing(t *testing.T) {
	oracleCases(t, func(name string, c *Clock, torque float64) {
		a, b := mustBeat(t, c, torque, SemiDegrees(5)), mustBeat(t, c, torque, SemiDegrees(5))
		b.Watch(&tape{})
		for range 100 {
			if a.Step() != b.Step() {
				t.Fatalf("%s differs", name)
			}
		}
		b.Watch(nil)
		if a.Step() != b.Step() {
			t.Errorf("%s differs after", name)
		}
	})
}

// A recorder gets the end, too.
func TestRecordOfTheLast(t *testing.T) {
	e, p := bracketClock(Recoil{})
	c := mustNew(t, e, p)
	b := mustBeat(t, &c, 0.5*c.LeastTorque(), SemiDegrees(2.7))
	var r tape
	b.Watch(&r)
	out := b.Settle(1e6)
	last := r.beats[len(r.beats)-1]
	if out.Status != Stops || last != (Beat{Status: Stops}) || b.Arc() != 0 {
		t.Errorf("%v, last %+v", out.Status, last)
	}
}

// The energy account closes to 1e-9 of a period's loss, period by period, on
// the way to the steady swing and in it; there the pendulum stores nothing and
// recoil gives back what it took.
func TestLedgerCloses(t *testing.T) {
	oracleCases(t, func(name string, c *Clock, torque float64) {
		b := mustBeat(t, c, torque, SemiDegrees(6))
		all := c.NewLedger(torque)
		b.Watch(&all)
		before, worst := all, 0.0
		for period := range 2000 {
			b.Step()
			b.Step()
			if gap := math.Abs(all.Gap() - before.Gap()); !(gap < 1e-9*(all.Viscous-before.Viscous)) {
				t.Fatalf("%s, period %d: %g J of %g unexplained", name, period, gap, all.Viscous-before.Viscous)
			}
			worst = max(worst, math.Abs(all.Gap()-before.Gap())/(all.Viscous-before.Viscous))
			before = all
		}
		t.Logf("%s: %.2g of a period's loss unexplained at worst", name, worst)
		if !(math.Abs(all.Gap()) < 1e-9*all.Viscous) {
			t.Errorf("%s: %g J of %g unexplained", name, all.Gap(), all.Viscous)
		}
		wheel := all.Drop + all.Pallets
		for _, part := range []struct {
			what      string
			got, want float64
		}{{"the wheel's", all.Train, wheel + all.Impulse}, {"drop", all.Drop, 0.15 * all.Train}, {"pallets", all.Pallets, 0.85 * 0.2 * all.Train}} {
			closeTo(t, name+": "+part.what, part.got, part.want, 1e-9)
		}
		if all.Beats != 4000 {
			t.Errorf("%s: %d beats", name, all.Beats)
		}
		steady := c.NewLedger(torque)
		b.Watch(&steady)
		b.Step()
		b.Step()
		closeTo(t, name+": work of a period", steady.Impulse, c.Work(torque), 1e-9)
		closeTo(t, name+": loss of a period", steady.Viscous, steady.Impulse, 1e-9)
		if most := 1e-9 * steady.Impulse; math.Abs(steady.Stored) > most || math.Abs(steady.Beyond) > most {
			t.Errorf("%s: stores %g, recoil %g of %g J", name, steady.Stored, steady.Beyond, steady.Impulse)
		}
	})
}

// A state that jumps between two legs is a gap in the account: the energy of the jump.
func TestLedgerShowsAJump(t *testing.T) {
	oracleCases(t, func(name string, c *Clock, torque float64) {
		b := mustBeat(t, c, torque, SemiDegrees(5))
		var r tape
		b.Watch(&r)
		for range 4 {
			b.Step()
		}
		g := c.NewLedger(torque)
		jump := 0.0
		for i, l := range r.legs {
			if i == 2 {
				l.Velocity += 0.01
				last := &r.legs[i-1]
				jump = l.Energy(0) - last.Energy(last.Seconds)
			}
			if i < 3 {
				g.Leg(l)
			}
		}
		closeTo(t, name+": gap", g.Gap(), -jump, 1e-9)
	})
}
