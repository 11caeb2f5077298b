package chart

import (
	"fmt"
	"io"
	"math"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/show/words"
	"evenpull/sim/study/choose"

	"gonum.org/v1/plot/plotter"
)

// leading is the number of candidates that are drawn: more lines cannot be told
// apart.
const leading = 3

// Choose draws the torque of the leading candidates over the run, with the need, the
// target and the bands of the verdict.
func Choose(w io.Writer, format string, st *choose.Study) error {
	g, err := chooseGraph(st)
	if err != nil {
		return err
	}
	return Stack(w, format, g)
}

func chooseGraph(st *choose.Study) (*Graph, error) {
	g := &Graph{Title: chooseTitle(st), X: "–", Y: "–"}
	for i := range st.Candidates {
		c := &st.Candidates[i]
		if len(g.Lines) == leading || !c.Fits() {
			break
		}
		if i > 0 && c.Digest.Torque == st.Candidates[i-1].Digest.Torque {
			continue // it would hide the line of its like
		}
		r, err := st.Fine(c)
		if err != nil {
			return nil, err
		}
		g.Bands = TorqueBands(&r.Digest)
		g.Lines = append(g.Lines, Curve{Label: fmt.Sprintf("%d. %s", c.Rank, c.Label), Points: ofRows(r, func(row *sim.Row) float64 { return row.FuseeTorque })})
	}
	if len(g.Lines) == 0 {
		return g, nil
	}
	g.X, g.Y = "fusee turns paid out", "torque at the fusee, N·m"
	if need := st.Target.Need; !math.IsNaN(need) {
		g.Levels = append(g.Levels, Level{Label: "least torque needed", At: need, Role: Need, Always: true})
	}
	g.aim(st)
	return g, nil
}

// aim draws the target as a narrow strip under the lines, from end to end of the run
// and no farther, so that it strikes through no name; one far from the lines is left
// out, since it would flatten them.
func (g *Graph) aim(st *choose.Study) {
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
	strip := Area{Label: "mean aimed at"}
	for _, x := range [2]float64{0, st.Present.Digest.Turns} {
		strip.Lower, strip.Upper = append(strip.Lower, plotter.XY{X: x, Y: at - half}), append(strip.Upper, plotter.XY{X: x, Y: at + half})
	}
	g.Areas = append(g.Areas, strip)
}

func chooseTitle(st *choose.Study) string {
	best, train := &st.Candidates[0], st.Present.Digest.Name
	switch code := best.Digest.Verdict.Code; {
	case !best.Fits():
		return fmt.Sprintf("%s train: no spring of the list can be fitted", train)
	case code == rules.Suits && !best.Order().Advised:
		return fmt.Sprintf("%s train: %s suits by its torque, but is not to be ordered", train, best.Label)
	default:
		return fmt.Sprintf("%s train: %s %s", train, best.Label, words.Does(code))
	}
}
