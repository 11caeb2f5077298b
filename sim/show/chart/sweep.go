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
	torque := sweepTorque(st)
	first := torque
	panels := []Picture{first}
	if st.Of.Name != outcome.MeanTorque {
		torque.Low = true
		first = sweepPanel(st, st.Of.Label(), curveOf(st, st.Of.Words, func(d *sim.Digest) float64 { return st.Of.Shown(st.Of.Of(d)) }))
		first.Low = false
		panels = []Picture{first, torque}
	}
	first.Title, first.Stripes, first.Marks = words.SweepTitle(st), sweepStripes(st), sweepMark(st)
	if !math.IsNaN(st.Own.Need.Used) {
		panels = append(panels, sweepReserve(st))
	}
	if st.Of.Name != outcome.Unevenness {
		panels = append(panels, sweepPanel(st, "unevenness, %", curveOf(st, "unevenness, (greatest − least)/mean", func(d *sim.Digest) float64 { return 100 * d.Torque.Unevenness })))
	}
	return append(panels, sweepMotion(st)...)
}

// curveOf is a figure over the input; NaN where the train cannot be built.
func curveOf(st *sweep.Study, label string, of func(*sim.Digest) float64) Curve {
	xys := make(plotter.XYs, len(st.Points))
	for i := range st.Points {
		p := &st.Points[i]
		xys[i] = plotter.XY{X: p.Value, Y: math.NaN()}
		if p.Built() {
			xys[i].Y = of(&p.Digest)
		}
	}
	return Curve{Label: label, Points: xys}
}

func sweepPanel(st *sweep.Study, quantity string, lines ...Curve) *Graph {
	return &Graph{X: words.InputLabel(&st.Over.Quantity, ""), Y: quantity, Low: true, From: st.Over.From, To: st.Over.To, Lines: lines}
}

func sweepTorque(st *sweep.Study) *Graph {
	g := sweepPanel(st, "torque at the fusee, N·m", curveOf(st, "mean over the run", func(d *sim.Digest) float64 { return d.Torque.Mean }))
	g.Low = false
	g.Areas = []Area{{
		Label: "from the least to the greatest", Lower: curveOf(st, "", func(d *sim.Digest) float64 { return d.Torque.Min }).Points,
		Upper: curveOf(st, "", func(d *sim.Digest) float64 { return d.Torque.Max }).Points,
	}}
	if !math.IsNaN(st.Own.Need.Used) {
		g.Lines = append(g.Lines, curveOf(st, "least torque needed", func(d *sim.Digest) float64 { return d.Need.Used }))
	}
	return g
}

func sweepReserve(st *sweep.Study) *Graph {
	g := sweepPanel(st, "reserve",
		curveOf(st, "mean reserve", func(d *sim.Digest) float64 { return d.Reserve(d.Torque.Mean) }),
		curveOf(st, "least reserve", func(d *sim.Digest) float64 { return d.Reserve(d.Torque.Min) }))
	if s := &st.Own.Standard; s.Basis == rules.ByReserve {
		g.Levels = []Level{{Label: "thin: least below", At: s.Bands.Thin}, {Label: "strong: mean above", At: s.Bands.Suits}}
	}
	return g
}

// sweepMotion is what the drive does to pendulum or blows.
func sweepMotion(st *sweep.Study) []Picture {
	var list []Picture
	if st.Own.Escapes {
		g := sweepPanel(st, "semi-arc, degrees", curveOf(st, "mean semi-arc of the pendulum", func(d *sim.Digest) float64 { return words.Degrees(d.Swing.Amplitude.Mean) }))
		e := &st.Train.Escapement
		g.Levels = []Level{{Label: "least wanted: to escape, with the margin", At: (e.Reach() + e.Margin).Degrees()}}
		list = append(list, g)
	}
	if st.Own.Strikes {
		g := sweepPanel(st, "s from blow to blow", curveOf(st, "mean interval of the blows", func(d *sim.Digest) float64 { return d.Cadence.Interval.Mean }))
		if i := st.Own.Wanted; !i.IsEmpty() {
			g.Levels = []Level{{Label: "slowest wanted", At: i.Hi}, {Label: "fastest wanted", At: i.Lo}}
		}
		list = append(list, g)
	}
	return list
}

// sweepMark is the scenario's own point, when it lies in the range.
func sweepMark(st *sweep.Study) []Mark {
	y := st.Of.Shown(st.Result(&st.Own))
	if !st.Over.Holds() || math.IsNaN(y) {
		return nil
	}
	return []Mark{{Label: "as the scenario has it", X: st.Own.Value, Y: y}}
}

// sweepStripes are the ranges of one verdict, and those that cannot be built.
func sweepStripes(st *sweep.Study) []Stripe {
	borders := []float64{st.Over.From, st.Over.To}
	for _, c := range st.Changes {
		borders = append(borders, c.At)
	}
	for _, l := range st.Limits {
		borders = append(borders, l.At)
	}
	slices.Sort(borders)
	var stripes []Stripe
	for i := 1; i < len(borders); i++ {
		s := Stripe{From: borders[i-1], To: borders[i]}
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
		m.Mark = &Mark{Label: "as the scenario has it", X: a.Value, Y: b.Value}
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
