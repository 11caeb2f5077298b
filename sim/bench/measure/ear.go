package measure

import (
	"math"

	"evenpull/sim/bench/book"

	"github.com/golang/geo/r1"
)

// Band is what a striking train likes by ear.
//
// Liked goes from halfway between the strongest torque judged weak and the weakest judged
// liked to halfway between the strongest liked and the weakest brisk; where nothing was
// judged weak, or brisk, it ends at the weakest, or strongest, liked. It is empty where that
// is one torque alone, or the judgements contradict each other so far that nothing is sure.
type Band struct {
	Liked       r1.Interval // N·m
	Uncertainty [2]float64  // N·m, standard, of either end: of a rectangular distribution, as that of Bracket; NaN where it is a trial's own
	Contrary    []Contrary  // trials of which Heavier, of no less weight, was judged the less
}

// Ends are those of Liked (N·m); NaN where it is empty.
func (b *Band) Ends() []float64 {
	if b.Liked.IsEmpty() {
		return []float64{math.NaN(), math.NaN()}
	}
	return []float64{b.Liked.Lo, b.Liked.Hi}
}

// bandOf is nil where nothing was judged by ear.
func bandOf(trials []Trial) *Band {
	judged := false
	for _, t := range trials {
		judged = judged || t.Judged != book.NotJudged
	}
	if !judged {
		return nil
	}
	from, to := border(trials, book.Weak, book.Liked), border(trials, book.Liked, book.Brisk)
	b := &Band{Liked: r1.Interval{Lo: from.Least, Hi: to.Least}, Uncertainty: [2]float64{from.Uncertainty, to.Uncertainty},
		Contrary: append(from.Contrary, to.Contrary...)}
	switch {
	case !to.HasLower(): // no torque is sure to be liked
		b.Liked.Hi = math.NaN()
	case !to.HasUpper(): // nothing is sure to be brisk
		b.Liked.Hi = to.Between.Lo
	}
	if !(b.Liked.Lo < b.Liked.Hi) {
		b.Liked = r1.EmptyInterval()
	}
	return b
}

// border lies between the torques judged one thing and those judged the next.
func border(trials []Trial, below, above book.Judged) Bracket {
	var two []Trial
	var places []int
	for i, t := range trials {
		if t.Judged == below || t.Judged == above {
			two, places = append(two, Trial{Torque: t.Torque, Runs: t.Judged == above}), append(places, i)
		}
	}
	b := bracketOf(two)
	for i, c := range b.Contrary {
		b.Contrary[i] = Contrary{places[c.Heavier], places[c.Lighter]}
	}
	return b
}

// Strikes tells whether strikes were timed, or judged.
func (n *Need) Strikes() bool { return n.Cadence != nil || n.Band != nil }

// Likes are the torques (N·m) liked by ear; empty where nothing tells them.
func (n *Need) Likes() r1.Interval {
	if n.Band == nil {
		return r1.EmptyInterval()
	}
	return n.Band.Liked
}
