package choose

import (
	"fmt"
	"io"
	"math"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/show/chart"

	"gonum.org/v1/plot/plotter"
)

// leading is the number of candidates that are drawn: more lines cannot be told
// apart.
const leading = 3

// Plot draws the torque of the leading candidates over the run, with the need, the
// target and the bands of the verdict.
func Plot(w io.Writer, format string, st *Study) error {
	return chart.Stack(w, format, st.graph())
}

func (st *Study) graph() *chart.Graph {
	g := &chart.Graph{
		Title: st.title(), X: "fusee turns paid out", Y: "torque at the fusee, N·m",
	}
	if !math.IsNaN(st.Target.Need) {
		g.Levels = append(g.Levels, chart.Level{Label: "least torque needed", At: st.Target.Need, Role: chart.Need})
		g.Areas = []chart.Area{st.belowNeed()}
	}
	f := newFitter(st.shop)
	for i := range st.Candidates {
		c := &st.Candidates[i]
		if len(g.Lines) == leading || c.Refused != "" && i > 0 || !c.Fitted {
			break
		}
		if i > 0 && c.Mean == st.Candidates[i-1].Mean && c.Unevenness == st.Candidates[i-1].Unevenness {
			continue // it would hide the line of its like
		}
		f.strip = f.stripOf(&c.Spring)
		r := f.finely(c)
		if r == nil {
			continue
		}
		if g.Bands == nil {
			g.Bands = chart.TorqueBands(r)
		}
		g.Lines = append(g.Lines, chart.Curve{Label: fmt.Sprintf("%d. %s", c.Rank, c.Label), Points: pointsOf(r)})
	}
	st.aim(g)
	if len(g.Lines) == 0 {
		g.Levels, g.Areas = nil, nil
		g.X, g.Y = "–", "–"
	}
	return g
}

// aim draws the target as a narrow strip under the lines, from end to end of the run
// and no farther, so that it strikes through no name; one far from the lines is left
// out, since it would flatten them.
func (st *Study) aim(g *chart.Graph) {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, l := range g.Lines {
		for _, pt := range l.Points {
			lo, hi = min(lo, pt.Y), max(hi, pt.Y)
		}
	}
	at := st.Target.Mean
	if !(at > lo/1.5 && at < 1.5*hi) {
		return
	}
	if st.Target.Need > 0 {
		lo = min(lo, st.Target.Need)
	}
	half := 0.004 * (max(hi, at) - min(lo, at))
	lower, upper := make(plotter.XYs, 2), make(plotter.XYs, 2)
	for i, x := range [2]float64{0, g.Lines[0].Points[len(g.Lines[0].Points)-1].X} {
		lower[i], upper[i] = plotter.XY{X: x, Y: at - half}, plotter.XY{X: x, Y: at + half}
	}
	g.Areas = append(g.Areas, chart.Area{Label: "mean aimed at", Lower: lower, Upper: upper})
}

// belowNeed is an area of no size, so that the picture reaches down to the need
// however far it is from the lines.
func (st *Study) belowNeed() chart.Area {
	point := plotter.XY{X: 0, Y: 0.95 * st.Target.Need}
	return chart.Area{Lower: plotter.XYs{point, point}, Upper: plotter.XYs{point, point}}
}

func (st *Study) title() string {
	best := &st.Candidates[0]
	if best.Refused != "" {
		return fmt.Sprintf("%s train: no spring of the list can be fitted", st.Train.Name)
	}
	if best.Verdict == rules.Suits && !best.sound() {
		return fmt.Sprintf("%s train: %s suits by its torque, but has a fault", st.Train.Name, best.Label)
	}
	return fmt.Sprintf("%s train: %s %s", st.Train.Name, best.Label, does(best.Verdict))
}

// finely runs a candidate down at steps too fine to see; nil when it cannot be.
func (f *fitter) finely(c *Candidate) *sim.Result {
	d := &f.train.Drive
	d.Spring = f.strip
	d.Spring.Length, d.Barrel.SetUp = c.CutTo*mm, c.SetUp
	var r sim.Result
	if err := f.train.Run(sim.Options{Step: min(sim.QuarterTurn, d.Cone.Turns/240)}, &r); err != nil {
		return nil
	}
	return &r
}

func pointsOf(r *sim.Result) plotter.XYs {
	xys := make(plotter.XYs, len(r.Rows))
	for i := range r.Rows {
		xys[i] = plotter.XY{X: r.Rows[i].FuseeTurn, Y: r.Rows[i].FuseeTorque}
	}
	return xys
}
