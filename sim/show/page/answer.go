package page

import (
	"fmt"
	"slices"
	"strings"

	"evenpull/sim/show/chart"
	"evenpull/sim/show/words"
	"evenpull/sim/study/dossier"
)

// answers are what is found of every train and what to do, with one picture for the trains
// of one name; of several clocks first what differs between them. Last comes which barrel of
// a bench book belongs to which train.
func (d *Document) answers(bench *dossier.Bench) {
	blocks := []Block{{Text: &Item{Class: "mind", Text: "Before anything is let down, taken out, fitted or wound, read the cautions.", To: "cautions"}}}
	for n, name := range d.trains() {
		var runs []chart.Compared
		var said []Block
		for i, c := range d.clocks {
			for k := range c.Trains {
				if t := &c.Trains[k]; t.Result.Name == name {
					called := words.Either(len(d.clocks) > 1, d.titled(i), "")
					runs = append(runs, chart.Compared{Name: called, Result: t.Fine})
					said = append(said, verdict(t, fmt.Sprintf("clock-%d-train-%d-verdict", i+1, k+1), strings.TrimSpace(d.number(i)+" "+name+" train"), len(blocks) == 1 && i == 0))
				}
			}
		}
		picture := draw(d, fmt.Sprintf("train-%d-torque", n+1), torqueCaption(n == 0 && chart.Banded(runs)), torqueAlt(runs), chart.Torques, runs)
		if len(d.clocks) == 1 {
			in := said[0].Section
			in.Blocks = []Block{{Row: append([]Block{picture}, in.Blocks...)}}
			blocks = append(blocks, said[0])
			continue
		}
		blocks = append(blocks, Block{Heading: "The " + name + " train"}, Block{Row: []Block{picture, d.differing(name)}}, Block{Row: said})
	}
	var last []Item
	for i, c := range d.clocks {
		last = append(last, items("", strings.TrimSpace(d.number(i)+" Run down:"), words.RunDown(c.Run))...)
	}
	if bench != nil && bench.Assign != nil {
		last = append(last, items("do", "Which barrel belongs where:", words.Assigned(bench.Assign))...)
	}
	blocks = append(blocks, Block{List: last})
	d.add("verdicts", "Verdicts", blocks...)
}

// trains are the names of all trains, each once.
func (d *Document) trains() (names []string) {
	for _, c := range d.clocks {
		for i := range c.Trains {
			if name := c.Trains[i].Result.Name; !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
	}
	return names
}
