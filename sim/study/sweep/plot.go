package sweep

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"evenpull/sim"
	"evenpull/sim/show/chart"

	"gonum.org/v1/plot/plotter"
)

// Plot draws a study: over one input the torque with the verdicts behind it, and
// reserve, unevenness and arc or cadence in panels of their own; over two a map of
// the reserve with the borders of the verdicts.
func Plot(w io.Writer, format string, st *Study) error {
	if st.Against != nil {
		return chart.Stack(w, format, st.chartMap())
	}
	pictures := []chart.Picture{st.torque()}
	if !math.IsNaN(st.Own.Reserve.Mean) {
		pictures = append(pictures, st.reserve())
	}
	pictures = append(pictures, st.panel("unevenness, %", "unevenness, (greatest − least)/mean", func(p *Point) float64 { return 100 * p.Torque.Unevenness }))
	switch t := st.Train; {
	case t.Escapes:
		least := (t.Escapement.Reach() + t.Escapement.Margin).Degrees()
		pictures = append(pictures, st.panel("semi-arc, degrees", "mean semi-arc of the pendulum",
			func(p *Point) float64 { return sim.Degrees(p.Amplitude) }, chart.Level{Label: "least wanted: to escape, with the margin", At: least, Role: chart.Need}))
	case t.Strikes:
		var wanted []chart.Level
		if i := t.Striker.Interval; !i.IsEmpty() {
			wanted = []chart.Level{{Label: "slowest wanted", At: i.Hi}, {Label: "fastest wanted", At: i.Lo}}
		}
		pictures = append(pictures, st.panel("s from blow to blow", "mean interval of the blows", func(p *Point) float64 { return p.BlowInterval }, wanted...))
	}
	return chart.Stack(w, format, pictures...)
}

// curve is a figure over the input; NaN where the train cannot be built.
func (st *Study) curve(of func(*Point) float64) plotter.XYs {
	xys := make(plotter.XYs, len(st.Points))
	for i := range st.Points {
		p := &st.Points[i]
		xys[i] = plotter.XY{X: p.Value, Y: math.NaN()}
		if p.Built() {
			xys[i].Y = of(p)
		}
	}
	return xys
}

// label names the input on an axis.
func (a *Axis) label() string {
	if a.Unit == "" {
		return a.Key
	}
	return a.Key + ", " + a.Unit
}

func (st *Study) torque() *chart.Graph {
	g := &chart.Graph{
		Title: fmt.Sprintf("%s train: %s at %s%s", st.Train.Name, word(st.Own.Verdict), st.ownValue(), title(st)), X: st.Over.label(), Y: "torque at the fusee, N·m",
		From: st.Over.From, To: st.Over.To, Stripes: st.stripes(),
		Areas: []chart.Area{{
			Label: "from the least to the greatest", Lower: st.curve(func(p *Point) float64 { return p.Torque.Min }),
			Upper: st.curve(func(p *Point) float64 { return p.Torque.Max }),
		}},
		Lines: []chart.Curve{{Label: "mean over the run", Points: st.curve(func(p *Point) float64 { return p.Torque.Mean })}},
	}
	if !math.IsNaN(st.Own.Need) {
		g.Lines = append(g.Lines, chart.Curve{Label: "least torque needed", Points: st.curve(func(p *Point) float64 { return p.Need }), Role: chart.Need})
	}
	g.Marks = st.mark(st.Own.Torque.Mean)
	return g
}

// word is a verdict in capitals.
func word(c sim.Code) string {
	if c == sim.Unjudged {
		return "not judged"
	}
	return strings.ToUpper(c.String())
}

// title says what was held, unless it goes without saying.
func title(st *Study) string {
	if st.Hold == 0 {
		return ""
	}
	return "; every strip cut to the same fill"
}

// mark is the scenario's own point, when it lies in the range.
func (st *Study) mark(y float64) []chart.Mark {
	if v := st.Over.Value; v < st.Over.From || v > st.Over.To || math.IsNaN(y) {
		return nil
	}
	return []chart.Mark{{Label: "as the scenario has it", X: st.Over.Value, Y: y, Role: chart.Now}}
}

func (st *Study) reserve() *chart.Graph {
	g := &chart.Graph{
		X: st.Over.label(), Y: "reserve", Low: true, From: st.Over.From, To: st.Over.To,
		Lines: []chart.Curve{
			{Label: "mean reserve", Points: st.curve(func(p *Point) float64 { return p.Reserve.Mean })},
			{Label: "least reserve", Points: st.curve(func(p *Point) float64 { return p.Reserve.Min })},
		},
	}
	if _, basis := st.Train.Liked(); basis == sim.ByNothing {
		b := st.Train.Bands
		g.Levels = []chart.Level{{Label: "thin: least below", At: b.Thin}, {Label: "strong: mean above", At: b.Suits}}
	}
	return g
}

func (st *Study) panel(quantity, label string, of func(*Point) float64, levels ...chart.Level) *chart.Graph {
	return &chart.Graph{
		X: st.Over.label(), Y: quantity, Low: true, From: st.Over.From, To: st.Over.To, Levels: levels,
		Lines: []chart.Curve{{Label: label, Points: st.curve(of)}},
	}
}

// stripes are the ranges of one verdict, and those that cannot be built.
func (st *Study) stripes() []chart.Stripe {
	borders := []float64{st.Over.From, st.Over.To}
	for _, c := range st.Changes {
		borders = append(borders, c.At)
	}
	for _, l := range st.Limits {
		borders = append(borders, l.At)
	}
	slices.Sort(borders)
	var stripes []chart.Stripe
	for i := 1; i < len(borders); i++ {
		s := chart.Stripe{From: borders[i-1], To: borders[i]}
		var judged bool
		if s.Code, judged = st.between(s.From, s.To); !judged {
			s.Name = "cannot be built"
		} else if s.Code == sim.Unjudged {
			continue // nothing to shade by
		}
		stripes = append(stripes, s)
	}
	return stripes
}

// between is the verdict between two neighbouring borders; false when nothing
// can be built there.
func (st *Study) between(from, to float64) (sim.Code, bool) {
	for _, c := range st.Changes {
		switch {
		case c.At == from:
			return c.Above, true
		case c.At == to:
			return c.Below, true
		}
	}
	for i := range st.Points {
		if p := &st.Points[i]; p.Value >= from && p.Value <= to && p.Built() {
			return p.Verdict, true
		}
	}
	return sim.Unjudged, false
}
