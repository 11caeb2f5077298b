package words_test

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"io"
	"math"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/rules"
	"evenpull/sim/scenario"
	"evenpull/sim/show/chart"
	"evenpull/sim/show/data"
	"evenpull/sim/show/text"
	"evenpull/sim/show/words"
	"evenpull/sim/stock"
	"evenpull/sim/study/choose"
)

var nan = math.NaN()

// asIs asks for nothing beyond the defaults.
var asIs = choose.Options{Reserve: nan, EndShake: nan}

// drawer is the sample stock list.
func drawer(t testing.TB) *stock.Stock {
	t.Helper()
	list, _ := scenarios.StockText(scenarios.DefaultStock)
	st, err := stock.Read(strings.NewReader(list), scenarios.DefaultStock)
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// listOf is a stock list of springs: width, thickness, length each, all of which may
// be cut.
func listOf(sizes ...[3]float64) *stock.Stock {
	list := &stock.Stock{EndShakeMM: stock.EndShakeMM, Source: "list"}
	for i, v := range sizes {
		list.Springs = append(list.Springs, stock.Spring{Label: string(rune('a' + i)), WidthMM: v[0], ThicknessMM: v[1], LengthMM: v[2], YieldMPa: nan, ModulusGPa: nan, MayBeCut: true})
	}
	return list
}

func chosen(t testing.TB, s *scenario.Scenario, list *stock.Stock, o choose.Options) *choose.Study {
	t.Helper()
	st, err := choose.Run(context.Background(), s, 0, list, o)
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// told is a choice for people, its lines joined; every other format has to be whole,
// and nothing in any of them is no number.
func told(t testing.TB, st *choose.Study) string {
	t.Helper()
	var p, j, c bytes.Buffer
	if err := text.Choose(&p, st, text.Options{Full: true}); err != nil {
		t.Error(err)
	}
	if err := data.Choose().JSON(&j, data.Origin{}, st); err != nil || !json.Valid(j.Bytes()) {
		t.Errorf("%v: %s", err, j.String())
	}
	if err := data.Choose().CSV(&c, data.Origin{}, st); err != nil {
		t.Error(err)
	}
	if rows, err := csv.NewReader(bytes.NewReader(c.Bytes())).ReadAll(); err != nil || len(rows) != len(st.All())+1 {
		t.Errorf("%v, %d rows", err, len(rows))
	}
	svg := trial.Picture(t, "svg", func(w io.Writer, format string) error { return chart.Usual(chart.Choose)(w, format, st) })
	says := strings.Join(strings.Fields(p.String()), " ")
	for _, s := range []string{j.String(), c.String(), says, string(svg)} {
		if strings.Contains(s, "NaN") || strings.Contains(s, "Inf") {
			t.Errorf("NaN or Inf in %s", s)
		}
	}
	return says
}

func wantAll(t testing.TB, name, got string, want ...string) {
	t.Helper()
	for _, s := range want {
		if !strings.Contains(got, s) {
			t.Errorf("%s: no %q in %s", name, s, got)
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
		"all weak":        {listOf([3]float64{20, 0.33, 1700}, [3]float64{24, 0.36, 1700}), "b", []string{"none of 2 springs suits; the nearest is b, which STOPS", "set up by 1.25 turns (15 clicks); no line to order, since it stops: the least torque"}},
		"all too wide":    {listOf([3]float64{36, 0.38, 1650}, [3]float64{32.4, 0.38, 1650}, [3]float64{56, 0.38, 1650}), "b", []string{"none of 3 springs can be fitted; the nearest is b", "too wide by 0.200 mm: the barrel is 33.2 mm high inside, less 1 mm of end shake", "a: it cannot be fitted either: too wide by 3.80 mm"}},
		"too few turns":   {listOf([3]float64{32, 0.70, 1000}), "a", []string{"the one spring, a, cannot be fitted: too few turns: it has 4."}},
		"thick as a rod":  {listOf([3]float64{32, 10, 1000}), "a", []string{"too few turns"}},
		"thin as paper":   {listOf([3]float64{32, 0.02, 1e5}), "a", []string{"the one spring, a, does not suit: it STOPS"}},
		"short":           {listOf([3]float64{32, 0.38, 20}), "a", []string{"too few turns: it has 0.199 at its length, and the fusee takes 5.99"}},
		"one that is one": {listOf([3]float64{32, 0.38, 1650}), "a", []string{"a SUITS; of 1 spring 1 suits and 1 can be ordered", "order: a, 32 × 0.38 × 1650 mm, thickness 0.366 to "}},
		"twice the same":  {listOf([3]float64{32, 0.38, 1650}, [3]float64{32, 0.38, 1650}), "a", []string{"b: it does the same as a, which stands before it in the list"}},
		"cut":             {listOf([3]float64{32, 0.40, 3700}), "a", []string{"a SUITS", "cut to ", "order: a, 32 × 0.40 × 3700 mm"}},
	} {
		st := chosen(t, s, c.list, asIs)
		if st.Candidates[0].Label != c.first {
			t.Errorf("%s: first is %s", name, st.Candidates[0].Label)
		}
		wantAll(t, name, told(t, st), c.says...)
	}
}

// A room smaller than the end shake, a reserve that no strip gives, a barrel that
// hardly takes a strip: a sentence each.
func TestOddRooms(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day", "inside_height_mm    = 33.2 ", "inside_height_mm = 10.0 ", "width_mm     = 32.0", "width_mm = 9.0")
	st := chosen(t, s, listOf([3]float64{44, 0.38, 1650}, [3]float64{36, 0.38, 1650}), choose.Options{Reserve: nan, EndShake: 15})
	wantAll(t, "no room", told(t, st), "the nearest is b: too wide by 41.0 mm", "an end shake of 15 mm leaves no width for a spring")
	s, _ = trial.Compile(t, "eight-day")
	wantAll(t, "a hundred times the need", told(t, chosen(t, s, drawer(t), choose.Options{Reserve: 100, EndShake: nan})),
		"32.2 mm in width: no thickness brings the mean torque to 33.0 N·m", "computed: no thickness", "a spring that meets it is too strong")
	s, _ = trial.Compile(t, "eight-day")
	if err := s.Apply([]string{"going.barrel.arbor_diameter_mm=43", "going.barrel.inside_diameter_mm=44", "going.mainspring.length_mm=160", "going.barrel.set_up_turns=0"}); err != nil {
		t.Fatal(err)
	}
	wantAll(t, "narrow", told(t, chosen(t, s, listOf([3]float64{32, 9, 1650}), asIs)), "too thick: the barrel takes only 6.77 mm")
	s, _ = trial.Compile(t, "eight-day")
	list := listOf([3]float64{32, 0.38, 4000}, [3]float64{32, 0.38, 755})
	list.Springs[0].MayBeCut, list.Springs[1].MayBeCut = false, false
	wantAll(t, "uncut", told(t, chosen(t, s, list, asIs)), "too long by ", "and it may not be cut: the barrel takes 3318 mm of it when it is 95 % full", "755 mm; which may not be cut")
}

// What is tried first heads the text; the spring to order stands below it all the same.
func TestChooseFirst(t *testing.T) {
	for name, want := range map[string][]string{
		"eight-day":  {"going train: the present spring SUITS: nothing needs to be ordered aimed at", "A1 SUITS; of 14 springs 6 suit and 6 can be ordered order: A1, 32 × 0.38 × 1650 mm"},
		"too-weak":   {"going train: before a spring is ordered, try the present one with another set-up, which costs nothing: 1.25 turns (15 clicks) in place of 0.50", "order: A2, 32 × 0.38 × 2000 mm"},
		"too-strong": {"going train: another spring is wanted: the present one is OVERDRIVEN, and has 1 fault (the spring binds), and no other set-up cures it", "order: A1, 32 × 0.38 × 1650 mm"},
	} {
		s, _ := trial.Compile(t, name)
		wantAll(t, name, told(t, chosen(t, s, drawer(t), asIs)), want...)
	}
}

// A line to order stands only by a spring that suits, has no fault and leaves the turns
// to spare: with a line that is near breaking there is none, and the head tells why.
func TestNoOrderWithAFault(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	if got := told(t, chosen(t, s, drawer(t), asIs)); strings.Count(got, "order: ") != 5 {
		t.Errorf("the sound sample has not its four lines to order: %s", got)
	}
	s.Trains[0].Line.BreakingN = 100
	st := chosen(t, s, drawer(t), asIs)
	got := told(t, st)
	wantAll(t, "a fault", got, " SUITS by its torque, but: winding pulls the line with", "suit and 0 can be ordered", "no line to order, since winding pulls", "mm in width: no line to order: winding pulls", "suits !", "; ! winding pulls the line")
	for i := range st.Ideals {
		if words.IdealOrder(&st.Ideals[i]) != "" {
			t.Error("a line to order by a spring to have made")
		}
	}
	if strings.Contains(got, "  order: ") || words.ChooseOrder(&st.Candidates[0]) != "" {
		t.Errorf("a line to order in %s", got)
	}
	s, _ = trial.Compile(t, "eight-day")
	list := listOf([3]float64{32, 0.38, 755})
	list.Springs[0].MayBeCut = false
	st = chosen(t, s, list, asIs)
	wantAll(t, "few turns", words.ChooseNoOrder(&st.Candidates[0].Digest), "stops")
	d := st.Present.Digest
	d.Spring.Ideal = d.Spring.Used + d.Spring.SetUp + 0.4
	wantAll(t, "few turns", words.ChooseNoOrder(&d), "only 0.400 turns are to spare when wound, even were its coils ideally packed; 1.00 are wanted")
	wantAll(t, "too strong", told(t, chosen(t, s, drawer(t), choose.Options{Reserve: 1.8, EndShake: nan})), "29.0 mm in width: no line to order: it is strong: the mean torque")
}

// What is odd about what was asked for is told in text and JSON.
func TestChooseNotes(t *testing.T) {
	going, _ := trial.Compile(t, "eight-day")
	striking, _ := trial.Compile(t, "strike-quick")
	for _, c := range []struct {
		o    choose.Options
		in   *scenario.Scenario
		want []string
	}{
		{asIs, going, nil}, {asIs, striking, nil},
		{choose.Options{Reserve: 1.15, EndShake: 0.2}, going, nil}, {choose.Options{Reserve: 1.6, EndShake: nan}, going, nil},
		{choose.Options{Reserve: 1.1, EndShake: nan}, going, []string{"lies outside the torques that suit, 0.380 to 0.528 N·m: a spring that meets it is too weak"}},
		{choose.Options{Reserve: 1.7, EndShake: 0}, going, []string{"too strong", "an end shake of 0 mm is less than 0.2 mm"}},
		{choose.Options{Reserve: nan, EndShake: 0.19}, going, []string{"an end shake of 0.19 mm is less than 0.2 mm: a spring that fills what is left will rub on the caps"}},
		{choose.Options{Reserve: 4, EndShake: nan}, striking, []string{"lies outside the torques that suit"}},
	} {
		st := chosen(t, c.in, drawer(t), c.o)
		notes := words.ChooseNotes(st)
		if len(notes) != len(c.want) {
			t.Errorf("%+v: %q", c.o, notes)
			continue
		}
		says := told(t, st)
		for i, want := range c.want {
			wantAll(t, "note", notes[i], want)
			wantAll(t, "text", says, "! "+notes[i])
		}
	}
	st := chosen(t, going, drawer(t), asIs)
	st.Asked = 20
	wantAll(t, "stopped", told(t, st), "! stopped early: 14 of the 20 springs of the list done")
}

// The caution names the spring that holds most of all that can be fitted.
func TestCautionNamesTheStrongest(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st := chosen(t, s, drawer(t), asIs)
	who, most := "", st.Present.Digest.Spring.Stored
	for i := range st.Candidates {
		if c := &st.Candidates[i]; c.Fits() && c.Digest.Spring.Stored > most {
			who, most = c.Label, c.Digest.Spring.Stored
		}
	}
	list := words.ChooseCautions(st)
	if want := "Wound, the strongest of these springs, " + who + ", holds " + words.Figure(most) + " J"; who == "" || !strings.HasPrefix(list[0], want) || len(list) != 3 || !strings.Contains(list[0], "let-down key") {
		t.Errorf("%q, want %s", list, want)
	}
	weak := chosen(t, s, listOf([3]float64{20, 0.33, 1700}), asIs)
	if got := words.ChooseCautions(weak)[0]; !strings.HasPrefix(got, "Wound, the present spring holds") {
		t.Error(got)
	}
}

// The first reason why a spring stands behind the best names rule and figures.
func TestChooseBehind(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st := chosen(t, s, listOf([3]float64{32, 0.38, 1650}, [3]float64{32, 0.38, 1650}), asIs)
	other := st.Candidates[1]
	for _, c := range []struct {
		change func(*choose.Candidate)
		want   string
	}{
		{func(c *choose.Candidate) { c.Refused = choose.Refusal{Why: choose.TooThick, Figure: 12} }, "too thick: the barrel takes only 12.0 mm of it"},
		{func(c *choose.Candidate) { c.Behind, c.Digest.Verdict.Code = rules.BetterVerdict, rules.Thin }, "it is thin, and a suits: the least torque"},
		{func(c *choose.Candidate) { c.Behind, c.Digest.Faults = rules.BetterVerdict, 1<<sim.NoSetUp }, "a has no fault, and here there is no set-up"},
		{func(c *choose.Candidate) { c.Behind, c.Digest.Spring.Ideal = rules.TurnsToSpare, 7.64 }, "it has only 0.395 turns to spare when the fusee is wound, and a has 1.85; 1.00 are wanted"},
		{func(c *choose.Candidate) { c.Behind, c.Digest.Spring.SetUp = rules.LeastChange, 1.5 }, "its set-up is 1.50 turns (18 clicks), that of a 1.25 turns (15 clicks), which is nearer to the 1.25 turns (15 clicks) of now"},
		{func(c *choose.Candidate) { c.Behind, c.Digest.Torque.Unevenness = rules.LeastUneven, 0.03 }, "its unevenness is 3.00 %, that of a 2.01 %"},
		{func(c *choose.Candidate) {}, "it does the same as a, which stands before it in the list"},
	} {
		st.Candidates[1] = other
		c.change(&st.Candidates[1])
		if got := words.ChooseBehind(st, &st.Candidates[1]); !strings.HasPrefix(got, c.want) {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	if got := words.ChooseBehind(st, &st.Candidates[0]); got != "" {
		t.Errorf("the best stands behind: %s", got)
	}
}

// The rule of thumb is told beside what was computed, and the steel that springs are
// taken to be of.
func TestThumbAndSteel(t *testing.T) {
	s, trains := trial.Compile(t, "eight-day")
	known := told(t, chosen(t, s, drawer(t), asIs))
	wantAll(t, "set", known, "the rule of thumb, strength as the width and as the cube of the thickness", "power 2.38", "not with the cube", "its set takes back", "set from 1620 MPa on, as the scenario's spring")
	r, err := trains[0].Run(sim.Options{})
	if err != nil {
		t.Fatal(err)
	}
	own := &s.Trains[0].Mainspring
	own.YieldMPa, own.FreeCoils = nan, r.Spring.FreeCoils
	wantAll(t, "coils", told(t, chosen(t, s, drawer(t), asIs)), "set from 1620 MPa on, as the scenario's spring must have to show its free coils")
	own.FreeCoils = nan
	straight := told(t, chosen(t, s, drawer(t), asIs))
	wantAll(t, "straight", straight, "taken never to set", "nearer to home")
	if strings.Contains(straight, "its set takes") {
		t.Error(straight)
	}
}

// The range of thickness that is asked for lies within what was found, and is left out
// where it is too narrow to ask for.
func TestOrderKeepsWithin(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st := chosen(t, s, listOf([3]float64{32, 0.4, 1700}), asIs)
	for _, c := range []struct {
		tol  choose.Tolerance
		want string
	}{
		{choose.Tolerance{From: 0.38001, To: 0.41299}, "32 × 0.40 × 1700 mm, thickness 0.381 to 0.412 mm"},
		{choose.Tolerance{From: 0.3995, To: 0.4004}, "32 × 0.40 × 1700 mm"},
		{choose.Tolerance{From: nan, To: nan}, "32 × 0.40 × 1700 mm"},
	} {
		best := &st.Candidates[0]
		if best.Tolerance = c.tol; !strings.HasPrefix(words.ChooseOrder(best), "a, "+c.want+"; not to be cut") {
			t.Errorf("%s, want %s", words.ChooseOrder(&st.Candidates[0]), c.want)
		}
	}
}

// How a spring is fitted, and how near the target it comes, is told with its figures.
func TestChooseSays(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st := chosen(t, s, listOf([3]float64{30, 0.38, 1650}), asIs)
	c := &st.Candidates[0]
	d := &c.Digest
	d.Torque.Unevenness, d.Spring.Ideal, d.Spring.Used, d.Spring.SetUp = 0.03, 9, 6, 1.25
	for _, v := range []struct {
		change func()
		want   []string
	}{
		{func() {}, []string{"not to be cut, with 2.2 mm of spacers; set up by 1.25 turns (15 clicks)\n", "set up by 1.25 turns (15 clicks), it suits\n", "1.75 turns are to spare"}},
		{func() { c.Spacers, c.CutTo = 0, 1600 }, []string{"cut to 1600 mm (50.0 mm off), without spacers; set up by"}},
		{func() { c.CutTo, c.MayBeCut = nan, false }, []string{"which may not be cut, without spacers;"}},
		{func() { c.Quantity = 3 }, []string{"it suits; 3 in stock\n"}},
		{func() { c.Price = "12.50 EUR" }, []string{"it suits; 3 in stock; price 12.50 EUR\n"}},
		{func() { d.Verdict.Sureness = sim.Sureness{Draws: 100, Same: 0.85, Suits: 0.85} }, []string{"(sure to 85 in 100)"}},
		{func() { d.Torque.Mean = 1.05 * st.Target.Mean }, []string{"unevenness of the torque is 3.00 %; its mean is 5.00 % above the target"}},
		{func() { d.Torque.Mean = 0.9 * st.Target.Mean }, []string{"3.00 %; its mean is 10.0 % below the target"}},
		{func() { d.Torque.Mean = 1.00004 * st.Target.Mean }, []string{"its mean is at the target"}},
	} {
		v.change()
		wantAll(t, "says", strings.Join(append([]string{words.ChooseFitting(c), words.ChooseOrder(c)}, words.ChooseSays(st, c)...), "\n"), v.want...)
	}
	wantAll(t, "size", words.ChooseSize(c), "a, 30 × 0.38 × 1650 mm")
	inches := *c
	inches.WidthMM, inches.ThicknessMM, inches.LengthMM = 1.1*25.4, 0.0157*25.4, 63*25.4
	wantAll(t, "size", words.ChooseSize(&inches), "a, 27.94 × 0.3988 × 1600.2 mm")
	st.Target = choose.Target{Mean: 0.5, Need: 0.4, Reserve: 1.25, Basis: rules.ByReserve}
	wantAll(t, "goal", words.ChooseGoal(st), "a mean of 0.500 N·m, 1.25 times the 0.400 N·m needed")
	st.Target.Basis = rules.ByBand
	wantAll(t, "goal", words.ChooseGoal(st), "the middle of the torques liked")
	st.Target.Basis = rules.ByCadence
	wantAll(t, "goal", words.ChooseGoal(st), "strike as fast as wanted")
	c.Refused, c.LengthMM, c.CutTo = choose.Refusal{Why: choose.TooFewTurns, Figure: 3, CutTo: 800}, 1650, nan
	st.Takes = 5.5
	wantAll(t, "too few", words.ChooseRefused(st, c), "it has 3.00 at the most, 800 mm long, and the fusee takes 5.50")
	c.Refused.CutTo = nan
	wantAll(t, "too few", words.ChooseRefused(st, c), "it has 3.00 at its length, which may not be cut, and")
	c.MayBeCut = true
	wantAll(t, "too few", words.ChooseRefused(st, c), "it has 3.00 at its length, and")
}

// The rule of thumb is told beside what was computed, thicker or thinner.
func TestChooseThumb(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st := chosen(t, s, listOf([3]float64{32, 0.38, 1650}), asIs)
	st.Target.Mean = 0.5
	p, id := &st.Present, &st.Ideals[0]
	p.Width, p.Thickness, p.Length, p.Digest.Torque.Mean = 31, 0.4, 1600, 0.4
	id.Width, id.Thumb, id.Thickness, p.Exponent, p.Unset = 30, 0.42, 0.4, 2.38, 2.7
	for _, c := range []struct {
		thumb, thickness, exponent, unset float64
		want, not                         string
	}{
		{0.42, 0.4, 2.38, 2.7, "asks for 0.420 mm at 30.0 mm of width; computed, it is 0.400 mm: the rule's is 5.00 % thicker", "agree"},
		{0.36, 0.4, 2.38, 2.7, "asks for 0.360 mm at 30.0 mm of width; computed, it is 0.400 mm: the rule's is 10.0 % thinner", "agree"},
		{0.40036, 0.4, 2.38, 2.7, "the two agree here", "thinner"},
		{0.42, 0.4, 2.96, 2.7, "grows as the power 2.96 of the thickness", "not with the cube"},
		{0.42, 0.4, 2.96, 2.7, "the rule's cube holds well", "not with"},
		{0.42, 0.4, 2.38, 2.42, "power 2.38 of the thickness, the strip cut to fill the barrel as before, not with the cube: a thicker strip, being shorter", "never set"},
		{0.42, 0.4, 2.38, nan, "not with the cube: a thicker strip, being shorter", "never set"},
		{0.42, 0.4, 2.38, 2.7, "if it never set, the power would be 2.70", "nothing"},
	} {
		id.Thumb, id.Thickness, p.Exponent, p.Unset = c.thumb, c.thickness, c.exponent, c.unset
		got := strings.Join(words.ChooseThumb(st), "\n")
		wantAll(t, "thumb", got, "31.0 × 0.400 × 1600 mm, gives a mean of 0.400 N·m (80.0 % of the target) and suits", c.want)
		if strings.Contains(got, c.not) {
			t.Errorf("%q in %q", c.not, got)
		}
	}
	p.Exponent = nan
	if got := words.ChooseThumb(st); len(got) != 2 {
		t.Errorf("%q", got)
	}
}

// Springs to have made are told with their set-ups, where they can be ordered.
func TestToOrder(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st := chosen(t, s, listOf([3]float64{32, 0.38, 1650}), asIs)
	list := words.ToOrders(st)
	if len(list) < 2 || !strings.HasPrefix(list[0], words.IdealOrder(&st.Ideals[0])+words.IdealFitted(&st.Ideals[0])) {
		t.Fatalf("%q", list)
	}
	sure := &st.Ideals[0].Ordered.Digest.Verdict.Sureness
	if sure.Draws, sure.Same, sure.Else = 100, 0.77, rules.Thin; !strings.HasSuffix(words.IdealFitted(&st.Ideals[0]), " clicks), it suits (sure to 77 in 100, else thin)") {
		t.Error(words.IdealFitted(&st.Ideals[0]))
	}
	o := &st.Ideals[0].Ordered
	o.Thickness, o.Length, o.Decimals, o.Tolerance, st.Ideals[0].Width = 0.376, 1640, 3, choose.Tolerance{From: 0.3701, To: 0.3819}, 32.2
	wantAll(t, "ideal", words.IdealOrder(&st.Ideals[0]), "32.2 × 0.376 × 1640 mm, thickness 0.371 to 0.381 mm")
	for i := range st.Ideals {
		st.Ideals[i].Ordered.Thickness = nan
	}
	if left := words.ToOrders(st); len(left) != 0 {
		t.Errorf("%q", left)
	}
}

// Where the first two springs change places is told with the set-ups, what to ask and what to
// count; where they do not, nothing is.
func TestChooseSteel(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	st := chosen(t, s, listOf([3]float64{32, 0.38, 1650}, [3]float64{28, 0.40, 1600}), asIs)
	if says := words.ChooseSteel(st); says != nil {
		t.Errorf("nothing changes, and %q", says)
	}
	a, b := st.Candidates[0], st.Candidates[1]
	a.Digest.Spring.SetUp, b.Digest.Spring.SetUp, b.CutTo = 1.25, 1.5, 1500
	st.Changes = []choose.Change{{Yield: 1648, Below: a, Above: b, Coils: 7.12, Counted: "a"}}
	says := words.ChooseSteel(st)
	if len(says) != 2 {
		t.Fatalf("%q", says)
	}
	wantAll(t, "one", says[0], "a or b? That depends on the flow stress of the steel, which the list does not state: below 1650 MPa a, then set up by 1.25 turns (15 clicks); above it b, then set up by 1.50 turns (18 clicks), cut to 1500 mm; ask the dealer for the tensile strength, of which it is about 0.95: 1650 MPa of 1730 MPa")
	wantAll(t, "one", says[1], "or, when a comes, wind it home once in this barrel, fitted as ordered, let it down, take it out and count the coils that it shows lying free, to a quarter: 7.1 at 1650 MPa, more where its steel is softer; where that tells of b exchange it")
	st.Changes = append(st.Changes, choose.Change{Yield: 1701, Below: b, Above: a, Coils: 6.5, Counted: "a"})
	says = words.ChooseSteel(st)
	wantAll(t, "two", strings.Join(says, " "), "below 1650 MPa a,", "; from there to 1700 MPa b,", "; above it a, then set up by", "7.1 at 1650 MPa and 6.5 at 1700 MPa")
	st.Changes[0].Counted = "b"
	if says := words.ChooseSteel(st); len(says) != 1 {
		t.Errorf("the coils of what is not ordered are to be counted: %q", says)
	}
}
