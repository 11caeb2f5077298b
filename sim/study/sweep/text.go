package sweep

import (
	"fmt"
	"io"
	"math"
	"strings"

	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
	"evenpull/sim/vary"
)

// Text writes a study for people: the verdict and where it changes, what stands
// in the way, then the points.
type Text struct{ Colour bool }

// Write writes it.
func (t Text) Write(w io.Writer, st *Study) error {
	p := text.New(w, t.Colour)
	p.Wrap("", st.heading())
	p.Line("")
	p.Line(fmt.Sprintf("%s train at %s: %s", st.Train.Name, st.ownValue(), p.Verdict(st.Own.Verdict)))
	for _, s := range st.ranges() {
		p.Wrap("  - ", s)
	}
	if s := st.exponent(); s != "" {
		p.Wrap("  - ", s)
	}
	for _, s := range st.troubles() {
		p.Wrap("  ! ", s)
	}
	p.Line("")
	if st.Against == nil {
		st.table(p)
	} else {
		st.matrix(p)
	}
	p.Line("")
	p.Wrap("Caution: ", st.Caution)
	return p.Flush()
}

// Says tells in sentences where the verdict changes, how fast the torque grows, and
// what stands in the way.
func (st *Study) Says() []string {
	list := st.ranges()
	if s := st.exponent(); s != "" {
		list = append(list, s)
	}
	return append(list, st.troubles()...)
}

// heading tells what is swept and what stays.
func (st *Study) heading() string {
	s := fmt.Sprintf("%s from %s to %s", st.Over.Key, st.Over.with(st.Over.From), st.Over.with(st.Over.To))
	if a := st.Against; a != nil {
		s += fmt.Sprintf(", against %s from %s to %s", a.Key, a.with(a.From), a.with(a.To))
	}
	if st.Hold == vary.Fill {
		return s + "; the strip is cut so that it fills the barrel as before"
	}
	return s
}

// with writes a value with its unit, to the figures that tell steps apart.
func (a *Axis) with(v float64) string {
	return strings.TrimSpace(a.figure(v) + " " + a.Unit)
}

// figure writes a value with as many decimals as a hundredth of a step needs
// for borders, four figures at the least.
func (a *Axis) figure(v float64) string {
	if v == 0 {
		return "0"
	}
	step := (a.To - a.From) / float64(a.Steps-1)
	decimals := max(0, int(math.Ceil(-math.Log10(step)))+1)
	return trim(fmt.Sprintf("%.*f", decimals, v))
}

// border writes a value found between the steps, to four figures.
func (a *Axis) border(v float64) string {
	decimals := 0
	if v != 0 {
		decimals = max(0, 3-int(math.Floor(math.Log10(math.Abs(v)))))
	}
	return strings.TrimSpace(fmt.Sprintf("%.*f %s", decimals, v, a.Unit))
}

// trim takes zeros off the end of a decimal fraction.
func trim(s string) string {
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

func (st *Study) ownValue() string {
	s := trim(fmt.Sprintf("%.6g", st.Over.Value))
	s = strings.TrimSpace(s + " " + st.Over.Unit)
	if a := st.Against; a != nil {
		s += " and " + strings.TrimSpace(fmt.Sprintf("%.6g %s", a.Value, a.Unit))
	}
	return s
}

// ranges tells which verdict holds where.
func (st *Study) ranges() []string {
	if st.Against != nil || len(st.Changes) == 0 {
		return st.noChange()
	}
	list := []string{fmt.Sprintf("below %s it %s", st.Over.border(st.Changes[0].At), says(st.Changes[0].Below))}
	for i, c := range st.Changes {
		if i+1 < len(st.Changes) {
			list = append(list, fmt.Sprintf("from %s to %s it %s", st.Over.border(c.At), st.Over.border(st.Changes[i+1].At), says(c.Above)))
		} else {
			list = append(list, fmt.Sprintf("above %s it %s", st.Over.border(c.At), says(c.Above)))
		}
	}
	return list
}

func (st *Study) noChange() []string {
	if st.Against != nil {
		n := map[rules.Code]int{}
		for i := range st.Points {
			if st.Points[i].Built() {
				n[st.Points[i].Verdict]++
			}
		}
		var shares []string
		for c := rules.Unjudged; c <= rules.Overdriven; c++ {
			if n[c] > 0 {
				shares = append(shares, fmt.Sprintf("%s at %d", says(c), n[c]))
			}
		}
		return []string{fmt.Sprintf("of %d points it %s", len(st.Points), strings.Join(shares, ", "))}
	}
	for i := range st.Points {
		if st.Points[i].Built() {
			return []string{fmt.Sprintf("it %s wherever in the range it can be built", says(st.Points[i].Verdict))}
		}
	}
	return nil
}

// says is the verdict as a verb after "it".
func says(c rules.Code) string {
	switch c {
	case rules.Stops, rules.Suits:
		return c.String()
	case rules.Unjudged:
		return "is not judged"
	}
	return "is " + c.String()
}

// rules of thumb: the power with which torque is said to grow (common practice,
// no source).
var rules = map[string]string{"mainspring.thickness_mm": "the cube", "mainspring.width_mm": "the first"}

// exponent tells how fast the mean torque grows, and what the rule of thumb says.
func (st *Study) exponent() string {
	e := st.Exponent
	if math.IsNaN(e.Value) {
		return ""
	}
	power := strings.TrimPrefix(signed(e.Value, 2), "+")
	if e.Error > 0.005 {
		power += fmt.Sprintf(" (give or take %s)", words.Figure(e.Error))
	}
	s := fmt.Sprintf("here the mean torque goes with the power %s of it: 1 %% more makes %s %%", power, signed(100*(math.Pow(1.01, e.Value)-1), 2))
	for key, rule := range rules {
		if strings.HasSuffix(st.Over.Key, "."+key) {
			s += "; the rule of thumb says " + rule + " (common practice, no source)"
		}
	}
	return s
}

func signed(v float64, decimals int) string {
	return words.Minus(fmt.Sprintf("%+.*f", decimals, v))
}
