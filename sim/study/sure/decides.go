package sure

import (
	"cmp"
	"context"
	"math"
	"slices"
	"sync/atomic"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/vary"

	"gonum.org/v1/gonum/stat"
)

// What decides is looked for among the draws already made. How far a run is from each
// limit of its verdict follows the places of the inputs nearly as a sum of parabolas, one
// for each input: from these it is seen at once what a set of inputs known exactly would
// make of every draw. What is told is then made sure of by running again the draws that
// come near a limit.

// response is what one part does to the logarithms of the torques over the limits.
type response struct{ slope, bend [4]float64 }

// surrogate is the logarithms of the torques over the limits, as they follow the places.
type surrogate struct {
	st     *study
	middle [4]float64
	parts  []response
	first  []int        // place of the first part of each input, and past the last
	total  [][4]float64 // of every draw
	off    [4]float64   // how far from them most draws were
	odd    []bool       // draws that were further, or judged otherwise than their torques tell
}

func (st *study) surrogate() *surrogate {
	g := &surrogate{st: st, first: []int{0}, parts: make([]response, st.parts), total: make([][4]float64, st.runs), odd: make([]bool, st.runs)}
	d := st.tried[0]
	places := make([]float64, st.parts)
	at := func(k int, place float64) [4]float64 {
		places[k] = place
		defer func() { places[k] = 0 }()
		r, err := d.Run(places, nil)
		if err != nil {
			return g.middle
		}
		return logs(&r.Digest)
	}
	g.middle = logs(st.own)
	if r, err := d.Run(places, nil); err == nil {
		g.middle = logs(&r.Digest)
	}
	for k := range g.parts {
		// As far as matters of what is normal, and short of the ends of what is even.
		up, down := at(k, 1), at(k, -1)
		for j := range g.middle {
			g.parts[k].slope[j] = finite((up[j] - down[j]) / 2)
			g.parts[k].bend[j] = finite((up[j]+down[j])/2 - g.middle[j])
		}
	}
	for i := range st.inputs {
		g.first = append(g.first, g.first[i]+len(st.inputs[i].Parts))
	}
	g.compare()
	return g
}

// most is the share of the draws that the sums are to be near.
const most = 0.98

// compare holds the sums against what every draw came to.
func (g *surrogate) compare() {
	off := make([][]float64, len(g.off))
	for draw := range g.total {
		g.total[draw] = g.middle
		for i := range g.st.inputs {
			g.add(&g.total[draw], draw, i, 1)
		}
		for j := range off {
			off[j] = append(off[j], finite(math.Abs(g.st.logs[draw][j]-g.total[draw][j])))
		}
	}
	for j := range off {
		g.off[j] = stat.Quantile(most, stat.Empirical, slices.Sorted(slices.Values(off[j])), nil)
	}
	for draw := range g.odd {
		g.odd[draw] = g.st.codes[draw] != g.code(g.st.logs[draw])
		for j := range off {
			g.odd[draw] = g.odd[draw] || off[j][draw] > g.off[j]
		}
	}
}

// logs are the logarithms of the torques over the limits of the verdict; NaN for a limit
// that is not known.
func logs(d *sim.Digest) (l [4]float64) {
	for j, m := range d.Margins() {
		l[j] = math.Log1p(m)
	}
	return l
}

func finite(v float64) float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return 0
	}
	return v
}

// add adds to l what an input adds in a draw, its error a share of itself.
func (g *surrogate) add(l *[4]float64, draw, input int, scale float64) {
	places := g.st.at(draw)
	for k := g.first[input]; k < g.first[input+1]; k++ {
		x := places[k] * scale
		for j := range l {
			l[j] += (g.parts[k].slope[j] + g.parts[k].bend[j]*x) * x
		}
	}
}

// with is a draw with the error of each input a share of itself.
func (g *surrogate) with(draw int, scale []float64) [4]float64 {
	l := g.total[draw]
	for i, share := range scale {
		if share == 1 {
			continue
		}
		var own [4]float64
		g.add(&own, draw, i, 1)
		for j := range l {
			l[j] -= own[j]
		}
		if share != 0 {
			g.add(&l, draw, i, share)
		}
	}
	return l
}

// code is the verdict that logs tell.
func (g *surrogate) code(l [4]float64) rules.Code {
	code := rules.ByMargins(l)
	if g.st.own.Need.Beyond {
		code = rules.AtBestThin(code)
	}
	return code
}

// clear tells whether a draw with these logs is further from every limit than it can be from
// the sums.
func (g *surrogate) clear(draw int, l [4]float64) bool {
	if g.odd[draw] {
		return false
	}
	for j := range l {
		if math.Abs(l[j]) <= g.off[j] {
			return false
		}
	}
	return true
}

// guess is about the share of the same verdict, with the error of each input a share of
// itself.
func (g *surrogate) guess(scale []float64) float64 {
	same := 0
	for draw := range g.total {
		if g.code(g.with(draw, scale)) == g.st.own.Verdict.Code {
			same++
		}
	}
	return float64(same) / float64(g.st.runs)
}

// share is the share of the same verdict among the same draws, with the error of each input
// a share of itself: to a draw in a thousand, since those that are clear are not run again.
func (g *surrogate) share(ctx context.Context, scale []float64) (float64, error) {
	var same atomic.Int64
	st := g.st
	err := st.each(ctx, func(d *vary.Drawer, _, from, to int) {
		for i := from; i < to; i++ {
			l := g.with(i, scale)
			code := g.code(l)
			if !g.clear(i, l) {
				code, _ = judged(d, st.at(i), scale)
			}
			if code == st.own.Verdict.Code {
				same.Add(1)
			}
		}
	})
	return float64(same.Load()) / float64(st.runs), err
}

// foremost is the number of inputs among which sets are looked for.
const foremost = 8

// worthwhile is how much surer a verdict is to become for an input to be told where it
// does not make it sure enough.
const worthwhile = 0.01

// decides finds the input whose exact knowledge makes surest, and the smallest set of at
// most three with which the verdict is sure enough; same is how sure it is now. None
// comes back where three are not enough and no input alone makes it worthwhile.
func (st *study) decides(ctx context.Context, same float64) (sim.Decides, error) {
	g := st.surrogate()
	order := make([]int, len(st.inputs))
	alone := make([]float64, len(st.inputs))
	for i := range order {
		order[i], alone[i] = i, g.guess(st.knowing([]int{i}))
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(alone[b], alone[a]) })
	order = order[:min(foremost, len(order))]
	if len(order) == 0 {
		return sim.Decides{}, nil
	}
	var d sim.Decides
	var err error
	if d.Alone, err = g.share(ctx, st.knowing(order[:1])); err != nil {
		return d, err
	}
	set := order[:1]
	d.All = d.Alone
	for size := 2; size <= len(d.Inputs) && d.All < sim.SureEnough; size++ {
		set = g.surest(order, size)
		if d.All, err = g.share(ctx, st.knowing(set)); err != nil {
			return d, err
		}
	}
	if d.All < sim.SureEnough { // out of reach: the first is the one to begin with, if it helps at all
		if set = set[:1]; d.Alone < same+worthwhile {
			return sim.Decides{}, nil
		}
	}
	for n, i := range set {
		d.Inputs[n] = st.decider(i)
	}
	if len(set) == 1 && d.Alone >= sim.SureEnough {
		d.Inputs[0].Within, err = st.within(ctx, g, set[0])
	}
	return d, err
}

// surest is the set of a size, the first of the order among them, with which the verdict
// is surest.
func (g *surrogate) surest(order []int, size int) []int {
	var best []int
	most := -1.0
	var pick func(set []int, rest []int)
	pick = func(set, rest []int) {
		if len(set) == size {
			if s := g.guess(g.st.knowing(set)); s > most {
				best, most = slices.Clone(set), s
			}
			return
		}
		for k, i := range rest {
			pick(append(set[:len(set):len(set)], i), rest[k+1:])
		}
	}
	pick(order[:1:1], order[1:])
	return best
}

// knowing is the scale of the errors with some inputs known exactly.
func (st *study) knowing(inputs []int) []float64 {
	scale := make([]float64, len(st.inputs))
	for i := range scale {
		if !slices.Contains(inputs, i) {
			scale[i] = 1
		}
	}
	return scale
}

func (st *study) decider(input int) sim.Decider {
	in := &st.inputs[input]
	e, value := in.Parts[0].Error, in.Parts[0].Value
	d := sim.Decider{Key: in.Key, Words: in.Words, Unit: in.Unit, Within: math.NaN(), Times: e.Times > 1, Assumed: in.Assumed, Now: e.Times}
	if !d.Times {
		lo, hi := e.Around(value)
		d.Now = (hi - lo) / 2
	}
	return d
}

// within is how well an input would have to be known for the sureness wanted, if that
// alone is enough: the widest error, rounded down to a figure that can be said.
func (st *study) within(ctx context.Context, g *surrogate, input int) (float64, error) {
	all := st.knowing([]int{input})
	scale := 1.0
	for all[input] = scale; g.guess(all) < sim.SureEnough && scale > 1.0/8; all[input] = scale {
		scale *= 0.9
	}
	d := st.decider(input)
	for ; scale > 1.0/8; scale *= 0.8 {
		within := d.Now * scale
		if d.Times {
			within = math.Pow(d.Now, scale)
		}
		said := roundDown(within, d.Times)
		if all[input] = said / d.Now; d.Times {
			all[input] = math.Log(said) / math.Log(d.Now)
		}
		if s, err := g.share(ctx, all); err != nil || s >= sim.SureEnough {
			return said, err
		}
	}
	return math.NaN(), nil
}

// roundDown rounds to a figure of one digit, or two that begin with 1; of a factor what is
// above 1.
func roundDown(v float64, factor bool) float64 {
	if factor {
		return 1 + roundDown(v-1, false)
	}
	unit := math.Pow(10, math.Floor(math.Log10(v)))
	if v < 2*unit {
		unit /= 10
	}
	return math.Floor(v/unit+1e-9) * unit
}
