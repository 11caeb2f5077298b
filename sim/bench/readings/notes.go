package readings

import (
	"fmt"
	"math"
	"strings"

	"evenpull/sim/bench/fit"
	"evenpull/sim/show/words"
	"evenpull/sim/vary"
)

// wild are the limits of Ratio beyond which units were likely mistaken.
const wild = 3.0

// Notes are what is worth knowing about a comparison, in plain words.
func (c *Comparison) Notes() []string {
	var notes []string
	switch r := c.Ratio; {
	case math.IsNaN(r):
		notes = append(notes, "none of the readings is at a turn of the predicted run: nothing can be compared")
	case r > wild || r < 1/wild || r <= 0:
		notes = append(notes, fmt.Sprintf("the readings are %s times what is predicted: look for a unit mistaken%s, another spring, or another train", words.Figure(r), unit(r)))
	}
	lost := 0
	for i := range c.Points {
		if math.IsNaN(c.Points[i].Predicted) {
			lost++
		}
	}
	if lost > 0 && !math.IsNaN(c.Ratio) {
		notes = append(notes, fmt.Sprintf("%d readings are at turns that the predicted run does not have: by prediction the spring binds before the fusee is wound, or the fusee has fewer turns", lost))
	}
	return notes
}

// unit guesses the unit behind a wild ratio.
func unit(r float64) string {
	for _, k := range []struct {
		ratio float64
		says  string
	}{
		{1000, " (N·mm for N·m?)"}, {1e-3, " (kN·m, or a shift of the decimal point?)"}, {100, " (N·cm for N·m?)"},
		{10.197, " (kgf·cm for N·m, or a decimal point one place off?)"}, {0.10197, " (kgf·m for N·m, or a decimal point one place off?)"},
	} {
		if q := r / k.ratio; q > 0.6 && q < 1.6 {
			return k.says
		}
	}
	return ""
}

// Notes are what is worth knowing about an explanation, in plain words.
func (e *Explanation) Notes() []string {
	var notes []string
	if e.fault != nil {
		notes = append(notes, "the train cannot be run as the readings have it: "+vary.Why(e.fault))
	}
	if n := e.scales(); len(n) > 1 {
		notes = append(notes, strings.Join(n, " and ")+" only scale the torque: these readings cannot tell them apart; fit one of them at a time")
	}
	for _, p := range e.Apart {
		notes = append(notes, fmt.Sprintf("%s and %s can hardly be told apart from these readings: their correlation is %+.3f", e.Inputs[p.I].Key, e.Inputs[p.J].Key, p.Correlation))
	}
	for i := range e.Inputs {
		if in := &e.Inputs[i]; e.Status == fit.AtBound && math.IsNaN(in.StandardError) {
			notes = append(notes, in.Key+" ended at the end of its range: something else must explain the readings")
		}
	}
	if c := e.ChiSquarePerDOF; c > 4 {
		notes = append(notes, fmt.Sprintf("what is left is %.1f times what scatter explains: the inputs fitted do not explain all", math.Sqrt(c)))
	}
	return notes
}

// scales are the fitted inputs that all act on the torque as one and the same
// factor. While winding the efficiencies divide it and the width does not.
func (e *Explanation) scales() []string {
	var list []string
	for i := range e.Inputs {
		_, key, _ := strings.Cut(e.Inputs[i].Key, ".")
		switch key {
		case "mainspring.width_mm":
			if !e.winding {
				list = append(list, e.Inputs[i].Key)
			}
		case "mainspring.efficiency", "line.efficiency":
			list = append(list, e.Inputs[i].Key)
		}
	}
	return list
}
