package words

import (
	"fmt"
	"math"
	"strings"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/study/choose"
)

// ChooseRefused says why a candidate cannot be fitted; "" when it can.
func ChooseRefused(st *choose.Study, c *choose.Candidate) string {
	r := &c.Refused
	switch r.Why {
	case choose.TooWide:
		return fmt.Sprintf("too wide by %s mm: the barrel is %s mm high inside, less %s mm of end shake", Figure(r.Figure), typed(st.Height), typed(st.EndShake))
	case choose.TooLong:
		return fmt.Sprintf("too long by %s mm, and it may not be cut: the barrel takes %.0f mm of it when it is %.0f %% full", Figure(c.LengthMM-r.Figure), r.Figure, 100*rules.Fullest)
	case choose.TooThick:
		return fmt.Sprintf("too thick: the barrel takes only %s mm of it", Figure(r.Figure))
	case choose.TooFewTurns:
		at := "at its length"
		if !math.IsNaN(r.CutTo) {
			at = fmt.Sprintf("at the most, %.0f mm long", r.CutTo)
		} else if !c.MayBeCut {
			at += ", which may not be cut"
		}
		return fmt.Sprintf("too few turns: it has %s %s, and the fusee takes %s without any set-up", Figure(r.Figure), at, Figure(st.Takes))
	case choose.Unfit:
		return r.Err.Error()
	}
	return ""
}

// ChooseFitting says how a candidate is fitted.
func ChooseFitting(c *choose.Candidate) string {
	s := "fitted without spacers"
	if c.Spacers != 0 {
		s = fmt.Sprintf("fitted with %s mm of spacers", typed(c.Spacers))
	}
	switch {
	case !math.IsNaN(c.CutTo):
		s += fmt.Sprintf(", cut to %s mm (%s mm off)", typed(c.CutTo), Figure(c.LengthMM-c.CutTo))
	case c.MayBeCut:
		s += fmt.Sprintf(", at its whole length of %s mm", typed(c.LengthMM))
	default:
		s += fmt.Sprintf(", at its %s mm, which may not be cut", typed(c.LengthMM))
	}
	return fmt.Sprintf("%s, set up by %s; %s turns are to spare when the fusee is wound", s, TurnsAndClicks(&c.Digest), Figure(c.Digest.Spare()))
}

// ChooseEven tells how even a candidate is and how near the target.
func ChooseEven(st *choose.Study, c *choose.Candidate) string {
	d := &c.Digest
	where := "at the target"
	switch off := d.Torque.Mean/st.Target.Mean - 1; {
	case off >= 5e-5:
		where = Percent(off) + " above the target"
	case off <= -5e-5:
		where = Percent(-off) + " below the target"
	}
	return fmt.Sprintf("the unevenness of the torque is %s; its mean is %s", Percent(d.Torque.Unevenness), where)
}

// ChooseOrder is a candidate as it can be ordered, the best with the thickness that is
// to be kept; "" when it is not to be.
func ChooseOrder(st *choose.Study, c *choose.Candidate) string {
	if !c.Orders() {
		return ""
	}
	s := ChooseSize(c)
	if c == &st.Candidates[0] {
		s += within(st.Tolerance)
	}
	return s
}

// ChooseSize is a spring as the list has it.
func ChooseSize(c *choose.Candidate) string {
	thick := typed(c.ThicknessMM)
	if _, after, _ := strings.Cut(thick, "."); len(after) < 2 {
		thick = fmt.Sprintf("%.2f", c.ThicknessMM)
	}
	return fmt.Sprintf("%s × %s × %s mm", typed(c.WidthMM), thick, typed(c.LengthMM))
}

// within writes a range of thickness so that none of it lies outside; "" when there is
// none, or one too narrow to ask for.
func within(t choose.Tolerance) string {
	from, to := math.Ceil(t.From*1e3)/1e3, math.Floor(t.To*1e3)/1e3
	if !(from < to) {
		return ""
	}
	return fmt.Sprintf(", thickness %.3f to %.3f mm", from, to)
}

// ChooseNoOrder is why a spring that can be fitted is not to be ordered.
func ChooseNoOrder(d *sim.Digest) string {
	switch {
	case d.Verdict.Code != rules.Suits:
		return fmt.Sprintf("it %s: %s", Does(d.Verdict.Code), Reasons(d)[0])
	case d.Faults != 0:
		return Faults(d)[0]
	}
	return Spare(d.Spare(), &d.Advice)
}

// ChooseBehind is the first reason why a candidate stands behind the best; "" for that
// one.
func ChooseBehind(st *choose.Study, c *choose.Candidate) string {
	best := &st.Candidates[0]
	d, b := &c.Digest, &best.Digest
	switch {
	case c == best:
		return ""
	case !best.Fits():
		return "it cannot be fitted either: " + ChooseRefused(st, c)
	case !c.Fits():
		return ChooseRefused(st, c)
	}
	switch c.Behind {
	case rules.BetterVerdict:
		if d.Verdict.Code == b.Verdict.Code {
			return fmt.Sprintf("%s has no fault, and here %s", best.Label, Faults(d)[0])
		}
		return fmt.Sprintf("it %s, and %s %s: %s", Does(d.Verdict.Code), best.Label, Does(b.Verdict.Code), Reasons(d)[0])
	case rules.TurnsToSpare:
		return fmt.Sprintf("it has only %s turns to spare when the fusee is wound, and %s has %s; %s are wanted (advice.turns_to_spare)", Figure(d.Spare()), best.Label, Figure(b.Spare()), Figure(d.Advice.TurnsToSpare))
	case rules.LeastChange:
		return fmt.Sprintf("its set-up is %s, that of %s %s, which is nearer to the %s of now", TurnsAndClicks(d), best.Label, TurnsAndClicks(b), TurnsAndClicks(&st.Present.Digest))
	case rules.LeastUneven:
		return fmt.Sprintf("its unevenness is %s, that of %s %s", Percent(d.Torque.Unevenness), best.Label, Percent(b.Torque.Unevenness))
	}
	return fmt.Sprintf("it does the same as %s, which stands before it in the list", best.Label)
}
