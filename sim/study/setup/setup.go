// Package setup finds the set-up of a spring that makes the torque of a train most even, and
// whether another one than the present is advised. The set-up is the turns left in the spring
// when the fusee has run down. Set-ups are whole clicks of the ratchet: no other can be had,
// and every one with which the fusee can be wound fully is run. Uneven is the unevenness,
// (greatest − least)/mean of the torque over the run. What is advised goes by package rules;
// terms are those of package sim.
package setup

import (
	"context"
	"errors"
	"fmt"
	"math"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/study/sure"
	"evenpull/sim/vary"

	"github.com/golang/geo/r1"
)

const (
	near   = 1.1   // times the best unevenness that is still called near it
	trifle = 0.001 // unevenness that nobody could tell from a better one
)

// Study is the search carried out.
type Study struct {
	Now     sim.Digest  // as it is set up
	Best    sim.Digest  // the least uneven that leaves the turns to spare; where none does, the least uneven
	Advised *sim.Digest // what is advised in place of the present set-up; nil: nothing
	Finding rules.Finding
	Range   r1.Interval  // set-up turns about Best that leave turns to spare as it does and keep the unevenness within 10 % of it, or below 0.1 % (common practice, no source)
	Most    float64      // turns of set-up with which the fusee can just be wound
	Curve   []sim.Digest // at every click, from no set-up to Most
}

// ErrNoRoom tells that the fusee takes more turns of the spring than there are.
var ErrNoRoom = errors.New("the fusee takes more turns of the spring than it has: with any set-up the spring binds before the fusee is wound")

// Run tries every click with which the train with the given number can be built and its
// fusee wound fully. It fails when the scenario as it is cannot be run, with ErrNoRoom,
// and with the error of ctx.
func Run(ctx context.Context, s *scenario.Scenario, number int) (*Study, error) {
	m, err := vary.New(s, number, vary.Length, s.Trains[number].Name+".barrel.set_up_turns")
	if err != nil {
		return nil, err
	}
	return Of(ctx, m)
}

// Of is Run of a model in which nothing but the set-up varies.
func Of(ctx context.Context, m *vary.Model) (*Study, error) {
	_, now := m.Own()
	st := &Study{Now: *now}
	if err := st.most(m); err != nil {
		return nil, err
	}
	if err := st.curve(ctx, m); err != nil {
		return nil, err
	}
	st.best()
	st.advise()
	return st, nil
}

// most finds the greatest set-up: what the spring has beyond the turns that the
// fusee takes, which do not depend on the set-up.
func (st *Study) most(m *vary.Model) error {
	r, err := m.Run([]float64{0})
	if err != nil {
		return err
	}
	if st.Most = r.Spring.Available - r.Spring.Used; r.TurnsLost > 0 || st.Most <= 0 {
		return fmt.Errorf("%w (it has %.3g)", ErrNoRoom, r.Spring.Available)
	}
	return nil
}

// curve tries the clicks; those with which the train cannot be built are left out.
func (st *Study) curve(ctx context.Context, m *vary.Model) error {
	clicks := st.Now.Clicks
	all := make([]*sim.Digest, Clicks(st.Most, clicks))
	err := m.Each(ctx, len(all), func(m *vary.Model, i int) {
		if r, err := m.Run([]float64{float64(i) / clicks}); err == nil {
			d := r.Digest
			all[i] = &d
		}
	})
	for _, d := range all {
		if d != nil {
			st.Curve = append(st.Curve, *d)
		}
	}
	return err
}

// spares tells whether a set-up leaves the turns to spare.
func (st *Study) spares(d *sim.Digest) bool { return st.Now.Advice.Spares(d.Spare()) }

// best finds the least uneven set-up, and the range about it. The present one
// stands where none is less uneven, as by an even cone, cut for it.
func (st *Study) best() {
	at := 0
	for i := range st.Curve {
		if MoreEven(&st.Curve[i], &st.Curve[at]) {
			at = i
		}
	}
	st.Best = st.Curve[at]
	if now := &st.Now; now.TurnsLost == 0 && st.spares(now) == st.spares(&st.Best) && now.Torque.Unevenness <= st.Best.Torque.Unevenness {
		st.Best = *now
	}
	st.Range = st.about(at)
}

// about is the range about the best, which is at a click of the curve or next to it.
func (st *Study) about(at int) r1.Interval {
	worst := math.Max(near*st.Best.Torque.Unevenness, trifle)
	as := func(i int) bool {
		return i >= 0 && i < len(st.Curve) && st.Curve[i].Torque.Unevenness <= worst && st.spares(&st.Curve[i]) == st.spares(&st.Best)
	}
	r := r1.IntervalFromPoint(st.Best.Spring.SetUp)
	for i := at; as(i); i-- {
		r = r.AddPoint(st.Curve[i].Spring.SetUp)
	}
	for i := at; as(i); i++ {
		r = r.AddPoint(st.Curve[i].Spring.SetUp)
	}
	return r
}

// advise looks whether the set-up that the rules prefer is advised in place of the
// present one.
func (st *Study) advise() {
	advice, now, best := &st.Now.Advice, st.Now.Standing(), st.Best.Standing()
	st.Finding = advice.AnotherSetUp(&now, &best)
	to := st.Curve[Preferred(st.Curve)]
	then := to.Standing()
	if f := advice.AnotherSetUp(&now, &then); f.Advised {
		st.Finding, st.Advised = f, &to
	}
}

// Trifling tells whether the range is one of set-ups that nobody could tell from
// the best, rather than those within 10 % of it.
func (st *Study) Trifling() bool { return near*st.Best.Torque.Unevenness < trifle }

// First is what is to be done first for the train.
func (st *Study) First() rules.Step {
	now, then := st.Now.Standing(), st.Best.Standing()
	if st.Advised != nil {
		then = st.Advised.Standing()
	}
	return st.Now.Advice.First(&now, &then)
}

// Sure tells of the present set-up, the best and the one advised how sure their verdicts
// are. It fails with the errors of sure.Of.
func (st *Study) Sure(ctx context.Context, s *scenario.Scenario, number int, o sure.Options) (err error) {
	if st.Now.Verdict.Sureness, err = sure.Of(ctx, s, number, o); err == nil {
		err = st.sureOf(ctx, s, number, o, &st.Best, st.Advised)
	}
	return err
}

// SureToDo is Sure of the present set-up and, without what decides, of the one advised: the
// best is left out where it is neither.
func (st *Study) SureToDo(ctx context.Context, s *scenario.Scenario, number int, o sure.Options) (err error) {
	if st.Now.Verdict.Sureness, err = sure.Of(ctx, s, number, o); err == nil && st.Advised != nil {
		o.Brief = true
		err = st.sureOf(ctx, s, number, o, st.Advised)
	}
	return err
}

func (st *Study) sureOf(ctx context.Context, s *scenario.Scenario, number int, o sure.Options, list ...*sim.Digest) (err error) {
	o.Anew = true
	for _, d := range list {
		switch {
		case d == nil:
		case d.Spring.SetUp == st.Now.Spring.SetUp:
			d.Verdict.Sureness = st.Now.Verdict.Sureness
		case d == st.Advised && d.Spring.SetUp == st.Best.Spring.SetUp && st.Best.Verdict.Sureness.Draws > 0:
			d.Verdict.Sureness = st.Best.Verdict.Sureness
		default:
			d.Verdict.Sureness, err = sure.Variant(ctx, s, number, o, func(t *scenario.Train) { t.Barrel.SetUpTurns = d.Spring.SetUp })
			if err != nil {
				return err
			}
		}
	}
	return nil
}
