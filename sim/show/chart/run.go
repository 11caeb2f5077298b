package chart

import (
	"fmt"
	"math"

	"evenpull/escapement"
	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/show/words"
	"evenpull/train"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
)

// What axes of several studies are called.
const (
	overTurn    = "fusee turns paid out"
	withHours   = " (below: hours from the start of the run)"
	torqueLabel = "torque at the fusee, N·m"
	unevenLabel = "unevenness, %"
)

// Write draws the panels of every train, one below the other.
func Write(look Look, trains []sim.Result) (Files, error) {
	var list []*panel
	for i := range trains {
		list = append(list, panels(&trains[i])...)
	}
	if len(trains) == 1 {
		list[0].name = ""
	}
	return stack(look, list...)
}

// panels are those of a train: the torque with the need and the bands of the verdict,
// and below it what the drive does to the pendulum's arc and rate, or to the blows of
// a striking train.
func panels(r *sim.Result) []*panel {
	list := []*panel{torque(r)}
	if !math.IsNaN(r.Swing.Rate.Mean) {
		arc := low(r, "semi-arc, degrees", "semi-arc of the pendulum", func(row *sim.Row) float64 {
			if math.IsNaN(row.Rate) { // it trips or stands
				return math.NaN()
			}
			return words.Degrees(row.Amplitude)
		})
		arc.add(level(leastWanted, needLine, leastArc(r.Train)).seen())
		list = append(list, arc, low(r, "rate off its mean, s/day", "rate, + gaining", func(row *sim.Row) float64 { // regulation takes away the mean
			return (row.Rate - r.Swing.Rate.Mean) * escapement.SecondsPerDay
		}))
	}
	if r.Train.Strikes {
		if !math.IsNaN(r.Cadence.Interval.Mean) {
			blows := low(r, "s from blow to blow", "interval between blows", func(row *sim.Row) float64 { return row.BlowInterval })
			for _, l := range wanted(&r.Digest) {
				blows.add(l.seen())
			}
			list = append(list, blows)
		}
		list = append(list, twelve(r))
	}
	return list
}

const leastWanted = "least wanted: to escape, with the margin"

// leastArc is the least semi-arc wanted, in degrees.
func leastArc(t *sim.Train) float64 { return (t.Escapement.Reach() + t.Escapement.Margin).Degrees() }

// wanted are the intervals from blow to blow that are liked; none where nothing is.
func wanted(d *sim.Digest) []layer {
	if d.Wanted.IsEmpty() {
		return nil
	}
	return []layer{level("slowest wanted", limits[0], d.Wanted.Hi), level("fastest wanted", limits[1], d.Wanted.Lo)}
}

// needed is the least torque that a train needs; NaN draws none.
func needed(at float64) layer { return level("least torque needed", needLine, at).seen() }

// overTurns is an empty panel over the turns of the fusee, with the hours of the run below
// them as long as it goes; turns that are lost are hatched.
func overTurns(r *sim.Result, quantity string) *panel {
	from, to := r.Rows[0].FuseeTurn, r.Rows[len(r.Rows)-1].FuseeTurn
	p := &panel{x: overTurn, y: quantity, xs: r1.Interval{Lo: from, Hi: to}}
	if from > 0 && from == r.TurnsLost {
		p.xs.Lo = 0
		p.stripes = []shade{{Interval: r1.Interval{Lo: 0, Hi: from}, tint: impossible, name: words.TurnsLost}}
	}
	timed, ends := !math.IsNaN(r.HoursPerTurn), r.TurnsLost+r.GoesFor()
	if timed {
		p.x += withHours
	}
	for turn := math.Ceil(p.xs.Lo); turn <= to+1e-9; turn++ {
		label := fmt.Sprintf("%.0f", turn)
		if timed && turn >= from && !(turn > ends+1e-9) {
			label += fmt.Sprintf("\n%.0f h", (turn-from)*r.HoursPerTurn)
		}
		p.ticks = append(p.ticks, plot.Tick{Value: turn, Label: label})
	}
	return p
}

// points are the points of a list.
func points[T any](list []T, of func(*T) (x, y float64)) plotter.XYs {
	xys := make(plotter.XYs, len(list))
	for i := range list {
		xys[i].X, xys[i].Y = of(&list[i])
	}
	return xys
}

// ofRows is a figure over the turns of a run.
func ofRows(r *sim.Result, of func(*sim.Row) float64) plotter.XYs {
	return points(r.Rows, func(row *sim.Row) (x, y float64) { return row.FuseeTurn, of(row) })
}

func fuseeTorque(row *sim.Row) float64 { return row.FuseeTorque }

// going parts a curve over the turns of a run at the turn at which the train stops, if it
// does: what comes after it is no number in the first and all of the second.
func going(at float64, curve plotter.XYs) (goes, gone plotter.XYs) {
	if math.IsNaN(at) {
		return curve, nil
	}
	for i, pt := range curve {
		if pt.X < at {
			goes = append(goes, pt)
			continue
		}
		stop := pt
		if i > 0 && pt.X > at {
			before := curve[i-1]
			stop = plotter.XY{X: at, Y: before.Y + (pt.Y-before.Y)*(at-before.X)/(pt.X-before.X)}
		}
		if !finite(stop.Y) {
			return append(goes, nowhere()), nil
		}
		return append(goes, stop, nowhere()), append(plotter.XYs{stop}, curve[i:]...)
	}
	return goes, nil
}

// stops are crosses, and the word, where a curve ends before its last point or begins after
// its first.
func stops(curve plotter.XYs, word string) layer {
	l := dots("", stopMark, nil)
	for i, pt := range curve {
		known := func(k int) bool { return k < 0 || k >= len(curve) || finite(curve[k].Y) }
		if !finite(pt.Y) || known(i-1) && known(i+1) {
			continue
		}
		l.points = append(l.points, pt)
		n := note{at: pt, words: word, side: 1}
		if !known(i - 1) {
			n.side = -1
		}
		l.notes = append(l.notes, n)
	}
	return l
}

// begins is a cross where the spring binds before the fusee is wound, and a curve begins.
func begins(r *sim.Result, curve plotter.XYs) layer {
	if !(r.TurnsLost > 0) {
		return layer{}
	}
	return stops(append(plotter.XYs{nowhere()}, curve...), words.TurnsLost)
}

func torque(r *sim.Result) *panel {
	p := overTurns(r, torqueLabel)
	p.finding, p.name = words.FoundRun(&r.Digest), r.Name+" train"
	p.bands, p.zero = torqueBands(&r.Digest), true
	p.least = 0.1 * r.Torque.Max
	goes, gone := going(r.StopsAt, ofRows(r, fuseeTorque))
	p.add(needed(r.Need.Used), level("its mean over the run", meanLine, r.Torque.Mean), line("torque at the fusee", nowLine, goes))
	if gone != nil {
		p.add(line("what it would be after that", goneLine, gone))
	}
	return p.add(stops(goes, words.Stopped))
}

// torqueBands are the bands in which the torques of a run are judged, N·m.
func torqueBands(d *sim.Digest) []shade {
	var bands []shade
	for _, r := range d.Standard.Ranges() {
		bands = append(bands, judged(r.Code, r.Lo, r.Hi))
	}
	return bands
}

// judged is a range of one verdict.
func judged(code rules.Code, from, to float64) shade {
	return shade{Interval: r1.Interval{Lo: from, Hi: to}, tint: tints[code], name: code.String()}
}

// leastLength is the least length of an axis, in degrees, seconds or seconds a day:
// less of any of them is nothing to a clock.
const leastLength = 0.01

// low is a low panel of a figure over the turns of a run, as long as it goes.
func low(r *sim.Result, quantity, label string, of func(*sim.Row) float64) *panel {
	p := overTurns(r, quantity)
	goes, _ := going(r.StopsAt, ofRows(r, of))
	p.height, p.least, p.layers = lowPlot, leastLength, []layer{line(label, nowLine, goes), stops(goes, words.Stopped)}
	return p.unnamed()
}

// unnamed is a panel below one that names its stripes.
func (p *panel) unnamed() *panel {
	for i := range p.stripes {
		p.stripes[i].name = ""
	}
	return p
}

// twelve is a strike of twelve from rest at the mean torque: the speed of the fly
// against time, each lift a fall.
func twelve(r *sim.Result) *panel {
	var speed plotter.XYs
	run := r.Train.Striker.Blows(r.Torque.Mean, 12, func(p train.Phase) {
		const n = 12
		for k := range n + 1 {
			t := p.Seconds * float64(k) / n
			speed = append(speed, plotter.XY{X: p.Start + t, Y: p.At(t) / (2 * math.Pi)})
		}
	})
	end := words.Either(run.Status == train.Strikes, words.Figure(run.Blown)+" s from the first blow", fmt.Sprintf("it stalls after %d blows", run.Blows))
	p := &panel{
		finding: "A strike of twelve from rest at the mean torque: " + end, name: "a strike of twelve from rest at the mean torque",
		x: "s from the release", y: "turns a second", height: lowPlot, floor: true,
		layers: []layer{line("turns of the fly a second; each fall lifts the hammer", nowLine, speed)},
	}
	if run.Status != train.Strikes && len(speed) > 0 {
		p.add(stops(append(speed, nowhere()), words.Stopped))
	}
	return p
}
