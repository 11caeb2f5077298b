package words

import (
	"cmp"
	"math"

	"evenpull/sim"
	"evenpull/sim/rules"
	"evenpull/sim/study/cut"
)

// limit is how a limit of a wanted cone is called: its key, what it is of, how it is told.
type limit struct {
	key, of string
	say     func(v float64) string
}

// limitOf is the one of a limit.
func limitOf(l cut.Limit) limit {
	length := func(m float64) string { return say("%.1f mm", m*mm) }
	return [...]limit{
		cut.RuntimeAtLeast:  {"fusee.runtime_at_least_h", "the running time", func(h float64) string { return say("%.1f h", h) }},
		cut.HeightAtMost:    {"fusee.height_at_most_mm", "the height of the blank", length},
		cut.DiameterAtMost:  {"fusee.diameter_at_most_mm", "the diameter over the lands", length},
		cut.DiameterAtLeast: {"fusee.diameter_at_least_mm", "the diameter of the groove bottom", length},
		cut.ReserveAtLeast:  {"fusee.reserve_wanted", "the mean reserve", func(v float64) string { return say("%.2f", v) }},
		cut.SpareAtLeast:    {"advice.turns_to_spare", "the turns of the spring to spare", func(v float64) string { return say("%.2f", v) }},
	}[l]
}

// LimitKey is the key of a scenario that a limit of a wanted cone is.
func LimitKey(l cut.Limit) string { return limitOf(l).key }

// Bound is a limit with its figure: the height of the blank at most 33.0 mm.
func Bound(b *cut.Bound) string {
	l := limitOf(b.Limit)
	return say("%s %s %s", l.of, Either(b.Limit.AtMost(), "at most", "at least"), l.say(b.Value))
}

// WantedAnswer tells whether a cone keeps within the limits of one that is wanted, and what
// the train does with the best.
func WantedAnswer(st *cut.Study, shown func(rules.Code) string) string {
	w := st.Wanted
	if len(w.Cones) == 0 {
		return "NO cone keeps within the limits" + cmp.Or(
			where(w.Blocked != nil, " without a fault"),
			nearest(w),
			": with this spring none can be made at all")
	}
	best := &w.Cones[0]
	suits := best.Verdict.Code == rules.Suits || best.Verdict.Code == rules.Unjudged
	return say("%s of %s: with %s of set-up %s%s", Either(suits, "YES, a cone", "NONE THAT SUITS; the best within the limits is one"), turnsOf(best), TurnsAndClicks(&best.Digest), judged(st, &best.Digest, shown), where(!math.IsInf(best.OffUnevenness(), 1),
		", unevenness %s with a spring 0.01 mm off", Percent(best.OffUnevenness())))
}

func turnsOf(f *cut.Found) string {
	return say("%s %s", Turns(f.Turns), Either(f.Turns == 1, "turn", "turns"))
}

func judged(st *cut.Study, d *sim.Digest, shown func(rules.Code) string) string {
	if d.Verdict.Code == rules.Unjudged {
		return say("it suits a need of up to %v N·m", needAtMost(st))
	}
	return "the train " + DoesLoudly(d.Verdict.Code, shown) + surely(d)
}

// needAtMost is the greatest need that the best cone suits, N·m.
func needAtMost(st *cut.Study) float64 { return st.Wanted.Cones[0].NeedAtMost(st.Wanted.Reserve) }

// nearest is the bound that is nearest to giving; "" for none.
func nearest(w *cut.Wanted) string {
	if len(w.Misses) == 0 {
		return ""
	}
	m := &w.Misses[0]
	l := limitOf(m.Limit)
	return say(": nearest is %s; %s would do%s%s", Bound(&m.Bound), l.say(m.Would), with(m), then(m))
}

// with are the bounds that would have to give beside one.
func with(m *cut.Miss) string {
	var others []string
	for _, l := range m.With {
		others = append(others, limitOf(l).of+" "+limitOf(l).say(l.Of(&m.Cone)))
	}
	return Either(len(others) > 0, " with "+listed(others), ", with all else as it is")
}

// WantedSays are the limits, what else would have to give, and how the search was made.
func WantedSays(st *cut.Study) []string {
	w, says := st.Wanted, told{}
	var bounds []string
	for i := range w.Bounds {
		bounds = append(bounds, Bound(&w.Bounds[i]))
	}
	says.add("limits: %s", listed(bounds))
	if f := w.Told(); f != nil && f.Verdict.Code != rules.Unjudged {
		says.add("the train is judged by a need of %v N·m at the fusee, %s", f.Need.Used, Either(math.IsNaN(f.Need.Measured), "predicted", "measured"))
	}
	if len(w.Cones) == 0 {
		for i := range w.Misses {
			says.when(i > 0 && len(w.Misses[0].With) == 0, "or else: %s", missed(&w.Misses[i]))
		}
		if b := w.Blocked; b != nil {
			says.add("the best within them has %s and %s of set-up", turnsOf(b), TurnsAndClicks(&b.Digest))
		}
		return append(says, howSearched(w))
	}
	best := &w.Cones[0]
	decides := Decides(&best.Digest)
	says.when(decides != "", "%s", decides)
	says.when(best.Verdict.Code == rules.Unjudged, "no need is known: weigh the train (evenpull samples protocol), or see that it needs no more than %v N·m at the fusee", needAtMost(st))
	says.add("its blank is %.1f mm high with its end margins; the lands stand half the line, %.2f mm, over the groove bottom (common practice, no source)", best.Height*mm, best.Land*mm)
	says.add("to work on with it: profile = \"even\", turns = %s, pitch_mm = %.2f, large_diameter_mm = %.2f in [train.fusee], set_up_turns = %s in [train.barrel], with the limits left out",
		Turns(best.Turns), best.Pitch*mm, best.Large*mm, typed(math.Round(best.Spring.SetUp*1e9)/1e9))
	return append(says, howSearched(w))
}

func missed(m *cut.Miss) string {
	return say("%s; %s would do%s", Bound(&m.Bound), limitOf(m.Limit).say(m.Would), then(m))
}

// then tells what the train does with the cone of a miss, where it does not suit.
func then(m *cut.Miss) string {
	is := m.Cone.Verdict.Code
	return where(is != rules.Suits && is != rules.Unjudged, ", but the train then %s", Does(is))
}

// howSearched tells how the search was made.
func howSearched(w *cut.Wanted) string {
	return say("searched: fusee turns by quarters, set-up by whole clicks from a quarter turn up, how far the spring is wound by 48ths of a turn: %s; each that is told of was run down", Count(w.Tried, "cone"))
}

// blocking are the faults that are in the way of the cone that would be the best.
func blocking(w *cut.Wanted) []string {
	if w.Blocked == nil {
		return nil
	}
	return Faults(&w.Blocked.Digest)
}
