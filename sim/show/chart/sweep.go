package chart

import (
	"math"
	"slices"

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
func Sweep(look Look, st *sweep.Study) (Files, error) {
	if st.Against != nil {
		return stack(look, sweepMap(st))
	}
	return stack(look, sweepPanels(st)...)
}

// asItIs is what the scenario's own point is called.
const asItIs = "as it is now"

// sweepPanels are those of a sweep over one input.
func sweepPanels(st *sweep.Study) []*panel {
	own := &st.Own
	first := overInput(st, st.Of.Label(), st.Of.Name)
	torque := torqueOver(st)
	panels := []*panel{first, torque}
	if st.Of.Name == outcome.MeanTorque {
		first, panels = torque, panels[1:]
	}
	first.finding, first.height = words.FoundSweep(st), highPlot
	first.stripes, first.feet = sweepStripes(st), bindingFeet(st)
	if st.Over.Holds() {
		first.add(mark(asItIs, nowMark, own.Value, st.Of.Shown(st.Result(own))))
	}
	if !math.IsNaN(own.Need.Used) {
		p := overInput(st, "reserve", outcome.MeanReserve, outcome.LeastReserve)
		p.zero = true
		p.add(level("the need", needLine, 1).seen())
		if s := &own.Standard; s.Basis == rules.ByReserve {
			p.add(level("thin: least below", limits[0], s.Bands.Thin), level("strong: mean above", limits[1], s.Bands.Suits))
		}
		panels = append(panels, p)
	}
	if st.Of.Name != outcome.Unevenness {
		panels = append(panels, overInput(st, unevenLabel, outcome.Unevenness))
	}
	if own.Escapes {
		panels = append(panels, arcOver(st))
	}
	if own.Strikes {
		panels = append(panels, overInput(st, "s from blow to blow", "blow_interval_s.mean").add(wanted(own.Digest)...))
	}
	for _, p := range panels {
		if p != first {
			p.stripes = unbuilt(st)
			p.unnamed()
		}
	}
	return panels
}

// torqueOver is the panel of the torque: mean and range, and the need.
func torqueOver(st *sweep.Study) *panel {
	p := overInput(st, torqueLabel, outcome.LeastTorque, outcome.MostTorque, outcome.MeanTorque, "least_torque_nm.used")
	least, most, mean, need := p.layers[0], p.layers[1], p.layers[2], p.layers[3]
	p.layers = []layer{
		area("from the least to the greatest", least.points, most.points),
		line("least torque needed", needLine, need.points), mean,
	}
	p.layers[2].line = trials[0]
	p.zero = true
	return p
}

// arcOver is the panel of the mean arc, which ends where the clock stops.
func arcOver(st *sweep.Study) *panel {
	p := overInput(st, "semi-arc, degrees", "amplitude_deg.mean")
	ends := stops(p.layers[0].points, words.Stopped)
	for i := 0; i < len(ends.points); { // where it cannot be built it is hatched
		beside := slices.ContainsFunc(st.Points, func(q sweep.Point) bool {
			return !q.Built() && math.Abs(q.Value-ends.points[i].X) < 1.5*(st.Over.To-st.Over.From)/float64(st.Over.Steps-1)
		})
		if beside {
			ends.points, ends.notes = slices.Delete(ends.points, i, i+1), slices.Delete(ends.notes, i, i+1)
			continue
		}
		i++
	}
	return p.add(level(leastWanted, needLine, leastArc(st.Train)), ends)
}

// unbuilt are the ranges that cannot be built.
func unbuilt(st *sweep.Study) (list []shade) {
	for _, s := range sweepStripes(st) {
		if s.name == words.Unbuilt {
			list = append(list, s)
		}
	}
	return list
}

// bindingFeet are the ranges in which the spring binds before the fusee is wound.
func bindingFeet(st *sweep.Study) (list []shade) {
	step := (st.Over.To - st.Over.From) / float64(st.Over.Steps-1)
	for i := range st.Points {
		p := &st.Points[i]
		if !p.Has(sim.Binds) {
			continue
		}
		from, to := math.Max(p.Value-step/2, st.Over.From), math.Min(p.Value+step/2, st.Over.To)
		if n := len(list); n > 0 && from <= list[n-1].Hi+step/100 {
			list[n-1].Hi = to
			continue
		}
		list = append(list, shade{Interval: r1.Interval{Lo: from, Hi: to}, tint: impossible, name: words.TurnsLost})
	}
	return list
}

// overInput is a low panel of results over the input.
func overInput(st *sweep.Study, y string, names ...string) *panel {
	return &panel{x: words.InputLabel(&st.Over.Quantity), y: y, height: lowPlot, xs: r1.Interval{Lo: st.Over.From, Hi: st.Over.To},
		layers: resultLines(st.Points, func(p *sweep.Point) (x float64, d *sim.Digest) { return p.Value, p.Run() }, names...)}
}

// resultLines are lines of results, in their words, over a list of runs, with dots where they
// were computed; broken where a run could not be carried out.
func resultLines[T any](list []T, of func(*T) (x float64, d *sim.Digest), names ...string) []layer {
	lines := make([]layer, len(names))
	for i, name := range names {
		f, _ := outcome.Named(name)
		lines[i] = line(f.Words, trials[i%len(trials)], points(list, func(t *T) (x, y float64) {
			x, d := of(t)
			if d == nil {
				return x, math.NaN()
			}
			return x, f.Shown(f.Of(d))
		}))
		lines[i].dot = computed
	}
	return lines
}

// sweepStripes are the ranges of one verdict, and those that cannot be built.
func sweepStripes(st *sweep.Study) (stripes []shade) {
	for _, s := range st.Stretches() {
		stripe := judged(s.Code, s.From, s.To)
		if !s.Built {
			stripe.tint, stripe.name = impossible, words.Unbuilt
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
	whole := func(of func(*sweep.Point) float64) *lattice {
		return &lattice{a.Values(), b.Values(), func(i, j int) float64 { return of(&st.Points[j*a.Steps+i]) }}
	}
	over := func(of func(*sweep.Point) float64) *lattice {
		return whole(func(p *sweep.Point) float64 {
			if p.Built() {
				return of(p)
			}
			return math.NaN()
		})
	}
	p := &panel{finding: words.FoundSweep(st), x: words.InputLabel(&a.Quantity), y: words.InputLabel(&b.Quantity)}
	if st.Own.Verdict.Code != rules.Unjudged {
		for k, name := range [...]string{"stops | thin", "thin | suits", "suits | strong", "strong | overdriven"} {
			p.add(line(name, borders[k], over(func(p *sweep.Point) float64 { return p.Deciding(k) }).contour(0)))
		}
		for code := rules.Stops; code <= rules.Overdriven; code++ {
			k := int(code - rules.Stops)
			p.regions = append(p.regions, region{name: code.String(), hatch: tints[code].hatch, lattice: over(func(p *sweep.Point) float64 {
				in := 1.0 // above the limit before it and below its own
				if k > 0 {
					in = p.Deciding(k - 1)
				}
				if k < 4 {
					in = math.Min(in, -p.Deciding(k))
				}
				return in
			})})
		}
	}
	sign := func(holds bool) float64 {
		if holds {
			return 1
		}
		return -1
	}
	p.regions = append(p.regions,
		region{name: words.Unbuilt, hatch: crossed, keyed: true, lattice: whole(func(p *sweep.Point) float64 { return sign(!p.Built()) })},
		region{name: words.TurnsLost, hatch: dotted, keyed: true, lattice: over(func(p *sweep.Point) float64 { return sign(p.Has(sim.Binds)) })})
	p.add(mark(asItIs, nowMark, a.Value, b.Value))
	p.shade(over(func(p *sweep.Point) float64 { return st.Of.Shown(st.Result(p)) }), st.Of.Label())
	return p
}
