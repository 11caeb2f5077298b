package chart

import (
	"cmp"
	"math"
	"slices"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
)

// shades tints the stripes and, over all their tints, names them; then the bands.
func (d *graphDrawing) shades() {
	var named []Shade
	for _, s := range d.Stripes {
		s.From, s.To = math.Max(s.From, d.x.Lo), math.Min(s.To, d.x.Hi)
		if d.shade(&s, box(s.From, d.y.Lo, s.To, d.top)) && !s.Plain {
			named = append(named, s)
		}
	}
	for i := range named {
		d.nameStripe(&named[i])
	}
	for _, b := range d.Bands {
		b.From, b.To = math.Max(b.From, d.y.Lo), math.Min(b.To, d.top)
		enough := 0.04 * (d.top - d.y.Lo) // for its name
		if d.shade(&b, box(d.x.Lo, b.From, d.x.Hi, b.To)) && b.To-b.From >= enough {
			d.words((d.end+d.x.Hi)/2, (b.From+b.To)/2, b.name(), nil)
		}
	}
}

// shade tints what is to be seen of a range, if anything.
func (d *graphDrawing) shade(s *Shade, outline plotter.XYs) bool {
	if !(s.From < s.To) {
		return false
	}
	if s.Plain {
		d.area(s.Name, outline, plainFill, tintLine)
	} else {
		d.area("", outline, tints[s.Code], tintLine)
	}
	return true
}

func (s *Shade) name() string { return cmp.Or(s.Name, s.Code.String()) }

// nameStripe writes the name above the data where it fits, else upwards, in the
// widest room that the data leave, where that does.
func (d *graphDrawing) nameStripe(s *Shade) {
	middle := (s.From + s.To) / 2
	switch room := d.width * vg.Length((s.To-s.From)/d.x.Length()); {
	case letters.Width(s.name())+6 <= room:
		d.words(middle, (d.y.Hi+d.top)/2, s.name(), nil)
	case textSize+2 <= room:
		lo, hi := d.widestGap(s, d.y.Lo, d.top)
		d.words(middle, (lo+hi)/2, s.name(), upwards)
	}
}

// widestGap is the widest room over a stripe, from lo to hi, that no curve and no
// area passes.
func (g *Graph) widestGap(s *Shade, lo, hi float64) (from, to float64) {
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
