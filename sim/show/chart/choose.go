package chart

import (
	"fmt"
	"io"
	"slices"

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
	p, err := leaders(st)
	if err != nil {
		return err
	}
	return stack(w, format, p)
}

func leaders(st *choose.Study) (*panel, error) {
	p := &panel{title: chooseTitle(st), x: "–", y: "–"}
	for i := range st.Candidates {
		c := &st.Candidates[i]
		if len(p.layers) == leading || !c.Fits() {
			break
		}
		if i > 0 && c.Digest.Torque == st.Candidates[i-1].Digest.Torque {
			continue // it would hide the line of its like
		}
		r, err := st.Fine(c)
		if err != nil {
			return nil, err
		}
		p.bands = torqueBands(&r.Digest)
		p.add(line(fmt.Sprintf("%d. %s", c.Rank, c.Label), curves[len(p.layers)], ofRows(r, fuseeTorque)))
	}
	if len(p.layers) == 0 {
		return p, nil
	}
	p.x, p.y, p.layers = overTurn, torqueLabel, append(p.layers, needed(st.Target.Need).seen())
	// The target ends with the run, since beyond it stand the names of the bands; one
	// far from the lines is left out, since it would flatten them.
	at, best, end := st.Target.Mean, st.Candidates[0].Digest.Torque.Mean, st.Present.Digest.Turns
	if at > best/1.5 && at < 1.5*best {
		p.layers = slices.Insert(p.layers, 0, line("mean aimed at", limits[1], plotter.XYs{{X: 0, Y: at}, {X: end, Y: at}}))
	}
	return p, nil
}

func chooseTitle(st *choose.Study) string {
	best, train := st.Best(), st.Present.Digest.Name
	switch code := best.Digest.Verdict.Code; {
	case !best.Fits():
		return fmt.Sprintf("%s train: no spring of the list can be fitted", train)
	case code == rules.Suits && !best.Orders():
		return fmt.Sprintf("%s train: %s suits by its torque, but is not to be ordered", train, best.Label)
	default:
		return fmt.Sprintf("%s train: %s %s", train, best.Label, words.Does(code))
	}
}
