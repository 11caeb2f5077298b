package escapement

import "math"

// Ledger is a Recorder that keeps account of energy (J), leg by leg: what the
// escape wheel gave and where it went. NewLedger makes one.
type Ledger struct {
	Train   float64 // J, given by the wheel over the half pitches that passed
	Drop    float64 // J, lost in drop
	Pallets float64 // J, lost in the pallets' friction
	Impulse float64 // J, given to the pendulum between the two releases
	Beyond  float64 // J, given back beyond the impulse, less what driving the wheel back or dead faces took: 0 or less
	Viscous float64 // J, lost in drag
	Stored  float64 // J, change of the pendulum's own energy
	Beats   int     // teeth dropped

	pitch, drop, efficiency float64
	reach                   float64
	last                    Leg // the leg before
	begun                   bool
}

// NewLedger is an empty account of a clock at a torque (N·m) at the escape
// wheel.
func (c *Clock) NewLedger(torque float64) Ledger {
	e := &c.escapement
	return Ledger{pitch: torque * math.Pi / float64(e.Teeth), drop: e.Drop, efficiency: e.Efficiency, reach: c.reach}
}

// Leg enters a leg.
func (g *Ledger) Leg(l Leg) {
	end, _ := l.At(l.Seconds)
	inside := 0.0
	if l.Couple*(end-l.Angle) > 0 { // what holds the pendulum back is no impulse
		inside = clamp(end, g.reach) - clamp(l.Angle, g.reach)
	}
	g.Impulse += l.Couple * inside
	g.Beyond += l.Couple * (end - l.Angle - inside)
	g.Viscous += l.Loss()
	g.Stored += l.Energy(l.Seconds) - l.Energy(0)
	if g.begun { // between two legs the state must not jump
		g.Stored += l.Energy(0) - g.last.Energy(g.last.Seconds)
	}
	g.last, g.begun = l, true
	if l.Drop {
		g.Beats++
		g.Train += g.pitch
		g.Drop += g.pitch * g.drop
		g.Pallets += g.pitch * (1 - g.drop) * (1 - g.efficiency)
	}
}

// Beat does nothing: the legs hold all there is to enter.
func (g *Ledger) Beat(Beat) {}

// Gap is what the account does not explain (J): what it was given less drag
// and what is stored. It is a rounding error.
func (g *Ledger) Gap() float64 { return g.Impulse + g.Beyond - g.Viscous - g.Stored }

func clamp(x, most float64) float64 { return min(max(x, -most), most) }
