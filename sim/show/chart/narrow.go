package chart

import (
	"io"
	"slices"
	"strings"

	"evenpull/sim"
	"evenpull/sim/bench/assign"
	"evenpull/sim/bench/readings"
	"evenpull/sim/show/canvas"
	"evenpull/sim/show/words"
	"evenpull/sim/study/sweep"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// narrowed draws panels for a report: two abreast on a sheet of A4, and one as wide as a phone,
// on which their letters are 9 px high. What they find the report tells beside them.
func narrowed(w io.Writer, format string, panels []*panel) error {
	for _, p := range panels {
		p.name = ""
		p.x = strings.Replace(p.x, withHours, "; below: hours", 1)
	}
	return Usual(func(_ Look, list []*panel) (Files, error) {
		return stack(Look{Form: canvas.Form{Format: format}, Size: canvas.Size{Width: narrowWidth}, Bare: true, letters: narrowText, low: narrowPlot}, list...)
	})(w, format, panels)
}

const (
	narrowWidth = 12 * vg.Centimeter
	narrowText  = 10
	narrowPlot  = 0.44 // so that three trains stand on the first page
)

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
	if len(runs) > 1 {
		p.stripes = nil // the turns that one loses are not those of the others
	}
	if !Banded(runs) {
		p.bands = nil
	}
	for i, r := range runs {
		p.least = max(p.least, 0.1*r.Torque.Max)
		over, _ := going(r.StopsAt, ofRows(r.Result, fuseeTorque))
		p.add(line(words.Either(r.Name == "", "torque", shortened(r.Name)), alike(i), over), stops(over, words.Stopped))
		if r.Name != "" {
			p.add(numbered(over, i, len(runs)))
		}
	}
	for i, r := range runs {
		if need := r.Need.Used; i == 0 || need != first.Need.Used {
			l := needed(need)
			l.label += words.Either(i == 0, "", " by "+shortened(r.Name))
			p.add(l)
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
	styles := slices.Concat([]draw.LineStyle{nowLine}, trials[1:], limits)
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
	return layer{notes: []note{{at: at, words: words.Turns(float64(i + 1)), side: 1}}}
}

// Follows tells whether something is known of what a run does to a pendulum or to blows.
func Follows(r *sim.Result) bool { return len(panels(r)) > 1 }

// Follow draws what a run does to a pendulum or to blows, for a narrow column, as a format
// that canvas.Form has.
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
	all := make([]Reading, len(recorded(&assign.Record{Study: st})))
	for i := range all {
		all[i] = Reading{st, i}
	}
	return all
}

// Read draws the readings of one spring beside what is predicted, for a narrow column, as a
// format that canvas.Form has.
func Read(w io.Writer, format string, r Reading) error {
	return narrowed(w, format, recorded(&assign.Record{Study: r.Of})[r.Number])
}
