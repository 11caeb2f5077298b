package chart

import (
	"fmt"
	"math"
	"slices"
	"testing"

	strip "evenpull/fusee/mainspring/coils"

	"evenpull/sim/internal/trial"
	"evenpull/sim/internal/trial/bench"
	"evenpull/sim/show/words"
	"evenpull/sim/study/coils"
)

// The loop has the couples of the windings, goes up above and comes back below, with its arrows
// pointing so, and its ends are marked; without friction there is no loop.
func TestCoils(t *testing.T) {
	r := bench.CoilsSolved(t, coils.Options{Friction: 0.1})
	picture := usual(Coils, r)
	trial.Golden(t, "coils", picture)
	has(t, string(trial.Picture(t, "svg", picture)), "coils rub with a coefficient of 0.1", "what friction takes", ">without friction<", ">closed form, without friction<",
		fmt.Sprintf(">at rest, %.2f turns<", r.Loop.Rest), fmt.Sprintf(">solid, %.2f turns<", r.Loop.Solid), ">a run takes 90.0 % of the closed form<")
	layers := map[string]layer{}
	for _, p := range []*panel{coilLoop(r), coilErrors(r)} {
		for _, l := range p.layers {
			layers[l.label] = l
		}
	}
	for i, w := range r.Loop.Windings {
		for label, want := range map[string]float64{
			words.CoilsWinding: w.Up.Couple, words.CoilsRunning: w.Down.Couple, words.CoilsClosed: r.Closed[i],
			words.CoilsOver: 100 * w.Down.Couple / (0.9 * r.Closed[i]), words.CoilsPass: 100 * math.Sqrt(w.Down.Couple/w.Up.Couple),
		} {
			if p := layers[label].points[i]; p.X != r.Options.Turns[i] || math.Abs(p.Y-want) > 1e-9 {
				t.Errorf("%s, winding %d at %v, want %v", label, i, p, want)
			}
		}
		if free := layers[words.CoilsFree].points; free[i+1].Y != w.Free.Couple || free[0].X != r.Loop.Rest || free[0].Y != 0 {
			t.Errorf("without friction: %v", free)
		}
	}
	if layers[words.CoilsWinding].dot.Shape != (pointer{1}) || layers[words.CoilsRunning].dot.Shape != (pointer{-1}) {
		t.Error("arrows point elsewhere")
	}
	many := *r
	many.Loop, many.Closed, many.Used = &strip.Loop{Rest: r.Loop.Rest, Solid: r.Loop.Solid}, nil, make([]float64, 60)
	for i := range 60 { // a loop of as many has arrows at some
		s := &strip.Shape{Turns: float64(i+1) / 10, Couple: 1}
		many.Loop.Windings, many.Closed = append(many.Loop.Windings, strip.Winding{Free: s, Up: s, Down: s}), append(many.Closed, 1)
	}
	if of := slices.IndexFunc(coilLoop(&many).layers, func(l layer) bool { return l.glyph.Shape == (pointer{1}) }); of < 0 || len(coilLoop(&many).layers[of].points) != 20 {
		t.Error("no arrows, or too many")
	}
	r.Options.Friction = 0
	none := coilLoop(r)
	if slices.ContainsFunc(none.layers, func(l layer) bool { return l.label == words.CoilsLost || l.label == words.CoilsWinding }) {
		t.Error("a loop without friction")
	}
	has(t, none.finding, "no friction between the coils")
}
