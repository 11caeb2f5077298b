package chart

import (
	"fmt"
	"io"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/show/words"
	"evenpull/sim/study/choose"
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
	g.X, g.Y, g.Levels = overTurn, torqueLabel, needed(st.Target.Need, true)
	// The target ends with the run, since beyond it stand the names of the bands; one
	// far from the lines is left out, since it would flatten them.
	at, best, end := st.Target.Mean, st.Candidates[0].Digest.Torque.Mean, st.Present.Digest.Turns
	if at > best/1.5 && at < 1.5*best {
		g.Areas = []Area{{Label: "mean aimed at", Lower: level(end, 0.999*at), Upper: level(end, 1.001*at)}}
	}
	return g, nil
}

func chooseTitle(st *choose.Study) string {
	best, train := &st.Candidates[0], st.Present.Digest.Name
	switch code := best.Digest.Verdict.Code; {
	case !best.Fits():
		return fmt.Sprintf("%s train: no spring of the list can be fitted", train)
	case code == rules.Suits && !best.Orders():
		return fmt.Sprintf("%s train: %s suits by its torque, but is not to be ordered", train, best.Label)
	default:
		return fmt.Sprintf("%s train: %s %s", train, best.Label, words.Does(code))
	}
}
