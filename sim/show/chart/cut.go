package chart

import (
	"evenpull/fusee"
	"evenpull/sim"
	"evenpull/sim/show/words"
	"evenpull/sim/study/cut"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"
)

// Cut draws the diameters over the turns, now and cut, what comes off, and below
// them the torque with the bands of the verdict.
func Cut(look Look, st *cut.Study) (Files, error) {
	const steps = 320
	rows, err := st.Fine(steps)
	if err != nil {
		return nil, err
	}
	over := func(y string) *panel {
		return &panel{x: overTurn, y: y, xs: r1.Interval{Lo: 0, Hi: st.Cut.Drive.Cone.Turns}}
	}
	of := func(label string, style draw.LineStyle, figure func(*cut.Row) float64) layer {
		return line(label, style, points(rows, func(r *cut.Row) (x, y float64) { return r.FuseeTurn, figure(r) }))
	}
	diameters, removal, torque := over("diameter over the groove bottom, mm"), over("to remove, mm of diameter"), over(torqueLabel)
	diameters.finding = words.CutHead(st, words.Verdict)
	torque.bands, torque.zero = torqueBands(&st.After.Digest), true
	show := func(label string, style draw.LineStyle, d *sim.Digest, diameter, pull func(*cut.Row) float64) {
		curve := of(label, style, pull)
		curve.points, _ = going(d.StopsAt, curve.points)
		diameters.add(of(label, style, diameter))
		torque.add(curve, stops(curve.points, words.Either(d.TurnsLost > 0, words.TurnsLost, words.Stopped)))
	}
	advised := st.Wanted != nil || st.FromBlank || st.Advised()
	cuts, is := st.Wanted != nil || !st.Nothing, st.Wanted == nil // there is a cone to cut, and one now
	if cuts {
		show(words.Either(advised, "cut", "were it cut"), bestLine, &st.After.Digest, func(r *cut.Row) float64 { return r.Diameter * 1e3 }, func(r *cut.Row) float64 { return r.Torque })
	}
	if is {
		show(asItIs, nowLine, &st.Now, func(r *cut.Row) float64 { return r.Now * 1e3 }, func(r *cut.Row) float64 { return r.TorqueBefore })
		diameters.add(measured(&st.Train.Drive.Cone))
	}
	if st.Suits() == cut.WithSetUp { // it is what answers
		pull, err := st.TorqueSetUp(st.SetUp().Spring.SetUp)
		if err != nil {
			return nil, err
		}
		torque.add(of("with "+words.TurnsAndClicks(st.SetUp())+" of set-up", adviceLine, func(r *cut.Row) float64 { return pull(r.FuseeTurn) }))
	}
	torque.add(needed(st.Now.Need.Used))
	if !cuts || !is {
		return stack(look, diameters, torque)
	}
	label := words.Either(advised, "what comes off", "what would come off") + words.Either(st.After.Missing > cut.LeastCount, "; below 0: metal is missing", "")
	removal.height, removal.floor, removal.layers = lowPlot, true, []layer{of(label, bestLine, func(r *cut.Row) float64 { return r.Remove * 1e3 })}
	return stack(look, diameters, removal, torque)
}

// measured are dots at the turns at which a cone was measured; none of one that was computed,
// in more pieces than anybody measures.
func measured(c *fusee.Cone) layer {
	l := dots("as measured", trialMark, nil)
	given := c.Profile.Given()
	if len(given) > 2*fusee.Most {
		return l
	}
	for _, turn := range given {
		radius, _, _ := c.Profile.At(turn)
		l.points = append(l.points, plotter.XY{X: turn, Y: 2e3 * radius})
	}
	return l
}
