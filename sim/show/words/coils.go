package words

import (
	"math"

	"evenpull/fusee/mainspring"
	"evenpull/sim/study/coils"
)

// coilsRub is how far friction parts winding and running down, and what it leaves of the couple.
func coilsRub(r *coils.Result) string {
	middle, least := r.Middle(), r.Most(func(i int) float64 { return -r.EfficiencyAt(i) })
	return say("friction %.6g: running down gives %s less than winding; the coils leave %s of the couple %s",
		r.Options.Friction, coilsLost(r), tenths(r.EfficiencyAt(middle))+" %", coilsAt(r, middle, "in the middle")) +
		where(least != middle, ", and %s at the least, at %s", tenths(r.EfficiencyAt(least))+" %", coilsTurns(r, least)) +
		say("; a run takes %s of the closed form", coilsUsed(r))
}

// coilsUsed is the share of the closed form that a run reckons with.
func coilsUsed(r *coils.Result) string {
	least, most := r.Passes(r.Most(func(i int) float64 { return -r.Passes(i) })), r.Passes(r.Most(r.Passes))
	return where(tenths(least) != tenths(most), "%s to ", tenths(least)) + tenths(most) + " %"
}

// coilsLost is how much less than winding running down gives, over all windings.
func coilsLost(r *coils.Result) string {
	least, most := r.Lost(r.Most(func(i int) float64 { return -r.Lost(i) })), r.Lost(r.Most(r.Lost))
	return where(tenths(least) != tenths(most), "%s to ", tenths(least)) + tenths(most) + " %"
}

// coilsOff is how far the closed form is off the strip, at the most and in the middle.
func coilsOff(r *coils.Result) string {
	middle, most := r.Middle(), r.Most(func(i int) float64 { return math.Abs(r.Off(i)) })
	return say("the closed form that a run goes by gives %s than the strip %s", coilsMore(r.Off(most)), coilsAt(r, most, "at the most")) +
		where(most != middle, ", and %s %s", coilsMore(r.Off(middle)), coilsAt(r, middle, "in the middle"))
}

func coilsMore(off float64) string {
	return tenths(math.Abs(off)) + " %" + Either(off < 0, " less", " more")
}

// tenths is a share in percent to the tenth: no finer is a strip known.
func tenths(share float64) string { return Minus(say("%.1f", math.Round(1e3*share)/10+0)) } // + 0: no −0

// coilsAt is where a winding is, and why it is told where there are others.
func coilsAt(r *coils.Result, i int, why string) string {
	return where(len(r.Options.Turns) > 1, "%s, ", why) + "at " + coilsTurns(r, i)
}

func coilsTurns(r *coils.Result, i int) string { return counting(r.Options.Turns[i]) }

// CoilsSays tell what friction does, how the closed form, the ends and the work agree, and what
// the strip is taken for.
func CoilsSays(r *coils.Result) []string {
	var says told
	l, rubs := r.Loop, r.Options.Friction > 0
	if rubs {
		says.add("%s", coilsRub(r))
	}
	says.add("without friction %s", coilsOff(r))
	says.add("the strip rests at %s turns and is solid at %s, counted from where the closed form rests, which is solid at %s", Turns(l.Rest), Turns(l.Solid), Turns(r.ClosedSolid))
	says.add("%s", map[mainspring.End]string{
		mainspring.Hooked: "hooked, the outer end is free to turn on its hook, and the coils lie to one side; --end braced holds it along the wall",
		mainspring.Braced: "braced, the outer end is held along the wall, and the coils lie about the middle; --end hooked lets it turn on its hook",
	}[r.Options.End])
	says.when(rubs, "from the first winding to the last and back the couple encloses %v J; friction takes %v J", l.Area, l.Rubbed)
	says.add("left out: oil between the coils, whose friction is taken as one coefficient at any speed, camber and twist; all lies in one plane")
	return says
}

// mayOverlap is how deep (m) coils may overlap without a word: less than the roughness of a strip.
const mayOverlap = 1e-6

// parted is how far the work of friction and what the couple encloses may part without a word.
const parted = 0.05

// CoilsWarns are what the figures do not bear.
func CoilsWarns(r *coils.Result) []string {
	var says told
	worst, deepest := r.Most(r.Residual), r.Most(r.Overlap)
	rough := 0
	for i := range r.Closed {
		if r.Residual(i) > coils.Rough {
			rough++
		}
	}
	says.when(rough > 0, "at %s the shape was not found to the end: of the equations %s is left at the most, at %s, so that its couples are rough; try other --nodes",
		Count(rough, "winding"), coilsLeft(r.Residual(worst)), coilsTurns(r, worst))
	says.when(r.Overlap(deepest) > mayOverlap, "coils overlap by %v µm at %s: take more --nodes", r.Overlap(deepest)*1e6, coilsTurns(r, deepest))
	l := r.Loop
	says.when(math.Abs(l.Area-l.Rubbed) > parted*math.Abs(l.Rubbed), "the two works part by %s: the steps from winding to winding are too long for friction, so take --turns closer together",
		Percent(math.Abs(l.Area/l.Rubbed-1)))
	return says
}

// CoilsCautions are what to mind before a spring is wound.
func CoilsCautions(r *coils.Result) []string { return []string{Caution(r.Stored)} }

// CoilsFoot tells how well the shapes were found, and how many windings are not shown.
func CoilsFoot(r *coils.Result, left int) string {
	return say("Of no equation more than %s is left, with %d nodes to a turn.", coilsLeft(r.Residual(r.Most(r.Residual))), r.Options.Nodes) +
		where(left > 0, " %s more: --full.", Count(left, "winding"))
}

// coilsLeft is what is left of an equation.
func coilsLeft(v float64) string { return Either(v <= coils.Rough, "0.00001", About(v)) }
