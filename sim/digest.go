package sim

import (
	"math"
	"reflect"

	"evenpull/fusee"
	"evenpull/fusee/mainspring"
	"evenpull/sim/rules"

	"github.com/golang/geo/r1"
	"github.com/golang/geo/s1"
)

// Digest is what a run-down came to, without its rows: all that a study keeps of
// a run. It is a value that refers to nothing. SI, but for hours; NaN where
// something does not apply.
type Digest struct {
	Setting
	Verdict      Verdict
	Faults       Faults
	TurnsLost    float64 // fusee turns that the binding spring does not let be wound
	Torque       Summary // N·m at the fusee arbor
	Need         Need
	Spring       Spring
	Line         Line
	Swing        Swing
	Cadence      Cadence
	Over         Over
	HoursPerTurn float64 // hours, of a fusee turn
	Runtime      float64 // hours, from the start of the run to its end whether it goes or not
	StopsAt      float64 // first turn at which the torque is below the need; NaN
}

// Where is the digest of a run where there was one, else nil.
func (d *Digest) Where(ran bool) *Digest {
	if !ran {
		return nil
	}
	return d
}

// Setting is what the train was when it was run, as far as judging and telling of
// the run refers to it.
type Setting struct {
	Name        string // of the train
	Kind        Kind
	Escapes     bool // there are escapement and pendulum
	Strikes     bool // there are hammers and fly
	Standard    rules.Standard
	Advice      rules.Advice
	Turns       float64     // of the fusee
	Clicks      float64     // of the set-up ratchet in a turn
	Margin      s1.Angle    // semi-arc wanted beyond half the escaping arc
	Reach       s1.Angle    // semi-arc that the pallets need to pass a tooth
	Widest      s1.Angle    // semi-arc that no torque passes, since recoil or dead faces take all; +Inf
	Rubs        bool        // dead faces rub
	TripsAt     s1.Angle    // semi-arc that trips the escapement; 0 when not known
	Allows      s1.Angle    // that, or what is taken for it
	Quality     float64     // of the pendulum; 0 without one
	Wanted      r1.Interval // s from blow to blow; empty when not
	StrikesFrom float64     // N·m from which on it strikes from rest
	Hurries     bool        // on any torque it strikes faster than is wanted
	Drag        float64     // coefficient of the fly; NaN without one
	Timed       bool        // inferred from a timed strike
	Untimed     bool        // that of any fly, since nothing tells it
	BarrelRoom  float64     // m, for the line
	Breaking    float64     // N, of the line; 0 when not known
	FleetMax    s1.Angle    // 0 when not known
	Form        mainspring.Form
	Yield       float64   // Pa, of a strip that sets
	ByCoils     bool      // that stress follows from the coils it shows lying free
	Counted     bool      // its turns from rest to solid were counted
	ArborRatio  float64   // diameter of the arbor over thickness of the strip
	Computed    bool      // the cone is computed, not one that was cut
	ConeDoubt   float64   // how far its radius may be off between few points, a share as two standard deviations
	Slowing     [2]string // an arbor that turns more slowly than the one that drives it, and that one; "": none
}

// Verdict is the judgement of a run; package words has its reasons.
type Verdict struct {
	Code     rules.Code
	LoadsOff rules.Code // what it would be with every load off; Unjudged where there are none
	Sureness Sureness   // where it was asked for; see package sure
}

// Over is how quantities of the rows vary over the run, taken at quarter turns.
type Over struct {
	SpringTorque  Spread // N·m
	LineTension   Spread // N
	WindingTorque Spread // N·m
	LastTorque    Spread // N·m, at the last arbor
}

// set notes what the train is, for a need.
func (s *Setting) set(t *Train, need float64) {
	d := &t.Drive
	s.Name, s.Kind, s.Escapes, s.Strikes = t.Name, t.Kind, t.Escapes, t.Strikes
	s.Standard, s.Advice = t.Standard(need), t.Advice
	s.Turns, s.Clicks, s.Computed, s.Slowing = d.Cone.Turns, t.Clicks, d.Cone.Shape != fusee.Cut, t.slowing()
	s.BarrelRoom, s.Breaking, s.FleetMax = d.Barrel.Length, d.Line.Breaking, d.Line.FleetMax
	s.Form, s.Yield, s.ArborRatio = d.Spring.Form, d.Spring.Yield, 2*d.Housing.Arbor/d.Spring.Thickness
	s.ByCoils, s.Counted, s.ConeDoubt = t.ByCoils, t.Counted, t.ConeDoubt
	s.Wanted, s.StrikesFrom, s.Drag = r1.EmptyInterval(), math.NaN(), math.NaN()
	s.Timed, s.Untimed = t.Timed, t.Untimed
	if t.Escapes {
		e := &t.Escapement
		s.Margin, s.Reach, s.Widest = s1.Angle(e.Margin), s1.Angle(e.Reach()), s1.Angle(e.Widest())
		s.Rubs = e.DeadFriction > 0
		s.TripsAt, s.Allows, s.Quality = s1.Angle(e.Limit), s1.Angle(e.Allows()), t.Pendulum.Quality
	}
	if t.Strikes {
		s.Wanted, s.StrikesFrom, s.Hurries = t.Striker.wanted, t.Striker.least, t.Striker.hurries
		s.Drag = t.Striker.DragCoefficient()
	}
}

// Standard is what the train is judged by when it needs a torque (N·m; NaN when
// that is not known).
func (t *Train) Standard(need float64) rules.Standard {
	liked, cadence := r1.EmptyInterval(), r1.EmptyInterval()
	if t.Kind == Striking {
		liked = t.Demand.Band
	}
	if t.Strikes && !t.Striker.wanted.IsEmpty() {
		cadence = r1.Interval{Lo: t.Striker.slow, Hi: t.Striker.fast}
	}
	return rules.NewStandard(need, t.Bands, liked, cadence)
}

// slowing is the first arbor that turns more slowly than the one that drives it,
// and that one.
func (t *Train) slowing() (names [2]string) {
	for i := 1; i < len(t.Arbors); i++ {
		if t.Wheels.Speed(i) < t.Wheels.Speed(i-1) {
			return [2]string{t.Arbors[i], t.Arbors[i-1]}
		}
	}
	return names
}

// Reserve is a torque (N·m) over the least needed; NaN when that is not known.
func (d *Digest) Reserve(torque float64) float64 { return torque / d.Need.Used }

// Left are the turns that the spring has to spare when the fusee is wound; 0 where
// it binds before that.
func (d *Digest) Left() float64 {
	return max(d.Spring.Available-d.Spring.SetUp-d.Spring.Used, 0)
}

// Reckoned are the turns of the spring that rules go by: those counted from rest to solid
// where they were, else those of ideal packing.
func (d *Digest) Reckoned() float64 {
	if d.Counted {
		return d.Spring.Available
	}
	return d.Spring.Ideal
}

// Spare are the turns of Reckoned that are left when the fusee is wound; 0 where none are.
func (d *Digest) Spare() float64 { return max(d.Reckoned()-d.Spring.SetUp-d.Spring.Used, 0) }

// Standing is what advice is given on.
func (d *Digest) Standing() rules.Standing {
	return rules.Standing{
		Code: d.Verdict.Code, Faults: d.Faults.Count(), Unevenness: d.Torque.Unevenness, Spare: d.Spare(), Clicks: d.Spring.SetUp * d.Clicks,
	}
}

// Margins tell how far the run is from each limit of its verdict: see
// rules.Standard.Margins.
func (d *Digest) Margins() [4]float64 { return d.Standard.Margins(d.Torque.Min, d.Torque.Mean) }

// Unknown is a digest of which nothing is known yet: every figure is NaN.
func Unknown() Digest {
	var d Digest
	unknown(reflect.ValueOf(&d).Elem())
	d.Wanted, d.Standard.Liked = r1.EmptyInterval(), r1.EmptyInterval()
	return d
}

func unknown(v reflect.Value) {
	switch v.Kind() {
	case reflect.Float64:
		v.SetFloat(math.NaN())
	case reflect.Struct:
		for i := range v.NumField() {
			unknown(v.Field(i))
		}
	}
}

// JudgeBy judges the run by another standard than the train's own.
func (d *Digest) JudgeBy(s rules.Standard) {
	d.Standard = s
	d.judge()
}

// judge sets the verdict, also as it would be with every load off.
func (d *Digest) judge() {
	d.Verdict = Verdict{Code: d.Standard.Judge(d.Torque.Min, d.Torque.Mean)}
	if d.Need.Beyond {
		d.Verdict.Code = rules.AtBestThin(d.Verdict.Code)
	}
	if d.Standard.Basis == rules.ByReserve && d.Need.LoadsOff < d.Need.Used {
		off := d.Standard
		off.Need = max(d.Need.LoadsOff, 0)
		d.Verdict.LoadsOff = off.Judge(d.Torque.Min, d.Torque.Mean)
	}
}

// GoesFor are the fusee turns of the run that the train goes or strikes: up to
// where it stops first by the need it is judged by.
func (d *Digest) GoesFor() float64 {
	if !math.IsNaN(d.StopsAt) {
		return max(d.StopsAt-d.TurnsLost, 0)
	}
	return d.Turns - d.TurnsLost
}

// HoursGoing are the hours that it goes before it stops or has run down; NaN when
// hours are not known.
func (d *Digest) HoursGoing() float64 { return d.GoesFor() * d.HoursPerTurn }
