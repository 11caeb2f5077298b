package text

import (
	"context"
	"fmt"
	"io"
	"math"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/scenario"
	"evenpull/sim/show/words"
	"evenpull/sim/stock"
	"evenpull/sim/study/choose"
)

// drawer is a choice for the sample from its stock list, or from the springs named.
func drawer(t *testing.T, only ...string) *choose.Study {
	t.Helper()
	list, _ := scenarios.StockText(scenarios.DefaultStock)
	have, err := stock.Read(strings.NewReader(list), scenarios.DefaultStock)
	if err != nil {
		t.Fatal(err)
	}
	if len(only) > 0 {
		all := have.Springs
		have.Springs = nil
		for i := range all {
			if strings.Contains(" "+strings.Join(only, " ")+" ", " "+all[i].Label+" ") {
				have.Springs = append(have.Springs, all[i])
			}
		}
	}
	s, _ := trial.Compile(t, "eight-day")
	st, err := choose.Run(context.Background(), s, 0, have, choose.Options{Reserve: math.NaN(), EndShake: math.NaN()})
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// inFull writes all that a choice tells.
func inFull(w io.Writer, st *choose.Study, o Options) error {
	o.Full = true
	return Choose(w, st, o)
}

// row is the line of a spring in the table of candidates, its cells straight from what
// they tell.
func row(c *choose.Candidate, verdict string) string {
	start := fmt.Sprintf("%d %s %s – %.1f %.3f", c.Rank, c.Label, verdict, c.WidthMM, c.ThicknessMM)
	if !c.Fits() {
		return start + strings.Repeat(" –", 8)
	}
	d, cut := &c.Digest, "uncut"
	if c.CutTo == c.CutTo {
		cut = strconv.FormatFloat(c.CutTo, 'f', -1, 64)
	}
	return fmt.Sprintf("%s %s %.1f %.2f %s %.2f %.2f %s %.2f", start, cut, c.Spacers, d.Spring.SetUp, words.Figure(d.Torque.Mean),
		d.Torque.Mean/d.Need.Used, d.Torque.Min/d.Need.Used, words.Share(d.Torque.Unevenness), d.Spring.Ideal-d.Spring.Used-d.Spring.SetUp)
}

// idealRow is likewise that of a spring to have made.
func idealRow(id *choose.Ideal) string {
	d := &id.Digest
	return fmt.Sprintf("%.1f %.3f %.3f %s %.0f %.0f %.2f %.2f %s %.2f %s", id.Width, id.Thickness, id.Thumb, words.Turns(id.Spacers), id.Length, 100*id.Fill,
		d.Spring.SetUp, d.Torque.Mean/d.Need.Used, words.Share(d.Torque.Unevenness), d.Spring.Ideal-d.Spring.Used-d.Spring.SetUp, d.Verdict.Code)
}

// The finding comes first, then the best and its order, every spring, why the others
// stand behind it, the springs to have made, the rule of thumb and the cautions.
func TestChoose(t *testing.T) {
	st := drawer(t)
	st.Candidates[1].CutTo = 1234.5
	best := &st.Candidates[0]
	want := []string{words.ChooseFirst(st, words.Verdict), "aimed at: " + words.ChooseGoal(st), words.ChooseHead(st, words.Verdict), "order: " + words.ChooseOrder(best)}
	for _, s := range words.ChooseSays(st, best) {
		want = append(want, "- "+s)
	}
	st.Changes = []choose.Change{{Yield: 1654, Below: *best, Above: st.Candidates[1], Counted: best.Label, Coils: 7.1}}
	for _, s := range words.ChooseSteel(st) {
		want = append(want, "- "+s)
	}
	want = append(want, "spring verdict sure width thick cut to spacers set-up mean reserve reserve uneven to spare", "in 100 mm mm mm mm turns N·m mean least % turns")
	for i := range st.Candidates {
		verdict := "does not fit"
		if c := &st.Candidates[i]; c.Fits() {
			verdict = c.Digest.Verdict.Code.String()
		}
		want = append(want, row(&st.Candidates[i], verdict))
	}
	want = append(want, words.ChooseFitted(st)...)
	want = append(want, "Why the others stand behind A1")
	for i := range st.Candidates[1:] {
		c := &st.Candidates[i+1]
		want = append(want, c.Label+": "+words.ChooseBehind(st, c))
	}
	want = append(want, "The spring to have made", words.ChooseMade(st), "width thickness rule of thumb spacers length fill set-up reserve uneven to spare verdict", "mm mm mm mm mm % turns mean % turns")
	for i := range st.Ideals {
		want = append(want, idealRow(&st.Ideals[i]))
	}
	for i := range st.Ideals {
		id := &st.Ideals[i]
		if !id.Ordered.Known() {
			want = append(want, "! "+words.IdealNote(st, id))
			continue
		}
		want = append(want, "order: "+words.IdealOrder(id)+words.IdealFitted(id))
	}
	want = append(want, "Beside the rule of thumb")
	for _, s := range words.ChooseThumb(st) {
		want = append(want, "- "+s)
	}
	for _, s := range words.ChooseCautions(st) {
		want = append(want, "Caution: "+s)
	}
	inOrder(t, pageOf(t, inFull, st), want...)
}

// What cannot be ordered has its size and the reason; a fault is marked and told once.
func TestChooseWithoutOrder(t *testing.T) {
	st := drawer(t, "A1", "A4")
	best, other := &st.Candidates[0], &st.Candidates[1]
	best.Digest.Faults = 1 << sim.NoSetUp
	other.Digest.Faults = 1<<sim.NoSetUp | 1<<sim.NoFloat
	none := &st.Ideals[1]
	none.Ordered.Thickness, none.Thickness = math.NaN(), math.NaN()
	st.Asked = 3
	page := pageOf(t, inFull, st)
	inOrder(t, page, "! "+words.ChooseNotes(st)[0], "size: "+words.ChooseSize(best)+"; "+words.ChooseFitting(best)+"; no line to order, since "+words.ChooseNoOrder(&best.Digest), "! "+words.Faults(&best.Digest)[0],
		row(best, "suits !"), row(other, "suits !"), "A4: "+words.ChooseBehind(st, other)+"; ! "+words.Faults(&other.Digest)[0]+"; ! "+words.Faults(&other.Digest)[1],
		fmt.Sprintf("%.1f – %.3f %s – – – – – – –", none.Width, none.Thumb, words.Turns(none.Spacers)), "! "+words.IdealNote(st, none))
	// One alone has no others; without a width there is no table.
	alone := drawer(t, "A1")
	alone.Ideals = nil
	page = pageOf(t, inFull, alone)
	inOrder(t, page, row(&alone.Candidates[0], "suits"), "The spring to have made", words.ChooseMade(alone), "Beside the rule of thumb")
	if all := strings.Join(page, "\n"); strings.Contains(all, "Why the others") || strings.Contains(all, "rule of thumb spacers") {
		t.Error(all)
	}
	// What cannot be fitted has neither.
	wide := drawer(t, "B1")
	page = pageOf(t, inFull, wide)
	inOrder(t, page, words.ChooseHead(wide, words.Verdict), row(&wide.Candidates[0], "does not fit"))
	if all := strings.Join(page, "\n"); strings.Contains(all, "size: ") || strings.Contains(all, "order: "+words.ChooseSize(&wide.Candidates[0])) {
		t.Error(all)
	}
}

// Of more than 20 springs as many are shown, and how many more there are.
func TestManySprings(t *testing.T) {
	st := drawer(t, "A1")
	one := st.Candidates[0]
	for i := range 22 {
		one.Rank = i + 2
		st.Candidates = append(st.Candidates, one)
		page := strings.Join(pageOf(t, inFull, st), "\n")
		shown, more := min(i+2, 20), i+2-20
		if n := strings.Count(page, " suits – "+fmt.Sprintf("%.1f %.3f uncut", one.WidthMM, one.ThicknessMM)); n != shown || strings.Count(page, "A1: ") != shown-1 {
			t.Errorf("%d springs: %d shown", i+2, n)
		}
		if told := strings.Contains(page, fmt.Sprintf("and %d more, none of them better", more)); told != (more > 0) {
			t.Errorf("%d springs: %v", i+2, told)
		}
	}
}

// A label too long for a table ends in an ellipsis, 24 characters in all.
func TestClipped(t *testing.T) {
	for label, want := range map[string]string{"A1": "A1", strings.Repeat("ä", 24): strings.Repeat("ä", 24), strings.Repeat("ä", 25): strings.Repeat("ä", 23) + "…"} {
		if got := clipped(label, 24); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// A row tells its rate off the mean of the run in seconds a day, to a tenth, or to a
// thousandth where it moves by less than a second; or why there is none.
func TestRateOffTheMean(t *testing.T) {
	const day = 86400
	r := &sim.Result{}
	for _, c := range []struct {
		amplitude, rate, mean, least, most float64
		want                               string
	}{
		{0.05, math.NaN(), 1, 0, 2, "–"},
		{0.05, 3.26, 1, 0, 4, "+2.3"}, {0.05, 0.26, 1, 0, 4, "−0.7"}, {0.05, 1.2345, 1, 1, 1.999, "+0.234"}, {0.05, 1.2345, 1, 1, 2.001, "+0.2"},
	} {
		r.Swing.Rate = sim.Spread{Mean: c.mean / day, Min: c.least / day, Max: c.most / day}
		if got := offMean(r, &sim.Row{Amplitude: c.amplitude, Rate: c.rate / day}); got != c.want {
			t.Errorf("%+v: %s", c, got)
		}
	}
	for v, want := range map[float64]string{1.234: "1.23", math.NaN(): "stalls", math.Inf(1): "stalls", math.Inf(-1): "stalls"} {
		if got := or(v, "stalls", words.Figure); got != want {
			t.Errorf("%v: %s", v, got)
		}
	}
}

// A column has a head and a unit only where one of the columns has, and says another
// thing where a row has no run.
func TestTable(t *testing.T) {
	run := &sim.Digest{}
	run.Spring.SetUp = 1.5
	cell := ofRun(func(d **sim.Digest) *sim.Digest { return *d }, "none", func(d *sim.Digest) string { return words.Two(d.Spring.SetUp) })
	for _, c := range []struct {
		head, unit string
		want       [][]string
	}{
		{"", "", [][]string{{"", "1.50"}, {"", "none"}}},
		{"h", "", [][]string{{"", "h"}, {"", "1.50"}, {"", "none"}}},
		{"", "u", [][]string{{"", "u"}, {"", "1.50"}, {"", "none"}}},
		{"h", "u", [][]string{{"", "h"}, {"", "u"}, {"", "1.50"}, {"", "none"}}},
	} {
		g := table([]*sim.Digest{run, nil}, []column[*sim.Digest]{{cell: func(**sim.Digest) string { return "" }}, {c.head, c.unit, right, cell}})
		if !reflect.DeepEqual(g.Rows, c.want) || g.Right[0] || !g.Right[1] {
			t.Errorf("%q %v, want %q", g.Rows, g.Right, c.want)
		}
	}
}

// runInFull writes all that a run tells.
func runInFull(w io.Writer, c *sim.Clock, o Options) error {
	o.Full = true
	return Run(w, c, o)
}

// Trains that go for as long are not told by which stops first; what was assumed stands by
// trains.
func TestAssumed(t *testing.T) {
	s, _ := trial.Compile(t, "three-trains")
	clock, err := sim.RunClock(s, sim.Options{})
	if err != nil {
		t.Fatal(err)
	}
	all := clock.Trains
	for n := 1; n <= 3; n++ {
		clock.Trains = all[:n]
		page := strings.Join(pageOf(t, Run, clock), "\n")
		if strings.Contains(page, "first to stop") {
			t.Errorf("%d trains of as many hours: %s", n, page)
		}
		for _, items := range []string{"- a = 1; b = 2; c = 3", "- train going: d = 4"} {
			clock.Assumed = []scenario.Assumption{{Key: "a", Value: "1"}, {Key: "b", Value: "2"}, {Key: "c", Value: "3"}, {Train: "going", Key: "d", Value: "4"}}
			if page = strings.Join(pageOf(t, runInFull, clock), "\n"); !strings.Contains(page, items) || strings.Contains(page, "c = 3;") {
				t.Errorf("no %q in %s", items, page)
			}
		}
	}
}

// In short, ten springs that fit, the present one and the caution take at most 45 lines; the same is told
// first, the present spring stands in the table, and what cannot be fitted is counted.
func TestChooseInShort(t *testing.T) {
	st := drawer(t)
	page := pageOf(t, Choose, st)
	best := st.Best()
	inOrder(t, page, words.ChooseFirst(st, words.Verdict), words.ChooseHead(st, words.Verdict), "order: "+words.ChooseOrder(best), "- "+words.ChooseSays(st, best)[0],
		row(best, "suits"), words.ChooseBrief(st), "to have made: "+words.IdealOrder(&st.Ideals[0])+words.IdealFitted(&st.Ideals[0]), words.ThumbBrief(st), "Caution: "+words.ChooseCautions(st)[0])
	all := strings.Join(page, "\n")
	if !strings.Contains(all, "– do nothing suits –") || !strings.Contains(all, "4 springs cannot be fitted") || strings.Contains(all, "does not fit") || strings.Contains(all, "Why the others") || !strings.Contains(all, "--full") {
		t.Error(all)
	}
	var b strings.Builder
	if err := Choose(&b, st, Options{}); err != nil || strings.Count(b.String(), "\n") > 45 {
		t.Errorf("%d lines, %v", strings.Count(b.String(), "\n"), err)
	}
	// Where the steel decides, that is told in place of what the table has.
	st.Changes = []choose.Change{{Yield: 1654, Below: *best, Above: st.Candidates[1], Counted: best.Label, Coils: 7.1}}
	page = pageOf(t, Choose, st)
	inOrder(t, page, "- "+words.ChooseSteelBrief(st), row(best, "suits"))
	if strings.Contains(strings.Join(page, "\n"), words.ChooseSays(st, best)[0]) {
		t.Error(page)
	}
	st.Ideals[0].Ordered.Thickness = math.NaN()
	inOrder(t, pageOf(t, Choose, st), "to have made: "+words.IdealNote(st, &st.Ideals[0]))
	st.Ideals = nil
	inOrder(t, pageOf(t, Choose, st), words.ChooseMade(st), "Caution: "+words.ChooseCautions(st)[0])
	none := drawer(t, "B1")
	inOrder(t, pageOf(t, Choose, none), words.ChooseHead(none, words.Verdict), "– do nothing suits – 32.0 0.380 – – 1.25 0.423 1.28 1.26 2.01 1.85", words.ChooseBrief(none))
}
