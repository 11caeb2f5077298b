package cut

import (
	"io"
	"math"

	"evenpull/fusee"
	"evenpull/sim/show/chart"

	"gonum.org/v1/plot/plotter"
)

// Plot draws the diameters over the turns, now and cut, what comes off, and below
// them the torque with the bands of the verdict.
func Plot(w io.Writer, format string, st *Study) error {
	now, err := st.Train.Drive.Wind()
	if err != nil {
		return err
	}
	cut, err := st.Cut.Drive.Wind()
	if err != nil {
		return err
	}
	n := st.Cut.Drive.Cone.Turns
	torque := &chart.Graph{
		X: turnsAxis, Y: "torque at the fusee, N·m", To: n, Bands: chart.TorqueBands(&st.judged),
		Lines: st.lines(
			curve(n, cut.Start(), func(theta float64) float64 { return cut.At(theta).Torque }),
			curve(n, now.Start(), func(theta float64) float64 { return now.At(theta).Torque })),
	}
	if !math.IsNaN(st.Need) {
		torque.Levels = []chart.Level{{Label: "least torque needed", At: st.Need, Role: chart.Need}}
	}
	gutter := len(torque.Bands) > 0 // turns stand below each other
	title := map[bool]string{false: "cut within the present cone", true: "cut from blank"}[st.FromBlank]
	if st.Nothing {
		title = "nothing to cut"
	}
	pictures := []chart.Picture{&chart.Graph{
		Title: st.Train.Name + " train: even cone for its spring, " + title, X: turnsAxis, Y: "diameter over the groove bottom, mm", To: n, Gutter: gutter,
		Lines: st.lines(diameters(&st.Cut.Drive.Cone), diameters(&st.Train.Drive.Cone)),
	}}
	if !st.Nothing {
		pictures = append(pictures, st.removal(gutter))
	}
	return chart.Stack(w, format, append(pictures, torque)...)
}

const turnsAxis = "fusee turns paid out"

// lines are those of the cone to cut and of the present one, unless they are one.
func (st *Study) lines(cut, now plotter.XYs) []chart.Curve {
	if st.Nothing {
		return []chart.Curve{{Label: "as it is", Points: now, Role: chart.Now}}
	}
	return []chart.Curve{{Label: "cut", Points: cut}, {Label: "as it is", Points: now, Role: chart.Now}}
}

// removal is what comes off.
func (st *Study) removal(gutter bool) *chart.Graph {
	off := curve(st.Cut.Drive.Cone.Turns, 0, func(theta float64) float64 {
		is, _, _ := st.Train.Drive.Cone.Profile.At(theta)
		be, _, _ := st.Cut.Drive.Cone.Profile.At(theta)
		return 2e3 * clean(is-be)
	})
	label := "to remove"
	if st.Missing > LeastCount {
		label = "to remove; below 0: metal is missing"
	}
	return &chart.Graph{X: turnsAxis, Y: "mm of diameter", Low: true, To: st.Cut.Drive.Cone.Turns, Gutter: gutter, Lines: []chart.Curve{{Label: label, Points: off}}}
}

func diameters(c *fusee.Cone) plotter.XYs {
	return curve(c.Turns, 0, func(theta float64) float64 {
		r, _, _ := c.Profile.At(theta)
		return 2e3 * r
	})
}

// curve is a figure over the turns; NaN before the run starts.
func curve(n, from float64, of func(theta float64) float64) plotter.XYs {
	const steps = 320
	xys := make(plotter.XYs, steps+1)
	for i := range xys {
		theta := n * float64(i) / steps
		xys[i] = plotter.XY{X: theta, Y: math.NaN()}
		if theta >= from {
			xys[i].Y = of(theta)
		}
	}
	return xys
}
