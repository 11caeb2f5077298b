package words

import (
	"math"

	"evenpull/fusee/mainspring"
	strip "evenpull/fusee/mainspring/coils"

	"evenpull/sim/study/coils"
)

// Words that stand in pictures of a mainspring wound coil by coil.
const (
	CoilsWinding = "winding"
	CoilsRunning = "running down"
	CoilsFree    = "without friction"
	CoilsClosed  = "closed form, without friction"
	CoilsLost    = "what friction takes, there and back"
	CoilsTurns   = "turns of the mainspring, from the rest of the closed form"
	CoilsOver    = "running down, over what a run reckons with"
	CoilsPass    = "efficiency of the coils, √(down/up)"
	CoilsEqual   = "as a run reckons"
	CoilsGives   = "couple"
	CoilsPress   = "how hard each millimetre of the strip is pressed"
)

// FoundCoils is what the strip gives while it runs down over what a run reckons with.
func FoundCoils(r *coils.Result) string {
	least, most := math.Inf(1), math.Inf(-1)
	for i := range r.Loop.Windings {
		if v := r.OfRun(i); !math.IsNaN(v) {
			least, most = math.Min(least, v), math.Max(most, v)
		}
	}
	if least > most {
		return say("%s train: at these windings the closed form gives no couple", r.Train)
	}
	said := say("%s train: running down, the strip gives %s", r.Train, offRange(100*(least-1), 100*(most-1)))
	return said + " the couple that a run reckons with" + where(r.Options.Friction == 0, "; no friction between the coils")
}

// offRange tells of a range of changes, in percent.
func offRange(least, most float64) string {
	whole := func(v float64) string { return say("%.0f", math.Abs(v)) }
	switch low, high := whole(least), whole(most); {
	case low == "0" && high == "0":
		return "to 1\u00a0%"
	case low == high && least*most > 0:
		return low + "\u00a0% " + Either(least > 0, "more than", "less than")
	case least >= 0 || low == "0":
		return low + " to " + high + "\u00a0% more than"
	case most <= 0 || high == "0":
		return high + " to " + low + "\u00a0% less than"
	default:
		return "from " + low + "\u00a0% less to " + high + "\u00a0% more than"
	}
}

// CoilsUsed is the share of the closed form that a run reckons with.
func CoilsUsed(r *coils.Result) string { return "a run takes " + coilsUsed(r) + " of the closed form" }

// CoilsAtRest and CoilsSolid name the ends of the winding.
func CoilsAtRest(r *coils.Result) string { return "at rest, " + counting(r.Loop.Rest) }

// CoilsSolid names the other.
func CoilsSolid(r *coils.Result) string { return "solid, " + counting(r.Loop.Solid) }

// CoilsErrs heads what the closed form errs by.
func CoilsErrs(r *coils.Result) string {
	return say("A run takes %s of the closed form; here the coils rub with a coefficient of %s", coilsUsed(r), typed(r.Options.Friction))
}

// Pressed is the pressure (N/m of strip) from which coils are said to press.
const Pressed = 10

// FoundCoilShapes is how much of the strip is pressed while it runs down.
func FoundCoilShapes(r *coils.Result) string {
	all := r.Loop.Windings
	least, most := 0, 0
	for i := range all {
		if v := pressedShare(all[i].Down); v < pressedShare(all[least].Down) {
			least = i
		} else if v > pressedShare(all[most].Down) {
			most = i
		}
	}
	part := func(i int) string { return say("%.0f\u00a0%%", 100*pressedShare(all[i].Down)) }
	at := func(i int) string { return counting(all[i].Down.Turns) }
	return say("%s train, running down: the coils press along %s of the strip at %s", r.Train, part(most), at(most)) +
		where(least != most, ", %s at %s", part(least), at(least))
}

// pressedShare is the share of the strip on which something presses from inside or the wall.
func pressedShare(s *strip.Shape) float64 {
	sum, last := 0.0, len(s.Along)-1
	for i := range last {
		if s.Inner[i]+s.Wall[i] >= Pressed {
			sum += s.Along[i+1] - s.Along[i]
		}
	}
	return sum / s.Along[last]
}

// CoilsSeen tells how the strip is drawn.
func CoilsSeen(r *coils.Result) string {
	end := Either(r.Options.End == mainspring.Hooked, "turns about its hook", "is held along the wall by its brace")
	return say("To scale by the bar; the strip is drawn thinner, and the harder it is pressed the darker and broader. Its outer end %s, always at the top. Winding turns the arbor clockwise. Friction %s.", end, typed(r.Options.Friction))
}

// StripDrawn is the share of its thickness at which the strip is drawn, so that coils that
// touch are told apart.
const StripDrawn = 0.5

// CoilsAt are the lines below a barrel: which way it goes where that is to be told, how far it
// is wound, and what it gives.
func CoilsAt(s *strip.Shape, told, winding bool) []string {
	at := []string{counting(s.Turns), CoilsCouple(s)}
	if told {
		at = append([]string{Either(winding, CoilsWinding, CoilsRunning)}, at...)
	}
	return at
}

// CoilsGoing tells which way a mainspring goes, and how far it is wound.
func CoilsGoing(s *strip.Shape, winding bool) string {
	return Either(winding, CoilsWinding, CoilsRunning) + ": " + counting(s.Turns)
}

// CoilsMoves tells how a picture that moves is stopped.
const CoilsMoves = "Point at the picture to stop it."

// CoilsCouple is what it gives.
func CoilsCouple(s *strip.Shape) string { return Two(s.Couple) + " N·m" }

// CoilsStep names a step of the scale of pressures (N/m): the first is from 0, the last without
// an end.
func CoilsStep(from, to float64) string {
	switch {
	case from == 0:
		return say("under %s N/mm", typed(to/mm))
	case math.IsInf(to, 1):
		return say("over %s N/mm", typed(from/mm))
	}
	return say("%s to %s N/mm", typed(from/mm), typed(to/mm))
}
