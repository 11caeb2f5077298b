package choose

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"io"
	"strings"
	"testing"

	"evenpull/sim/internal/trial"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/stock"
)

// inText is a study for people, its lines joined.
func inText(t testing.TB, st *Study) string {
	t.Helper()
	var b strings.Builder
	if err := (Text{}).Write(&b, st); err != nil {
		t.Fatal(err)
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

// whole wants every format to be whole, and nothing in it that is no number.
func whole(t testing.TB, st *Study) {
	t.Helper()
	var j, c bytes.Buffer
	if err := JSON(&j, st); err != nil || !json.Valid(j.Bytes()) {
		t.Errorf("%v: %s", err, j.String())
	}
	if err := CSV(&c, st); err != nil {
		t.Error(err)
	}
	if rows, err := csv.NewReader(bytes.NewReader(c.Bytes())).ReadAll(); err != nil || len(rows) != len(st.Candidates)+1 {
		t.Errorf("%v, %d rows", err, len(rows))
	}
	svg := trial.Picture(t, "svg", func(w io.Writer, format string) error { return Plot(w, format, st) })
	for _, s := range []string{j.String(), c.String(), inText(t, st), string(svg)} {
		if strings.Contains(s, "NaN") || strings.Contains(s, "Inf") {
			t.Errorf("NaN or Inf in %s", s)
		}
	}
}

// With none that suits, or none that can be fitted, the nearest is told and why.
func TestNoneWillDo(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	for name, c := range map[string]struct {
		list  *stock.Stock
		first string
		says  []string
	}{
		"all weak":        {listOf([3]float64{20, 0.33, 1700}, [3]float64{24, 0.36, 1700}), "b", []string{"none of 2 springs suits; the nearest is b, which STOPS", "size: 24 × 0.36 × 1700 mm; no line to order, since it stops"}},
		"all strong":      {listOf([3]float64{36, 0.50, 1500}, [3]float64{36, 0.46, 1500}), "b", []string{"none of 2 springs suits; the nearest is b"}},
		"all too wide":    {listOf([3]float64{40, 0.38, 1650}, [3]float64{36.4, 0.38, 1650}, [3]float64{60, 0.38, 1650}), "b", []string{"none of 3 springs can be fitted; the nearest is b", "too wide by 0.200 mm", "a: it cannot be fitted either: too wide by 3.80 mm"}},
		"too few turns":   {listOf([3]float64{36, 0.70, 1000}), "a", []string{"the one spring, a, cannot be fitted", "too few turns: it has 4."}},
		"thick as a rod":  {listOf([3]float64{36, 10, 1000}), "a", []string{"too few turns"}},
		"thin as paper":   {listOf([3]float64{36, 0.02, 1e5}), "a", []string{"the one spring, a, does not suit: it STOPS"}},
		"short":           {listOf([3]float64{36, 0.38, 20}), "a", []string{"too few turns"}},
		"one that is one": {listOf([3]float64{36, 0.38, 1650}), "a", []string{"a SUITS; of 1 spring 1 suits without a fault"}},
		"twice the same":  {listOf([3]float64{36, 0.38, 1650}, [3]float64{36, 0.38, 1650}), "a", []string{"b: it is the same as a, which stands before it in the list"}},
	} {
		st := study(t, s, 0, c.list, asIs)
		got := inText(t, st)
		for _, want := range c.says {
			if st.Candidates[0].Label != c.first || !strings.Contains(got, want) {
				t.Errorf("%s: no %q in %s", name, want, got)
			}
		}
		whole(t, st)
	}
}

// A room smaller than the end shake, a reserve that no strip gives, a barrel that
// hardly takes a strip: a sentence each.
func TestOddRooms(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day", "inside_height_mm    = 37.2 ", "inside_height_mm = 10.0 ", "width_mm     = 36.0", "width_mm = 9.0")
	st := study(t, s, 0, listOf([3]float64{44, 0.38, 1650}, [3]float64{40, 0.38, 1650}), Options{Reserve: nan, EndShake: 15})
	if got := inText(t, st); st.Candidates[0].Label != "b" || len(st.Ideals) > 0 || !strings.Contains(got, "too wide by 45.0 mm") || !strings.Contains(got, "leaves no width for a spring") {
		t.Errorf("%s", got)
	}
	whole(t, st)

	s, _ = trial.Compile(t, "eight-day")
	st = study(t, s, 0, drawer(t), Options{Reserve: 100, EndShake: nan})
	if got := inText(t, st); st.Ideals[0].Fault == "" || !strings.Contains(got, "no thickness brings the mean torque to 33.0 N·m") || !strings.Contains(got, "computed: no thickness") {
		t.Errorf("%s", got)
	}
	whole(t, st)

	s, _ = trial.Compile(t, "eight-day", "arbor_diameter_mm   = 15.0", "arbor_diameter_mm = 43.0", "inside_diameter_mm  = 45.0", "inside_diameter_mm = 44.0",
		"length_mm    = 1650.0", "length_mm = 170.0", "set_up_turns        = 1.25", "set_up_turns = 0")
	st = study(t, s, 0, listOf([3]float64{36, 9, 1650}), asIs)
	if c := &st.Candidates[0]; !strings.HasPrefix(c.Refused, "too thick: the barrel takes only 7") {
		t.Errorf("%+v", c)
	}
	whole(t, st)
}

// A spring with no more turns than it needs is fitted, and its want of spare ones
// is a fault.
func TestNothingToSpare(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	list := drawer(t)
	list.Springs = []stock.Spring{{Label: "x", WidthMM: 36, ThicknessMM: 0.38, LengthMM: 755, YieldMPa: nan, ModulusGPa: nan}}
	c := study(t, s, 0, list, asIs).Candidates[0]
	if c.Refused != "" || c.Left < 0 || c.Left > spare || c.CutTo != 755 || !strings.Contains(strings.Join(c.Faults, " "), "turns are left when the fusee is wound") {
		t.Errorf("%+v", c)
	}
}

// A spring's modulus is its own: the next in the list has the scenario's again.
func TestOwnModulus(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	list := listOf([3]float64{36, 0.38, 1650}, [3]float64{36, 0.38, 1650}, [3]float64{36, 0.38, 1650})
	list.Springs[1].ModulusGPa, list.Springs[1].YieldMPa = 190, 1500
	st := study(t, s, 0, list, asIs)
	mean := map[string]float64{}
	for i := range st.Candidates {
		c := &st.Candidates[i]
		mean[c.Label] = c.Mean
		if r := byHand(t, s, 0, setsOf(c)); r.Torque.Mean != c.Mean {
			t.Errorf("%s: %v, by a run %v", c.Label, c.Mean, r.Torque.Mean)
		}
	}
	if mean["a"] != mean["c"] || !(mean["b"] < mean["a"]) {
		t.Errorf("%v", mean)
	}
}

// Every train of every sample: going, striking by its cadence, with a cone asked to
// be even, with present springs too strong and too weak.
func TestEveryTrain(t *testing.T) {
	for _, name := range []string{"eight-day", "too-strong", "too-weak", "strike-quick", "strike-pleasant", "three-trains"} {
		s, trains := trial.Compile(t, name)
		for number := range trains {
			st := study(t, s, number, drawer(t), asIs)
			whole(t, st)
			liked, basis := trains[number].Liked()
			if basis != rules.ByNothing {
				closeTo(t, "target", st.Target.Mean, (liked.Lo+liked.Hi)/2, 1e-12)
				asked := study(t, s, number, drawer(t), Options{Reserve: 1.5, EndShake: nan})
				closeTo(t, "target", asked.Target.Mean, 1.5*asked.Present.Need, 1e-12)
				continue
			}
			closeTo(t, "target", st.Target.Mean, DefaultReserve*st.Present.Need, 1e-12)
			even := s.Trains[number].Fusee.Profile == scenario.Even
			if id := &st.Ideals[0]; id.Fault == "" && !even { // an even cone would be cut anew
				r := byHand(t, s, number, idealSets(id))
				closeTo(t, name+" reserve of the ideal", r.Reserve(r.Torque.Mean), DefaultReserve, 1e-6)
			}
		}
	}
}

// A present spring that binds does not hide what the fusee takes.
func TestPresentSpringBinds(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day", "length_mm    = 1650.0", "length_mm    = 700.0")
	sound := sampleStudy(t)
	st := study(t, s, 0, drawer(t), asIs)
	closeTo(t, "turns taken", st.shop.takes, sound.shop.takes, 1e-15)
	if st.Candidates[0].Label != "A1" || st.Candidates[0].Mean != sound.Candidates[0].Mean {
		t.Errorf("%+v", st.Candidates[0])
	}
	whole(t, st)
}
