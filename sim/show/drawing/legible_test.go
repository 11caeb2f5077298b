package drawing

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"evenpull/fusee"
	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
	"evenpull/sim/show/canvas/seen"
	"evenpull/sim/study/cut"
)

// legible checks a sheet: no label is beyond the edge, too small, over another or struck
// through by a line, but for the letter of a cross that lies on the cone, which has a white
// ground; and a minus sign is one.
func legible(t testing.TB, what string, svg []byte) {
	t.Helper()
	s, err := seen.Read(svg)
	if err != nil {
		t.Fatalf("%s: %v", what, err)
	}
	faults := append(s.Illegible(), s.Struck()...)
	for _, l := range s.Labels {
		if hyphen.MatchString(l.Words) {
			faults = append(faults, fmt.Sprintf("%q has a hyphen for a minus", l.Words))
		}
	}
	for _, f := range faults {
		if !ofCross.MatchString(f) {
			t.Errorf("%s: %s", what, f)
		}
	}
	if len(s.Labels) < 10 || len(s.Lines) < 5 {
		t.Errorf("%s: only %d labels and %d lines", what, len(s.Labels), len(s.Lines))
	}
}

var (
	ofCross = regexp.MustCompile(`^a line goes through "[A-Z]"$`)
	hyphen  = regexp.MustCompile(`(^|\s)-\d`)
)

// clock is a sample changed, and run down; fails the test where it cannot be.
func clock(t testing.TB, name string, change func(*scenario.Train)) []sim.Result {
	t.Helper()
	s, _ := trial.Compile(t, name)
	change(&s.Trains[0])
	return []sim.Result{*trial.RunOf(t, s, 0)}
}

// Every label of the trains of all samples is to be read, and of clocks that leave less room
// than any: very long trains and names, a fusee of hardly any length, barrels small and large.
func TestTrainsAreLegible(t *testing.T) {
	for _, name := range scenarios.Names() {
		legible(t, name, []byte(svg(t, results(t, name))))
	}
	long := func(n int) func(*scenario.Train) {
		return func(in *scenario.Train) {
			first := in.Meshes[len(in.Meshes)-1]
			first.Wheel, first.Pinion = 12, 11
			for i := len(in.Meshes); i < n; i++ {
				first.Drives = fmt.Sprintf("arbor number %d of many", i)
				in.Meshes = append(in.Meshes, first)
			}
		}
	}
	for what, change := range map[string]func(*scenario.Train){
		"9 arbors": long(8), "17 arbors": long(16), "65 arbors": long(64),
		"long name": func(in *scenario.Train) { in.Meshes[0].Drives = strings.Repeat("unbroken", 12) },
		"short cone": func(in *scenario.Train) {
			in.Fusee.Profile, in.Fusee.DiametersMM, in.Fusee.Turns = scenario.Cone, nil, 2
			in.Fusee.SmallDiameterMM, in.Fusee.LargeDiameterMM, in.Fusee.PitchMM = 28, 29, 1.7
		},
		"great speeds": func(in *scenario.Train) {
			long(40)(in)
			for i := range in.Meshes {
				in.Meshes[i].Wheel, in.Meshes[i].Pinion = 120, 6
			}
		},
		"wheels unlike": func(in *scenario.Train) { in.Meshes[0].Wheel, in.Meshes[1].Wheel = 2000, 20 },
		"large": func(in *scenario.Train) {
			in.Barrel.InsideDiameterMM, in.Barrel.OutsideDiameterMM, in.Fusee.CentreDistanceMM, in.Mainspring.LengthMM = 245, 260, 258, 70000
		},
	} {
		legible(t, what, []byte(svg(t, clock(t, "eight-day", change))))
	}
}

// The diagram says that it is one, and names every wheel, pinion, pin and vane with its
// teeth and turns: by hand, of the sample's 96/8, 84/7 and 78/7.
func TestDiagram(t *testing.T) {
	for name, wants := range map[string][]string{
		"eight-day":    {"Wheels: a diagram, not to scale; circles go with the tooth counts.", ">great wheel 96<", ">pinion 8, wheel 84<", ">12 turns<", ">144 turns<", ">pinion 7, escape wheel 30<", ">1604.57 turns<", ">1 turn<", ">going train: SUITS<"},
		"strike-quick": {">8 pins, 1 hammer<", ">pinion 6, fly of 2 vanes<", ">9.75 turns<", ">78 turns<"},
		"too-strong":   {">the spring binds<"},
	} {
		s := svg(t, results(t, name))
		for _, want := range wants {
			if !strings.Contains(s, want) {
				t.Errorf("%s: no %s", name, want)
			}
		}
	}
	rows := wheelsOf(&results(t, "eight-day")[0], ownSheet)
	if len(rows) != 1 || len(rows[0].arbors) != 4 {
		t.Fatalf("%+v", rows)
	}
	for i, a := range rows[0].arbors[:3] { // circles touch, and go with the teeth
		next := rows[0].arbors[i+1]
		if gap := next.x - a.x - a.wheel - next.pinion; gap > 1e-9 || gap < -1e-9 {
			t.Errorf("arbors %d and %d are %v mm apart", i, i+1, gap)
		}
	}
	if share := rows[0].arbors[1].wheel / rows[0].arbors[0].wheel; share < 84./96-1e-9 || share > 84./96+1e-9 {
		t.Errorf("wheels as %v", share)
	}
}

// A PDF of several trains has a page each, all that lie on A4 at their size.
func TestPages(t *testing.T) {
	pages := readPDF(t, pdf(t, results(t, "three-trains")))
	if len(pages) != 3 {
		t.Fatalf("%d pages", len(pages))
	}
	if p := pages[0]; p.width > 297 || p.height > 210 {
		t.Errorf("%v by %v mm", p.width, p.height)
	}
}

// Every label of a working drawing is to be read, on every paper and every sheet.
func TestConesAreLegible(t *testing.T) {
	short := func() *cut.Study {
		s, _ := trial.Compile(t, "eight-day")
		in := &s.Trains[0].Fusee
		in.Profile, in.DiametersMM, in.Turns, in.SmallDiameterMM, in.LargeDiameterMM, in.PitchMM = scenario.Cone, nil, 2, 20, 29, 1.7
		return worked(t, s, 0, cut.Options{})
	}
	for what, st := range map[string]*cut.Study{
		"quick": study(t, "strike-quick", 0, cut.Options{}), "left": leftChain(t), "blank": study(t, "eight-day", 0, cut.Options{FromBlank: true, Large: 18e-3}),
		"long": longCone(t, 2.2), "tiled": longCone(t, 7), "very long": longCone(t, 30), "short": short(), "strong": study(t, "too-strong", 0, cut.Options{}),
		"fine": study(t, "eight-day", 0, cut.Options{Step: 0.05}), "as it is": study(t, "three-trains", 2, cut.Options{}), "striking": study(t, "three-trains", 1, cut.Options{}),
	} {
		for _, p := range Papers() {
			for i, file := range files(t, st, p.Name, "svg") {
				legible(t, fmt.Sprintf("%s on %s, sheet %d", what, p.Name, i+1), file)
			}
		}
	}
}

// The turns that are numbered: evenly to the last where it can be, never two too near.
func TestMarked(t *testing.T) {
	for _, c := range []struct {
		turns, pitch float64
		want         string
	}{
		{16, 2.4, "[0 4 8 12 16]"}, {16, 2.2, "[0 4 8 12 16]"}, {16, 7, "[0 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16]"}, {7, 2.4, "[0 3 7]"},
		{4.5, 7, "[0 1 2 3 4.5]"}, {2, 1.7, "[0 2]"}, {5, 1.7, "[0 5]"}, {0.5, 8, "[0 0.5]"},
	} {
		b := blank{Cone: &fusee.Cone{Turns: c.turns}}
		if got := fmt.Sprint(b.marked(c.pitch)); got != c.want {
			t.Errorf("%v turns of %v mm: %s, want %s", c.turns, c.pitch, got, c.want)
		}
	}
}
