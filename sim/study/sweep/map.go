package sweep

import (
	"math"

	"evenpull/sim/rules"
	"evenpull/sim/show/chart"
)

// chartMap is the mean reserve over two inputs, or the mean torque where no need
// is known.
func (st *Study) chartMap() *chart.Map {
	a, b := &st.Over, st.Against
	m := &chart.Map{
		Title: st.Train.Name + " train: mean reserve" + title(st), X: a.label(), Y: b.label(), Z: "mean reserve",
		Xs: a.values(), Ys: b.values(),
		At: st.of(func(p *Point) float64 { return p.Reserve.Mean }),
	}
	if math.IsNaN(st.Own.Reserve.Mean) {
		m.Title, m.Z = st.Train.Name+" train: mean torque at the fusee"+title(st), "mean torque at the fusee, N·m"
		m.At = st.of(func(p *Point) float64 { return p.Torque.Mean })
	}
	if a.Value >= a.From && a.Value <= a.To && b.Value >= b.From && b.Value <= b.To {
		m.Mark = &chart.Mark{Label: "as the scenario has it", X: a.Value, Y: b.Value, Role: chart.Now}
	}
	if st.Own.Verdict != rules.Unjudged {
		m.Borders = st.verdictBorders()
	}
	return m
}

func (a *Axis) values() []float64 {
	v := make([]float64, a.Steps)
	for i := range v {
		v[i] = a.at(i)
	}
	return v
}

// of is a figure at the points of the map; NaN where the train cannot be built.
func (st *Study) of(f func(*Point) float64) func(i, j int) float64 {
	return func(i, j int) float64 {
		p := &st.Points[j*st.Over.Steps+i]
		if !p.Built() {
			return math.NaN()
		}
		return f(p)
	}
}

// verdictBorders are where the margins of the verdict pass 0. A margin of the
// mean decides only where the least torque is enough: elsewhere the border is
// that of the least.
func (st *Study) verdictBorders() []chart.Border {
	margin := func(k int) func(*Point) float64 {
		return func(p *Point) float64 {
			v := p.margins[k]
			for _, before := range p.margins[:k] {
				if k >= 2 && before < 0 {
					v = math.Min(v, -math.Abs(v))
				}
			}
			return v
		}
	}
	names := [...]string{"stops | thin", "thin | suits", "suits | strong", "strong | overdriven"}
	borders := make([]chart.Border, 0, len(names))
	for k, name := range names {
		borders = append(borders, chart.Border{Label: name, At: st.of(margin(k))})
	}
	return borders
}
