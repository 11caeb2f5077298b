package words_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"evenpull/sim/bench/book"
	"evenpull/sim/bench/measure"
	"evenpull/sim/bench/readings"
	"evenpull/sim/internal/trial"
	"evenpull/sim/internal/trial/bench"
	"evenpull/sim/show/words"
)

// holds tells whether one of the texts holds a piece.
func holds(texts []string, piece string) bool {
	return slices.ContainsFunc(texts, func(s string) bool { return strings.Contains(s, piece) })
}

// wantOne wants a piece in one of the texts, or, for "", no text at all.
func wantOne(t *testing.T, what string, texts []string, piece string) {
	t.Helper()
	if piece == "" && len(texts) > 0 || piece != "" && !holds(texts, piece) {
		t.Errorf("%s: no %q in %q", what, piece, texts)
	}
}

// spring is what the prediction of the sample gives at whole turns, changed, read
// twice.
func spring(t *testing.T, change func(turn, repeat int, v float64) float64, winding bool) (readings.Spring, *readings.Study) {
	t.Helper()
	_, trains := trial.Compile(t, "eight-day")
	r := trial.Run(t, trains)[0]
	given := book.Torque{Train: "going", Spring: "S"}
	for repeat := range 3 {
		var down, up []float64
		for i := range r.Rows {
			if turn := int(r.Rows[i].FuseeTurn); float64(turn) == r.Rows[i].FuseeTurn {
				down, up = append(down, change(turn, repeat, r.Rows[i].FuseeTorque)), append(up, change(turn, repeat, r.Rows[i].WindingTorque))
			}
		}
		given.RunningDown = append(given.RunningDown, down)
		if winding {
			given.WindingUp = append(given.WindingUp, up)
		}
	}
	s, _ := trial.Compile(t, "eight-day")
	st := readings.Of(&book.Book{Torques: []book.Torque{given}}, s)
	return st.Springs[0], st
}

func times(factor float64) func(int, int, float64) float64 {
	return func(_, _ int, v float64) float64 { return factor * v }
}

// Readings wildly off their prediction are flagged, with the unit that would do it.
func TestMistakenUnits(t *testing.T) {
	for factor, says := range map[float64]string{1000: "N·mm", 100: "N·cm", 10: "decimal point", 0.1: "decimal point", 0.001: "decimal point", 5: "another spring", 0.5: "", 2: "", 1: ""} {
		_, st := spring(t, times(factor), false)
		notes := slices.DeleteFunc(words.ReadNotes(st, 0), func(s string) bool { return strings.Contains(s, "read the same") })
		if says != "" {
			says = "times what is predicted: look for a unit mistaken"
			if factor != 5 {
				wantOne(t, "unit", notes, map[float64]string{1000: "N·mm", 100: "N·cm", 10: "decimal point", 0.1: "decimal point", 0.001: "decimal point"}[factor])
			}
		}
		wantOne(t, "wild", notes, says)
	}
}

// What cannot be told apart is told, and so is an end of a range.
func TestFitNotes(t *testing.T) {
	s, _ := trial.Compile(t, "eight-day")
	down, _ := spring(t, times(1), false)
	both, _ := spring(t, times(1), true)
	twice, _ := spring(t, times(2), false)
	rough, _ := spring(t, func(turn, repeat int, v float64) float64 {
		return v + 0.002*float64(repeat) + 0.001*math.Cos(float64(7*repeat*turn)) + 0.03*math.Sin(float64(turn))
	}, false)
	alone := book.Torque{Train: "going", Spring: "S", RunningDown: [][]float64{nil}}
	for turn := range 17 {
		alone.RunningDown[0] = append(alone.RunningDown[0], 0.4+0.003*math.Sin(float64(turn*turn)))
	}
	one := readings.Of(&book.Book{Torques: []book.Torque{alone}}, s).Springs[0]
	alone.RunningDown = append(alone.RunningDown, slices.Repeat([]float64{0.402}, 17))
	two := readings.Of(&book.Book{Torques: []book.Torque{alone}}, s).Springs[0]
	width, thickness, coils, line := "going.mainspring.width_mm", "going.mainspring.thickness_mm", "going.mainspring.efficiency", "going.line.efficiency"
	for _, c := range []struct {
		sp        readings.Spring
		keys      []string
		says, not string
	}{
		{down, []string{width, coils}, "only scale the torque", ""},
		{both, []string{width, coils}, "", "only scale"},
		{both, []string{line, coils}, "only scale the torque", ""},
		{down, []string{width, thickness}, "width of the mainspring and thickness of the mainspring can hardly be told apart", "only scale"},
		{twice, []string{coils}, "coil efficiency of the mainspring ended at the end of its range", ""},
		{rough, []string{thickness}, "times what scatter explains", "one repeat"},
		{rough, []string{thickness, coils}, "times what scatter explains", "so few run-downs"},
		{one, []string{thickness}, "know nothing of how far run-downs differ as wholes", "one repeat"},
		{two, []string{thickness}, "with one repeat the ranges are wide: a third run-down would divide them by about three", "know nothing"},
		{two, []string{thickness, "going.barrel.set_up_turns"}, "so few run-downs do not tell how the errors go together", "know nothing"},
	} {
		e, err := readings.Explain(t.Context(), c.sp, s, c.keys)
		if err != nil {
			t.Fatal(err)
		}
		notes := words.FitNotes(e)
		if c.says != "" {
			wantOne(t, strings.Join(c.keys, ","), notes, c.says)
		}
		if c.not != "" && holds(notes, c.not) {
			t.Errorf("%v: %q", c.keys, notes)
		}
	}
}

// The heads and sentences of the sample bear the figures of the study.
func TestRecordSays(t *testing.T) {
	st := bench.Record(t)
	n, s, c, e := &st.Needs[0], &st.Springs[2], st.Compared[2], st.Explained
	f := words.Figure
	for _, w := range []struct{ got, want string }{
		{words.NeedHead(n), "going train needs " + f(n.Bracket.Least) + " N·m at the winding square, between " + f(n.Bracket.Between.Lo) + " and " + f(n.Bracket.Between.Hi)},
		{words.SupplyHead(s.Supply), "spring C in the going train gives " + f(s.Mean.Value) + " N·m in the mean ± " + words.About(s.Mean.HalfWidth) + "; unevenness " + words.Percent(s.Unevenness)},
		{words.SupplySays(st, 2)[0], "a perfectly even pull would read as uneven by about " + words.Percent(s.ByScatter) + ", by scatter alone"},
		{words.SupplySays(st, 2)[1], "running down over winding up: " + words.Percent(s.Efficiency.Mean) + " of the torque passes one way, if all losses go with the pull"},
		{words.SupplySays(st, 2)[2], "against the prediction: " + words.Percent(c.Ratio) + " of it in the mean, typically " + words.About(c.RMS) + " N·m apart, " + words.About(math.Sqrt(c.ChiSquarePerDOF)) + " times what scatter explains; the meter alone is typically off by " + words.Percent(c.Meter)},
		{words.SupplySays(st, 2)[3], "measured over the " + f(c.Reserve.Need) + " N·m that the going train needs: mean " + words.Two(c.Reserve.Mean) + ", least " + words.Two(c.Reserve.Min)},
		{words.FitHead(e), "what explains spring C in the going train: the figures that fit best"},
		{words.FitSays(e)[1], "errors by how far run-downs differ as wholes, of which there are 6 repeats, and by the meter"},
		{words.FitSays(e)[2], "readings and fit are typically " + words.About(e.RMS) + " N·m apart, " + words.About(math.Sqrt(e.ChiSquarePerDOF)) + " times what scatter explains"},
		{words.Trial(n, &n.Trials[0]), "stops"}, {words.Trial(n, &n.Trials[4]), "runs"},
		{words.Trial(&st.Needs[1], &st.Needs[1].Trials[0]), "does not strike"}, {words.Trial(&st.Needs[1], &st.Needs[1].Trials[2]), "2.56 s from blow to blow"},
		{words.Why(st.Refused[0]), ""},
	} {
		if w.got != w.want {
			t.Errorf("%q, want %q", w.got, w.want)
		}
	}
	wantOne(t, "errors together", words.FitSays(e), "an error of thickness of the mainspring hardly goes with one of coil efficiency of the mainspring: "+words.Minus(fmt.Sprintf("%+.3f", e.Correlation[0][1])))
	for how, want := range map[measure.How]string{measure.Interpolated: "to strike every 1.50 s takes 0.500 N·m (between trials)", measure.Extrapolated: "(beyond the trials", measure.StopsBefore: "(the least that strikes at all", measure.Unknown: "what strikes every 1.50 s the trials do not tell"} {
		wantOne(t, how.String(), words.Paces([]readings.Pace{{Interval: 1.5, Pace: measure.Pace{Torque: 0.5, How: how}}}), want)
	}
	other, _ := trial.Compile(t, "strike-quick")
	if why := words.Why(readings.Of(st.Book, other).Refused[0]); !strings.Contains(why, "no train") {
		t.Errorf("%q", why)
	}
}
