package setup

import (
	"evenpull/sim"
)

// MostTurns is the greatest set-up that a scenario takes, in turns.
const MostTurns = 60

// Clicks is the number of set-ups in whole clicks, that of none among them, up to a
// number of turns; none below 0. A ratchet has the given clicks in a turn.
func Clicks(most, clicks float64) int {
	if most < 0 {
		return 0
	}
	return int(min(most, MostTurns)*clicks*(1+1e-9)) + 1
}

// Curve runs a train down with the set-ups of the first n clicks, from none on, and
// puts them into list, whose memory is used again. It changes the set-up of the
// train, uses the result to run into, and fails as a run-down does.
func Curve(t *sim.Train, n int, o sim.Options, r *sim.Result, list []sim.Digest) ([]sim.Digest, error) {
	list = list[:0]
	for i := range n {
		t.Drive.Barrel.SetUp = float64(i) / t.Clicks
		if err := t.RunInto(r, o); err != nil {
			return nil, err
		}
		list = append(list, r.Digest)
	}
	return list, nil
}

// MoreEven tells whether a set-up is less uneven than another of the same spring, or leaves
// the turns to spare where that does not.
func MoreEven(d, than *sim.Digest) bool {
	a, b := d.Advice.Spares(d.Spare()), than.Advice.Spares(than.Spare())
	return a && !b || a == b && d.Torque.Unevenness < than.Torque.Unevenness
}

// Preferred is the place in a list of set-ups of one spring of the one that the
// rules prefer: of those that leave the turns to spare, where any does, the best
// verdict with the fewest faults, then the least uneven. −1 where there is none.
func Preferred(list []sim.Digest) int {
	at := -1
	for i := range list {
		if at < 0 || better(&list[i], &list[at]) {
			at = i
		}
	}
	return at
}

func better(d, than *sim.Digest) bool {
	if a, b := d.Advice.Spares(d.Spare()), d.Advice.Spares(than.Spare()); a != b {
		return a
	}
	x, y := d.Standing(), than.Standing()
	return x.Beats(&y) || !y.Beats(&x) && x.Unevenness < y.Unevenness
}

// Fitted is the place in a list of set-ups of the one that a spring gets when it is
// put in: the present one, whose place is given, where it leaves the turns to spare
// and the rules advise no other; else the preferred. −1 where there is none.
func Fitted(list []sim.Digest, present int) int {
	to := Preferred(list)
	if present < 0 || present >= len(list) {
		return to
	}
	advice, now, then := &list[to].Advice, list[present].Standing(), list[to].Standing()
	if advice.Spares(now.Spare) && !advice.AnotherSetUp(&now, &then).Advised {
		return present
	}
	return to
}
