package scenario

import (
	"errors"
	"maps"
	"slices"
	"strconv"
	"strings"

	"evenpull/sim/internal/document"
	"evenpull/sim/internal/keyline"
)

var tolerances = root.sub("tolerance")

// byHowMuch refuses both, or neither, of the two ways to say how far.
func (tr *trail) byHowMuch(t *Tolerance) {
	tr.exclusive("percent", "plus_minus", t.Percent, t.PlusMinus)
	if !Given(t.Percent) && !Given(t.PlusMinus) && tr.sound("plus_minus", "percent") {
		tr.report("plus_minus", "missing", "want plus_minus or percent")
	}
}

// tolerances refuses tolerances of what is no quantity, and two of the same.
func (tr *trail) tolerances(s *Scenario) {
	if len(s.Tolerances) == 0 || !tr.sound(tolerances.key) {
		return
	}
	seen := map[*float64]bool{}
	for i := range s.Tolerances {
		t := &s.Tolerances[i]
		tr.push(tolerances, i, s, t)
		if tr.sound("key") {
			tr.tolerance(t, seen)
		}
		tr.pop()
	}
}

func (tr *trail) tolerance(t *Tolerance, seen map[*float64]bool) {
	tg, v, err := tr.s.quantity(t.Key)
	var f Fault
	switch own := strconv.Quote(t.Key); {
	case errors.As(err, &f):
		around := tr.s.setAround(tg)
		if !tr.faultTold(tg) && !(len(around) > 0 && tg.mayBeReplaced()) && !tg.ofLost() {
			spots := append([]string{tr.spot("key")}, around...)
			tr.reportOf(spots, "key", "found "+own+": "+strings.TrimPrefix(f.Found, "found "), f.Want)
		}
	case seen[v]:
		tr.report("key", "found "+own+" again", "want each quantity once")
	case *v == 0 && Given(t.Percent) && tr.sound("percent") && !tr.faultTold(tg):
		tr.reportOf([]string{tr.spot("percent"), tg.fieldSpot()}, "percent", "found "+document.Figure(t.Percent)+" of a value that is 0",
			"want plus_minus: a percentage of 0 is nothing")
	}
	seen[v] = true
}

// ofLost tells whether a KEY names something of a spring that is broken or lost.
func (tg *target) ofLost() bool {
	return springLost(tg.train()) && tg.f != nil && strips.field(tg.f.key) == tg.f
}

// setAround lists the spots changed by Set that may be why a KEY names no
// quantity any more: a name on the way to it, or what replaced its value.
func (s *Scenario) setAround(tg *target) []string {
	var all []string
	for _, spot := range slices.Sorted(maps.Keys(s.set)) {
		if tg.mayDependOn(spot) {
			all = append(all, spot)
		}
	}
	return all
}

func (tg *target) mayDependOn(spot string) bool {
	table := tg.spot("")
	switch {
	case tg.depth == 1:
		return strings.HasPrefix(spot, "train.") && strings.HasSuffix(spot, ".name")
	case tg.f == nil && len(tg.rest) > 0:
		return strings.HasPrefix(spot, tg.spot(tg.rest[0])+".") || keyline.Enclosing(spot) == table
	}
	return keyline.Enclosing(spot) == table
}

// mayBeReplaced tells whether what a KEY names is known but has no value: a change of
// another key may have taken its place. Its tolerance is then ignored, so that trying
// another way to say something is not refused for it.
func (tg *target) mayBeReplaced() bool {
	if tg.f != nil || len(tg.rest) == 0 {
		return tg.f != nil
	}
	sub := tg.steps[tg.depth-1].t.sub(tg.rest[0])
	return sub != nil && !sub.many
}

// faultTold tells whether a KEY may name no quantity only because of a fault that
// was told already: in what it names, or in a name on the way to it.
func (tr *trail) faultTold(tg *target) bool {
	switch {
	case len(tr.bad) == 0:
		return false
	case tg.f != nil:
		return tr.badUnder(tg.spot(tg.f.key)) || tr.badAbove(tg.spell(tg.f.key))
	case len(tg.rest) == 0:
		return false
	case tg.depth > 1:
		return tr.badUnder(tg.spot(tg.rest[0]))
	}
	for i := range tr.s.Trains {
		if tr.badAbove([]byte("train." + strconv.Itoa(i) + ".name")) {
			return true
		}
	}
	return tr.bad[trains.key]
}
