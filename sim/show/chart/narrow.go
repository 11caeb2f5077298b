package chart

import (
	"io"
	"slices"
	"strings"

	"evenpull/sim"
	"evenpull/sim/bench/readings"
	"evenpull/sim/show/canvas"
	"evenpull/sim/show/words"
	"evenpull/sim/study/sweep"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Sizes of the pictures of a report: two abreast on a sheet of A4, and one as wide as a
// phone, on which their letters are 9 px high.
const (
	narrowWidth = 12 * vg.Centimeter
	narrowFirst = 6.1 * vg.Centimeter // without the legend
	narrowMore  = 4.4 * vg.Centimeter
	aroundAxis  = 2.3 * vg.Centimeter // of that, above and below an upright axis
)

// narrowed draws panels for a report.
func narrowed(w io.Writer, format string, panels []*panel) error {
	narrow(panels)
	return stackWithin(w, format, narrowWidth, panels)
}

// narrow fits panels into little width, and takes away what a report tells beside them.
func narrow(panels []*panel) {
	for i, p := range panels {
		p.narrow, p.title, p.gutter, p.height = true, "", false, narrowMore
		if i == 0 {
			p.height = narrowFirst
		}
		p.x = strings.Replace(p.x, withHours, "; below: hours", 1)
		p.y = p.upright(p.height - aroundAxis)
		p.thinOut()
		p.height += p.underneath(narrowWidth - 2*margin)
	}
}

// upright is as much of the name of the y axis as there is room for: without the place of a
// torque, or its unit alone.
func (p *panel) upright(room vg.Length) string {
	short, _, _ := strings.Cut(p.y, " at the ")
	_, unit, found := strings.Cut(p.y, ", ")
	for _, name := range []string{p.y, short + ", " + unit} {
		if !found || canvas.Letters(textSize).Width(name) <= room {
			return name
		}
	}
	return unit
}

// underneath is how high the legend of a panel is that has all its names.
func (p *panel) underneath(width vg.Length) vg.Length {
	l := legend{width: width, at: width}
	for i := range p.layers {
		l.name(p.layers[i].label, nil)
	}
	return l.high
}

// thinOut takes away every other name along the x axis where there are too many.
func (p *panel) thinOut() {
	var named []int
	for i := range p.ticks {
		if p.ticks[i].Label != "" {
			named = append(named, i)
		}
	}
	for k, i := range named {
		if len(named) > 6 && k%2 == 1 {
			p.ticks[i].Label = ""
		}
	}
}

// Compared is a run with what it is called among others; "" for one alone.
type Compared struct {
	Name string
	*sim.Result
}

// Torques draws the torque of runs over each other, narrow, with the need and the bands of
// the verdict where they have them in common.
func Torques(w io.Writer, format string, runs []Compared) error {
	return narrowed(w, format, []*panel{torques(runs)})
}

func torques(runs []Compared) *panel {
	longest := slices.MaxFunc(runs, func(a, b Compared) int { return len(a.Rows) - len(b.Rows) })
	p := torque(longest.Result)
	first := runs[0].Result
	p.layers = nil
	if !Banded(runs) {
		p.bands = nil
	}
	for i, r := range runs {
		p.least = max(p.least, 0.1*r.Torque.Max)
		over := ofRows(r.Result, fuseeTorque)
		p.add(line(words.Either(r.Name == "", "torque", shortened(r.Name)), alike(i), over))
		if r.Name != "" {
			p.add(numbered(over, i, len(runs)))
		}
	}
	for i, r := range runs {
		if need := r.Need.Used; i == 0 || need != first.Need.Used {
			l := needed(need)
			l.label += words.Either(i == 0, "", " by "+shortened(r.Name))
			p.add(l.seen())
		}
	}
	return p
}

// Banded tells whether all runs have the same bands of the verdict.
func Banded(runs []Compared) bool {
	first := torqueBands(&runs[0].Digest)
	return len(first) > 0 && !slices.ContainsFunc(runs, func(r Compared) bool { return !slices.Equal(torqueBands(&r.Digest), first) })
}

// alike is the line of one of several runs.
func alike(i int) draw.LineStyle {
	styles := slices.Concat(curves, limits)
	return styles[i%len(styles)]
}

// shortened is a name that a legend has room for.
func shortened(name string) string {
	const most = 46
	if r := []rune(name); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return name
}

// numbered writes the number of one of several curves on it, each at a place of its own.
func numbered(over plotter.XYs, i, of int) layer {
	at := over[len(over)*(i+1)/(of+1)]
	l := written(at.X, at.Y, words.Turns(float64(i+1)))
	l.TextStyle[0].YAlign, l.Offset.Y = text.YBottom, 2
	return layer{words: l}
}

// Follows tells whether something is known of what a run does to a pendulum or to blows.
func Follows(r *sim.Result) bool { return len(panels(r)) > 1 }

// Follow draws that, narrow.
func Follow(w io.Writer, format string, r *sim.Result) error {
	return narrowed(w, format, panels(r)[1:])
}

// Thickness draws a sweep over one input, narrow: the torque with the verdicts behind it, and
// the unevenness.
func Thickness(w io.Writer, format string, st *sweep.Study) error {
	return narrowed(w, format, thickness(st))
}

func thickness(st *sweep.Study) []*panel {
	list := sweepPanels(st)
	first := list[0]
	return slices.DeleteFunc(list, func(p *panel) bool { return p != first && p.y != unevenLabel })
}

// Reading is a spring, or a train whose blows were timed, of a bench record.
type Reading struct {
	Of     *readings.Study
	Number int
}

// Readings are those that are drawn of a bench record.
func Readings(st *readings.Study) []Reading {
	all := make([]Reading, len(recorded(st)))
	for i := range all {
		all[i] = Reading{st, i}
	}
	return all
}

// Read draws one of them, narrow.
func Read(w io.Writer, format string, r Reading) error {
	return narrowed(w, format, recorded(r.Of)[r.Number])
}
