// Package outcome is the one table of every figure that a run-down ends in: of the whole run
// (All) and of its rows (Columns). JSON, CSV and its header, --of, the labels of pictures,
// tables, completion and the schema are made from it.
//
// A name is that of the figure in the JSON of a run: fusee_torque_nm.mean, reserve.min,
// runtime_h. It carries its unit, which Figure.Unit tells too, unless the figure is a pure
// number; package sim has the same in SI. What stands in the rows is named with .mean, .min or
// .max over the run behind it, the mean being that in time: line_tension_n.max. A figure that
// does not apply to a train is NaN. Terms are those of package sim.
package outcome

import (
	"fmt"
	"strings"

	"evenpull/sim"
	"evenpull/sim/scenario"
)

// Quantity is what a figure is, wherever it stands.
type Quantity struct {
	Name   string  // in machine formats; dots nest
	Words  string  // to follow "the"
	Symbol string  // as the model writes it; "" for none
	Unit   string  // of Name; "" for a pure number
	Factor float64 // that makes Unit of SI
	Digits int     // significant ones that the figure bears when people read it
	Share  bool    // a pure number that people read in percent
}

// Figure is one figure of a run.
type Figure struct {
	Quantity
	Of func(*sim.Digest) float64 // in Unit; NaN where it does not apply
}

// Column is one figure of the rows of a run.
type Column struct {
	Quantity
	Of func(*sim.Digest, *sim.Row) float64 // in Unit; NaN where it does not apply
}

// Names of the figures that studies look at first.
const (
	MeanTorque   = "fusee_torque_nm.mean"
	LeastTorque  = "fusee_torque_nm.min"
	MostTorque   = "fusee_torque_nm.max"
	Unevenness   = "fusee_torque_nm.unevenness"
	MeanReserve  = "reserve.mean"
	LeastReserve = "reserve.min"
)

// Named is the figure of a name. The error suggests what may have been meant.
func Named(name string) (Figure, error) {
	all := All()
	names := make([]string, len(all))
	for i := range all {
		if names[i] = all[i].Name; names[i] == name {
			return all[i], nil
		}
	}
	if near := scenario.Nearest(name, names); near != "" {
		return Figure{}, fmt.Errorf("there is no result %q; did you mean %s?", name, near)
	}
	few := like(name, all, names)
	return Figure{}, fmt.Errorf("there is no result %q; there are %s and %d more: \"evenpull schema run\" has all", name, strings.Join(few, ", "), len(all)-len(few))
}

// like are the names of a few figures that are called so in words, or spelt most like it.
func like(name string, all []Figure, names []string) []string {
	var called []string
	for i := range all {
		if strings.Contains(all[i].Words, strings.ToLower(name)) && len(called) < 4 {
			called = append(called, names[i])
		}
	}
	if len(called) > 0 {
		return called
	}
	return scenario.Few(name, names)
}

// Several are the figures of some names.
func Several(names ...string) ([]Figure, error) {
	list := make([]Figure, len(names))
	for i, name := range names {
		var err error
		if list[i], err = Named(name); err != nil {
			return nil, err
		}
	}
	return list, nil
}

// Names are those of all figures.
func Names() []string {
	all := All()
	names := make([]string, len(all))
	for i := range all {
		names[i] = all[i].Name
	}
	return names
}

// Label is what the figure is, with its unit, % of a Share, for axes and headings.
func (q *Quantity) Label() string {
	switch {
	case q.Share:
		return q.Words + ", %"
	case q.Unit == "":
		return q.Words
	}
	return q.Words + ", " + q.Unit
}

// Shown is the figure in the unit of Label.
func (q *Quantity) Shown(v float64) float64 {
	if q.Share {
		return 100 * v
	}
	return v
}
