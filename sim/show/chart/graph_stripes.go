package chart

import (
	"cmp"
	"math"
	"slices"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
)

func (d *graphDrawing) stripes() {
	var named []Stripe
	for _, s := range d.Stripes {
		if s.From, s.To = math.Max(s.From, d.x.lo), math.Min(s.To, d.x.hi); !(s.From < s.To) {
			continue
		}
		outline := box(s.From, d.y.lo, s.To, d.top)
		if s.Plain {
			d.area(s.Name, outline, plainFill, tintLine)
			continue
		}
		d.area("", outline, tints[s.Code], tintLine)
		named = append(named, s)
	}
	for _, s := range named { // over all the tints
		d.nameStripe(s)
	}
}

// nameStripe writes the name above the data where it fits, else upwards, in the
// widest room that the data leave, where that does.
func (d *graphDrawing) nameStripe(s Stripe) {
	name := s.Name
	if name == "" {
		name = s.Code.String()
	}
	middle := (s.From + s.To) / 2
	switch room := d.width * vg.Length((s.To-s.From)/d.x.length()); {
	case letters.Width(name)+6 <= room:
		d.words(middle, (d.y.hi+d.top)/2, name, nil)
	case textSize+2 <= room:
		lo, hi := d.widestGap(s, d.y.lo, d.top)
		d.words(middle, (lo+hi)/2, name, upwards)
	}
}

// widestGap is the widest room over a stripe, from lo to hi, that no curve and no
// area passes.
func (g *Graph) widestGap(s Stripe, lo, hi float64) (from, to float64) {
	var taken []r1.Interval
	take := func(curves ...plotter.XYs) {
		all := r1.EmptyInterval()
		for _, p := range slices.Concat(curves...) {
			if p.X >= s.From && p.X <= s.To && !math.IsNaN(p.Y) {
				all = all.AddPoint(p.Y)
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
