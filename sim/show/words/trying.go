package words

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/study/choose"
	"evenpull/sim/study/trying"
	"evenpull/sim/vary"
)

// Trying is a trial in two sentences: the verdict with how sure it is, and the fact that
// decides.
func Trying(d *sim.Digest) (verdict, fact string) {
	return Capital(Either(d.Verdict.Code == rules.Unjudged, "not judged", Small(d.Verdict.Code))) + Sure(d) + ".", Capital(decisive(d)) + "."
}

// TryingFault is why a trial of a train of the scenario cannot be built, without KEYs; ""
// without an error.
func TryingFault(s *scenario.Scenario, train string, err error) string {
	if err == nil {
		return ""
	}
	why := vary.Why(err)
	all := s.Quantities()
	slices.SortStableFunc(all, func(a, b scenario.Quantity) int { return len(b.Key) - len(a.Key) }) // the diameter at turn 10 is not that at turn 1
	for _, q := range all {
		called := "the " + Input(q.Words, train)
		why = strings.ReplaceAll(why, q.Key, called)
		if _, below, ok := strings.Cut(q.Key, train+"."); ok {
			why = strings.ReplaceAll(why, below, called)
		}
	}
	return why
}

func decisive(d *sim.Digest) string {
	faults := Faults(d)
	spare := say("%v turns to spare", d.Spare()) // what binds is a fault
	switch {
	case len(faults) > 0:
		return faults[0]
	case d.Verdict.Code == rules.Stops || d.Standard.Basis == rules.ByNothing:
		return Reasons(d)[0]
	case d.Standard.Basis == rules.ByReserve:
		return say("least pull %v times the need, %s; ", d.Reserve(d.Torque.Min), leastWhere(d)) + spare
	}
	band, every := d.Standard.Liked, d.Cadence.Interval
	return say("pull %v to %v N·m, with %v to %v N·m liked", d.Torque.Min, d.Torque.Max, band.Lo, band.Hi) +
		where(!math.IsNaN(every.Mean), ": a blow every %s s", span(every.Min, every.Max)) + "; " + spare
}

// TryingSpare are the turns to spare, and what stands at their bar.
func TryingSpare(d *sim.Digest) (turns float64, told string) {
	if d.Faults.Has(sim.Binds) {
		return 0, "The spring binds: no turns to spare."
	}
	wanted := d.Advice.TurnsToSpare
	short := d.Spare() < wanted
	return d.Spare(), where(short, "only ") + say("%v turns to spare", d.Spare()) + where(!d.Counted, ", ideally packed") +
		cmp.Or(where(short, "; %v wanted", wanted), where(wanted > 0, "; %s, hatched, to be kept", Either(wanted == 1, "the last one", say("the last %v", wanted)))) + "."
}

// TryingEven tells which set-up is most even; d is nil where none lets
// the fusee be wound.
func TryingEven(d *sim.Digest) string {
	if d == nil {
		return "with any set-up the spring binds"
	}
	spares := d.Advice.TurnsToSpare == 0 || d.Advice.Spares(d.Spare())
	return where(!spares, "none keeps turns to spare; ") + "most even at " + TurnsAndClicks(d)
}

// TryingStrip tells how a strip of the list is fitted.
func TryingStrip(c *choose.Candidate) string {
	return where(!math.IsNaN(c.CutTo), "cut to %s, ", typed(c.CutTo)) + where(c.Spacers != 0, "spacers %s, ", typed(c.Spacers)) + "set-up " + Turns(c.Digest.Spring.SetUp)
}

// leastWhere tells at which turn the pull is least.
func leastWhere(d *sim.Digest) string {
	switch d.Torque.MinAt {
	case d.Turns:
		return "at the last turn"
	case d.TurnsLost:
		return "at the first turn"
	}
	return "at turn " + Turns(d.Torque.MinAt)
}

// TryingFigures are what stands beside the barrel.
func TryingFigures(r *sim.Result) (list []Line) {
	s := r.Spring
	add := func(words, value string) {
		if value != "" {
			list = append(list, Line{words, value})
		}
	}
	add("end shake", where(!math.IsNaN(s.EndFloat), "%s mm", Two(s.EndFloat*mm)))
	add("goes", hours(&r.Digest, math.IsNaN(r.StopsAt)))
	if a := r.Swing.Amplitude; r.Escapes && !math.IsNaN(a.Min) {
		add("semi-arc", say("%.2f° to %.2f°", Degrees(a.Min), Degrees(a.Max)))
	}
	if every, twelve := r.Cadence.Interval, r.Cadence.Twelve; r.Strikes {
		add("a blow every", Either(math.IsNaN(every.Mean), "stalls at every turn", span(every.Min, every.Max)+" s")+spreadOfUntimed(&r.Digest))
		add("twelve in", where(!math.IsNaN(twelve.Mean), "%s s", span(twelve.Min, twelve.Max)))
	}
	add("unevenness", Percent(r.Torque.Unevenness))
	add("barrel filled to", say("%.0f %%", 100*s.Fill))
	return list
}

// TryingClosed is why a part of a rule is closed.
func TryingClosed(w trying.Why) string {
	return map[trying.Why]string{trying.TooWide: "wider than the barrel is high", trying.TooFull: "more than the barrel takes"}[w]
}

// TryingOrder is the spring of a trial as it can be ordered, and what it then does; where it
// is not to be ordered, why.
func TryingOrder(r *sim.Result) (order, not string) {
	s := &r.Train.Drive.Spring
	if d := &r.Digest; d.Verdict.Code != rules.Suits || d.Faults.Count() > 0 || !d.Advice.Spares(d.Spare()) {
		return "", "Nothing to order: " + ChooseNoOrder(d) + "."
	}
	return say("mainspring %s wide, %s thick, %.0f long (mm); set up by %s, it %s%s", typed(to(s.Width, 0.1)), typed(to(s.Thickness, 0.001)), mm*s.Length,
		TurnsAndClicks(&r.Digest), Does(r.Verdict.Code), surely(&r.Digest)), ""
}

// to is a length (m) in mm, to the nearest step.
func to(m, step float64) float64 { return math.Round(m*mm/step) / math.Round(1/step) }
