package chart

import "gonum.org/v1/plot/plotter"

func (d *graphDrawing) areas(g *Graph) error {
	for _, a := range g.Areas {
		label := a.Label
		for _, outline := range a.outlines() {
			area, err := addArea(d.p, outline, areaFill, ink, 0.5)
			if err != nil {
				return err
			}
			d.entry(label, area)
			label = "" // once is enough
		}
	}
	return nil
}

// outlines go along the lower curve and back along the upper one, once for each
// stretch over which both have numbers.
func (a *Area) outlines() []plotter.XYs {
	var list []plotter.XYs
	from, n := 0, min(len(a.Lower), len(a.Upper))
	for k := 0; k <= n; k++ {
		if k < n && finite(a.Lower[k].X) && finite(a.Lower[k].Y) && finite(a.Upper[k].X) && finite(a.Upper[k].Y) {
			continue
		}
		if from < k {
			outline := append(plotter.XYs{}, a.Lower[from:k]...)
			for i := k - 1; i >= from; i-- {
				outline = append(outline, a.Upper[i])
			}
			list = append(list, outline)
		}
		from = k + 1
	}
	return list
}

func (d *graphDrawing) bars(g *Graph) error {
	for _, b := range g.Bars {
		if !finite(b.From+b.To+b.Height) || b.Height <= 0 {
			continue
		}
		to := b.To
		if to == b.From { // one value only
			to += 0.01 * (d.x.hi - d.x.lo)
		}
		if _, err := addArea(d.p, box(b.From, 0, to, b.Height), barFill, ink, 0.4); err != nil {
			return err
		}
	}
	return nil
}
