package chart

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"evenpull/sim/show/canvas"
	"evenpull/sim/show/words"

	"github.com/golang/geo/r1"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
)

// frame is a panel with its place on the page: the ranges of its axes, their names, and the
// room that stands around its plot.
type frame struct {
	*panel
	look          *layout
	across, up    r1.Interval // ranges of the data
	titles        []string
	columns       []plot.Tick // along the x axis
	lines         []plot.Tick // along the y axis
	xName, yName  []string
	legend        legend
	height        vg.Length // of the plot
	left, right   vg.Length // beside it
	own           vg.Length // what it takes of that at the left
	gutter        vg.Length // within it at the right, for the names of bands
	head, foot    vg.Length // within it, for the names of stripes and feet
	unit          vg.Length // of a row of names along the y axis
	plot          vg.Rectangle
	besideScale   []string
	columnsNeeded int // lines of the names along the x axis
}

// tickLong is the length of a tick.
const tickLong = 4

// frames lays out the panels of a picture: their plots begin and end at the same places, but
// that those with rows of names begin where these leave them room, and axes of the same name
// have the same range.
func (l *layout) frames(panels []*panel) []*frame {
	all := make([]*frame, len(panels))
	ranges, gutters := map[string]r1.Interval{}, map[string]vg.Length{}
	var right vg.Length
	left := map[bool]vg.Length{} // without and with rows of names
	for i, p := range panels {
		f := &frame{panel: p, look: l}
		f.across, f.up = p.extents(l.Near)
		same, known := ranges[p.x]
		if !known {
			same = r1.EmptyInterval()
		}
		ranges[p.x] = same.Union(f.across)
		var names []string
		for _, b := range p.bands {
			names = append(names, b.name)
		}
		if len(names) > 0 {
			gutters[p.x] = max(gutters[p.x], l.widest(names)+1.2*l.text)
		}
		f.upwards()
		f.own = f.left
		named := f.rows != nil
		left[named], right = max(left[named], f.left), max(right, f.right)
		all[i] = f
	}
	for _, f := range all {
		f.across, f.gutter, f.left, f.right = ranges[f.x], gutters[f.x], left[f.rows != nil], right
		f.along()
	}
	return all
}

// upwards lays out what goes by the height of the plot: the y axis with its names.
func (f *frame) upwards() {
	l := f.look
	f.height = cmp.Or(f.panel.height, highPlot) * vg.Length(l.grow)
	for _, s := range f.stripes {
		if s.name != "" {
			f.head = 1.3 * row(l.text)
		}
	}
	if len(f.feet) > 0 {
		f.foot = 1.5 * row(l.text)
	}
	if f.rows != nil {
		f.rowNames()
	} else {
		f.lines = ticks(f.up, f.height-f.head-f.foot, func(string) vg.Length { return 1.6 * row(l.text) })
	}
	if f.y != "" {
		f.yName = canvas.Wrap(l.text, f.height, f.y)
	}
	var names []string
	for _, k := range f.lines {
		names = append(names, strings.Split(k.Label, "\n")...)
	}
	f.left = l.widest(names) + tickLong + 0.5*l.text + row(l.text)*vg.Length(len(f.yName)) + 0.2*l.text
	f.right = 1.2 * l.text
	if f.scale != nil {
		f.right = f.scaleRoom()
	}
}

// rowNames lays out rows of names, each of as many lines as it takes.
func (f *frame) rowNames() {
	l, most := f.look, 1
	f.lines = slices.Clone(f.rows)
	for i := range f.lines {
		lines := canvas.Wrap(l.text, 0.44*l.inner(), f.lines[i].Label)
		f.lines[i].Label, most = strings.Join(lines, "\n"), max(most, len(lines))
	}
	f.unit = max(row(l.text)*vg.Length(most)+2, 1.7*l.text)
	f.height = f.unit * vg.Length(math.Max(f.ys.Length(), 2))
}

// along lays out what goes by the width of the plot: the x axis with its names, the sentence
// above and the legend below.
func (f *frame) along() {
	l := f.look
	width := l.inner() - f.left - f.right
	f.columns = f.panel.ticks
	switch {
	case f.panel.ticks == nil:
		f.columns = ticks(f.across, width-f.gutter, func(s string) vg.Length { return l.wide(s) + l.text })
	case f.panel.named:
		f.columns = slices.Clone(f.columns)
		room := width / vg.Length(len(f.columns))
		for i := range f.columns {
			f.columns[i].Label = strings.Join(canvas.Wrap(l.text, room-0.4*l.text, f.columns[i].Label), "\n")
		}
	default:
		f.columns = l.thinned(f.columns, f.across, width-f.gutter)
	}
	for _, k := range f.columns {
		f.columnsNeeded = max(f.columnsNeeded, strings.Count(k.Label, "\n")+1)
	}
	f.xName = canvas.Wrap(l.text, width, f.x)
	said := words.Either(l.Bare, f.name, f.finding)
	f.titles = canvas.Wrap(l.title, l.inner(), said)
	f.legend = legend{look: l, width: l.inner() - f.beforeLegend()}
	f.nameStripes(width)
	f.regionKeys(width)
	for i := range f.layers {
		if l := &f.layers[i]; len(runs(f.visible(l))) > 0 {
			f.legend.name(l)
		}
	}
}

// thinned leaves out names that there is no room for: every second, or as many as it takes.
func (l *layout) thinned(all []plot.Tick, e r1.Interval, width vg.Length) []plot.Tick {
	var widest vg.Length
	for _, k := range all {
		widest = max(widest, l.widest(strings.Split(k.Label, "\n"))+0.8*l.text)
	}
	room := width / vg.Length(math.Max(e.Length(), 1e-9)) // of one
	for _, every := range []float64{1, 2, 4, 5, 10, 20, 50, 100} {
		if vg.Length(every)*room < widest && every < 100 {
			continue
		}
		list := slices.Clone(all)
		for i := range list {
			if math.Mod(list[i].Value, every) != 0 {
				list[i].Label = ""
			}
		}
		return list
	}
	return all
}

// beforeLegend is the room left of the legend: that before the plot, but for names of rows.
func (f *frame) beforeLegend() vg.Length {
	if f.rows != nil {
		return 0
	}
	return f.left
}

// Heights of what stands above the plot and below it.
func (f *frame) above() vg.Length {
	if len(f.titles) == 0 {
		return 0.4 * f.look.text
	}
	return row(f.look.title)*vg.Length(len(f.titles)) + 0.6*f.look.text
}

func (f *frame) axis() vg.Length {
	return tickLong + row(f.look.text)*vg.Length(f.columnsNeeded+len(f.xName)) + 0.3*f.look.text
}

func (f *frame) tall() vg.Length {
	return f.above() + f.height + f.axis() + 0.4*f.look.text + f.legend.tall() + f.look.text
}

// fit makes the plot lower where the whole does not fit a page.
func (f *frame) fit(room vg.Length) {
	if over := f.tall() - room; over > 0 {
		f.height = max(f.height-over, 3*vg.Centimeter)
	}
}
