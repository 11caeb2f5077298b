package words

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/study/sweep"
	"evenpull/sim/vary"
)

// SweepHead is the verdict on the train as it is, and what is swept; shown writes
// the verdict.
func SweepHead(st *sweep.Study, shown func(rules.Code) string) string {
	s := fmt.Sprintf("%s train at %s: %s; swept: %s", st.Own.Name, sweepOwn(st), shown(st.Own.Verdict.Code), axisRange(&st.Over))
	if st.Against != nil {
		s += ", against " + axisRange(st.Against)
	}
	if st.Hold == vary.Fill {
		s += "; the strip is cut so that it fills the barrel as before"
	}
	return s
}

// SweepTitle is what a picture of the sweep shows.
func SweepTitle(st *sweep.Study) string {
	what := Verdict(st.Own.Verdict.Code) + " at " + sweepOwn(st)
	if st.Against != nil {
		what = st.Of.Words
	}
	if st.Hold == vary.Fill {
		what += "; every strip cut to the same fill"
	}
	return st.Own.Name + " train: " + what
}

func axisRange(a *sweep.Axis) string {
	return fmt.Sprintf("%s from %s to %s", Input(&a.Quantity, ""), axisWith(a, a.From), axisWith(a, a.To))
}

// AxisValue writes a value of an axis: to four figures, and so that neighbours
// differ.
func AxisValue(a *sweep.Axis, v float64) string {
	finest := (a.To - a.From) / float64(a.Steps-1) / 10
	if v != 0 {
		finest = math.Min(finest, math.Abs(v)/1000)
	}
	scale := math.Pow(10, max(0, math.Ceil(-math.Log10(finest))))
	return Minus(strconv.FormatFloat(math.Round(v*scale)/scale, 'f', -1, 64))
}

func axisWith(a *sweep.Axis, v float64) string {
	return strings.TrimSpace(AxisValue(a, v) + " " + a.Quantity.Unit)
}

// sweepOwn is the value, or the two, that the scenario has.
func sweepOwn(st *sweep.Study) string {
	if st.Against != nil {
		return axisWith(&st.Over, st.Over.Value) + " and " + axisWith(st.Against, st.Against.Value)
	}
	return axisWith(&st.Over, st.Over.Value)
}

// SweepSays tells which verdict holds where, and with which power the result grows.
func SweepSays(st *sweep.Study) []string {
	list := sweepChanges(st)
	if st.Against != nil || len(st.Changes) == 0 {
		list = sweepShares(st)
	}
	if s := sweepExponent(st); s != "" {
		list = append(list, s)
	}
	return list
}

func sweepChanges(st *sweep.Study) []string {
	var list []string
	at := func(i int) string { return axisWith(&st.Over, st.Changes[i].At) }
	for i, c := range st.Changes {
		if i == 0 {
			list = append(list, fmt.Sprintf("below %s it %s", at(0), Does(c.Below)))
		}
		if i+1 < len(st.Changes) {
			list = append(list, fmt.Sprintf("from %s to %s it %s", at(i), at(i+1), Does(c.Above)))
		} else {
			list = append(list, fmt.Sprintf("above %s it %s", at(i), Does(c.Above)))
		}
	}
	return list
}

// sweepShares tells the verdicts of a map, or the one that holds everywhere.
func sweepShares(st *sweep.Study) []string {
	var shares []string
	last, n := rules.Unjudged, st.Verdicts()
	for c := rules.Unjudged; c <= rules.Overdriven; c++ {
		if n[c] > 0 {
			last, shares = c, append(shares, fmt.Sprintf("%s at %d", Does(c), n[c]))
		}
	}
	switch {
	case len(shares) == 0:
		return nil
	case st.Against == nil:
		return []string{fmt.Sprintf("it %s wherever in the range it can be built", Does(last))}
	}
	return []string{fmt.Sprintf("of %d points it %s", len(st.Points), strings.Join(shares, ", "))}
}

// ruleOfThumb is the power with which torque is said to grow (common practice, no
// source); "" where nothing is said.
func ruleOfThumb(st *sweep.Study) string {
	said := ""
	switch _, key, _ := strings.Cut(st.Over.Key, "."); key {
	case "mainspring.thickness_mm":
		said = "the cube"
	case "mainspring.width_mm":
		said = "the first"
	}
	if said == "" || st.Of.Name != outcome.MeanTorque {
		return ""
	}
	return "; the rule of thumb says " + said + " (common practice, no source)"
}

// sweepExponent tells how fast the result grows, and what the rule of thumb says.
func sweepExponent(st *sweep.Study) string {
	e := st.Exponent
	if math.IsNaN(e.Value) {
		return ""
	}
	power := Minus(fmt.Sprintf("%.2f", e.Value))
	if e.Error > 0.005 {
		power += fmt.Sprintf(" (give or take %s)", Figure(e.Error))
	}
	more := Minus(fmt.Sprintf("%+.2f", 100*(math.Pow(1.01, e.Value)-1)))
	return fmt.Sprintf("here the %s goes with the power %s of it: 1 %% more makes %s %%%s", st.Of.Words, power, more, ruleOfThumb(st))
}

// SweepWarns tells where the train cannot be built, and from where on what does
// not fit.
func SweepWarns(st *sweep.Study) []string {
	var list []string
	for _, l := range st.Limits {
		list = append(list, fmt.Sprintf("%s %s it cannot be built: %s", Side(l.Above), axisWith(&st.Over, l.At), l.Fault))
	}
	if n, why := st.Unbuilt(); n > 0 && len(st.Limits) == 0 {
		list = append(list, fmt.Sprintf("%d of %d points cannot be built, such as: %s", n, len(st.Points), why))
	}
	for _, s := range st.FaultSpans() {
		where := fmt.Sprintf("from %s to %s, at %d of the points; at the first", axisWith(&st.Over, s.From), axisWith(&st.Over, s.To), s.Points)
		switch {
		case s.Points == 1:
			where = "at " + axisWith(&st.Over, s.From)
		case st.Against != nil:
			where = fmt.Sprintf("at %d of the points, such as", s.Points)
		}
		list = append(list, fmt.Sprintf("fault %s: %s", where, Fault(&s.First.Digest, s.Fault)))
	}
	return list
}

// Side is a side of a limit.
func Side(above bool) string {
	if above {
		return "above"
	}
	return "below"
}
