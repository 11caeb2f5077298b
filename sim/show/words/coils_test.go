package words_test

import (
	"strings"
	"testing"

	"evenpull/fusee/mainspring"
	"evenpull/sim/internal/trial/bench"
	"evenpull/sim/show/words"
	"evenpull/sim/study/coils"
)

// What friction does is what the windings have.
func TestCoilsRub(t *testing.T) {
	rubs := func(r *coils.Result) string { return words.CoilsSays(r)[0] }
	r := bench.Coils(8) // half-way from rest, 0.1, to solid, 5, is nearest to 2.5 turns, the fifth
	wantAll(t, "rubs", rubs(r), "friction 0.1: running down gives 9.8 to 11.1 % less than winding",
		"leave 94.6 % of the couple in the middle, at 2.5 turns, and 94.3 % at the least, at 4 turns", "; a run takes 90.0 %")
	r.Loop.Solid = 8 // half-way is past the last
	if got := rubs(r); !strings.Contains(got, "leave 94.3 % of the couple in the middle, at 4 turns;") {
		t.Errorf("the middle is the least: %s", got)
	}
	one := bench.Coils(1)
	one.Options.Turns[0] = 1
	wantAll(t, "one", rubs(one), "gives 9.8 % less than winding", "leave 95.0 % of the couple at 1 turn;")
	one.Options.Friction = 0
	if got := rubs(one); got != "without friction the closed form that a run goes by gives 4.0 % more than the strip at 1 turn" {
		t.Error(got)
	}
}

// Where the closed form is off, the ends and the work are those of the strip; of a strip
// without friction no work is told.
func TestCoilsSays(t *testing.T) {
	r := bench.Coils(8)
	says := strings.Join(words.CoilsSays(r), "\n")
	wantAll(t, "says", says, "gives 4.0 % more than the strip at the most, at 0.5 turns, and 1.0 % more in the middle, at 2.5 turns",
		"rests at 0.1 turns and is solid at 5,", "solid at 5.1", "hooked, the outer end is free", "encloses 2.00 J; friction takes 2.01 J", "camber")
	r.Closed[2] = 0.9 * r.Loop.Windings[2].Free.Couple
	r.Options.End, r.Options.Friction = mainspring.Braced, 0
	bare := strings.Join(words.CoilsSays(r), "\n")
	wantAll(t, "braced", bare, "without friction the closed form", "10.0 % less than the strip at the most, at 1.5 turns", "braced, the outer end is held along the wall")
	if strings.Contains(bare, " J") || strings.Contains(bare, "friction takes") {
		t.Errorf("without friction: %s", bare)
	}
}

// What the figures do not bear is warned of, with its place.
func TestCoilsWarns(t *testing.T) {
	r := bench.Coils(8)
	if warns := words.CoilsWarns(r); len(warns) > 0 {
		t.Errorf("warned of nothing: %q", warns)
	}
	wantAll(t, "foot", words.CoilsFoot(r, 0), "more than 0.00001 is left, with 48 nodes")
	r.Loop.Windings[1].Free.Left, r.Loop.Windings[3].Up.Left, r.Loop.Windings[4].Down.Left = 2*coils.Rough, 3.2e-4, 1e-4
	r.Loop.Windings[6].Down.Overlap, r.Loop.Area = 12e-6, 1.5
	warns := words.CoilsWarns(r)
	if len(warns) != 3 {
		t.Fatalf("%q", warns)
	}
	wantAll(t, "rough", warns[0], "at 3 windings", "0.0003 is left at the most, at 2 turns")
	wantAll(t, "overlap", warns[1], "overlap by 12.0 µm at 3.5 turns")
	wantAll(t, "work", warns[2], "part by 25.4 %")
	wantAll(t, "foot", words.CoilsFoot(r, 4), "more than 0.0003 is left", "4 windings more: --full")
}

// A spring that is to be wound has the caution with what it then holds.
func TestCoilsCautions(t *testing.T) {
	list := words.CoilsCautions(bench.Coils(2))
	if len(list) != 1 {
		t.Fatalf("%q", list)
	}
	wantAll(t, "caution", list[0], "holds 20.0 J", "let-down key")
}
