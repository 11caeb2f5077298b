package chart

import (
	"io"
	"math"

	"evenpull/fusee"
	"evenpull/sim/study/cut"

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
	torque := cutGraph(st, torqueLabel,
		overCone(c, then.Start(), func(theta float64) float64 { return then.At(theta).Torque }),
		overCone(c, now.Start(), func(theta float64) float64 { return now.At(theta).Torque }))
	torque.Bands, torque.Levels = TorqueBands(&st.After.Digest), needed(st.Now.Need.Used, true)
	diameters := cutGraph(st, "diameter over the groove bottom, mm",
		overCone(c, 0, func(theta float64) float64 { return across(c, theta) }),
		overCone(c, 0, func(theta float64) float64 { return across(old, theta) }))
	title := map[bool]string{false: "cut within the present cone", true: "cut from blank"}[st.FromBlank]
	pictures := []Picture{diameters}
	if st.Nothing {
		title = "nothing to cut"
	} else {
		pictures = append(pictures, removal(st, c, old))
	}
	diameters.Title = st.Now.Name + " train: even cone for its spring, " + title
	if len(torque.Bands) > 0 { // the others keep the room of the bands' names too
		for _, p := range pictures {
			p.(*Graph).To *= 1 + gutter
		}
	}
	return Stack(w, format, append(pictures, torque)...)
}

// cutGraph draws a figure of the cone to cut and of the present one, unless they
// are one.
func cutGraph(st *cut.Study, y string, then, now plotter.XYs) *Graph {
	g := &Graph{X: overTurn, Y: y, To: st.Cut.Drive.Cone.Turns, Lines: []Curve{{Label: "cut", Points: then}, {Label: "as it is", Points: now}}}
	if st.Nothing {
		g.Lines = g.Lines[1:]
	}
	return g
}

// removal is what comes off.
func removal(st *cut.Study, c, old *fusee.Cone) *Graph {
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
	return &Graph{X: overTurn, Y: "mm of diameter", Low: true, To: c.Turns, Lines: []Curve{{Label: label, Points: off}}}
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
