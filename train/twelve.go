package train

import "math"

// Run is a strike of some blows from rest.
type Run struct {
	Status StrikeStatus // Strikes, or why not all blows were struck
	Blows  int          // struck
	Blown  float64      // s, from the first blow to the last or, on a stall, to that; 0 when none was struck
	Speed  float64      // rad/s, of the fly then

	opening opening
}

// First is the time (s) from the release to the drop of the first hammer or, where none
// drops, to the stall.
func (r Run) First() float64 { return r.opening.seconds() }

// Seconds is the time (s) from the release to the last blow, or to the stall.
func (r Run) Seconds() float64 { return r.First() + r.Blown }

// opening are the two phases up to the first blow. Few ask how long they take, and a
// logarithm for each costs as much as all the legs after them.
type opening struct {
	strike     *Strike
	free, lift float64 // N·m at the fly
	at, to     float64 // rad/s, as lifting begins and ends; to is 0 on a stall
}

func (o *opening) seconds() float64 {
	s := o.strike
	if s == nil {
		return 0
	}
	free := s.free.tally(o.free)
	seconds := free.phase(0, o.at).Seconds
	if o.to > 0 {
		lift := s.lift.tally(o.lift)
		return seconds + lift.phase(o.at, o.to).Seconds
	}
	return seconds + s.lift.rest(o.lift, o.at)
}

// Phase is the fly's motion under one couple: free, or lifting.
type Phase struct {
	Blow    int     // from 1
	Lifting bool    // else the pin is free
	Stalled bool    // the fly stops at the end, and no hammer drops
	Start   float64 // s since the release
	Seconds float64 // s that it lasts
	Couple  float64 // N·m at the fly
	From    float64 // rad/s at the start
	To      float64 // rad/s at the end

	drag, inertia float64
}

// At is the speed of the fly (rad/s) a time (s) after the start of the phase,
// from 0 to Seconds, in closed form:
//
//	ω = (ω₀ + (T/J) t g)/(1 + ω₀ (c/J) t g)
//
// with g = tanh(z)/z, z = √(cT) t/J; it becomes tan(z)/z for T below 0.
func (p *Phase) At(seconds float64) float64 {
	t := seconds / p.inertia
	g := t * bend(p.drag*p.Couple*t*t)
	return (p.From + p.Couple*g) / (1 + p.From*p.drag*g)
}

// Twelve is a strike of twelve from rest; see Blows.
func (s *Strike) Twelve(torque float64) Run { return s.Blows(torque, 12, nil) }

// Blows strikes the given number of blows from rest with a torque (N·m, above 0
// to 1e9) at the fusee. The count starts at the release, with the pin wheel
// just past the drop of the last pin of its last set, so that the whole of the
// free part of a pitch comes first; it ends as the last hammer drops. The
// recorder, if there is one, gets every phase in order of time.
func (s *Strike) Blows(torque float64, blows int, record func(Phase)) Run {
	pin, free, status := s.freeCouple(torque)
	if status != Strikes {
		return Run{Status: status}
	}
	m := motion{strike: s, free: s.free.tally(free), record: record}
	for m.run.Blows < blows && m.run.Status == Strikes {
		for i := range s.nSets {
			m.blows(s.atFly(pin-s.sets[i].couple), min(s.sets[i].count, blows-m.run.Blows))
		}
	}
	if m.run.Status == Stalls {
		if _, least := s.cycle(pin, free); least > 0 {
			m.run.Status = NeedsRunUp
		}
	}
	m.run.Blown += m.free.seconds()
	return m.run
}

// motion is a strike under way.
type motion struct {
	strike *Strike
	free   tally
	u      float64 // ω²
	record func(Phase)
	clock  float64 // s since the release, of what was recorded
	run    Run
}

// blows strikes n blows alike, or those before it stalls.
func (m *motion) blows(lift float64, n int) {
	if m.run.Status != Strikes {
		return
	}
	s, lifting := m.strike, m.strike.lift.tally(lift)
	u, w := m.u, m.run.Speed
	for range n {
		u1 := s.free.after(u, m.free.couple)
		w1 := math.Sqrt(u1)
		if m.record != nil {
			m.note(m.free.phase(w, w1))
		}
		u = s.lift.after(u1, lift)
		stalls, w2 := !(u > 0), 0.0
		if !stalls {
			w2 = math.Sqrt(u)
		}
		if m.record != nil {
			m.note(m.lifts(&lifting, w1, w2))
		}
		switch {
		case m.run.opening.strike == nil:
			m.run.opening = opening{s, m.free.couple, lift, w1, w2}
		case stalls:
			m.free.add(w, w1)
			m.run.Blown += s.lift.rest(lift, w1)
		default:
			m.free.add(w, w1)
			lifting.add(w1, w2)
		}
		if w = w2; stalls {
			m.run.Status = Stalls
			break
		}
		m.run.Blows++
	}
	m.u, m.run.Speed = u, w
	m.run.Blown += lifting.seconds()
}

// lifts is a leg of lifting, which a fly that comes to rest in it does not end.
func (m *motion) lifts(t *tally, from, to float64) Phase {
	if to > 0 {
		p := t.phase(from, to)
		p.Lifting = true
		return p
	}
	return Phase{Lifting: true, Stalled: true, Seconds: m.strike.lift.rest(t.couple, from), Couple: t.couple, From: from}
}

// phase is one leg by itself.
func (t *tally) phase(from, to float64) Phase {
	one := t.leg.tally(t.couple)
	one.add(from, to)
	return Phase{Seconds: one.seconds(), Couple: t.couple, From: from, To: to}
}

func (m *motion) note(p Phase) {
	p.Blow, p.Start, p.drag, p.inertia = m.run.Blows+1, m.clock, m.strike.drag, m.strike.inertia
	m.record(p)
	m.clock += p.Seconds
}
