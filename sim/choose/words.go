package choose

import (
	"fmt"
	"math"
	"strconv"

	"evenpull/fusee/mainspring"
	"evenpull/sim"
)

// plain writes a number as one would type it.
func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// cautions are those of a change of springs.
func (st *Study) cautions() {
	stored := st.Present.Stored
	if c := &st.Candidates[0]; c.Fitted {
		stored = max(stored, c.Stored)
	}
	st.Cautions = []string{
		sim.Caution(stored),
		"Line, gut or chain carries the whole pull of the spring: slacken it only once the spring is fully let down.",
		"The spring that was found may be part of the clock's history: keep it, labelled, with the clock, and change nothing else on a historic part that cannot be undone; ask a conservator where in doubt.",
	}
}

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
// more.
func (id *Ideal) Order() string {
	if id.Fault != "" || id.Lost > 0 {
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

// Order is the best of the stock as it can be ordered; "" when it does not suit.
func (st *Study) Order() string {
	c := &st.Candidates[0]
	if c.Refused != "" || c.Verdict != sim.Suits {
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
	return fmt.Sprintf("%s × %s × %s mm", plain(c.WidthMM), plain(c.ThicknessMM), plain(c.LengthMM))
}

// steel says what a spring is taken to be made of whose yield stress is not told.
func (st *Study) steel() string {
	if steel := &st.shop.steel; steel.Form == mainspring.Set {
		how := "as the scenario's spring"
		if st.Train.Drive.Spring.Form == mainspring.Coils {
			how += " must have to show its free coils"
		}
		return fmt.Sprintf("a spring without a yield stress of its own is taken to set from %.0f MPa on, %s", steel.Yield/mpa, how)
	}
	return "a spring without a yield stress of its own is taken never to set, as the scenario's: give mainspring.yield_mpa or free_coils there, or yield_mpa in the list, for a new spring sets and gives less"
}

// fitting says how a candidate is fitted.
func (c *Candidate) fitting() string {
	s := fmt.Sprintf("fitted with %s mm of spacers", plain(c.Spacers))
	if c.Spacers == 0 {
		s = "fitted without spacers"
	}
	switch off := c.LengthMM - c.CutTo; {
	case off > 0:
		s += fmt.Sprintf(", cut to %s mm (%s mm off)", plain(c.CutTo), plain(micro(off)))
	case c.MayBeCut:
		s += fmt.Sprintf(", at its whole length of %s mm", plain(c.CutTo))
	default:
		s += fmt.Sprintf(", at its %s mm, which may not be cut", plain(c.CutTo))
	}
	return fmt.Sprintf("%s, set up by %.2f turns; %s turns are left when the fusee is wound", s, c.SetUp, sim.Figure(c.Left))
}

// goal says what is aimed at.
func (st *Study) goal() string {
	t := &st.Target
	switch t.Basis {
	case sim.ByBand:
		return fmt.Sprintf("aiming at a mean of %s N·m, the middle of the torques liked at the bench", sim.Figure(t.Mean))
	case sim.ByCadence:
		return fmt.Sprintf("aiming at a mean of %s N·m, the middle of the torques that strike as fast as wanted", sim.Figure(t.Mean))
	}
	return fmt.Sprintf("aiming at a mean of %s N·m, %s times the %s N·m needed", sim.Figure(t.Mean), sim.Figure(t.Reserve), sim.Figure(t.Need))
}

// thumb compares the rule of thumb with what was computed.
func (st *Study) thumb() []string {
	p := &st.Present
	list := []string{fmt.Sprintf("the present spring, %.1f × %.3f × %.0f mm, gives a mean of %s N·m (%s of the target) and %s",
		p.Width, p.Thickness, p.Length, sim.Figure(p.Mean), percent(p.Mean/st.Target.Mean), does(p.Verdict))}
	if len(st.Ideals) == 0 {
		return list
	}
	id := &st.Ideals[0]
	rule := fmt.Sprintf("the rule of thumb, strength as the width and as the cube of the thickness (common practice, no source), asks for %.3f mm at %.1f mm of width", id.Thumb, id.Width)
	if id.Fault != "" {
		return append(list, rule+"; computed: "+id.Fault)
	}
	list = append(list, fmt.Sprintf("%s; computed, it is %.3f mm: %s", rule, id.Thickness, apart(id)))
	if math.IsNaN(p.Exponent) {
		return list
	}
	why := fmt.Sprintf("here the mean torque goes with the power %.2f of the thickness, the strip cut to fill the barrel as before", p.Exponent)
	switch {
	case math.Abs(p.Exponent-3) < 0.05:
		why += ": the rule's cube holds well"
	case math.IsNaN(p.Unset) || math.Abs(p.Unset-p.Exponent) < 0.05:
		why += ", not with the cube: a thicker strip, being shorter, has fewer turns, and the same turns of the fusee wind it nearer to home"
	default:
		why += fmt.Sprintf(", not with the cube: a thicker strip is bent further past its yield when it is first wound home, and its set takes back part of what the thickness gives; if it never set, the power would be %.2f, since a thicker strip, being shorter, has fewer turns and is wound nearer to home", p.Unset)
	}
	return append(list, why)
}

// apart says how the rule's thickness differs from the computed one.
func apart(id *Ideal) string {
	switch by := 100 * (id.Thumb/id.Thickness - 1); {
	case math.Abs(by) < 0.1:
		return "the two agree here, since little has to change"
	case by > 0:
		return fmt.Sprintf("the rule's is %s %% thicker", sim.Figure(by))
	default:
		return fmt.Sprintf("the rule's is %s %% thinner", sim.Figure(-by))
	}
}

func percent(share float64) string { return fmt.Sprintf("%.0f %%", 100*share) }

// clip cuts a label short for a table.
func clip(label string) string {
	const most = 24
	if r := []rune(label); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return label
}
