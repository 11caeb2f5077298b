package chart

import (
	"io"
	"slices"

	"evenpull/sim/show/words"
	"evenpull/sim/study/cut"

	"github.com/golang/geo/r1"
)

// Cut draws the diameters over the turns, now and cut, what comes off, and below
// them the torque with the bands of the verdict.
func Cut(w io.Writer, format string, st *cut.Study) error {
	const steps = 320
	rows, err := st.Fine(steps)
	if err != nil {
		return err
	}
	over := func(y string) *panel {
		return &panel{x: overTurn, y: y, xs: r1.Interval{Lo: 0, Hi: st.Cut.Drive.Cone.Turns}, gutter: true}
	}
	of := func(label string, style int, figure func(*cut.Row) float64) layer {
		return line(label, curves[style], points(rows, func(r *cut.Row) (x, y float64) { return r.FuseeTurn, figure(r) }))
	}
	diameters, removal, torque := over("diameter over the groove bottom, mm"), over("mm of diameter"), over(torqueLabel)
	diameters.title = st.Now.Name + " train: " + words.CutCone(st)
	diameters.layers = []layer{
		of("cut", 0, func(r *cut.Row) float64 { return r.Diameter * 1e3 }), of("as it is", 1, func(r *cut.Row) float64 { return r.Now * 1e3 }),
	}
	label := "to remove" + words.Either(st.After.Missing > cut.LeastCount, "; below 0: metal is missing", "")
	removal.height, removal.layers = lowPanel, []layer{of(label, 0, func(r *cut.Row) float64 { return r.Remove * 1e3 })}
	torque.bands = torqueBands(&st.After.Digest)
	torque.layers = []layer{
		of("cut", 0, func(r *cut.Row) float64 { return r.Torque }), of("as it is", 1, func(r *cut.Row) float64 { return r.TorqueBefore }),
		needed(st.Now.Need.Used).seen(),
	}
	if st.Wanted != nil { // there is no cone now
		diameters.layers, torque.layers = slices.Delete(diameters.layers, 1, 2), slices.Delete(torque.layers, 1, 2)
		return stack(w, format, diameters, torque)
	}
	if !st.Nothing {
		return stack(w, format, diameters, removal, torque)
	}
	for _, p := range []*panel{diameters, torque} { // the cone to cut is the present one
		p.layers = slices.Delete(p.layers, 0, 1)
	}
	return stack(w, format, diameters, torque)
}
