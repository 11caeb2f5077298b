package chart

import (
	"evenpull/sim/show/words"
	"evenpull/sim/study/coils"

	strip "evenpull/fusee/mainspring/coils"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot/plotter"
)

// Coils draws the loop of a mainspring that is wound coil by coil and let down, and what a
// run, which goes by the closed form, errs by.
func Coils(look Look, r *coils.Result) (Files, error) {
	return stack(look, coilLoop(r), coilErrors(r))
}

// overCoils is a panel over the turns of the mainspring, with its ends marked.
func overCoils(r *coils.Result) *panel {
	l := r.Loop
	p := &panel{x: words.CoilsTurns, xs: r1.Interval{Lo: min(l.Rest, 0), Hi: 1.03 * max(l.Solid, r.ClosedSolid)}}
	return p.add(upright("", limits[1], l.Rest), upright("", limits[0], l.Solid))
}

// coilLoop is the couple winding and running down. Arrows point to where it goes.
func coilLoop(r *coils.Result) *panel {
	p := overCoils(r)
	ends := p.layers
	ends[0].label, ends[1].label, p.layers = words.CoilsAtRest(r), words.CoilsSolid(r), nil
	p.finding, p.y, p.height, p.zero = words.FoundCoils(r), "couple, N·m", highPlot, true
	of := func(shape func(*strip.Winding) *strip.Shape) plotter.XYs {
		return points(r.Loop.Windings, func(w *strip.Winding) (x, y float64) { s := shape(w); return s.Turns, s.Couple })
	}
	up := of(func(w *strip.Winding) *strip.Shape { return w.Up })
	down := of(func(w *strip.Winding) *strip.Shape { return w.Down })
	free := of(func(w *strip.Winding) *strip.Shape { return w.Free })
	closed := make(plotter.XYs, len(r.Closed))
	for i := range closed {
		closed[i] = plotter.XY{X: free[i].X, Y: r.Closed[i]}
	}
	if r.Options.Friction > 0 {
		p.add(goneRound(up, down)...)
	}
	if free[0].X-r.Loop.Rest < 1 { // near enough for a straight line
		free = append(plotter.XYs{{X: r.Loop.Rest}}, free...)
	}
	bare, form := line(words.CoilsFree, errorLine, free), line(words.CoilsClosed, trials[1], closed)
	if len(closed) < mostArrows {
		bare.dot, form.dot = computed, computed
	}
	return p.add(bare, form).add(ends...) // whose names come last
}

// goneRound is the way up, the way down and what lies between.
func goneRound(up, down plotter.XYs) []layer {
	taken := area(words.CoilsLost, down, up)
	taken.fill = nearby.fill
	winding, running := line(words.CoilsWinding, trials[0], up), line(words.CoilsRunning, nowLine, down)
	winding.notes = []note{{at: up[len(up)/2], words: words.CoilsWinding, side: -1}}
	running.notes = []note{{at: down[len(down)/6], words: words.CoilsRunning, side: 1, level: true}} // where the line is steep
	every := len(up)/mostArrows + 1
	if every > 1 {
		return []layer{taken, winding, running, dots("", onward, nth(up, every)), dots("", back, nth(down, every))}
	}
	winding.dot, running.dot = onward, back
	return []layer{taken, winding, running}
}

// mostArrows is how many arrows one line has room for.
const mostArrows = 24

// nth are every so many points.
func nth(list plotter.XYs, every int) (some plotter.XYs) {
	for i := 0; i < len(list); i += every {
		some = append(some, list[i])
	}
	return some
}

// coilErrors is what a run errs by, and the efficiency that friction leaves.
func coilErrors(r *coils.Result) *panel {
	p := overCoils(r)
	p.finding, p.name, p.y, p.height, p.least = words.CoilsErrs(r), "what a run errs by", "%", lowPlot, 10
	errs, pass, used := make(plotter.XYs, len(r.Closed)), make(plotter.XYs, len(r.Closed)), make(plotter.XYs, len(r.Closed))
	for i := range r.Loop.Windings {
		w := &r.Loop.Windings[i]
		errs[i] = plotter.XY{X: w.Down.Turns, Y: 100 * r.OfRun(i)}
		pass[i] = plotter.XY{X: w.Down.Turns, Y: 100 * w.Efficiency()}
		used[i] = plotter.XY{X: w.Down.Turns, Y: 100 * r.Passes(i)}
	}
	off, through := line(words.CoilsOver, nowLine, errs), line(words.CoilsPass, trials[0], pass)
	if len(errs) < mostArrows {
		off.dot, through.dot = back, smallDot
	}
	return p.add(off, through, level(words.CoilsEqual, meanLine, 100).seen(), line(words.CoilsUsed(r), trials[2], used).seen())
}
