package chart

import (
	"io"
	"math"

	"evenpull/fusee"
	"evenpull/sim/study/cut"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot/plotter"
)

// Cut draws the diameters over the turns, now and cut, what comes off, and below
// them the torque with the bands of the verdict.
func Cut(w io.Writer, format string, st *cut.Study) error {
	now, err := st.Train.Drive.Wind()
	if err != nil {
		return err
	}
	then, err := st.Cut.Drive.Wind()
	if err != nil {
		return err
	}
	c, old := &st.Cut.Drive.Cone, &st.Train.Drive.Cone
	torque := overCut(st, torqueLabel,
		overCone(c, then.Start(), func(theta float64) float64 { return then.At(theta).Torque }),
		overCone(c, now.Start(), func(theta float64) float64 { return now.At(theta).Torque }))
	torque.bands, torque.layers = torqueBands(&st.After.Digest), append(torque.layers, needed(st.Now.Need.Used).seen())
	diameters := overCut(st, "diameter over the groove bottom, mm",
		overCone(c, 0, func(theta float64) float64 { return across(c, theta) }),
		overCone(c, 0, func(theta float64) float64 { return across(old, theta) }))
	title := map[bool]string{false: "cut within the present cone", true: "cut from blank"}[st.FromBlank]
	panels := []*panel{diameters}
	if st.Nothing {
		title = "nothing to cut"
	} else {
		panels = append(panels, removal(st, c, old))
	}
	diameters.title = st.Now.Name + " train: even cone for its spring, " + title
	for _, p := range panels { // they keep the room of the bands' names too
		p.gutter = len(torque.bands) > 0
	}
	return stack(w, format, append(panels, torque)...)
}

// overCut is a panel of a figure of the cone to cut and of the present one, unless they
// are one.
func overCut(st *cut.Study, y string, then, now plotter.XYs) *panel {
	p := &panel{x: overTurn, y: y, xs: r1.Interval{Lo: 0, Hi: st.Cut.Drive.Cone.Turns}}
	if !st.Nothing {
		p.layers = append(p.layers, line("cut", curves[0], then))
	}
	p.layers = append(p.layers, line("as it is", curves[len(p.layers)], now))
	return p
}

// removal is what comes off.
func removal(st *cut.Study, c, old *fusee.Cone) *panel {
	label := "to remove"
	if st.After.Missing > cut.LeastCount {
		label = "to remove; below 0: metal is missing"
	}
	off := overCone(c, 0, func(theta float64) float64 {
		if v := across(old, theta) - across(c, theta); math.Abs(v) > 1e-9 {
			return v
		}
		return 0 // but for rounding
	})
	return &panel{x: overTurn, y: "mm of diameter", height: lowPanel, xs: r1.Interval{Lo: 0, Hi: c.Turns}, layers: []layer{line(label, curves[0], off)}}
}

// across is the diameter (mm) of a cone.
func across(c *fusee.Cone, theta float64) float64 {
	r, _, _ := c.Profile.At(theta)
	return 2e3 * r
}

// overCone is a figure over the turns; broken before the run starts.
func overCone(c *fusee.Cone, from float64, of func(theta float64) float64) plotter.XYs {
	const steps = 320
	var xys plotter.XYs
	for i := range steps + 1 {
		if theta := c.Turns * float64(i) / steps; theta >= from {
			xys = append(xys, plotter.XY{X: theta, Y: of(theta)})
		}
	}
	return xys
}
