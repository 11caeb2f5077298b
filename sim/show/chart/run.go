package chart

import (
	"fmt"
	"io"
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
	torqueLabel = "torque at the fusee, N·m"
	withHours   = " (below: hours from the start of the run)"
)

// Write draws the panels of every train, one below the other, in the given format.
func Write(w io.Writer, format string, trains []sim.Result) error {
	var list []*panel
	for i := range trains {
		list = append(list, panels(&trains[i])...)
	}
	return stack(w, format, list...)
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
func needed(at float64) layer { return level("least torque needed", needLine, at) }

// overTurns is an empty panel over the turns of a run, with its hours below them.
func overTurns(r *sim.Result, quantity string) *panel {
	from, to := r.Rows[0].FuseeTurn, r.Rows[len(r.Rows)-1].FuseeTurn
	p := &panel{x: overTurn, y: quantity, xs: r1.Interval{Lo: from, Hi: to}, gutter: true}
	timed := !math.IsNaN(r.HoursPerTurn)
	if timed {
		p.x += withHours
	}
	every := math.Max(1, math.Ceil((to-from)/9))
	for turn := math.Ceil(from); turn <= to+1e-9; turn++ {
		label := ""
		if math.Mod(turn, every) == 0 {
			label = fmt.Sprintf("%.0f", turn)
			if timed {
				label += fmt.Sprintf("\n%.0f h", (turn-from)*r.HoursPerTurn)
			}
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

func torque(r *sim.Result) *panel {
	p := overTurns(r, torqueLabel)
	need := words.Either(math.IsNaN(r.Need.Used), "", "; need "+words.Figure(r.Need.Used))
	p.title = fmt.Sprintf("%s train: %s (mean %s, least %s N·m%s)", r.Name, words.Verdict(r.Verdict.Code), words.Figure(r.Torque.Mean), words.Figure(r.Torque.Min), need)
	p.bands, p.least = torqueBands(&r.Digest), 0.1*r.Torque.Max
	p.layers = []layer{
		line("torque at the fusee", curves[0], ofRows(r, fuseeTorque)),
		level("its mean over the run", meanLine, r.Torque.Mean), needed(r.Need.Used),
	}
	return p
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
	return shade{Interval: r1.Interval{Lo: from, Hi: to}, fill: tints[code], name: code.String()}
}

// leastLength is the least length of an axis, in degrees, seconds or seconds a day:
// less of any of them is nothing to a clock.
const leastLength = 0.01

// low is a low panel of a figure over the turns of a run.
func low(r *sim.Result, quantity, label string, of func(*sim.Row) float64) *panel {
	p := overTurns(r, quantity)
	p.height, p.least, p.layers = lowPanel, leastLength, []layer{line(label, curves[0], ofRows(r, of))}
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
	return &panel{
		title: "A strike of twelve from rest at the mean torque: " + end, x: "s from the release", y: "turns a second", height: lowPanel,
		layers: []layer{line("turns of the fly a second; each fall lifts the hammer", curves[0], speed)},
	}
}
