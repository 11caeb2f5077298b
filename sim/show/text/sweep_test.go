package text

import (
	"bytes"
	"context"
	"io"
	"math"
	"slices"
	"strings"
	"testing"

	"evenpull/scenarios"
	"evenpull/sim"
	"evenpull/sim/internal/trial"
	"evenpull/sim/outcome"
	"evenpull/sim/show/words"
	"evenpull/sim/study/sweep"
)

// textOf is what a writer writes.
func textOf(t testing.TB, write func(io.Writer) error) string {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b); err != nil {
		t.Fatal(err)
	}
	if strings.Contains(b.String(), "NaN") || strings.Contains(b.String(), "Inf") {
		t.Errorf("no number in\n%s", b.String())
	}
	return b.String()
}

func sweepText(t testing.TB, sample string, number int, o sweep.Options, replace ...string) (*sweep.Study, string) {
	t.Helper()
	s, _ := trial.Compile(t, sample, replace...)
	st, err := sweep.Run(context.Background(), s, number, o)
	if err != nil {
		t.Fatal(err)
	}
	return st, textOf(t, func(w io.Writer) error { return Sweep(w, st, Options{Full: true}) })
}

// lineOf is the line whose first word is given, in its words.
func lineOf(t testing.TB, text, first string) []string {
	t.Helper()
	for line := range strings.Lines(text) {
		if f := strings.Fields(line); strings.HasPrefix(strings.Join(f, " ")+" ", first+" ") {
			return f
		}
	}
	t.Fatalf("no line %q in\n%s", first, text)
	return nil
}

// shown are results of a run as the table of results has them.
func shown(t testing.TB, d *sim.Digest, names ...string) []string {
	t.Helper()
	list := make([]string, len(names))
	for i, name := range names {
		f, err := outcome.Named(name)
		if err != nil {
			t.Fatal(err)
		}
		list[i] = words.Value(&f.Quantity, f.Of(d))
	}
	return list
}

func wantIn(t *testing.T, text string, says ...string) {
	t.Helper()
	flat := strings.Join(strings.Fields(text), " ")
	for _, s := range says {
		if !strings.Contains(flat, s) {
			t.Errorf("no %q in\n%s", s, text)
		}
	}
}

var sweptResults = []string{
	outcome.MeanTorque, outcome.LeastTorque, outcome.MostTorque, outcome.Unevenness, outcome.MeanReserve, outcome.LeastReserve,
	"spring.turns_available", "goes_h", "spring.peak_stress_mpa",
}

func TestSweep(t *testing.T) {
	nan := math.NaN()
	st, text := sweepText(t, "eight-day", 0, sweep.Options{Over: sweep.Axis{Key: "going.mainspring.thickness_mm", From: nan, To: nan, Steps: 41}})
	wantIn(t, text, "going train at 0.38 mm: SUITS; swept: thickness of the going mainspring from 0.285 mm to 0.475 mm - below",
		"it suits", "rule of thumb says its cube", "! fault from", "eye protection",
		"value verdict mean least greatest unevenness reserve reserve turns goes stress semi-arc mm N·m N·m N·m % mean least avail. h MPa °")
	want := append([]string{">", "0.38", "suits"}, shown(t, st.Own.Digest, append(sweptResults, "amplitude_deg.mean")...)...)
	if got := lineOf(t, text, ">"); !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	if n := strings.Count(text, "> "); n != 1 {
		t.Errorf("%d lines are marked", n)
	}
	last := &st.Points[40]
	if got := lineOf(t, text, "0.475"); !slices.Equal(got, append([]string{"0.475", "overdriven", "!"}, shown(t, last.Digest, append(sweptResults, "amplitude_deg.mean")...)...)) {
		t.Errorf("%v", got)
	}
}

// A striking train has its blows, what the sweep is of comes first, and a value that
// cannot be built says so.
func TestSweepOfBlows(t *testing.T) {
	fill, err := outcome.Named("spring.fill")
	if err != nil {
		t.Fatal(err)
	}
	st, text := sweepText(t, "three-trains", 1, sweep.Options{Over: sweep.Axis{Key: "striking.line.efficiency", From: 0.5, To: 1.5, Steps: 3}, Of: fill})
	wantIn(t, text, "value verdict result mean least", "% N·m", "stress blow")
	results := append(append([]string{"spring.fill"}, sweptResults...), "blow_interval_s.mean")
	if got, want := lineOf(t, text, "0.5"), append([]string{"0.5", st.Points[0].Verdict.Code.String()}, shown(t, st.Points[0].Digest, results...)...); !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	if got := lineOf(t, text, "1.5"); !slices.Equal(got, []string{"1.5", "not", "built"}) {
		t.Errorf("%v", got)
	}
}

func TestMap(t *testing.T) {
	o := sweep.Options{
		Over:    sweep.Axis{Key: "going.mainspring.thickness_mm", From: 0.3, To: 5, Steps: 15},
		Against: &sweep.Axis{Key: "going.line.efficiency", From: 0.5, To: 0.9, Steps: 43},
	}
	st, text := sweepText(t, "eight-day", 0, o)
	wantIn(t, text, "mean torque at the fusee, N·m; across: thickness of the going mainspring, mm; down: efficiency of the going line",
		"5 by 15 of the 15 by 43 points; --plot draws all, --format csv lists them")
	// Of 15 steps, 0 to 14, those nearest to 14/4 and its multiples.
	if got, want := lineOf(t, text, "0.3"), "0.3 1.643 2.65 3.993 5"; strings.Join(got, " ") != want {
		t.Errorf("across %v, want %s", got, want)
	}
	first := &st.Points[0]
	if got := lineOf(t, text, "0.5"); got[0] != "0.5" || got[1] != words.Figure(first.Run().Torque.Mean) || got[2] != first.Run().Verdict.Code.String() || strings.Join(got[len(got)-2:], " ") != "not built" {
		t.Errorf("%v, the first point has %v", got, first.Run().Torque.Mean)
	}
	o.Over.Steps, o.Against.Steps = 3, 2
	if _, text := sweepText(t, "eight-day", 0, o); strings.Contains(text, "points; --plot") {
		t.Error("all points are shown, and it says otherwise")
	}
	// Where nothing is judged the figure stands alone.
	all, _ := scenarios.Text("eight-day")
	st, text = sweepText(t, "eight-day", 0, sweep.Options{
		Over:    sweep.Axis{Key: "going.mainspring.thickness_mm", From: 0.3, To: 0.4, Steps: 2},
		Against: &sweep.Axis{Key: "going.line.efficiency", From: 0.5, To: 0.9, Steps: 2},
	}, all[strings.Index(all, "# The wheels"):], "")
	if got, want := lineOf(t, text, "0.9"), []string{"0.9", words.Figure(st.Points[2].Run().Torque.Mean), words.Figure(st.Points[3].Run().Torque.Mean)}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	wantIn(t, text, "NOT JUDGED", "is not judged over 100 %")
}

// The first and the last are always among those picked, evenly.
func TestPick(t *testing.T) {
	for _, c := range []struct {
		count, n int
		want     []int
	}{{2, 7, []int{0, 1}}, {7, 7, []int{0, 1, 2, 3, 4, 5, 6}}, {9, 3, []int{0, 4, 8}}, {100, 2, []int{0, 99}}} {
		if got := pick(c.count, c.n); !slices.Equal(got, c.want) {
			t.Errorf("%d of %d: %v", c.n, c.count, got)
		}
	}
}
