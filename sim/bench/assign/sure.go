package assign

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"

	"evenpull/sim"
	"evenpull/sim/rules"

	"github.com/golang/geo/r1"
)

// What the draws take where the readings do not tell it, as shares at two standard
// deviations (common practice, no source).
const (
	unrepeated = 0.01 // how far one run-down may be off as a whole
	carriedBy  = 0.02 // what carrying a spring over to another train adds
	needBy     = 0.05 // a measured need of which no weights tell
	airBy      = 1.4  // times or over: what a fly in still air takes of the torque, where no blows were timed
	heaviest   = 20e6 // steps of the search for a choice that all draws together may take
)

// Draw tells how sure the verdicts and the choice are: torques and needs are drawn, as
// many times as asked for, within what the readings and the weights leave open. It stops
// early when ctx ends, with its error.
func (st *Study) Draw(ctx context.Context, draws int, seed int64) error {
	fewer, more := min(len(st.Springs), len(st.Needs)), max(len(st.Springs), len(st.Needs))
	// Of many springs and trains the choice is made anew in some of the draws only.
	choices := min(draws, max(1, int(heaviest/float64(fewer*more<<fewer))))
	d := &drawn{st: st, trial: Study{Springs: st.Springs, Needs: st.Needs, Pairs: slices.Clone(st.Pairs)},
		counts: make([]sim.Verdicts, len(st.Pairs)), random: rand.New(rand.NewPCG(uint64(seed), 0)),
		spring: make([]float64, len(st.Springs)), standard: make([]rules.Standard, len(st.Needs))}
	best, same := slices.Sorted(slices.Values(st.Best)), 0
	for i := range draws {
		if err := ctx.Err(); err != nil {
			return err
		}
		d.draw()
		if i < choices {
			if other, _, _ := d.trial.cheapest(-1); slices.Equal(slices.Sorted(slices.Values(other)), best) {
				same++
			}
		}
	}
	st.Sure = float64(same) / float64(choices)
	for i := range st.Pairs {
		v := &st.Pairs[i].Verdict
		v.Sureness = d.counts[i].Sureness(v.Code, draws)
	}
	return nil
}

// drawn is the pairs with one draw.
type drawn struct {
	st       *Study
	trial    Study
	counts   []sim.Verdicts // of each pair
	random   *rand.Rand
	spring   []float64 // torque of each over the one read, less the mean's own error
	standard []rules.Standard
}

func (d *drawn) normal(two float64) float64 { return 1 + two/2*d.random.NormFloat64() }

func (d *drawn) draw() {
	for i := range d.spring {
		d.spring[i] = d.random.NormFloat64()
	}
	for k := range d.standard {
		d.standard[k] = d.need(&d.st.Needs[k])
	}
	for i := range d.trial.Pairs {
		p, n := &d.trial.Pairs[i], &d.st.Needs[i%len(d.standard)]
		share := p.Share
		if math.IsNaN(share) {
			share = unrepeated
		}
		by := 1 + share/1.96*d.spring[i/len(d.standard)]
		if p.Carried() {
			by *= d.normal(carriedBy)
		}
		own := &d.st.Pairs[i].Torque
		p.Verdict.Code = d.standard[i%len(d.standard)].Judge(own.Min*by, own.Mean*by)
		p.Off = n.off(own.Mean * by)
		d.counts[i][p.Verdict.Code]++
	}
}

// need draws the need of a train: within what the weights leave open, or about the one
// that the scenario has.
func (d *drawn) need(n *Need) rules.Standard {
	s, u, air := n.Standard, d.random.Float64(), math.Pow(airBy, d.random.NormFloat64()/2)
	if s.Basis == rules.ByCadence && !n.Timed {
		s.Liked = r1.Interval{Lo: s.Liked.Lo * air, Hi: s.Liked.Hi * air}
	}
	switch by := d.normal(needBy); {
	case !n.Weighed:
		s.Need *= by
	case n.Between.Lo > 0 && !math.IsInf(n.Between.Hi, 1):
		s.Need = n.Between.Lo + u*n.Between.Length()
	}
	return s
}
