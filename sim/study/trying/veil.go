package trying

import (
	"math"

	"evenpull/sim"
	"evenpull/sim/vary"
)

// within95 are the standard deviations to both sides that 95 in 100 lie between.
const within95 = 1.96

// veil gathers between which torques the draws lie at each row, as if they lay normally:
// those of the first block are enough.
type veil struct {
	own          []sim.Row
	sum, squares []float64
	draws        float64
}

func veilOver(own []sim.Row) *veil {
	return &veil{own: own, sum: make([]float64, len(own)), squares: make([]float64, len(own))}
}

// add takes a draw in: one block is drawn by one goroutine. A draw that cannot be built, or
// binds elsewhere, is another run, and left out.
func (v *veil) add(draw int, r *sim.Result) {
	if draw >= vary.BlockRuns || r == nil || len(r.Rows) != len(v.own) {
		return
	}
	v.draws++
	for i := range r.Rows {
		off := r.Rows[i].FuseeTorque - v.own[i].FuseeTorque
		v.sum[i] += off
		v.squares[i] += off * off
	}
}

// ends are those of the 95 % range at each row, N·m; nil where the draws are too few.
func (v *veil) ends() (low, up []float64) {
	if v.draws < 20 {
		return nil, nil
	}
	for i := range v.own {
		mean := v.sum[i] / v.draws
		middle, by := v.own[i].FuseeTorque+mean, within95*math.Sqrt(max(v.squares[i]/v.draws-mean*mean, 0))
		low, up = append(low, max(middle-by, 0)), append(up, middle+by)
	}
	return low, up
}
