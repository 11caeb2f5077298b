package chart

import (
	"evenpull/sim"

	"gonum.org/v1/plot/plotter"
)

// overTurn is what an axis of turns is called.
const overTurn = "fusee turns paid out"

// torqueLabel is what an axis of the torque over a run is called.
const torqueLabel = "torque at the fusee, N·m"

// points are the points of a list.
func points[T any](list []T, of func(*T) (x, y float64)) plotter.XYs {
	xys := make(plotter.XYs, len(list))
	for i := range list {
		xys[i].X, xys[i].Y = of(&list[i])
	}
	return xys
}

// ofRows is a figure over the turns of a run.
func ofRows(r *sim.Result, of func(*sim.Row) float64) plotter.XYs {
	return points(r.Rows, func(row *sim.Row) (x, y float64) { return row.FuseeTurn, of(row) })
}

// level is a straight line to an end.
func level(to, y float64) plotter.XYs { return plotter.XYs{{X: 0, Y: y}, {X: to, Y: y}} }

// needed is the least torque that a train needs; NaN draws none.
func needed(at float64, always bool) []Limit {
	return []Limit{{Label: "least torque needed", At: at, Role: Need, Always: always}}
}
