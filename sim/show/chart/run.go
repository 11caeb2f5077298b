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

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
)

// Write draws the panels of every train, one below the other, in the given format.
func Write(w io.Writer, format string, trains []sim.Result) error {
	var pictures []Picture
	for i := range trains {
		pictures = append(pictures, panels(&trains[i])...)
	}
	return Stack(w, format, pictures...)
}

// panels are the pictures that a train has: the torque with the need and the bands
// of the verdict, and below it what the drive does to the pendulum's arc and rate,
// or to the blows of a striking train.
func panels(r *sim.Result) []Picture {
	list := []Picture{torque(r)}
	if !math.IsNaN(r.Swing.Rate.Mean) {
		least := (r.Train.Escapement.Reach() + r.Train.Escapement.Margin).Degrees()
		list = append(list,
			low(r, "semi-arc, degrees", "semi-arc of the pendulum", func(row *sim.Row) float64 {
				if math.IsNaN(row.Rate) { // it trips or stands
					return math.NaN()
				}
				return words.Degrees(row.Amplitude)
			}, Limit{Label: leastWanted, At: least, Role: Need, Always: true}),
			low(r, "rate off its mean, s/day", "rate, + gaining", func(row *sim.Row) float64 { // regulation takes away the mean
				return (row.Rate - r.Swing.Rate.Mean) * escapement.SecondsPerDay
			}))
	}
	if r.Train.Strikes {
		if !math.IsNaN(r.Cadence.Interval.Mean) {
			list = append(list, low(r, "s from blow to blow", "interval between blows",
				func(row *sim.Row) float64 { return row.BlowInterval }, wanted(&r.Digest, true)...))
		}
		list = append(list, twelve(r))
	}
	return list
}

const leastWanted = "least wanted: to escape, with the margin"

// overTurns is an empty graph over the turns of a run, with its hours below them.
func overTurns(r *sim.Result, quantity string) *Graph {
	from, to := r.Rows[0].FuseeTurn, r.Rows[len(r.Rows)-1].FuseeTurn
	g := &Graph{X: overTurn, Y: quantity, From: from, To: to, Gutter: true}
	timed := !math.IsNaN(r.HoursPerTurn)
	if timed {
		g.X += " (below: hours from the start of the run)"
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
		g.Ticks = append(g.Ticks, plot.Tick{Value: turn, Label: label})
	}
	return g
}

func torque(r *sim.Result) *Graph {
	g := overTurns(r, torqueLabel)
	g.Title, g.Bands, g.Least = title(r), TorqueBands(&r.Digest), 0.1*r.Torque.Max
	g.Lines = []Curve{
		{Label: "torque at the fusee", Points: ofRows(r, func(row *sim.Row) float64 { return row.FuseeTorque })},
		{Label: "its mean over the run", Points: plotter.XYs{{X: g.From, Y: r.Torque.Mean}, {X: g.To, Y: r.Torque.Mean}}, Role: Mean},
	}
	g.Levels = needed(r.Need.Used, false)
	return g
}

func title(r *sim.Result) string {
	s := fmt.Sprintf("%s train: %s (mean %s, least %s N·m", r.Name, words.Verdict(r.Verdict.Code), words.Figure(r.Torque.Mean), words.Figure(r.Torque.Min))
	if !math.IsNaN(r.Need.Used) {
		s += fmt.Sprintf("; need %s", words.Figure(r.Need.Used))
	}
	return s + ")"
}

// TorqueBands are the bands in which the torques of a run are judged, N·m, rising
// from 0 without gaps; none when nothing is known.
func TorqueBands(d *sim.Digest) []Shade {
	if d.Standard.Basis == rules.ByNothing {
		return nil
	}
	codes := []rules.Code{rules.Stops, rules.Thin, rules.Suits, rules.Strong, rules.Overdriven}
	at := d.Standard.Limits()
	limits := at[:]
	if math.IsNaN(at[0]) {
		codes, limits = codes[1:], limits[1:]
	}
	bands, lo := make([]Shade, len(codes)), 0.0
	for i, hi := range append(limits, math.Inf(1)) {
		hi = math.Max(lo, hi) // below the need it stops, whatever else is liked there
		bands[i] = Shade{From: lo, To: hi, Code: codes[i]}
		lo = hi
	}
	return bands
}

// leastLength is the least length of an axis, in degrees, seconds or seconds a day:
// less of any of them is nothing to a clock.
const leastLength = 0.01

// low is a low graph of a figure over the turns of a run.
func low(r *sim.Result, quantity, label string, of func(*sim.Row) float64, levels ...Limit) *Graph {
	g := overTurns(r, quantity)
	g.Low, g.Least, g.Levels = true, leastLength, levels
	g.Lines = []Curve{{Label: label, Points: ofRows(r, of)}}
	return g
}

// wanted are the intervals from blow to blow that are liked; none where nothing is.
func wanted(d *sim.Digest, always bool) []Limit {
	if d.Wanted.IsEmpty() {
		return nil
	}
	return []Limit{{Label: "slowest wanted", At: d.Wanted.Hi, Always: always}, {Label: "fastest wanted", At: d.Wanted.Lo, Always: always}}
}

// twelve is a strike of twelve from rest at the mean torque: the speed of the fly
// against time, each lift a fall.
func twelve(r *sim.Result) *Graph {
	var speed plotter.XYs
	blows := 0
	run := r.Train.Striker.Blows(r.Torque.Mean, 12, func(p train.Phase) {
		const n = 12
		for k := range n + 1 {
			t := p.Seconds * float64(k) / n
			speed = append(speed, plotter.XY{X: p.Start + t, Y: p.At(t) / (2 * math.Pi)})
		}
		if p.Lifting && !p.Stalled {
			blows++
		}
	})
	end := words.Figure(run.Seconds) + " s"
	if run.Status != train.Strikes {
		end = fmt.Sprintf("it stalls after %d blows", blows)
	}
	return &Graph{
		Title: "A strike of twelve from rest at the mean torque: " + end, X: "s from the release", Y: "turns a second", Low: true,
		Lines: []Curve{{Label: "turns of the fly a second; each fall lifts the hammer", Points: speed}},
	}
}
