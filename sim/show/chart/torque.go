package chart

import (
	"fmt"
	"math"
	"strings"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/show/words"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

const (
	textSize  = 11
	titleSize = 14
	legendRow = 18 // points for the legend below the plot
	margin    = 10
)

// drawTorque draws one train's torque on a panel, its legend below it.
func drawTorque(panel draw.Canvas, r *sim.Result) error {
	p, entries, err := torquePlot(r)
	if err != nil {
		return err
	}
	p.Draw(draw.Crop(panel, 0, 0, legendRow, 0))
	drawLegend(panel, entries)
	return nil
}

// entry is one line of the legend.
type entry struct {
	label string
	thumb plot.Thumbnailer
}

func torquePlot(r *sim.Result) (*plot.Plot, []entry, error) {
	p, from, to := frame(r, "torque at the fusee, N·m")
	p.Title.Text = title(r)
	p.Title.TextStyle.Font.Size = titleSize
	p.Title.Padding = 8
	lo, hi := torqueRange(r)
	edge := to + gutter*(to-from)
	if err := addBands(p, r, from, edge, to+gutter/10*(to-from), lo, hi); err != nil {
		return nil, nil, err
	}
	entries, err := addCurves(p, r, from, to, edge, lo, hi)
	p.Y.Min, p.Y.Max = lo, hi
	return p, entries, err
}

// gutter is the room at the right for the names of the bands, as a share of the
// run; every panel keeps it free so that turns stand below each other.
const gutter = 0.13

// frame is an empty plot over the run, with turns and hours along it.
func frame(r *sim.Result, quantity string) (p *plot.Plot, from, to float64) {
	p = plot.New()
	for _, axis := range []*plot.Axis{&p.X, &p.Y} {
		axis.Label.TextStyle.Font.Size = textSize
		axis.Tick.Label.Font.Size = textSize - 1
		axis.Padding = 0
	}
	from, to = r.Rows[0].FuseeTurn, r.Rows[len(r.Rows)-1].FuseeTurn
	p.X.Tick.Label.YAlign = text.YTop
	p.X.Tick.Marker = turnTicks{r: r, from: from, to: to}
	p.X.Label.Text = "fusee turns paid out"
	if !math.IsNaN(r.HoursPerTurn) {
		p.X.Label.Text += " (below: hours from the start of the run)"
	}
	p.Y.Label.Text = quantity
	p.Y.Tick.Marker = evenTicks{}
	p.X.Min, p.X.Max = from, to+gutter*(to-from)
	return p, from, to
}

func title(r *sim.Result) string {
	word := "not judged"
	if r.Verdict.Code != rules.Unjudged {
		word = strings.ToUpper(r.Verdict.Code.String())
	}
	s := fmt.Sprintf("%s train: %s (mean %s, least %s N·m", r.Train.Name, word, words.Figure(r.Torque.Mean), words.Figure(r.Torque.Min))
	if !math.IsNaN(r.Need.Used) {
		s += fmt.Sprintf("; need %s", words.Figure(r.Need.Used))
	}
	return s + ")"
}

// torqueRange is the range of the axis: the curve and the limits near it, with
// some room.
func torqueRange(r *sim.Result) (lo, hi float64) {
	lo, hi = r.Torque.Min, r.Torque.Max
	for _, b := range bandsOf(r) {
		// A limit further away than the curve is high would only flatten it.
		if b.lo > 0 && b.lo > 0.6*r.Torque.Min && b.lo < 1.4*r.Torque.Max {
			lo, hi = math.Min(lo, b.lo), math.Max(hi, b.lo)
		}
	}
	room := math.Max(0.15*(hi-lo), 0.05*hi)
	return math.Max(lo-room, 0), hi + room
}

func addCurves(p *plot.Plot, r *sim.Result, from, to, edge, lo, hi float64) ([]entry, error) {
	pts := make(plotter.XYs, len(r.Rows))
	for i := range r.Rows {
		pts[i] = plotter.XY{X: r.Rows[i].FuseeTurn, Y: r.Rows[i].FuseeTorque}
	}
	var entries []entry
	add := func(label string, xys plotter.XYs, style draw.LineStyle) error {
		line, err := addLine(p, xys, style)
		entries = append(entries, entry{label, line})
		return err
	}
	level := func(y, end float64) plotter.XYs { return plotter.XYs{{X: from, Y: y}, {X: end, Y: y}} }
	if err := add("torque at the fusee", pts, draw.LineStyle{Color: ink, Width: vg.Points(2.2)}); err != nil {
		return nil, err
	}
	if err := add("its mean over the run", level(r.Torque.Mean, to), draw.LineStyle{Color: ink, Width: vg.Points(0.9), Dashes: []vg.Length{2, 3}}); err != nil {
		return nil, err
	}
	if !(r.Need.Used >= lo && r.Need.Used <= hi) { // not known, or off the picture
		return entries, nil
	}
	return entries, add("least torque needed", level(r.Need.Used, edge), draw.LineStyle{Color: needInk, Width: vg.Points(1.6), Dashes: []vg.Length{8, 4}})
}

func addLine(p *plot.Plot, xys plotter.XYs, style draw.LineStyle) (*plotter.Line, error) {
	line, err := plotter.NewLine(xys)
	if err != nil {
		return nil, err
	}
	line.LineStyle = style
	p.Add(line)
	return line, nil
}

// drawLegend draws the entries side by side along the bottom of the panel.
func drawLegend(panel draw.Canvas, entries []entry) {
	width := panel.Max.X - panel.Min.X
	for i, e := range entries {
		l := plot.NewLegend()
		l.TextStyle.Font.Size = textSize
		l.Left, l.Top = true, false
		l.ThumbnailWidth = 34
		l.Add(e.label, e.thumb)
		from := width * vg.Length(i) / vg.Length(len(entries))
		l.Draw(draw.Crop(panel, from+40, 0, 0, 0))
	}
}
