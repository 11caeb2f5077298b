package chart

import (
	"io"
	"math"

	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/show/words"
	"evenpull/sim/study/sweep"

	"github.com/golang/geo/r1"
)

// Sweep draws a sweep: over one input the result that it is of, with the verdicts
// behind it, and torque, reserve, unevenness and arc or cadence in panels of their
// own; over two a map of the result with the borders of the verdicts.
func Sweep(w io.Writer, format string, st *sweep.Study) error {
	if st.Against != nil {
		return stack(w, format, sweepMap(st))
	}
	return stack(w, format, sweepPanels(st)...)
}

// What the scenario's own point is called, and an axis.
const (
	asItIs      = "as the scenario has it"
	unevenLabel = "unevenness, %"
)

// sweepPanels are those of a sweep over one input.
func sweepPanels(st *sweep.Study) []*panel {
	first := overInput(st, st.Of.Label(), st.Of.Name)
	torque := overInput(st, torqueLabel, outcome.LeastTorque, outcome.MostTorque, outcome.MeanTorque, "least_torque_nm.used")
	least, most, mean, need := torque.layers[0], torque.layers[1], torque.layers[2], torque.layers[3]
	torque.layers = []layer{
		area("from the least to the greatest", least.points, most.points),
		line(mean.label, curves[0], mean.points), line(need.label, needLine, need.points),
	}
	panels := []*panel{first, torque}
	if st.Of.Name == outcome.MeanTorque {
		first, panels = torque, panels[1:]
	}
	first.title, first.stripes, first.height = words.SweepTitle(st), sweepStripes(st), highPanel
	own := &st.Own
	if st.Over.Holds() {
		first.add(mark(asItIs, nowMark, own.Value, st.Of.Shown(st.Result(own))))
	}
	if !math.IsNaN(own.Need.Used) {
		p := overInput(st, "reserve", outcome.MeanReserve, outcome.LeastReserve)
		if s := &own.Standard; s.Basis == rules.ByReserve {
			p.add(level("thin: least below", limits[0], s.Bands.Thin), level("strong: mean above", limits[1], s.Bands.Suits))
		}
		panels = append(panels, p)
	}
	if st.Of.Name != outcome.Unevenness {
		panels = append(panels, overInput(st, unevenLabel, outcome.Unevenness))
	}
	if own.Escapes {
		arc := overInput(st, "semi-arc, degrees", "amplitude_deg.mean")
		panels = append(panels, arc.add(level(leastWanted, limits[0], leastArc(st.Train))))
	}
	if own.Strikes {
		panels = append(panels, overInput(st, "s from blow to blow", "blow_interval_s.mean").add(wanted(own.Digest)...))
	}
	return panels
}

// overInput is a low panel of results over the input.
func overInput(st *sweep.Study, y string, names ...string) *panel {
	return &panel{x: words.InputLabel(&st.Over.Quantity), y: y, height: lowPanel, xs: r1.Interval{Lo: st.Over.From, Hi: st.Over.To},
		layers: resultLines(st.Points, func(p *sweep.Point) (x float64, d *sim.Digest) { return p.Value, p.Run() }, names...)}
}

// resultLines are lines of results, in their words, over a list of runs; broken where a run
// could not be carried out.
func resultLines[T any](list []T, of func(*T) (x float64, d *sim.Digest), names ...string) []layer {
	lines := make([]layer, len(names))
	for i, name := range names {
		f, _ := outcome.Named(name)
		lines[i] = line(f.Words, curves[i%len(curves)], points(list, func(t *T) (x, y float64) {
			x, d := of(t)
			if d == nil {
				return x, math.NaN()
			}
			return x, f.Shown(f.Of(d))
		}))
	}
	return lines
}

// sweepStripes are the ranges of one verdict, and those that cannot be built.
func sweepStripes(st *sweep.Study) (stripes []shade) {
	for _, s := range st.Stretches() {
		stripe := judged(s.Code, s.From, s.To)
		if !s.Built {
			stripe.name = "cannot be built"
		} else if s.Code == rules.Unjudged {
			continue // nothing to shade by
		}
		stripes = append(stripes, stripe)
	}
	return stripes
}

// sweepMap is a map of the result over two inputs, with the borders of the verdicts.
func sweepMap(st *sweep.Study) *panel {
	a, b := &st.Over, st.Against
	over := func(of func(*sweep.Point) float64) *lattice {
		return &lattice{a.Values(), b.Values(), func(i, j int) float64 {
			if p := &st.Points[j*a.Steps+i]; p.Built() {
				return of(p)
			}
			return math.NaN()
		}}
	}
	p := &panel{title: words.SweepTitle(st), x: words.InputLabel(&a.Quantity), y: words.InputLabel(&b.Quantity)}
	if st.Own.Verdict.Code != rules.Unjudged {
		for k, name := range [...]string{"stops | thin", "thin | suits", "suits | strong", "strong | overdriven"} {
			p.add(line(name, borders[k], over(func(p *sweep.Point) float64 { return p.Deciding(k) }).contour(0)))
		}
	}
	p.add(mark(asItIs, nowMark, a.Value, b.Value))
	p.shade(over(func(p *sweep.Point) float64 { return st.Of.Shown(st.Result(p)) }), st.Of.Label())
	return p
}
