package assign

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"

	"evenpull/sim"
	"evenpull/sim/bench/book"
	"evenpull/sim/bench/measure"
	"evenpull/sim/bench/readings"
	"evenpull/sim/rules"

	"github.com/golang/geo/r1"
)

// weighed are the needs that weights tell where there is no scenario.
func (st *Study) weighed(b *book.Book) {
	weighed := measure.Of(b, readings.StandardGravity).Needs
	for i := range weighed {
		w := &weighed[i]
		if math.IsNaN(w.Bracket.Least) {
			continue
		}
		n := Need{Train: w.Train, Need: sim.Unknown().Need, Between: w.Bracket.Between, Weighed: true, advice: rules.DefaultAdvice(), wanted: r1.EmptyInterval()}
		n.Need.Measured, n.Need.Used = w.Bracket.Least, w.Bracket.Least
		timed := r1.EmptyInterval()
		if w.Cadence != nil {
			n.wanted = readings.Wanted(nil, w.Train)
			timed = timedBy(w, n.wanted)
		}
		n.Standard = rules.NewStandard(n.Need.Used, rules.DefaultBands(), w.Likes(), timed)
		st.Needs = append(st.Needs, n)
	}
}

// timedBy are the torques (N·m) that were found to strike as fast as wanted; empty
// where the trials do not tell.
func timedBy(w *measure.Need, wanted r1.Interval) r1.Interval {
	slow, fast := w.TorqueFor(wanted.Hi), w.TorqueFor(wanted.Lo)
	if slow.How == measure.Unknown || fast.How == measure.Unknown {
		return r1.EmptyInterval()
	}
	return r1.Interval{Lo: slow.Torque, Hi: math.Max(slow.Torque, fast.Torque)}
}

// asRead judges every spring in every train by its readings as they stand.
func (st *Study) asRead(read *readings.Study) {
	for i, label := range st.Springs {
		for k := range st.Needs {
			n := &st.Needs[k]
			sp := read.Find(label, n.Train)
			if sp == nil {
				sp = &read.Springs[slices.IndexFunc(read.Springs, func(s readings.Spring) bool { return s.Spring == label })]
			}
			p := &st.Pairs[i*len(st.Needs)+k]
			*p = Pair{Digest: sim.Unknown(), Label: label, Train: n.Train, ReadIn: sp.Train, share: sp.Mean.HalfWidth / sp.Mean.Value}
			p.Name, p.Need, p.Wanted, p.Advice = n.Train, n.Need, n.wanted, n.advice
			p.take(sp, n.Standard.Limits()[0])
			p.JudgeBy(n.Standard)
			p.Off = n.off(p.Torque.Mean)
		}
	}
}

// take sets the torques that were read, and where the train first stops by them.
func (p *Pair) take(sp *readings.Spring, stops float64) {
	nan := math.NaN()
	p.Torque = sim.Summary{Mean: sp.Mean.Value, Min: sp.Min, Max: sp.Max, Unevenness: sp.Unevenness, MinAt: nan, MaxAt: nan, CV: nan}
	for i := len(sp.Turns) - 1; i >= 0; i-- {
		t := &sp.Turns[i]
		if t.Mean == sp.Min {
			p.Torque.MinAt = float64(t.FuseeTurn)
		}
		if t.Mean < stops {
			p.StopsAt = float64(t.FuseeTurn)
		}
	}
	if len(sp.Turns) > 0 && sp.Turns[0].FuseeTurn == 0 { // read fully wound
		p.TurnsLost = 0
	}
}

// unrepeated is how far one run-down may be off as a whole, a share at two standard
// deviations (common practice, no source).
const unrepeated = 0.01

// drawRead draws where there is no scenario: torques within their intervals, needs within
// what the weights leave open.
func (st *Study) drawRead(ctx context.Context, all []outcome, seed int64) error {
	random := rand.New(rand.NewPCG(uint64(seed), 0))
	n := len(st.Needs)
	torques, standards := make([]float64, len(st.Springs)), make([]Need, n)
	for from := 0; from < len(all); from += len(st.Pairs) {
		if err := ctx.Err(); err != nil {
			return err
		}
		for i := range torques {
			torques[i] = random.NormFloat64()
		}
		for k := range standards {
			standards[k] = st.Needs[k]
			standards[k].draw(random)
		}
		for i := range st.Pairs {
			p, to := &st.Pairs[i], &standards[i%n]
			share := p.share
			if math.IsNaN(share) {
				share = unrepeated
			}
			by := 1 + share/1.96*torques[i/n]
			all[from+i] = outcome{code: to.Standard.Judge(p.Torque.Min*by, p.Torque.Mean*by), off: st.Needs[i%n].off(p.Torque.Mean * by)}
		}
	}
	return nil
}

// draw draws the need within what the weights leave open, where two bound it.
func (n *Need) draw(random *rand.Rand) {
	if u := random.Float64(); n.Between.Lo > 0 && !math.IsInf(n.Between.Hi, 1) {
		n.Standard.Need = n.Between.Lo + u*n.Between.Length()
	}
}
