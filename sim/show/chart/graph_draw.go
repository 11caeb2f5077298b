package chart

import (
	"cmp"
	"image/color"
	"math"
	"slices"

	"evenpull/sim/rules"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// graphDrawing is a graph on its way to the canvas.
type graphDrawing struct {
	p       *plot.Plot
	x, y    extent
	top     float64   // of the y axis, the names of the stripes included
	width   vg.Length // between the axis at the left and the right edge
	entries []entry
}

func (d *graphDrawing) entry(label string, thumb plot.Thumbnailer) {
	if label != "" {
		d.entries = append(d.entries, entry{label, thumb})
	}
}

func (d *graphDrawing) stripes(g *Graph) error {
	var named []Stripe
	for _, s := range g.Stripes {
		from, to := math.Max(s.From, d.x.lo), math.Min(s.To, d.x.hi)
		if !(from < to) {
			continue
		}
		area, err := addArea(d.p, box(from, d.y.lo, to, d.top), s.fill(), edgeInk, 0.4)
		if err != nil {
			return err
		}
		if s.Plain {
			d.entry(s.Name, area)
		} else {
			named = append(named, Stripe{From: from, To: to, Code: s.Code, Name: s.Name})
		}
	}
	for _, s := range named { // over all the shades
		if err := d.nameStripe(g, s); err != nil {
			return err
		}
	}
	return nil
}

func (s *Stripe) fill() color.Color {
	switch {
	case s.Plain:
		return plainFill
	case s.Code == rules.Unjudged:
		return unbuilt
	}
	return shade[s.Code]
}

// nameStripe writes the name above the data where it fits, else upright, in the
// widest room that the data leave, where that does.
func (d *graphDrawing) nameStripe(g *Graph, s Stripe) error {
	name := s.Name
	if name == "" {
		name = s.Code.String()
	}
	middle := (s.From + s.To) / 2
	switch room := d.width * vg.Length((s.To-s.From)/(d.x.hi-d.x.lo)); {
	case wide(name)+6 <= room:
		return addText(d.p, middle, d.y.hi+(d.top-d.y.hi)/2, name)
	case textSize+2 <= room:
		lo, hi := g.widestGap(s, d.y.lo, d.top)
		return addUpright(d.p, middle, (lo+hi)/2, name)
	}
	return nil
}

// widestGap is the widest room over a stripe, from lo to hi, that no curve and no
// area passes.
func (g *Graph) widestGap(s Stripe, lo, hi float64) (from, to float64) {
	var taken []r1.Interval
	take := func(curves ...plotter.XYs) {
		all := r1.EmptyInterval()
		for _, points := range curves {
			for _, p := range points {
				if p.X >= s.From && p.X <= s.To && !math.IsNaN(p.Y) {
					all = all.AddPoint(p.Y)
				}
			}
		}
		if !all.IsEmpty() {
			taken = append(taken, all)
		}
	}
	for _, l := range g.Lines {
		take(l.Points)
	}
	for _, a := range g.Areas {
		take(a.Lower, a.Upper)
	}
	slices.SortFunc(taken, func(a, b r1.Interval) int { return cmp.Compare(a.Lo, b.Lo) })
	for _, t := range append(taken, r1.Interval{Lo: hi, Hi: hi}) {
		if t.Lo-lo > to-from {
			from, to = lo, t.Lo
		}
		lo = math.Max(lo, t.Hi)
	}
	return from, to
}

func (d *graphDrawing) lines(g *Graph) error {
	for i, l := range g.Lines {
		for k, run := range runs(l.Points) {
			line, err := addLine(d.p, run, curveInks[i%len(curveInks)])
			if err != nil {
				return err
			}
			if k == 0 {
				d.entry(l.Label, line)
			}
		}
	}
	return nil
}

func (d *graphDrawing) levels(g *Graph) error {
	for i, l := range g.Levels {
		if !(l.At >= d.y.lo && l.At <= d.y.hi) {
			continue
		}
		line, err := addLine(d.p, plotter.XYs{{X: d.x.lo, Y: l.At}, {X: d.x.hi, Y: l.At}}, levelInks[i%len(levelInks)])
		if err != nil {
			return err
		}
		d.entry(l.Label, line)
	}
	return nil
}

func (d *graphDrawing) uprights(g *Graph) error {
	style := -1
	for _, u := range g.Uprights {
		if u.Label != "" {
			style++
		}
		if !(u.At >= d.x.lo && u.At <= d.x.hi) {
			continue
		}
		line, err := addLine(d.p, plotter.XYs{{X: u.At, Y: d.y.lo}, {X: u.At, Y: d.y.hi}}, uprightInks[max(style, 0)%len(uprightInks)])
		if err != nil {
			return err
		}
		d.entry(u.Label, line)
	}
	return nil
}

func (d *graphDrawing) marks(g *Graph) error {
	shapes := []draw.GlyphDrawer{draw.RingGlyph{}, draw.SquareGlyph{}, draw.TriangleGlyph{}}
	for i, m := range g.Marks {
		if !finite(m.X+m.Y) || m.X < d.x.lo || m.X > d.x.hi {
			continue
		}
		dot, err := plotter.NewScatter(plotter.XYs{{X: m.X, Y: m.Y}})
		if err != nil {
			return err
		}
		dot.GlyphStyle = draw.GlyphStyle{Color: ink, Radius: 5, Shape: shapes[i%len(shapes)]}
		d.p.Add(dot)
		d.entry(m.Label, dot)
	}
	return nil
}
