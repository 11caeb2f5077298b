package choose

import (
	"fmt"
	"math"
	"testing"

	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/rules"
	"evenpull/sim/study/sure"
)

// A spring that more draws suit when it is cut shorter is cut so, and told as a run of it
// would be; one that may not be cut is not, nor is any where more is asked of it.
func TestShortened(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	o := asIs
	o.Sure = &sure.Options{Draws: 500, Seed: 1, Brief: true}
	whole := map[string]*Candidate{}
	list := drawer(t)
	for i := range list.Springs {
		list.Springs[i].MayBeCut = i%2 == 0
	}
	plain := study(t, s, 0, list, asIs)
	for i := range plain.Candidates {
		whole[plain.Candidates[i].Label] = &plain.Candidates[i]
	}
	shortened := 0
	for _, c := range study(t, s, 0, list, o).Candidates {
		was := whole[c.Label]
		if math.IsNaN(c.Uncut) {
			if c.Fits() && c.Length() != was.Length() {
				t.Errorf("%s is cut to %v mm", c.Label, c.CutTo)
			}
			continue
		}
		shortened++
		if share := c.Digest.Verdict.Sureness.Suits; !c.MayBeCut || c.Length() >= was.Length() || share-c.Uncut < 0.05-1e-9 || was.Digest.Verdict.Code.Better(c.Digest.Verdict.Code) {
			t.Errorf("%s: of %v mm %v suit, cut to %v %v", c.Label, was.Length(), c.Uncut, c.CutTo, share)
		}
		told := c.Digest
		told.Verdict.Sureness = sim.Sureness{}
		if r := byHand(t, s, 0, setsOf(&c)); fmt.Sprint(r.Digest) != fmt.Sprint(told) {
			t.Errorf("%s: %+v, by a run %+v", c.Label, told, r.Digest)
		}
		// No length looked at lies further inside what suits.
		f := newFitter(&plain.shop)
		f.strip = f.stripOf(&c.Spring)
		for i := int(was.Length()); i > 1000; i -= 25 {
			f.strip.Length = float64(i) * mm
			if d, err := f.setUp(); err == nil && f.room(float64(i)) >= 0 && inside(d) > inside(&c.Digest)+0.05 {
				t.Errorf("%s: cut to %v mm inside by %v, to %d by %v", c.Label, c.CutTo, inside(&c.Digest), i, inside(d))
			}
		}
	}
	if shortened == 0 {
		t.Error("none is cut shorter")
	}
	if err := s.Apply([]string{"advice.shorten_gain=0.9"}); err != nil {
		t.Fatal(err)
	}
	for _, c := range study(t, s, 0, list, o).Candidates {
		if !math.IsNaN(c.Uncut) {
			t.Errorf("%s is cut to %v mm", c.Label, c.CutTo)
		}
	}
}

// How far inside what suits a torque lies is the lesser distance to its limits.
func TestInside(t *testing.T) {
	var d sim.Digest
	d.Standard = rules.Standard{Need: 1, Bands: rules.Bands{Stops: 1, Thin: 1.15, Suits: 1.6, Strong: 2}}
	for _, c := range [][3]float64{{1.15 * math.E, 1.6 / math.E / math.E, 1}, {1.15 * math.E, 1.6 / math.Sqrt(math.E), 0.5}, {1.15 / math.E, 1.2, -1}} {
		d.Torque.Min, d.Torque.Mean = c[0], c[1]
		closeTo(t, "inside", inside(&d), c[2], 1e-12)
	}
}

// A spring to have made is as sure to suit as one of the same size in a stock list whose
// steel is not told; without a list that is told of the first.
func TestMadeIsSure(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	o := asIs
	o.Sure = &sure.Options{Draws: 300, Seed: 2, Brief: true}
	without, err := ToHave(t.Context(), s, 0, o)
	if err != nil {
		t.Fatal(err)
	}
	made := study(t, s, 0, listOf([3]float64{32, 0.38, 1650}), o)
	seen, first := 0, true
	for i := range made.Ideals {
		id := &made.Ideals[i]
		if !id.Ordered.Known() {
			continue
		}
		want := sim.Sureness{}
		if first {
			want, first = id.Ordered.Digest.Verdict.Sureness, false
		}
		if got := without.Ideals[i].Ordered.Digest.Verdict.Sureness; got != want {
			t.Errorf("%v mm wide: %+v without a list, want %+v", id.Width, got, want)
		}
		stocked := study(t, s, 0, listOf([3]float64{id.Width, id.Ordered.Thickness, id.Ordered.Length}), o).Candidates[0]
		if stocked.Digest.Spring.SetUp != id.Ordered.Digest.Spring.SetUp || stocked.Length() != id.Ordered.Length {
			continue
		}
		seen++
		if a, b := id.Ordered.Digest.Verdict.Sureness, stocked.Digest.Verdict.Sureness; a.Draws != 300 || a != b {
			t.Errorf("%v mm wide: %+v, from stock %+v", id.Width, a, b)
		}
	}
	if seen == 0 {
		t.Error("none can be ordered and fitted alike")
	}
}
