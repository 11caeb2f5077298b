package scenario

import (
	"math"
	"path/filepath"
	"strings"
	"testing"
)

// TestWords: every quantity of every sample and of the full scenario has words of its
// own, in which nothing is a key.
func TestWords(t *testing.T) {
	files, err := filepath.Glob("../../scenarios/*.toml")
	if err != nil || len(files) < 6 {
		t.Fatal(files, err)
	}
	for _, file := range append(files, "testdata/full-format.toml") {
		s, err := ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		distinctWords(t, file, s)
	}
	distinctWords(t, "pendulum clock", mustRead(t, pendulumClock))
	distinctWords(t, "quarter train", mustRead(t, quarterTrain))
}

func distinctWords(t *testing.T, file string, s *Scenario) {
	t.Helper()
	keys := map[string]string{}
	for _, q := range s.Quantities() {
		if other, twice := keys[q.Words]; twice {
			t.Errorf("%s: %q is both %s and %s", file, q.Words, other, q.Key)
		}
		keys[q.Words] = q.Key
		if q.Words == "" || strings.ContainsAny(q.Words, "_{}#.") || strings.Contains(q.Words, "  ") || strings.TrimSpace(q.Words) != q.Words {
			t.Errorf("%s: %s is called %q", file, q.Key, q.Words)
		}
		train, _, _ := strings.Cut(q.Key, ".")
		if train != "place" && train != "verdict" && !strings.Contains(" "+q.Words+" ", " "+train+" ") {
			t.Errorf("%s: %s is called %q, without its train", file, q.Key, q.Words)
		}
	}
}

// TestWordsOfEqualNames: a second load at one arbor has words of its own.
func TestWordsOfEqualNames(t *testing.T) {
	s := mustRead(t, edited(t, edit{1, "[train.escapement]", "[[train.load]]\narbor = \"centre\"\ntorque_nm = 0.5\n[train.escapement]"}))
	for key, want := range map[string]string{
		"going.load.centre.torque_nm":       "torque of the load at the centre arbor of the going train",
		"going.load.centre#2.torque_nm":     "torque of load 2 at the centre arbor of the going train",
		"going.mesh.centre.drag_nm":         "drag on the centre arbor of the going train",
		"going.pendulum.decay.from_deg":     "first semi-arc of the free swing of the going pendulum",
		"striking.demand.blow_interval_s.0": "shortest blow interval wanted of the striking train",
		"striking.demand.blow_interval_s.1": "longest blow interval wanted of the striking train",
		"going.demand.least_torque_nm":      "least torque that the going train needs",
		"going.barrel.set_up_turns":         "set-up of the going mainspring",
		"going.fusee.diameters_mm.0":        "diameter of the going fusee at turn 0 from the small end",
		"striking.strike.hammers.1.mass_g":  "mass of hammer 1 of the striking train",
	} {
		if q, err := s.Quantity(key); err != nil || q.Words != want {
			t.Errorf("%s: %q, want %q: %v", key, q.Words, want, err)
		}
	}
	distinctWords(t, "two loads", s)
}

// TestInput: a key is found by its name in any train.
func TestInput(t *testing.T) {
	for name, want := range map[string]Field{
		"mainspring.thickness_mm": {Table: "[train.mainspring]", Words: "thickness of the mainspring", Symbol: "h", Unit: "mm", Lo: 0.02, Hi: 10, Usual: within(0.01)},
		"pendulum.decay.from_deg": {Table: "[train.pendulum.decay]", Words: "first semi-arc of the free swing of the pendulum", Symbol: "a1", Unit: "deg", Lo: 0.01, Hi: 90},
		"strike.hammers.mass_g":   {Table: "[[train.strike.hammers]]", Words: "mass of a hammer", Symbol: "m", Unit: "g", Lo: 0.01, Hi: 1e6, Usual: withinPercent(3)},
		"mesh.drag_nm":            {Table: "[[train.mesh]]", Words: "drag on the driven arbor of the train", Symbol: "d", Unit: "N·m", Hi: 1e4},
		"barrel.set_up_turns":     {Table: "[train.barrel]", Words: "set-up of the mainspring", Symbol: "φs", Unit: "turns", Hi: 60, Usual: within(1.0 / 12)},
		"place.gravity_m_s2":      {Table: "[place]", Words: "acceleration of gravity", Symbol: "g", Unit: "m/s²", Lo: 1, Hi: 30},
		"title":                   {Words: "title"},
		"name":                    {Table: "[[train]]", Words: "name of the train"},
	} {
		got, ok := Input(name)
		want.Key = name[strings.LastIndex(name, ".")+1:]
		want.Type, want.Default, want.Accepts, want.Meaning = got.Type, got.Default, got.Accepts, got.Meaning
		if !ok || got != want || got.Type == "" || got.Meaning == "" {
			t.Errorf("%s: got %+v, want %+v", name, got, want)
		}
	}
	for _, name := range []string{"", ".", "thickness_mm", "mainspring", "mainspring.", "mainspring.thickness", "mainspring.thickness_mm.0", "going.mainspring.thickness_mm"} {
		if got, ok := Input(name); ok {
			t.Errorf("%q: %+v", name, got)
		}
	}
}

// usualErrors are those of the format's description, which are common practice
// without a source: two standard deviations, times and over, or exact.
var usualErrors = map[string]ReadingError{
	"mainspring.width_mm": {PlusMinus: 0.1}, "mainspring.thickness_mm": {PlusMinus: 0.01}, "mainspring.length_mm": {Percent: 1},
	"mainspring.modulus_gpa": {Percent: 2}, "mainspring.yield_mpa": {Percent: 8}, "mainspring.free_coils": {PlusMinus: 0.25}, "mainspring.efficiency": {PlusMinus: 0.03},
	"mainspring.solid_turns": {PlusMinus: 0.25}, "mainspring.packing": {PlusMinus: 0.035}, "mainspring.couple_ratio": {Percent: 2}, "mainspring.friction_coefficient": {Percent: 30},
	"barrel.inside_diameter_mm": {PlusMinus: 0.1}, "barrel.arbor_diameter_mm": {PlusMinus: 0.1}, "barrel.outside_diameter_mm": {PlusMinus: 0.1},
	"barrel.set_up_turns":   {PlusMinus: 1.0 / 12},
	"barrel.arbor_pivot_mm": {PlusMinus: 0.1}, "barrel.pivot_friction": {Percent: 30}, "fusee.pivot_mm": {PlusMinus: 0.1},
	"line.thickness_mm": {PlusMinus: 0.1}, "line.width_mm": {PlusMinus: 0.1}, "line.efficiency": {PlusMinus: 0.02},
	"fusee.points": {PlusMinus: 0.1}, "fusee.land_height_mm": {PlusMinus: 0.1},
	"fusee.diameters_mm": {PlusMinus: 0.1}, "fusee.small_diameter_mm": {PlusMinus: 0.1}, "fusee.large_diameter_mm": {PlusMinus: 0.1},
	"mesh.efficiency": {PlusMinus: 0.02}, "mesh.friction_coefficient": {Percent: 30},
	"escapement.escaping_arc_deg": {PlusMinus: 0.2}, "escapement.drop": {PlusMinus: 0.05}, "escapement.efficiency": {PlusMinus: 0.05},
	"escapement.recoil_ratio": {Lo: 1 / (0.8 * 0.8), Hi: 1 / (0.64 * 0.857375 * 0.857375)}, "escapement.dead_friction": {Percent: 30},
	"pendulum.quality": {Percent: 10}, "pendulum.decay.periods": {Percent: 10}, "pendulum.decay.lasts_s": {Percent: 10}, // the quality goes as the periods
	"strike.lift_share": {PlusMinus: 0.05}, "strike.hammers.mass_g": {Percent: 3}, "strike.hammers.lift_mm": {Percent: 3}, "strike.hammers.spring_n": {Percent: 3},
	"strike.timed.blow_interval_s": {PlusMinus: 0.2 / 11}, "strike.timed.twelve_s": {PlusMinus: 0.2},
	"fly.drag_coefficient": {Times: 1.4}, "demand.least_torque_nm": {Percent: 5},
}

func TestUsualErrors(t *testing.T) {
	found := 0
	for _, f := range Fields() {
		name := strings.TrimPrefix(strings.Trim(f.Table, "[]")+"."+f.Key, "train.")
		want, listed := usualErrors[name]
		if !alike(f.Usual, want) || f.Usual.Exact() == listed {
			t.Errorf("%s: %+v, want %+v", name, f.Usual, want)
		}
		if listed {
			found++
		}
	}
	if found != len(usualErrors) {
		t.Errorf("%d of %d keys found", found, len(usualErrors))
	}
}

// alike tells whether two errors are the same but for a rounding.
func alike(a, b ReadingError) bool {
	near := func(x, y float64) bool { return math.Abs(x-y) <= 1e-14*math.Abs(y) }
	return near(a.PlusMinus, b.PlusMinus) && near(a.Percent, b.Percent) && near(a.Lo, b.Lo) && near(a.Hi, b.Hi) && near(a.Times, b.Times)
}

// TestRecoilBetween: the ratio lies between that of the pallets alone and that of the
// whole train, of its own efficiencies.
func TestRecoilBetween(t *testing.T) {
	s := mustRead(t, fullText(t))
	tr := &s.Trains[0]
	moved := 0.8
	for i := range tr.Meshes {
		moved *= tr.Meshes[i].passes()
	}
	q, err := s.Quantity("going.escapement.recoil_ratio")
	if err != nil || q.Given || !alike(q.Usual, ReadingError{Lo: 1 / 0.64, Hi: 1 / (moved * moved)}) {
		t.Errorf("%+v, %v", q, err)
	}
	if v := tr.Escapement.RecoilRatio; !(v > q.Usual.Lo && v < q.Usual.Hi) {
		t.Errorf("%v is not within %+v", v, q.Usual)
	}
	lossless := &Train{Escapement: &Escapement{Efficiency: 1}, Meshes: []Mesh{{Efficiency: 1}}}
	if e := recoilBetween(lossless, false); !e.Exact() {
		t.Errorf("without losses %+v", e)
	}
}

// TestFollowingTrain: a set-up may be off by a click of its own ratchet, the end of a cone
// only where there is one.
func TestFollowingTrain(t *testing.T) {
	s := mustRead(t, pendulumClock)
	if q, err := s.Quantity("going.barrel.set_up_turns"); err != nil || q.Usual != within(1.0/16) {
		t.Errorf("%+v, %v", q, err)
	}
	if e, even := coneEnd(&Train{Fusee: Fusee{Profile: Cone}}, true), coneEnd(&Train{Fusee: Fusee{Profile: Even}}, true); e != within(0.1) || !even.Exact() {
		t.Errorf("a cone that was measured: %+v, that is yet to be cut: %+v", e, even)
	}
	if e := oneClick(new(Train), true); e != within(1.0/12) {
		t.Errorf("%+v", e)
	}
}

// TestSupposed: what stands for a value that was left out may be farther off than one
// that was read. The list of diameters is read alike.
func TestSupposed(t *testing.T) {
	s := mustRead(t, edited(t, edit{1, "yield_mpa = 1700.0\n", ""}))
	for key, given := range map[string]string{"going.mainspring.packing": "1.1", "going.mainspring.yield_mpa": "1500"} {
		q, err := s.Quantity(key)
		if err != nil || q.Given || q.List != "" {
			t.Fatalf("%+v, %v", q, err)
		}
		if err := s.Apply([]string{key + "=" + given}); err != nil {
			t.Fatal(err)
		}
		r, err := s.Quantity(key)
		if lo, hi := q.Usual.Around(1.065); err != nil || !r.Given || q.Usual == r.Usual || !(lo < 1.01 && hi > 1.12) {
			t.Errorf("%s: assumed %+v, given %+v, %v", key, q.Usual, r.Usual, err)
		}
	}
	if q, err := s.Quantity("going.fusee.diameters_mm.1"); err != nil || q.List != "going.fusee.diameters_mm" {
		t.Errorf("%+v, %v", q, err)
	}
}

// TestAt: the standard deviation of what is normal is half of what is told, that of its
// logarithm where it is told as a factor; what is even goes from end to end.
func TestAt(t *testing.T) {
	for _, c := range []struct {
		e               ReadingError
		of, place, want float64
		even            bool
	}{
		{within(0.1), 5, 1, 5.05, false}, {withinPercent(10), -5, -2, -5.5, false}, {withinTimes(4), 3, -1, 1.5, false}, {withinTimes(4), 3, 2, 12, false},
		{ReadingError{PlusMinus: 0.1, Uniform: true}, 5, -1, 4.9, true}, {ReadingError{Percent: 10, Uniform: true}, 5, 0.5, 5.25, true},
		{ReadingError{Lo: 1, Hi: 1.2}, 7, 0, 1.1, true}, {ReadingError{}, 7, 3, 7, false},
	} {
		if got := c.e.At(c.of, c.place); math.Abs(got-c.want) > 1e-12 || c.e.Even() != c.even {
			t.Errorf("%+v of %v at %v: %v, want %v", c.e, c.of, c.place, got, c.want)
		}
	}
	if e := (&Tolerance{PlusMinus: 0.1, Percent: math.NaN(), Shape: Uniform}).Error(); e != (ReadingError{PlusMinus: 0.1, Uniform: true}) {
		t.Errorf("%+v", e)
	}
	if e := (&Tolerance{PlusMinus: math.NaN(), Percent: 3, Shape: Normal}).Error(); e != withinPercent(3) {
		t.Errorf("%+v", e)
	}
}

func TestAround(t *testing.T) {
	for _, c := range []struct {
		e              ReadingError
		of, lo, hi     float64
		wouldBeExactly bool
	}{
		{within(0.1), 5, 4.9, 5.1, false}, {withinPercent(10), 5, 4.5, 5.5, false}, {withinPercent(10), -5, -5.5, -4.5, false},
		{withinTimes(2), 3, 1.5, 6, false}, {withinTimes(2), -3, -6, -1.5, false},
		{ReadingError{Lo: 1, Hi: 1.13}, 1.065, 1, 1.13, false}, {ReadingError{}, 7, 7, 7, true},
	} {
		if lo, hi := c.e.Around(c.of); math.Abs(lo-c.lo) > 1e-12 || math.Abs(hi-c.hi) > 1e-12 || c.e.Exact() != c.wouldBeExactly {
			t.Errorf("%+v of %v: %v to %v, exact %v", c.e, c.of, lo, hi, c.e.Exact())
		}
	}
}
