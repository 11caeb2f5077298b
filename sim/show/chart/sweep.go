package chart

import (
	"io"
	"math"
	"slices"

	"evenpull/sim"
	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/show/words"
	"evenpull/sim/study/sweep"

	"gonum.org/v1/plot/plotter"
)

// Sweep draws a sweep: over one input the result that it is of, with the verdicts
// behind it, and torque, reserve, unevenness and arc or cadence in panels of their
// own; over two a map of the result with the borders of the verdicts.
func Sweep(w io.Writer, format string, st *sweep.Study) error {
	if st.Against != nil {
		return Stack(w, format, sweepMap(st))
	}
	return Stack(w, format, sweepPanels(st)...)
}

// sweepPanels are the pictures of a sweep over one input.
func sweepPanels(st *sweep.Study) []Picture {
	first := overInput(st, st.Of.Label(), st.Of.Name)
	torque := overInput(st, torqueLabel, outcome.MeanTorque, "least_torque_nm.used")
	torque.Areas = []Area{{
		Label: "from the least to the greatest", Lower: resultOver(st, func(d *sim.Digest) float64 { return d.Torque.Min }),
		Upper: resultOver(st, func(d *sim.Digest) float64 { return d.Torque.Max }),
	}}
	panels := []Picture{first, torque}
	if st.Of.Name == outcome.MeanTorque {
		first, panels = torque, panels[1:]
	}
	first.Title, first.Stripes, first.Dots, first.Low = words.SweepTitle(st), sweepStripes(st), sweepMark(st), false
	own := &st.Own
	if !math.IsNaN(own.Need.Used) {
		g := overInput(st, "reserve", outcome.MeanReserve, outcome.LeastReserve)
		if s := &own.Standard; s.Basis == rules.ByReserve {
			g.Levels = []Limit{{Label: "thin: least below", At: s.Bands.Thin}, {Label: "strong: mean above", At: s.Bands.Suits}}
		}
		panels = append(panels, g)
	}
	if st.Of.Name != outcome.Unevenness {
		panels = append(panels, overInput(st, "unevenness, %", outcome.Unevenness))
	}
	if own.Escapes {
		g, e := overInput(st, "semi-arc, degrees", "amplitude_deg.mean"), &st.Train.Escapement
		g.Levels = []Limit{{Label: leastWanted, At: (e.Reach() + e.Margin).Degrees()}}
		panels = append(panels, g)
	}
	if own.Strikes {
		g := overInput(st, "s from blow to blow", "blow_interval_s.mean")
		g.Levels = wanted(&own.Digest, false)
		panels = append(panels, g)
	}
	return panels
}

// overInput is a low graph of results over the input, in their words; a result that
// no point has has no line.
func overInput(st *sweep.Study, y string, names ...string) *Graph {
	g := &Graph{X: words.InputLabel(&st.Over.Quantity, ""), Y: y, Low: true, From: st.Over.From, To: st.Over.To}
	for _, name := range names {
		f, err := outcome.Named(name)
		if err != nil {
			continue // a name that is misspelt here: a test finds it
		}
		points := resultOver(st, func(d *sim.Digest) float64 { return f.Shown(f.Of(d)) })
		if slices.ContainsFunc(points, func(p plotter.XY) bool { return !math.IsNaN(p.Y) }) {
			g.Lines = append(g.Lines, Curve{Label: f.Words, Points: points})
		}
	}
	return g
}

// resultOver is a result at the points; NaN where the train cannot be built.
func resultOver(st *sweep.Study, of func(*sim.Digest) float64) plotter.XYs {
	return points(st.Points, func(p *sweep.Point) (x, y float64) {
		if !p.Built() {
			return p.Value, math.NaN()
		}
		return p.Value, of(&p.Digest)
	})
}

// sweepMark is the scenario's own point, when it lies in the range.
func sweepMark(st *sweep.Study) []Dots {
	y := st.Of.Shown(st.Result(&st.Own))
	if !st.Over.Holds() || math.IsNaN(y) {
		return nil
	}
	return []Dots{mark("as the scenario has it", st.Own.Value, y, Now)}
}

// sweepStripes are the ranges of one verdict, and those that cannot be built.
func sweepStripes(st *sweep.Study) []Shade {
	borders := []float64{st.Over.From, st.Over.To}
	for _, c := range st.Changes {
		borders = append(borders, c.At)
	}
	for _, l := range st.Limits {
		borders = append(borders, l.At)
	}
	slices.Sort(borders)
	var stripes []Shade
	for i := 1; i < len(borders); i++ {
		s := Shade{From: borders[i-1], To: borders[i]}
		var built bool
		if s.Code, built = st.Between(s.From, s.To); !built {
			s.Name = "cannot be built"
		} else if s.Code == rules.Unjudged {
			continue // nothing to shade by
		}
		stripes = append(stripes, s)
	}
	return stripes
}

// sweepMap is the result over two inputs.
func sweepMap(st *sweep.Study) *Map {
	at := func(of func(*sweep.Point) float64) func(i, j int) float64 {
		return func(i, j int) float64 {
			if p := &st.Points[j*st.Over.Steps+i]; p.Built() {
				return of(p)
			}
			return math.NaN()
		}
	}
	a, b := &st.Over, st.Against
	m := &Map{
		Title: words.SweepTitle(st), X: words.InputLabel(&a.Quantity, ""), Y: words.InputLabel(&b.Quantity, ""), Z: st.Of.Label(),
		Xs: axisValues(a), Ys: axisValues(b), At: at(func(p *sweep.Point) float64 { return st.Of.Shown(st.Result(p)) }),
	}
	if a.Holds() && b.Holds() {
		m.Dots = []Dots{mark("as the scenario has it", a.Value, b.Value, Now)}
	}
	if st.Own.Verdict.Code != rules.Unjudged {
		for k, name := range [...]string{"stops | thin", "thin | suits", "suits | strong", "strong | overdriven"} {
			m.Borders = append(m.Borders, Border{Label: name, At: at(func(p *sweep.Point) float64 { return deciding(p, k) })})
		}
	}
	return m
}

func axisValues(a *sweep.Axis) []float64 {
	v := make([]float64, a.Steps)
	for i := range v {
		v[i] = a.At(i)
	}
	return v
}

// deciding is the margin from the limit with the given number. A margin of the
// mean decides only where the least torque is enough: elsewhere the border is that
// of the least.
func deciding(p *sweep.Point, limit int) float64 {
	margins := p.Margins()
	v := margins[limit]
	for _, before := range margins[:limit] {
		if limit >= 2 && before < 0 {
			v = math.Min(v, -math.Abs(v))
		}
	}
	return v
}
