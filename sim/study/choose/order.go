package choose

import (
	"fmt"
	"math"

	"evenpull/sim/rules"
)

// size is a strip as it is ordered, the thickness to as many decimals as given.
func size(width, thickness, length float64, decimals int) string {
	return fmt.Sprintf("%.1f × %.*f × %.0f mm", width, decimals, thickness, length)
}

// within writes a range of thickness so that none of it lies outside; "" when
// there is none to ask for.
func (t Tolerance) within() string {
	if !t.Known() {
		return ""
	}
	return fmt.Sprintf("thickness %.3f to %.3f mm", math.Ceil(t.From*1e3)/1e3, math.Floor(t.To*1e3)/1e3)
}

// Order is the ideal spring as it can be ordered: width × thickness × length, with
// the thickness that is to be kept. Strips are sold in hundredths of a millimetre
// (common practice, no source); where that leaves the tolerance it has one decimal
// more. It is "" when the spring does not suit or has a fault.
func (id *Ideal) Order() string {
	if !id.sound() {
		return ""
	}
	decimals, h := 2, math.Round(id.Thickness*100)/100
	if id.Tolerance.Known() && (h < id.Tolerance.From || h > id.Tolerance.To) || h < 0.1 {
		decimals, h = 3, math.Round(id.Thickness*1e3)/1e3
	}
	order := size(id.Width, h, math.Round(id.Length*id.Thickness/h), decimals)
	if within := id.Tolerance.within(); within != "" {
		order += ", " + within
	}
	return order
}

// Order is the best of the stock as it can be ordered; "" when it does not suit or
// has a fault.
func (st *Study) Order() string {
	c := &st.Candidates[0]
	if !c.sound() {
		return ""
	}
	order := c.size()
	if within := st.Tolerance.within(); within != "" {
		order += ", " + within
	}
	return order
}

// size is a spring as the list has it.
func (c *Candidate) size() string {
	return fmt.Sprintf("%s × %s × %s mm", plain(c.WidthMM), fixed(c.ThicknessMM, max(2, decimals(c.ThicknessMM))), plain(c.LengthMM))
}

// hindrance is the reason why a candidate is not to be ordered as it stands; ""
// when there is none.
func (c *Candidate) hindrance() string {
	switch {
	case c.Refused != "":
		return c.Refused
	case c.Verdict != rules.Suits:
		return "it " + does(c.Verdict)
	case len(c.Faults) > 0:
		return "it has a fault, told below"
	}
	return ""
}
