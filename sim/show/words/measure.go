package words

import (
	"cmp"
	"math"
	"slices"

	"evenpull/sim/bench/book"
	"evenpull/sim/bench/measure"
)

// mostTold is how many sentences of one kind are told in full.
const mostTold = 5

// NeedHead is what a train was found to need, in a line.
func NeedHead(n *measure.Need) string {
	b := &n.Bracket
	return say("%s train needs ", n.Train) + cmp.Or(
		where(math.IsNaN(b.Least), "more than %v N·m", b.Between.Lo),
		where(!b.HasLower(), "at most %v N·m", b.Least),
		say("%v N·m at the winding square, between %v and %v", b.Least, b.Between.Lo, b.Between.Hi)+where(n.UpDown != nil, " (95 %%)"))
}

// Trial is what a train did under a weight.
func Trial(n *measure.Need, t *measure.Trial) string {
	return cmp.Or(
		where(n.Strikes() && !t.Runs, "does not strike"),
		where(t.Judged != book.NotJudged, "judged %s", t.Judged),
		where(!math.IsNaN(t.Interval), "%v s from blow to blow", t.Interval),
		where(t.Runs, "runs"), "stops")
}

// NeedNotes are what is worth knowing beside what a train was found to need.
func NeedNotes(n *measure.Need) []string {
	notes := told{}
	ran, stopped, never := "ran", "stopped", "never stopped"
	if n.Strikes() {
		ran, stopped, never = "struck", "did not strike", "always struck"
	}
	b := &n.Bracket
	upper, lower, contrary := b.HasUpper(), b.HasLower(), len(b.Contrary)
	notes.when(contrary == 0 && !upper, "no weight of the trials %s: the least torque is above %v N·m; try heavier ones", ran, b.Between.Lo)
	notes.when(contrary == 0 && upper && !lower, "every weight of the trials %s: the least torque is at most %v N·m and may be far less; try lighter ones", ran, b.Between.Hi)
	notes.contrary(n, b.Contrary, func(t *measure.Trial) string { return Either(t.Runs, ran, stopped) })
	notes.when(contrary > 0, "%s; %s", cmp.Or(
		where(upper && lower, "all that is sure is that the least torque lies from %v to %v N·m", b.Between.Lo, b.Between.Hi),
		where(upper, "all that is sure is that the least torque is at most %v N·m", b.Between.Hi),
		"no weight is known above which it "+never),
		Either(n.Strikes(), "repeat these trials", "the least torque differs with the phase of the teeth: judge each weight over one full turn of the centre wheel, or go up and down in equal steps"))
	if n.Cadence != nil {
		notes.cadence(n)
	}
	if n.Band != nil {
		notes.ear(n)
	}
	if u := n.UpDown; u != nil {
		notes.add("up-and-down trials in steps of %v N·m (Dixon and Mood, 1948): under this torque half of them run; the least torque differs typically by %s%v N·m from trial to trial", u.Step, where(u.Coarse, "at most "), u.SD)
		notes.when(u.Coarse, "the steps are too wide to tell how far it differs: halve them")
		notes.when(u.Step < u.SD/2, "the steps are finer than half of that, and so few trials hardly leave where they began: take wider ones")
	}
	return notes
}

// contrary tells of trials of which the heavier did less than the lighter.
func (t *told) contrary(n *measure.Need, pairs []measure.Contrary, did func(*measure.Trial) string) {
	trial := func(i int) string { return say("trial %d (%v g)", i+1, n.Trials[i].Mass*1e3) }
	for _, c := range pairs[:min(len(pairs), mostTold)] {
		t.add("%s %s although %s, no heavier, %s", trial(c.Heavier), did(&n.Trials[c.Heavier]), trial(c.Lighter), did(&n.Trials[c.Lighter]))
	}
	t.when(len(pairs) > mostTold, "%d more trials contradict lighter ones in the same way", len(pairs)-mostTold)
}

// Likes are the torques that a train likes by ear.
func Likes(n *measure.Need) string {
	l := n.Likes()
	return where(!l.IsEmpty(), "by ear it likes %v to %v N·m", l.Lo, l.Hi)
}

func (t *told) ear(n *measure.Need) {
	t.contrary(n, n.Band.Contrary, func(t *measure.Trial) string { return say("was judged %s", t.Judged) })
	b := n.Band
	t.when(b.Liked.IsEmpty(), "no band of torques follows from what was judged by ear: want two weights liked, or one with a weak one below it and a brisk one above")
	t.when(!b.Liked.IsEmpty() && math.IsNaN(b.Uncertainty[0]), "nothing lighter was judged weak: the band may begin lower")
	t.when(!b.Liked.IsEmpty() && math.IsNaN(b.Uncertainty[1]), "nothing heavier was judged brisk: the band may end higher")
}

func (t *told) cadence(n *measure.Need) {
	c := n.Cadence
	law := say("the square of the blows a second grows by %v for each N·m above %v N·m", c.Slope, c.Threshold)
	*t = append(*t, cmp.Or(
		where(math.IsNaN(c.Slope), "blows were timed under one torque only: nothing tells how their pace follows the torque"),
		where(!(c.Slope > 0), "the blows do not come faster under heavier weights as a fly lets them: look for a fly that slips, a hammer that binds or trials mixed up"),
		where(c.N == 2, "two timed trials make a line whatever they are: %s", law),
		say("%s, as a fly makes it: that accounts for %.2f %% of how %d trials differ (r²)", law, 100*c.R2, c.N)))
	for _, trials := range c.Pooled[:min(len(c.Pooled), mostTold)] {
		t.add("trials %s do not strike faster with more weight: their mean stands for them between trials", numbers(trials, 1))
	}
	t.when(len(c.Pooled) > mostTold, "%d more groups of trials do not strike faster with more weight", len(c.Pooled)-mostTold)
}

// SupplyHead is what a spring was found to give, in a line.
func SupplyHead(s *measure.Supply) string {
	return say("spring %s in the %s train gives %v N·m in the mean%s; unevenness %s", s.Spring, s.Train, s.Mean.Value,
		where(!math.IsNaN(s.Mean.HalfWidth), " ± %s", About(s.Mean.HalfWidth)), Percent(s.Unevenness))
}

// SupplyNotes are what is worth knowing beside what a spring was found to give:
// readings that are missing, intervals that are not known or too good to be true,
// drift, outliers, and odd losses.
func SupplyNotes(s *measure.Supply) []string {
	notes := told{}
	single := turnsWhere(s, func(t *measure.Turn) bool { return t.N == 1 })
	exact := turnsWhere(s, func(t *measure.Turn) bool { return t.HalfWidth == 0 })
	unequal := slices.ContainsFunc(s.Repeats, func(r measure.Repeat) bool { return r.N != len(s.Turns) })
	alone, d, e := len(s.Repeats) == 1, &s.Drift, &s.Efficiency
	notes.when(len(s.Unread) > 0, "no reading at %s: left out of every figure", fuseeTurns(s.Unread))
	notes.when(s.Apart, "some repeats share no fusee turn with the others, so that nothing tells how far repeats differ: the mean has no interval")
	notes.when(unequal && !s.Apart, "some repeats lack readings: their means are carried over to all turns by what they have in common with the others")
	notes.when(alone, "one repeat alone tells nothing of how far repeats differ: %s; repeat the readings at least twice more",
		Either(s.Mean.Freedom > 0, "the interval of the mean is by how far those of other sets do, and turns have none", "there is no interval"))
	notes.when(s.Mean.Freedom == 1 && !s.Apart, "all that one meter read tells only once how far repeats differ: a third run-down would divide the interval of the mean by about three")
	notes.when(s.Unevenness <= s.ByScatter, "the unevenness is no more than scatter alone would show")
	notes.when(!alone && len(single) > 0, "one reading only at %s: no interval there", fuseeTurns(single))
	notes.when(len(exact) > 0, "all repeats read the same at %s and no error of the meter is given: the interval of 0 there is not to be believed; give meter_relative and meter_resolution_nm", fuseeTurns(exact))
	notes.when(d.Found, "the mean %s by %v N·m from repeat to repeat, more than chance explains (chance does so in %s of 100 cases): look for a spring that is still setting, or a meter that drifts",
		Either(d.Slope < 0, "falls", "rises"), math.Abs(d.Slope), Either(d.P < 0.001, "less than 0.1", say("%.2g", 100*d.P)))
	found := 0
	for i := range s.Turns {
		if o := s.Turns[i].Outlier; o != nil {
			found++
			notes.when(found <= mostTold, "at fusee turn %s repeat %d read %v N·m, further from the others than chance explains (Grubbs' test, 5 %%): look at it again; it stays in every figure", Turns(s.Turns[i].FuseeTurn), o.Repeat, o.Value)
		}
	}
	notes.when(found > mostTold, "%d more readings are as far off", found-mostTold)
	notes.when(found > 0, "chance alone makes such a reading at about one turn in twenty")
	notes.when(len(s.Winding) > 0 && len(e.Turns) == 0, "winding up and running down were read at no common turn: no efficiency follows")
	notes.when(len(e.Above) > 0, "at %s running down gave more torque than winding up took, which cannot be: were the readings mixed up?", fuseeTurns(e.Above))
	return notes
}

func turnsWhere(s *measure.Supply, holds func(*measure.Turn) bool) []float64 {
	var at []float64
	for i := range s.Turns {
		if holds(&s.Turns[i]) {
			at = append(at, s.Turns[i].FuseeTurn)
		}
	}
	return at
}

func fuseeTurns(at []float64) string {
	turns := make([]string, len(at))
	for i := range at {
		turns[i] = Turns(at[i])
	}
	return "fusee turn" + where(len(at) != 1, "s") + " " + listed(turns)
}
