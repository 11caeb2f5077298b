package words

import (
	"cmp"
	"math"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/study/choose"
)

// ChooseRefused says why a candidate cannot be fitted; "" when it can.
func ChooseRefused(st *choose.Study, c *choose.Candidate) string {
	r := &c.Refused
	at := cmp.Or(
		where(!math.IsNaN(r.CutTo), "at the most, %.0f mm long", r.CutTo),
		"at its length"+where(!c.MayBeCut, ", which may not be cut"))
	return map[choose.Why]string{
		choose.TooWide:     say("too wide by %v mm: the barrel is %s mm high inside, less %s mm of end shake", r.Figure, typed(st.Height), typed(st.EndShake)),
		choose.TooLong:     say("too long by %v mm, and it may not be cut: the barrel takes %.0f mm of it when it is %.0f %% full", c.LengthMM-r.Figure, r.Figure, 100*rules.Fullest),
		choose.TooThick:    say("too thick: the barrel takes only %v mm of it", r.Figure),
		choose.TooFewTurns: say("too few turns: it has %v %s, and the fusee takes %v without any set-up", r.Figure, at, st.Takes),
		choose.Unfit:       say("%v", r.Err),
	}[r.Why]
}

// ChooseSays tells what a candidate has to spare, why it is judged so, how even and how
// near the target.
func ChooseSays(st *choose.Study, c *choose.Candidate) []string {
	d, off := &c.Digest, c.Digest.Torque.Mean/st.Target.Mean-1
	says := told{}
	says.when(!math.IsNaN(c.Uncut), "cut shorter since it would suit in only %s draws without (common practice, no source)", ofHundred(c.Uncut))
	decides := DeciderToOrder(d)
	if c.Own {
		decides = Decides(d)
	}
	says.when(decides != "", "%s", decides)
	says = append(says, Reasons(d)...)
	says.add("the unevenness of the torque is %s; its mean is %s the target; %v turns are to spare when the fusee is wound", Percent(d.Torque.Unevenness), cmp.Or(
		where(off >= 5e-5, "%s above", Percent(off)),
		where(off <= -5e-5, "%s below", Percent(-off)), "at"), d.Spare())
	return says
}

// ChooseOrder is a candidate as it can be ordered, with the thickness that is to be kept,
// what is done to it, how sure it then is, and what the list tells of stock and price; ""
// when it is not to be.
func ChooseOrder(c *choose.Candidate) string {
	return where(c.Orders(), "%s%s; %s, it %s%s%s", ChooseSize(c), within(c.Tolerance), ChooseFitting(c), Does(c.Digest.Verdict.Code), surely(&c.Digest), inStock(c))
}

// ChooseFitting tells what is done to a candidate.
func ChooseFitting(c *choose.Candidate) string {
	length := cmp.Or(
		where(!math.IsNaN(c.CutTo), "cut to %s mm (%v mm off)", typed(c.CutTo), c.LengthMM-c.CutTo),
		where(c.MayBeCut, "not to be cut"), "which may not be cut")
	spacers := cmp.Or(where(c.Spacers != 0, "with %s mm of", typed(c.Spacers)), "without")
	return say("%s, %s spacers; set up by %s", length, spacers, TurnsAndClicks(&c.Digest))
}

// inStock is what the list tells of how many there are and what one costs.
func inStock(c *choose.Candidate) string {
	return where(c.Quantity > 0, "; %d in stock", c.Quantity) + where(c.Price != "", "; price %s", c.Price)
}

// ChooseSize is a spring as the list has it.
func ChooseSize(c *choose.Candidate) string { return c.Label + ", " + ChooseDimensions(c) }

// ChooseDimensions are width, thickness and length of a spring as the list has it.
func ChooseDimensions(c *choose.Candidate) string {
	fine := func(mm float64) string { return typed(math.Round(mm*1e4) / 1e4) } // inches make many digits
	all, two := fine(c.ThicknessMM), say("%.2f", c.ThicknessMM)
	return say("%s × %s × %s mm", fine(c.WidthMM), Either(len(all) > len(two), all, two), fine(c.LengthMM))
}

// within writes a range of thickness so that none of it lies outside; "" when there is
// none, or one too narrow to ask for.
func within(t choose.Tolerance) string {
	from, to := math.Ceil(t.From*1e3)/1e3, math.Floor(t.To*1e3)/1e3
	return where(from < to, ", thickness %.3f to %.3f mm", from, to)
}

// ChooseNoOrder is why a spring that can be fitted is not to be ordered.
func ChooseNoOrder(d *sim.Digest) string {
	if d.Verdict.Code != rules.Suits {
		return say("it %s: %s", Does(d.Verdict.Code), Reasons(d)[0])
	}
	return append(Faults(d), Spare(d))[0]
}

// ChooseBehind is the first reason why a candidate is behind the best; "" for that one.
func ChooseBehind(st *choose.Study, c *choose.Candidate) string {
	best := st.Best()
	d, b, than := &c.Digest, &best.Digest, best.Label
	switch {
	case c.Rank == best.Rank || c.Own && c.Behind == rules.NoRule:
		return ""
	case !best.Fits():
		return "it cannot be fitted either: " + ChooseRefused(st, c)
	case !c.Fits():
		return ChooseRefused(st, c)
	}
	switch c.Behind {
	case rules.BetterVerdict:
		if d.Verdict.Code == b.Verdict.Code {
			return say("%s has no fault, and here %s", than, Faults(d)[0])
		}
		return say("it %s, and %s %s: %s", Does(d.Verdict.Code), than, Does(b.Verdict.Code), Reasons(d)[0])
	case rules.TurnsToSpare:
		return say("it has only %v turns to spare when the fusee is wound, and %s has %v; %v are wanted", d.Spare(), than, b.Spare(), d.Advice.TurnsToSpare)
	case rules.SurestToSuit:
		suits := func(d *sim.Digest) string { return ofHundred(d.Verdict.Sureness.Suits) }
		surest := st.Surest()
		return say("it suits in %s draws, %s in %s%s", suits(d), surest.Label, suits(&surest.Digest),
			where(surest != best, ", to which %s, in %s, counts as equal", than, suits(b)))
	case rules.LeastChange:
		return say("its set-up is %s, that of %s %s, which is nearer to the %s of now", TurnsAndClicks(d), than, TurnsAndClicks(b), TurnsAndClicks(&st.Present.Digest))
	case rules.LeastUneven:
		return say("its unevenness is %s, that of %s %s", Percent(d.Torque.Unevenness), than, Percent(b.Torque.Unevenness))
	}
	return say("it does the same as %s, which stands before it in the list", than)
}

// IdealOrder is a spring to have made as it can be ordered, with the thickness that is
// to be kept; "" when it is not to be.
func IdealOrder(id *choose.Ideal) string {
	o := &id.Ordered
	return where(o.Known(), "%.1f × %.*f × %.0f mm%s", id.Width, o.Decimals, o.Thickness, o.Length, within(o.Tolerance))
}

// IdealFitted tells how a spring to have made is set up and what it then does.
func IdealFitted(id *choose.Ideal) string {
	d := &id.Ordered.Digest
	return say("; set up by %s, it %s%s", TurnsAndClicks(d), Does(d.Verdict.Code), surely(d))
}

// ToOrders are the springs to have made that can be ordered, with their set-ups.
func ToOrders(st *choose.Study) []string {
	var says told
	for i := range st.Ideals {
		id := &st.Ideals[i]
		says.when(id.Ordered.Known(), "%s%s", IdealOrder(id), IdealFitted(id))
	}
	return says
}
