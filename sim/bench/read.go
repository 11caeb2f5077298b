package bench

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"

	"evenpull/sim/scenario"
)

const (
	maxTitle = 200 // characters
	maxLabel = 64
)

// Read reads a bench file of at most scenario.MaxBytes of TOML and checks it.
// Source names it in messages; open opens the files of readings that it names,
// nil when it may name none. What is wrong comes back as scenario.Faults, all at
// once; any other error is the reader's own.
//
// A fault's key counts tables, trials and repeats from 1 and readings from 0,
// the fusee turn they were taken at: torque.1.running_down.3.16.
func Read(r io.Reader, source string, open func(name string) (io.ReadCloser, error)) (*Book, error) {
	tree, lines, err := scenario.Tree(r, source, "bench file")
	if err != nil {
		return nil, err
	}
	rd := &reader{source: source, lines: lines, open: open}
	top := table{rd: rd, tree: tree}
	b := rd.book(&top)
	if len(rd.faults)+len(rd.apart) > 0 {
		slices.SortStableFunc(rd.faults, func(a, b scenario.Fault) int { return cmp.Compare(a.Line, b.Line) })
		return nil, append(rd.faults, rd.apart...)
	}
	return b, nil
}

func (rd *reader) book(top *table) *Book {
	b := &Book{Source: rd.source, Title: top.text("title", maxTitle, false)}
	top.known("title", "weights", "torque")
	weights := top.tables("weights", "tables [[weights]], each in double brackets", "tables", MaxTables)
	torques := top.tables("torque", "tables [[torque]], each in double brackets", "tables", MaxTables)
	for i := range weights {
		b.Weights = append(b.Weights, weights[i].weights())
	}
	for i := range torques {
		b.Torques = append(b.Torques, torques[i].torque())
	}
	if len(b.Weights)+len(b.Torques) == 0 && len(rd.faults) == 0 {
		top.report("", "found neither weights nor torques", "want at least one table [[weights]] or [[torque]]")
	}
	for i := range weights {
		if again(i, func(j int) bool { return b.Weights[j].Train == b.Weights[i].Train }) && b.Weights[i].Train != "" {
			weights[i].report("train", fmt.Sprintf("found weights for the train %s a second time", b.Weights[i].Train),
				"want all its trials in one table [[weights]]")
		}
	}
	for i := range torques {
		t := &b.Torques[i]
		if again(i, func(j int) bool { return b.Torques[j].Spring == t.Spring && b.Torques[j].Train == t.Train }) && t.Spring != "" {
			torques[i].report("spring", fmt.Sprintf("found the spring %q in the train %s a second time", t.Spring, t.Train),
				"want all its repeats in one table [[torque]], or another label")
		}
	}
	return b
}

// again tells whether one of the items before item i is the same.
func again(i int, same func(j int) bool) bool {
	for j := range i {
		if same(j) {
			return true
		}
	}
	return false
}

// weights reads one table of trials.
func (t *table) weights() Weights {
	t.known("train", "pulley_radius_mm", "cord_thickness_mm", "trials")
	w := Weights{
		Train:           t.name("train"),
		PulleyRadiusMM:  t.number("pulley_radius_mm", within{1, 2000, "mm"}, math.NaN()),
		CordThicknessMM: t.number("cord_thickness_mm", within{0, 50, "mm"}, 0),
	}
	const shape = "a list of trials, such as [ { mass_g = 400, runs = true } ] or [ { mass_g = 600, blow_interval_s = 1.5 } ]"
	trials := t.tables("trials", shape, "trials", MaxTrials)
	if _, there := t.tree["trials"]; !there {
		t.report("trials", "missing", "want "+shape)
	} else if v, ok := t.tree["trials"].([]any); ok && len(v) == 0 {
		t.report("trials", "found an empty list", "want "+shape)
	}
	for i := range trials {
		w.Trials = append(w.Trials, trials[i].trial())
	}
	if !w.Struck() {
		return w
	}
	for i := range trials {
		if runs := w.Trials[i].Runs; runs != nil && *runs {
			trials[i].report("runs", "found runs = true among intervals from blow to blow",
				"want blow_interval_s, or runs = false for a weight that does not strike")
		}
	}
	return w
}

// trial reads one weight.
func (t *table) trial() Trial {
	t.known("mass_g", "runs", "blow_interval_s")
	tr := Trial{MassG: t.number("mass_g", within{1, 1e5, "g"}, math.NaN()), BlowIntervalS: math.NaN()}
	runs, ran := t.tree["runs"]
	_, struck := t.tree["blow_interval_s"]
	switch {
	case ran && struck:
		t.report("runs", "found both runs and blow_interval_s", "want one of them")
	case struck:
		tr.BlowIntervalS = t.number("blow_interval_s", within{0.05, 60, "s"}, math.NaN())
	case ran:
		if is, ok := runs.(bool); ok {
			tr.Runs = &is
		} else {
			t.wrong("runs", runs, "want true or false")
		}
	default:
		t.report("", "found neither runs nor blow_interval_s", "want what the train did under this weight")
	}
	return tr
}
