package choose

import (
	"fmt"
	"math"
	"strconv"

	"evenpull/fusee/mainspring"
	"evenpull/sim/rules"
	"evenpull/sim/show/words"
)

// plain writes a number as one would type it.
func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

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
	return fmt.Sprintf("%s, set up by %.2f turns; %s turns are left when the fusee is wound", s, c.SetUp, words.Figure(c.Left))
}

// goal says what is aimed at.
func (st *Study) goal() string {
	t := &st.Target
	switch t.Basis {
	case rules.ByBand:
		return fmt.Sprintf("aiming at a mean of %s N·m, the middle of the torques liked at the bench", words.Figure(t.Mean))
	case rules.ByCadence:
		return fmt.Sprintf("aiming at a mean of %s N·m, the middle of the torques that strike as fast as wanted", words.Figure(t.Mean))
	}
	return fmt.Sprintf("aiming at a mean of %s N·m, %s times the %s N·m needed", words.Figure(t.Mean), words.Figure(t.Reserve), words.Figure(t.Need))
}

// thumb compares the rule of thumb with what was computed.
func (st *Study) thumb() []string {
	p := &st.Present
	list := []string{fmt.Sprintf("the present spring, %.1f × %.3f × %.0f mm, gives a mean of %s N·m (%s the target) and %s",
		p.Width, p.Thickness, p.Length, words.Figure(p.Mean), of(p.Mean/st.Target.Mean), does(p.Verdict))}
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
	case by >= 100*(manifold-1):
		return fmt.Sprintf("the rule's is %s times as thick", words.Figure(id.Thumb/id.Thickness))
	case by > 0:
		return fmt.Sprintf("the rule's is %s %% thicker", words.Figure(by))
	default:
		return fmt.Sprintf("the rule's is %s %% thinner", words.Figure(-by))
	}
}

// of is a share before "the target": whole per cent, or so many times.
func of(v float64) string {
	if v < manifold {
		return fmt.Sprintf("%.0f %% of", 100*v)
	}
	return share(v)
}

// clip cuts a label short for a table.
func clip(label string) string {
	const most = 24
	if r := []rune(label); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return label
}
