// Package outcome names the figures that a run-down ends in, for studies that
// ask for some of them.
//
// A name is that of the figure in the JSON of a run: fusee_torque_nm.mean,
// reserve.min, runtime_h. What stands in its rows is named with .mean, .min or
// .max over the run behind it: line_tension_n.max.
package outcome

import (
	"fmt"
	"strings"

	"evenpull/sim"
	"evenpull/sim/scenario"
)

// Outcome is one figure of a run.
type Outcome struct {
	Name  string
	Words string // what it is, to follow "the"
	Unit  string // "" for a pure number
	Share bool   // best shown in percent
	// Of gives the figure of a run, NaN where it does not apply.
	Of func(*sim.Result) float64
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

// All lists every figure there is, in the order of the JSON.
func All() []Outcome {
	all := append(torques(), springs()...)
	all = append(all, lines()...)
	return append(append(all, times()...), rows()...)
}

// Named is the figure of a name. The error suggests what may have been meant.
func Named(name string) (Outcome, error) {
	all := All()
	names := make([]string, len(all))
	for i := range all {
		if names[i] = all[i].Name; names[i] == name {
			return all[i], nil
		}
	}
	if near := scenario.Nearest(name, names); near != "" {
		return Outcome{}, fmt.Errorf("there is no result %q; did you mean %s?", name, near)
	}
	return Outcome{}, fmt.Errorf("there is no result %q; there are %s", name, strings.Join(names, ", "))
}

// Several are the figures of some names.
func Several(names []string) ([]Outcome, error) {
	list := make([]Outcome, len(names))
	for i, name := range names {
		var err error
		if list[i], err = Named(name); err != nil {
			return nil, err
		}
	}
	return list, nil
}

// Show writes a figure as tables do: three figures, shares in percent.
func (o *Outcome) Show(v float64) string {
	if o.Share {
		return sim.Figure(100*v) + " %"
	}
	return sim.Figure(v)
}

// Label is what the figure is, with its unit, for axes and headings.
func (o *Outcome) Label() string {
	switch {
	case o.Share:
		return o.Words + ", %"
	case o.Unit == "":
		return o.Words
	}
	return o.Words + ", " + o.Unit
}

// Shown is the figure in the unit of Label.
func (o *Outcome) Shown(v float64) float64 {
	if o.Share {
		return 100 * v
	}
	return v
}
