package book

import (
	"fmt"
	"io"
	"math"

	"evenpull/sim/internal/entry"
	"evenpull/sim/scenario"
)

// Read reads a bench file of at most scenario.MaxBytes of TOML and checks it.
// Source names it in messages; open opens the files of readings that it names,
// nil when it may name none. What is wrong comes back as scenario.Faults, all at
// once; any other error is the reader's own.
//
// A fault's key counts tables, trials and repeats from 1 and readings from 0,
// the fusee turn they were taken at: torque.1.running_down.3.16.
func Read(r io.Reader, source string, open func(name string) (io.ReadCloser, error)) (*Book, error) {
	top, err := entry.Read(r, source, "a bench file")
	if err != nil {
		return nil, err
	}
	rd := &reader{open: open}
	b := (&table{Table: *top, rd: rd}).book(source)
	b.file = top
	if faults := append(top.Faults(), rd.apart...); len(faults) > 0 {
		return nil, faults
	}
	return b, nil
}

func (t *table) book(source string) *Book {
	b := &Book{Source: source, Title: t.Text("title", scenario.MaxTitle, false)}
	t.Known("title", "letter", "weights", "spring", "torque")
	b.Letter = t.letter()
	weights := t.tables("weights", "tables [[weights]], each in double brackets", "tables", MaxTables)
	springs := t.tables("spring", "tables [[spring]], each in double brackets", "tables", MaxTables)
	torques := t.tables("torque", "tables [[torque]], each in double brackets", "tables", MaxTables)
	for i := range weights {
		b.Weights = append(b.Weights, weights[i].weights())
	}
	for i := range springs {
		b.Springs = append(b.Springs, springs[i].spring())
	}
	for i := range torques {
		b.Torques = append(b.Torques, torques[i].torque())
	}
	if len(b.Weights)+len(b.Torques) == 0 && t.Sound() {
		t.Report("", "found neither weights nor torques", "want at least one table [[weights]] or [[torque]]")
	}
	b.twice(weights, springs, torques)
	for i := range springs {
		springs[i].readIn(&b.Springs[i], b.Torques)
	}
	if t.Sound() && len(t.rd.apart) == 0 {
		b.doubts(torques, weights)
		b.steps(torques)
	}
	return b
}

// twice refuses tables of the same thing.
func (b *Book) twice(weights, springs, torques []table) {
	for i := range weights {
		if again(i, func(j int) bool { return b.Weights[j].Train == b.Weights[i].Train }) && b.Weights[i].Train != "" {
			weights[i].Report("train", fmt.Sprintf("found weights for the train %s a second time", b.Weights[i].Train),
				"want all its trials in one table [[weights]]")
		}
	}
	for i := range springs {
		if again(i, func(j int) bool { return b.Springs[j].Label == b.Springs[i].Label }) && b.Springs[i].Label != "" {
			springs[i].Report("label", fmt.Sprintf("found the spring %q a second time", b.Springs[i].Label),
				"want all that was measured of it in one table [[spring]], or another label")
		}
	}
	for i := range torques {
		t := &b.Torques[i]
		if again(i, func(j int) bool { return b.Torques[j].Spring == t.Spring && b.Torques[j].Train == t.Train }) && t.Spring != "" {
			torques[i].Report("spring", fmt.Sprintf("found the spring %q in the train %s a second time", t.Spring, t.Train),
				"want all its repeats in one table [[torque]], or another label")
		}
	}
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
	t.Known("train", "pulley_radius_mm", "pulley_diameter_mm", "cord_thickness_mm", "trials", "date", "by", "instrument")
	w := Weights{
		Noted:           t.noted(),
		Train:           t.name("train"),
		PulleyRadiusMM:  t.pulley(),
		CordThicknessMM: t.Number("cord_thickness_mm", entry.Range(0, 50, "mm"), 0),
	}
	const shape = "a list of trials, such as [ { mass_g = 400, runs = true } ] or [ { mass_g = 600, blow_interval_s = 1.5 } ]"
	trials := t.tables("trials", shape, "trials", MaxTrials)
	if _, there := t.Tree["trials"]; !there {
		t.Report("trials", "missing", "want "+shape)
	} else if v, ok := t.Tree["trials"].([]any); ok && len(v) == 0 {
		t.Report("trials", "found an empty list", "want "+shape)
	}
	for i := range trials {
		w.Trials = append(w.Trials, trials[i].trial())
	}
	if !w.Struck() {
		return w
	}
	for i := range trials {
		if runs := w.Trials[i].Runs; runs != nil && *runs {
			trials[i].Report("runs", "found runs = true among intervals from blow to blow",
				"want blow_interval_s or twelve_s, or runs = false for a weight that does not strike")
		}
	}
	return w
}

// pulley is its radius, which may be given as its diameter.
func (t *table) pulley() float64 {
	const radius, diameter = "pulley_radius_mm", "pulley_diameter_mm"
	_, across := t.Tree[diameter]
	if _, both := t.Tree[radius]; both && across {
		t.Report(diameter, "found together with "+radius, "want one of them")
	} else if across {
		return t.Number(diameter, entry.Range(2, 4000, "mm"), math.NaN()) / 2
	}
	return t.Number(radius, entry.Range(1, 2000, "mm"), math.NaN())
}
