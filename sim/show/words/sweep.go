package words

import (
	"cmp"
	"math"
	"strings"

	"evenpull/sim/outcome"
	"evenpull/sim/rules"
	"evenpull/sim/study/sweep"
	"evenpull/sim/vary"
)

// SweepHead is the verdict on the train as it is, and what is swept.
func SweepHead(st *sweep.Study, shown func(rules.Code) string) string {
	over := eachAxis(st, ", against ", func(a *sweep.Axis) string {
		return say("%s from %s to %s", a.Quantity.Words, axisWith(a, a.From), axisWith(a, a.To))
	})
	return say("%s train at %s: %s; swept: %s", st.Own.Name, sweepOwn(st), shown(st.Own.Verdict.Code), over) +
		where(st.Hold == vary.Fill, "; the strip is cut so that it fills the barrel as before")
}

// SweepTitle is what a picture of the sweep shows.
func SweepTitle(st *sweep.Study) string {
	what := Either(st.Against != nil, st.Of.Words, Verdict(st.Own.Verdict.Code)+" at "+sweepOwn(st))
	return st.Own.Name + " train: " + what + where(st.Hold == vary.Fill, "; every strip cut to the same fill")
}

// AxisValue writes a value of an axis to four figures, and so that neighbours differ; what
// is less than anything a clock has is 0.
func AxisValue(a *sweep.Axis, v float64) string {
	finest := (a.To - a.From) / float64(a.Steps-1) / 10
	if v != 0 {
		finest = math.Min(finest, math.Abs(v)/1000)
	}
	scale := math.Pow(10, max(0, math.Ceil(-math.Log10(max(finest, 1e-12)))))
	return Minus(typed(math.Round(v*scale) / scale))
}

func axisWith(a *sweep.Axis, v float64) string { return united(AxisValue(a, v), a.Quantity.Unit) }

// borderAt writes where a verdict changes, to a tenth of how far the value may be off.
func borderAt(a *sweep.Axis, v float64) string {
	lo, hi := a.Quantity.Usual.Around(v)
	if !(hi > lo) {
		return axisWith(a, v)
	}
	scale := math.Pow10(-int(math.Floor(math.Log10((hi - lo) / 20 * 1.001))))
	return united(Minus(typed(math.Round(v*scale)/scale)), a.Quantity.Unit)
}

// sweepOwn is the value, or the two, that the scenario has.
func sweepOwn(st *sweep.Study) string {
	return eachAxis(st, " and ", func(a *sweep.Axis) string { return axisWith(a, a.Value) })
}

// eachAxis joins what is said of the axis, or of the two of a map.
func eachAxis(st *sweep.Study, with string, says func(*sweep.Axis) string) string {
	if st.Against == nil {
		return says(&st.Over)
	}
	return says(&st.Over) + with + says(st.Against)
}

// SweepSays tells which verdict holds where, and with which power the result grows.
func SweepSays(st *sweep.Study) []string {
	var says, shares told
	only, n, e := rules.Unjudged, st.Verdicts(), st.Exponent
	for c := range rules.Overdriven + 1 {
		if n[c] > 0 {
			only = c
			shares.add("%s over %s", Does(c), ofArea(st, n[c]))
		}
	}
	at := func(i int) string { return borderAt(&st.Over, st.Changes[i].At) }
	switch last := len(st.Changes) - 1; {
	case len(shares) > 0 && st.Against != nil:
		says.add("of the area it %s", strings.Join(shares, ", "))
		least, most := st.Extremes()
		if least != most {
			says.add("where it suits and nothing is at fault the %s goes from %s, at %s, to %s, at %s", st.Of.Words, Valued(&st.Of.Quantity, st.Result(least)), sweepAt(st, least), Valued(&st.Of.Quantity, st.Result(most)), sweepAt(st, most))
		}
	case st.Against == nil && last >= 0:
		parts := told{say("below %s it %s", at(0), Does(st.Changes[0].Below))}
		for i, c := range st.Changes[:last] {
			parts.add("to %s it %s", at(i+1), Does(c.Above))
		}
		parts.add("above that it %s", Does(st.Changes[last].Above))
		says.add("%s", strings.Join(parts, ", "))
	case len(shares) > 0:
		says.add("it %s wherever in the range it can be built", Does(only))
	}
	// The thumb's power is common practice without a source.
	_, key, _ := strings.Cut(st.Over.Key, ".")
	thumb := map[string]string{"mainspring.thickness_mm": "its cube, +3.03 %", "mainspring.width_mm": "its first power, +1.00 %"}[key]
	says.when(math.Abs(e.Value) <= mostPower, "here 1 %% more of it changes the %s by %s %% (as its power %s%s)%s", st.Of.Words, Signed(100*(math.Pow(1.01, e.Value)-1), 2),
		Minus(say("%.2f", e.Value)), where(e.Error > 0.005, ", give or take %v", e.Error),
		where(thumb != "" && st.Of.Name == outcome.MeanTorque, "; the rule of thumb says %s (common practice, no source)", thumb))
	return says
}

// mostPower is the greatest power that is told: what goes faster is all but nought there, and
// changes by no share of itself.
const mostPower = 10

// sweepAt is where a point of a map is.
func sweepAt(st *sweep.Study, p *sweep.Point) string {
	return axisWith(&st.Over, p.Value) + " and " + axisWith(st.Against, p.Value2)
}

// SweepWarns tells where the train cannot be built, and where what does not fit.
func SweepWarns(st *sweep.Study) []string {
	var says told
	for _, l := range st.Limits {
		says.add("%s %s it cannot be built: %s", Side(l.Above), borderAt(&st.Over, l.At), l.Fault)
	}
	n, why := st.Unbuilt()
	says.when(n > 0 && len(st.Limits) == 0, "%s cannot be built, such as: %s", Either(st.Against != nil, ofArea(st, n)+" of the area", say("%d of %d points", n, len(st.Points))), why)
	for _, s := range st.FaultSpans() {
		from, to := axisWith(&st.Over, s.From), axisWith(&st.Over, s.To)
		at := cmp.Or(
			where(s.Points == 1, "at %s", from),
			where(st.Against != nil, "over %s of the area, such as", ofArea(st, s.Points)),
			say("from %s to %s, at %d of the points; at the first", from, to, s.Points))
		says.add("fault %s: %s", at, Fault(s.First.Run(), s.Fault))
	}
	return says
}

// ofArea is the share of a map that some of its points make.
func ofArea(st *sweep.Study, n int) string {
	share := float64(n) / float64(len(st.Points))
	return cmp.Or(where(share < 0.005, "less than 1 %%"), where(share >= 0.995 && share < 1, "more than 99 %%"), say("%.0f %%", 100*share))
}

// Side is a side of a limit.
func Side(above bool) string { return Either(above, "above", "below") }
