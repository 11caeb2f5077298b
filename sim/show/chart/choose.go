package chart

import (
	"fmt"
	"slices"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/show/words"
	"evenpull/sim/study/choose"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"
)

// leading is the number of candidates that are drawn beside the present spring: more lines
// cannot be told apart.
const leading = 3

// Choose draws the torque of the present spring and of the leading candidates over the run,
// with the need, the target and the bands of the verdict.
func Choose(look Look, st *choose.Study) (Files, error) {
	p, err := leaders(st)
	if err != nil {
		return nil, err
	}
	return stack(look, p)
}

func leaders(st *choose.Study) (*panel, error) {
	p := &panel{finding: words.FoundChoose(st), x: overTurn, y: torqueLabel, zero: true}
	now, styles := &st.Present.Digest, trials
	if !st.Lost {
		if err := p.candidate("the present spring", nowLine)(st.FineNow(now.Spring.SetUp)); err != nil {
			return nil, err
		}
	}
	switch {
	case st.First == rules.AnotherSetUp:
		if err := p.candidate("with the set-up advised", bestLine)(st.FineNow(st.SetUp.Advised.Spring.SetUp)); err != nil {
			return nil, err
		}
	case st.First != rules.Nothing:
		styles = append([]draw.LineStyle{bestLine}, trials...)
	}
	var drawn []*choose.Candidate
	for i := range st.Candidates {
		c := &st.Candidates[i]
		if len(drawn) == leading || !c.Fits() {
			break
		}
		if n := len(drawn); n > 0 && c.Digest.Torque == drawn[n-1].Digest.Torque {
			continue // it would hide the line of its like
		}
		if err := p.candidate(fmt.Sprintf("%d. %s", c.Rank, c.Label), styles[len(drawn)])(st.Fine(c)); err != nil {
			return nil, err
		}
		drawn = append(drawn, c)
	}
	if len(p.layers) == 0 {
		return &panel{finding: p.finding, x: "–", y: "–"}, nil
	}
	p.add(needed(st.Target.Need))
	// One far from the lines is left out, since it would flatten them.
	best := now.Torque.Mean
	if len(drawn) > 0 {
		best = drawn[0].Digest.Torque.Mean
	}
	if at := st.Target.Mean; at > best/1.5 && at < 1.5*best {
		p.layers = slices.Insert(p.layers, 0, line("mean aimed at", limits[1], plotter.XYs{{X: 0, Y: at}, {X: now.Turns, Y: at}}))
	}
	return p, nil
}

// candidate adds the torque of a run with a spring, as long as the train goes with it.
func (p *panel) candidate(label string, style draw.LineStyle) func(*sim.Result, error) error {
	return func(r *sim.Result, err error) error {
		if err != nil {
			return err
		}
		p.bands = torqueBands(&r.Digest)
		p.xs = r1.Interval{Lo: 0, Hi: r.Turns}
		curve := ofRows(r, fuseeTorque)
		goes, _ := going(r.StopsAt, curve)
		p.add(line(label, style, goes), stops(goes, words.Stopped), begins(r, curve))
		return nil
	}
}
