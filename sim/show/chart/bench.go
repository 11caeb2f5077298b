package chart

import (
	"fmt"
	"math"
	"slices"

	"evenpull/sim/bench/assign"
	"evenpull/sim/bench/measure"
	"evenpull/sim/bench/readings"
	"evenpull/sim/show/words"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
)

const squareLabel = "torque at the winding square, N·m"

// Record draws every spring's readings: the repeats as small rings, their means with
// 95 % error bars, the prediction as a line, the need and the bands of the verdict
// behind them where a scenario tells them; below it the residuals. Where no torque
// was read it draws the pace of the blows.
func Record(look Look, r *assign.Record) (Files, error) {
	return stack(look, slices.Concat(recorded(r)...)...)
}

// recorded are the panels of every spring, or of every train whose blows were timed.
func recorded(r *assign.Record) (list [][]*panel) {
	st := r.Study
	for i := range st.Springs {
		of := []*panel{supply(r, i)}
		if st.Compared[i] != nil {
			of = append(of, residuals(st.Compared[i]))
		}
		list = append(list, of)
	}
	for i := range st.Needs {
		if n := &st.Needs[i]; len(st.Springs) == 0 && n.Cadence != nil {
			list = append(list, []*panel{pace(n)})
		}
	}
	if len(list) == 0 {
		return [][]*panel{{{finding: "no torque was read and no blow timed", x: "–", y: "–"}}}
	}
	return list
}

func supply(of *assign.Record, i int) *panel {
	st := of.Study
	s, r := &st.Springs[i], st.Trains[i]
	p := &panel{finding: words.FoundReadings(of, i), name: fmt.Sprintf("spring %s in the %s train", s.Spring, s.Train), x: overTurn, y: squareLabel, zero: true}
	if r == nil {
		if k := slices.IndexFunc(st.Needs, func(n measure.Need) bool { return n.Train == s.Train }); k >= 0 {
			p.add(needed(st.Needs[k].Bracket.Least))
		}
	} else {
		p.bands = torqueBands(&r.Digest)
		p.add(line("predicted, running down", nowLine, ofRows(r, fuseeTorque)))
		if e := st.Explained; e != nil && e.After != nil && e.Spring == s.Spring && e.Train == s.Train {
			p.add(line("with the fitted inputs", bestLine, points(e.After.Points[:len(s.Turns)],
				func(p *readings.Point) (x, y float64) { return p.FuseeTurn, p.Predicted })))
		}
		p.add(needed(r.Need.Used))
	}
	single := dots("single readings", smallDot, nil)
	read := &st.Book.Torques[i]
	for _, repeat := range read.RunningDown {
		for k, v := range repeat {
			single.points = append(single.points, plotter.XY{X: read.FirstTurn + float64(k), Y: v})
		}
	}
	means := dots("their means, with 95 % intervals", meanDot, points(s.Turns, func(t *measure.Turn) (x, y float64) { return t.FuseeTurn, t.Mean }))
	for k := range s.Turns {
		means.half = append(means.half, s.Turns[k].HalfWidth)
	}
	return p.add(single, means)
}

// normal95 is how many standard deviations about a mean hold 95 % of a normal distribution.
const normal95 = 1.96

func residuals(c *readings.Comparison) *panel {
	down, up := dots("running down, with 95 % intervals", meanDot, nil), dots("winding up, likewise", otherDot, nil)
	for i := range c.Points {
		p, l := &c.Points[i], &down
		if p.Winding {
			l = &up
		}
		l.points, l.half = append(l.points, plotter.XY{X: p.FuseeTurn, Y: p.Residual()}), append(l.half, normal95*p.SD)
	}
	return &panel{x: overTurn, y: "measured − predicted, N·m", height: lowPlot, layers: []layer{level("as predicted", limits[0], 0), down, up}}
}

// pace is 1/interval² against torque for a train whose blows were timed.
func pace(n *measure.Need) *panel {
	runs, hi := dots("trials", trialMark, nil), 0.0
	for _, t := range n.Trials {
		if !math.IsNaN(t.Interval) {
			runs.points = append(runs.points, plotter.XY{X: t.Torque, Y: 1 / (t.Interval * t.Interval)})
			hi = max(hi, t.Torque)
		}
	}
	p := &panel{finding: n.Train + " train: pace of the blows", name: n.Train + " train: pace of the blows", x: squareLabel, y: "1/interval², 1/s²"}
	if k := n.Cadence; !math.IsNaN(k.Threshold) {
		p.add(line("the law of a fly", trials[0], plotter.XYs{{X: k.Threshold, Y: 0}, {X: hi, Y: k.Slope * (hi - k.Threshold)}}))
	}
	return p.add(runs)
}

// hopeless is what stands beside the label of a spring that is not advised.
func hopeless(p *assign.Pair) string {
	switch {
	case p.Why != nil:
		return " (not judged)"
	case p.TurnsLost > 0:
		return " (binds)"
	case p.Risky:
		return " (might bind)"
	}
	return ""
}

// Assign draws for each train the mean torque of every spring in it, with the limits
// of what suits.
func Assign(look Look, st *assign.Study) (Files, error) {
	panels := make([]*panel, len(st.Needs))
	for k := range st.Needs {
		n := &st.Needs[k]
		p := &panel{
			finding: words.FoundAssign(st, n.Train), name: n.Train + " train: mean torque of each spring", x: "spring", y: "mean torque, N·m", height: lowPlot, named: true,
			xs: r1.Interval{Lo: 0.4, Hi: float64(len(st.Springs)) + 0.6}, floor: true,
		}
		suits := n.Standard.Suiting()
		marks := []layer{needed(n.Need.Used), level("suits from", limits[0], suits.Lo), level("suits up to", limits[1], suits.Hi)}
		for i, label := range st.Springs {
			at, pair := float64(i)+1, &st.Pairs[i*len(st.Needs)+k]
			p.ticks = append(p.ticks, plot.Tick{Value: at, Label: label + hopeless(pair)})
			p.add(bar(at-0.3, at+0.3, pair.Torque.Mean))
			if pair.Chosen {
				marks = append(marks, mark("the choice", bestMark, at, pair.Torque.Mean))
			}
		}
		panels[k] = p.add(marks...)
	}
	return stack(look, panels...)
}
